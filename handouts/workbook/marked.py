"""A copy of somebody's workbook with each finding coloured and told in its cell, and a sheet that lists them all."""

from __future__ import annotations

import re
import warnings
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from handouts.errors import HandoutsError
from handouts.problems import Problem
from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.layout import PROBLEM_HEADINGS
from handouts.workbook.limits import MARKED
from handouts.workbook.opening import open_grids
from handouts.workbook.words import shown

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

AUTHOR = "check"
CELL = re.compile(r"^(?P<title>.+)!(?P<cell>[A-Z]{1,3}[1-9]\d{0,6})(?::[A-Z]{1,3}\d{1,7})?$")
SEVERITY_WORDS = {"stop": "cannot be read", "mend": "to mend", "note": "to note"}
LOST = (
    "This is a copy, made to show the findings in their cells. Mend them in your own workbook, not here.",
    "The copy holds the results of formulas, not the formulas; text boxes, drawn shapes, form buttons, sparklines, macros "
    "and pictures behind the sheet are not in it. Your own workbook still has everything: it was not touched.",
)


def write_marked(path: Path, copy: Path, problems: Sequence[Problem]) -> None:
    """The copy, as .xlsx. Raises HandoutsError for the workbook's own path or another kind of file."""
    from handouts.workbook.saving import save

    if copy.resolve() == path.resolve() or (copy.exists() and path.exists() and copy.samefile(path)):
        raise HandoutsError(
            f"{copy} is your own workbook, and that is never written to. Choose another name for the copy."
        )
    if copy.suffix.lower() != ".xlsx":
        raise HandoutsError(f"The marked copy is an .xlsx workbook: call it {copy.with_suffix('.xlsx').name}.")
    book = _copy_of(path)
    titles = {sheet.title: sheet for sheet in book.worksheets}
    _colour(titles, problems)
    _list(book, problems)
    save(book, copy)


def _copy_of(path: Path) -> Workbook:
    """The workbook with its looks where they can be kept, else its values only; empty when it cannot be read."""
    from openpyxl import Workbook

    try:
        grids, _ = open_grids(path)
    except Unreadable:
        return Workbook()
    cells = sum(len(row) for grid in grids for row in grid.rows.values())
    if path.suffix.lower() in (".xlsx", ".xlsm") and cells <= MARKED["most_cells"] and _is_compact(path):
        try:
            return _with_looks(path)
        except Exception:  # openpyxl is pickier than the reader; the values are worth having all the same
            return _values(grids)
    return _values(grids)


def _is_compact(path: Path) -> bool:
    """Whether the sheets' text is small enough to be loaded with its looks: blank formatted rows weigh as much as full ones."""
    from handouts.workbook.packed import open_packed

    with open_packed(path) as book:
        return sum(part.file_size for part in book.infolist()) <= MARKED["most_bytes"]


def _with_looks(path: Path) -> Workbook:
    from openpyxl import load_workbook

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # what is lost is said on the Problems sheet
        book = load_workbook(path, data_only=True, keep_links=False)
    for sheet in book.worksheets:
        sheet.protection.sheet = False
    return book


def _values(grids: Sequence[Grid]) -> Workbook:
    from openpyxl import Workbook

    book = Workbook()
    book.remove(book.worksheets[0])
    for grid in grids:
        sheet = book.create_sheet(_allowed(grid.title))
        for number, cells in grid.rows.items():
            _write_row(sheet, number, cells)
    return book


def _write_row(sheet: Worksheet, number: int, cells: Sequence[object]) -> None:
    from handouts.workbook.paint import put

    for column, value in enumerate(cells, 1):
        if value is not None:
            put(sheet.cell(number, column), _writable(value))


def _writable(value: object) -> object:
    """A value that may stand in a cell: no control characters, not endless."""
    return re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f]", "", value)[:32_000] if isinstance(value, str) else value


def _allowed(title: str) -> str:
    return re.sub(r"[\\/?*\[\]:]", " ", shown(title))[:31].strip() or "Sheet"


