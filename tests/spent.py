"""`python -m tests.spent`: CPU seconds that all outputs of the example class take beyond importing the libraries.

A benchmark apart from the suite: machines are shared, so the limit of 3 s is shown here, not asserted there.
"""

from __future__ import annotations

import importlib
import tempfile
import time
from pathlib import Path

LIBRARIES = (
    "pandas",
    "openpyxl",
    "python_calamine",
    "jinja2",
    "reportlab.pdfgen.canvas",
    "reportlab.pdfbase.ttfonts",
    "segno",
)
BOOK = Path(__file__).parent.parent / "workbooks" / "outerwear.xlsx"
LIMIT_S = 3.0


def main() -> None:
    """Prints the figure; exits 1 above the limit."""
    for name in LIBRARIES:
        importlib.import_module(name)
    start = time.process_time()
    from handouts import pipeline

    with tempfile.TemporaryDirectory() as folder:
        built = pipeline.build(pipeline.load_workshop(BOOK), Path(folder))
    spent = time.process_time() - start
    print(f"{len(built.files)} files: {spent:.2f} s of CPU beyond the libraries (limit {LIMIT_S:g} s)")
    raise SystemExit(spent > LIMIT_S)


if __name__ == "__main__":
    main()
