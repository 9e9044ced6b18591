"""A workbook to draw on: somebody's workbook with its looks where they can be kept, else its values."""

from __future__ import annotations

import re
import warnings
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.limits import MARKED
from handouts.workbook.opening import open_grids
from handouts.workbook.words import shown

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

NOTHING = "The workbook could not be read, so nothing of it is in here."
LOOKS = (
    "The copy holds the results of formulas, not the formulas; text boxes, drawn shapes, form buttons, sparklines, macros "
    "and pictures behind the sheet are not in it."
)
VALUES = "The copy holds the values only: colours, widths, lists to pick from, text boxes, form buttons, sparklines are not in it."
SOME_ROWS = (
    "The workbook is long: the copy holds the values of the first rows and of the rows with findings, at their places."
)


@dataclass(frozen=True)
class Copy:
    """The workbook in memory, and what it lacks, in a sentence."""

    book: Workbook
    lost: str


def copy_of(path: Path, rows: Collection[int]) -> Copy:
    """The copy of a file. rows: those that must be in it even when it is too long to be copied whole."""
    from openpyxl import Workbook

    try:
        grids, _ = open_grids(path)
    except Unreadable:
        return Copy(Workbook(), NOTHING)
    cells = sum(len(row) for grid in grids for row in grid.rows.values())
    if cells > MARKED["most_cells"]:
        wanted = {*range(1, MARKED["first_rows"] + 1), *sorted(rows)[: MARKED["most_comments"]]}
        return Copy(_values(grids, wanted), SOME_ROWS)
    if _keeps_looks(path, grids):
        try:
            return Copy(_with_looks(path), LOOKS)
        except Exception:  # openpyxl is pickier than the reader; the values are worth having all the same
            return Copy(_values(grids), VALUES)
    return Copy(_values(grids), VALUES)


def _keeps_looks(path: Path, grids: Iterable[Grid]) -> bool:
    """Whether the file can be loaded with its looks: blank formatted rows and merged blocks weigh as much as full cells."""
    from handouts.workbook.packed import open_packed

    if path.suffix.lower() not in (".xlsx", ".xlsm") or any(grid.look.far for grid in grids):
        return False
    merged = [
        (bottom - top + 1) * (right - left + 1) for grid in grids for top, left, bottom, right in grid.look.merged
    ]
    with open_packed(path) as book:
        small = sum(part.file_size for part in book.infolist()) <= MARKED["most_bytes"]
    return small and sum(merged) <= MARKED["most_merged"]


def _with_looks(path: Path) -> Workbook:
    from openpyxl import load_workbook

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # what is lost is said on the Problems sheet
        book = load_workbook(path, data_only=True, keep_links=False)
    for sheet in book.worksheets:
        sheet.protection.sheet = False
    return book


def _values(grids: Iterable[Grid], rows: Collection[int] | None = None) -> Workbook:
    """A new workbook with the same values at the same places; only these rows when they are named."""
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    for grid in grids:
        sheet = book.create_sheet(allowed_title(grid.title))
        for number, cells in grid.rows.items():
            if rows is None or number in rows:
                _write_row(sheet, number, cells)
    return book


def _write_row(sheet: Worksheet, number: int, cells: Sequence[object]) -> None:
    from handouts.workbook.paint import put

    for column, value in enumerate(cells, 1):
        if value is not None:
            put(sheet.cell(number, column), writable(value))


def writable(value: object) -> object:
    """A value that may stand in a cell: no control characters, not endless."""
    return re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", "", value)[:32_000] if isinstance(value, str) else value


def allowed_title(title: str) -> str:
    """A sheet's title without the signs that none may have."""
    return re.sub(r"[\\/?*\[\]:]", " ", shown(title))[:31].strip() or "Sheet"