def _colour(sheets: Mapping[str, Worksheet], problems: Sequence[Problem]) -> None:
    """Fills the cells that findings name and tells each in a comment; several findings of a cell share one."""
    from openpyxl.comments import Comment
    from openpyxl.styles import PatternFill

    from handouts.workbook.paint import MARK, NOTED, fill

    told: dict[tuple[str, str], list[str]] = {}
    fills: dict[tuple[str, str], PatternFill] = {}
    for found in problems:
        for title, cell in _spots(found, sheets):
            told.setdefault((title, cell), []).append(f"{found.message} {found.mend}")
            fills.setdefault((title, cell), fill(NOTED if found.severity == "note" else MARK))
    for (title, cell), texts in list(told.items())[: MARKED["most_comments"]]:
        target = _top_left(sheets[title], cell)
        target.fill = fills[title, cell]
        comment = Comment("\n\n".join(texts)[:2000], AUTHOR, height=40 + 30 * len(texts), width=320)
        target.comment = comment


def _top_left(sheet: Worksheet, cell: str) -> Any:
    """The cell itself, or the one that shows for it when it is part of merged cells."""
    for block in sheet.merged_cells.ranges:
        if cell in block:
            return sheet.cell(block.min_row, block.min_col)
    return sheet[cell]


def _spots(found: Problem, sheets: Mapping[str, Worksheet]) -> list[tuple[str, str]]:
    """(sheet title, cell) for every cell that a finding names and the copy has."""
    parts = [CELL.match(cell) for cell in found.cells]
    return [(part["title"], part["cell"]) for part in parts if part and part["title"] in sheets]


def _list(book: Workbook, problems: Sequence[Problem]) -> None:
    """The sheet Problems, first of all: what the copy lacks, then every finding with a link to its cell."""
    from openpyxl.styles import Alignment, Font

    from handouts.workbook.paint import body, head, printed, put

    title = next(f"Problems{n}" for n in ("", *range(2, 99)) if f"Problems{n}" not in book.sheetnames)
    sheet = book.create_sheet(title, 0)
    for number, (text, width) in enumerate(zip(PROBLEM_HEADINGS, (20, 58, 70, 14), strict=True), 1):
        head(sheet.cell(1, number), text)
        sheet.column_dimensions["ABCD"[number - 1]].width = width
    titles = {page.title: page for page in book.worksheets}
    for row, found in enumerate(problems, 2):
        _line(sheet, row, found, titles)
    for row, text in enumerate(LOST, len(problems) + 3):
        sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=4)
        put(sheet.cell(row, 1), text)
        sheet.cell(row, 1).alignment = Alignment(wrap_text=True, vertical="top")
        sheet.cell(row, 1).font = Font(italic=True)
        sheet.row_dimensions[row].height = 32
    if not problems:
        body(sheet.cell(2, 1), banded=False)
        put(sheet.cell(2, 2), "Nothing to mend.")
    sheet.freeze_panes = "A2"
    printed(sheet, landscape=True, letter=False)
    book.active = 0


def _line(sheet: Worksheet, row: int, found: Problem, titles: Mapping[str, Worksheet]) -> None:
    from openpyxl.styles import Font
    from openpyxl.worksheet.hyperlink import Hyperlink

    from handouts.workbook.paint import body, put

    texts = (", ".join(found.cells), found.message, found.mend, SEVERITY_WORDS[found.severity])
    for number, text in enumerate(texts, 1):
        body(sheet.cell(row, number), banded=row % 2 == 1, wrap=True)
        put(sheet.cell(row, number), str(_writable(text)))
    spots = _spots(found, titles)
    if spots:
        name, cell = spots[0]
        quoted = name.replace("'", "''")
        where = sheet.cell(row, 1)
        where.hyperlink = Hyperlink(ref=where.coordinate, location=f"'{quoted}'!{cell}")
        where.font = Font(underline="single", color="0563C1")
