"""Mutated workbooks: each comes back as a Book, with a sentence when it cannot be read.

Ten thousand in .ci/run (FUZZ_BOOKS=10000, about a minute and a half on two cores), a few hundred elsewhere.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys

from tests.read_books import TOP

COUNT = int(os.environ.get("FUZZ_BOOKS", "400"))


def test_10_000_mutated_workbooks_never_end_in_a_trace_or_hold_500_mb() -> None:
    """Bytes and parts changed at random from a fixed seed; nothing on stderr, no process that ends early."""
    command = [sys.executable, "-W", "error", "-m", "tests.fuzz_books", "20261125", str(COUNT)]
    done = subprocess.run(command, cwd=TOP, capture_output=True, text=True, timeout=60 + COUNT, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    came = json.loads(done.stdout)
    assert sum(came["came"].values()) == COUNT
    assert {"read", "file-damaged"} <= came["came"].keys(), "nothing was mutated"
    assert came["peak_mb"] < 500
    assert came["slowest_s"] < 10
