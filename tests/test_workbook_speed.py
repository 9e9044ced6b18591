"""How long checking takes, in CPU seconds, libraries included: issue 4 asks for 6 s and 3 s on two cores.

What it takes on the machine this was written on: 3.0 s, 2.9 s and 2.0 s.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tomllib
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Any

import openpyxl

from handouts.sheets import FABRICS
from tests.books import plain, with_rows
from tests.read_books import TOP

ROW = {
    "name": "Cloth {}",
    "cloth": "denim",
    "fibre_content": "98% cotton, 2% elastane",
    "weight_gsm": 350,
    "width_cm": 140,
    "shrink_length_pct": "3 %",
    "needle": "jeans 90/14",
    "seam_finish": "overlock",
    "price_per_m": 12.5,
    "notes": "Note number {}",
}
COUNT = 20_000


def checked(path: Path) -> tuple[str, float]:
    """The last line of `handouts check` and the CPU seconds that the command took, from its start to its end."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    command = [sys.executable, "-c", "from handouts.cli import run; run()", "check", str(path)]
    done = subprocess.run(command, cwd=TOP, capture_output=True, text=True, timeout=300, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return done.stdout.splitlines()[-1], after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def long_list(path: Path, headings: Sequence[str], rows: Iterable[Sequence[Any]]) -> Path:
    """A workbook with one long sheet."""
    book = openpyxl.Workbook(write_only=True)
    sheet = book.create_sheet("Fabrics")
    sheet.append(headings)
    for row in rows:
        sheet.append(row)
    book.save(path)
    return path


def typical(number: int) -> list[Any]:
    """A row with a name and a note of its own, ten columns filled, the others blank texts."""
    values = (ROW.get(column.key, "") for column in FABRICS.columns)
    return [value.format(number) if isinstance(value, str) else value for value in values]


def test_checking_20_000_rows_takes_under_6_s(tmp_path: Path) -> None:
    """All columns in the headings, so a million cells."""
    headings = [column.title() for column in FABRICS.columns]
    path = long_list(tmp_path / "b.xlsx", headings, map(typical, range(COUNT)))
    told, seconds = checked(path)
    assert told == "20000 fabrics read. 0 to mend, 1 to note."
    assert seconds < 6


def test_checking_20_000_rows_full_of_slips_takes_under_6_s(tmp_path: Path) -> None:
    """The rows of the troubled workbook again and again, each under a code and a name of its own: over 30,000 findings."""
    with (TOP / "workbooks" / "data" / "troubled.toml").open("rb") as file:
        _, _, headings, *rows = tomllib.load(file)["sheets"][2]["lines"]
    many = ([f"{code}-{n}", f"{name} {n}", *rest] for n in range(COUNT) for code, name, *rest in [rows[n % len(rows)]])
    told, seconds = checked(long_list(tmp_path / "b.xlsx", headings, many))
    fabrics, mend = (int(part.split()[0]) for part in told.split(". ")[:2])
    assert fabrics > COUNT * 0.8 and mend > 10_000
    assert seconds < 6


def test_blank_formatted_rows_to_row_1048576_take_under_3_s(tmp_path: Path) -> None:
    """Formatted down to row 1,048,576, as a spreadsheet leaves it (printing_facts C4: openpyxl takes 32 s)."""
    rows = "".join(
        f'<row r="{n}"><c r="A{n}" s="0"/><c r="B{n}" s="0"/><c r="C{n}" s="0"/></row>' for n in range(3, 1_048_577)
    )
    told, seconds = checked(with_rows(plain(tmp_path), tmp_path / "b.xlsx", rows))
    assert told == "1 fabric read. 0 to mend, 0 to note."
    assert seconds < 3
