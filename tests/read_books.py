"""`python -m tests.read_books read|mark PATH …`: reads (and marks) each workbook and prints what came of it.

Findings, CPU seconds and the peak memory of the process, as JSON.
A process of its own, so that a reader that ends its process or holds too much memory is seen.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from handouts import workbook

TOP = Path(__file__).parent.parent


def peak_mb() -> int:
    """The most memory this process has held, in MB; 0 where the system does not say."""
    status = Path("/proc/self/status")
    return int(status.read_text().split("VmHWM:")[1].split()[0]) // 1024 if status.exists() else 0


def main(paths: Sequence[str], mark: bool) -> None:
    """One line of JSON a workbook; `mark` also writes its marked copy beside it."""
    for path in paths:
        start = time.process_time()
        book = workbook.read(Path(path))
        if mark:
            workbook.write_marked(Path(path), Path(path).with_suffix(".marked.xlsx"), book.problems)
        seconds = round(time.process_time() - start, 2)
        codes = [found.code for found in book.problems]
        print(json.dumps({"codes": codes[:20], "fabrics": len(book.fabrics), "seconds": seconds, "peak_mb": peak_mb()}))


def read_apart(*paths: Path, mark: bool = False) -> list[dict[str, Any]]:
    """What `main` prints for these, from another process; fails when that process says anything on stderr or dies."""
    command = [sys.executable, "-W", "error", "-m", "tests.read_books", "mark" if mark else "read", *map(str, paths)]
    done = subprocess.run(command, cwd=TOP, capture_output=True, text=True, timeout=300, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    return [json.loads(line) for line in done.stdout.splitlines()]


if __name__ == "__main__":
    main(sys.argv[2:], sys.argv[1] == "mark")
