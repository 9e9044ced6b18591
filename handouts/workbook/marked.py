"""A copy of somebody's workbook with each finding coloured and told in its cell, and a sheet that lists them all."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from handouts.errors import HandoutsError
from handouts.problems import Problem
from handouts.workbook.copies import copy_of, writable
from handouts.workbook.layout import PROBLEM_HEADINGS
from handouts.workbook.limits import MARKED

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

AUTHOR = "check"
WIDTHS = (26, 56, 66, 14)
ROW = re.compile(r"![A-Z]{1,3}([1-9]\d{0,6})\b")
CELL = re.compile(r"^(?P<title>.+)!(?P<cell>[A-Z]{1,3}[1-9]\d{0,6})(?::[A-Z]{1,3}\d{1,7})?$")
SEVERITY_WORDS = {"stop": "cannot be read", "mend": "to mend", "note": "to note"}
MEND_AT_HOME = ("This is a copy, made to show the findings in their cells. Mend them in your own workbook, not here.",)
UNTOUCHED = "Your own workbook still has everything: it was not touched."


def write_marked(path: Path, copy: Path, problems: Sequence[Problem]) -> None:
    """The copy, as .xlsx. Raises HandoutsError for the workbook's own path or another kind of file."""
    from handouts.workbook.saving import save

    if copy.resolve() == path.resolve() or (copy.exists() and path.exists() and copy.samefile(path)):
        raise HandoutsError(
            f"{copy} is your own workbook, and that is never written to. Choose another name for the copy."
        )
    if copy.suffix.lower() != ".xlsx":
        raise HandoutsError(f"The marked copy is an .xlsx workbook: call it {copy.with_suffix('.xlsx').name}.")
    made = copy_of(path, {int(row) for found in problems for row in ROW.findall(" ".join(found.cells))})
    titles = {sheet.title: sheet for sheet in made.book.worksheets}
    coloured = _colour(titles, problems)
    _list(made.book, problems, (*MEND_AT_HOME, made.lost, *coloured, UNTOUCHED))
    save(made.book, copy)


def _colour(sheets: Mapping[str, Worksheet], problems: Sequence[Problem]) -> tuple[str, ...]:
    """Fills the cells that findings name and tells each in a comment; several findings of a cell share one.

    What to say when there were more cells than may have a comment.
    """
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
    most = MARKED["most_comments"]
    return (f"Only the first {most} cells are coloured; the list above has every finding.",) if len(told) > most else ()


def _top_left(sheet: Worksheet, cell: str) -> Any:
    """The cell itself, or the one that shows for it when it is part of merged cells."""
    block = next((block for block in sheet.merged_cells.ranges if cell in block), None)
    return sheet.cell(block.min_row, block.min_col) if block else sheet[cell]


def _spots(found: Problem, sheets: Mapping[str, Worksheet]) -> list[tuple[str, str]]:
    """(sheet title, cell) for every cell that a finding names and the copy has."""
    parts = [CELL.match(cell) for cell in found.cells]
    return [(part["title"], part["cell"]) for part in parts if part and part["title"] in sheets]


def _list(book: Workbook, problems: Sequence[Problem], remarks: Sequence[str]) -> None:
    """The sheet Problems, first of all: every finding with a link to its cell, then remarks on the copy itself."""
    from openpyxl.styles import Alignment

    from handouts.workbook.paint import body, font, head, printed, put

    title = next(f"Problems{n}" for n in ("", *range(2, 99)) if f"Problems{n}" not in book.sheetnames)
    sheet = book.create_sheet(title, 0)
    for number, (text, width) in enumerate(zip(PROBLEM_HEADINGS, WIDTHS, strict=True), 1):
        head(sheet.cell(1, number), text)
        sheet.column_dimensions["ABCD"[number - 1]].width = width
    titles = {page.title: page for page in book.worksheets}
    for row, found in enumerate(problems, 2):
        _line(sheet, row, found, titles)
    for row, text in enumerate(remarks, len(problems) + 3):
        sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=4)
        put(sheet.cell(row, 1), text)
        sheet.cell(row, 1).alignment = Alignment(wrap_text=True, vertical="top")
        sheet.cell(row, 1).font = font(italic=True)
        sheet.row_dimensions[row].height = 32
    if not problems:
        body(sheet.cell(2, 1), banded=False)
        put(sheet.cell(2, 2), "Nothing to mend.")
    sheet.freeze_panes = "A2"
    printed(sheet, landscape=True, letter=False)
    book.active = 0


def _line(sheet: Worksheet, row: int, found: Problem, titles: Mapping[str, Worksheet]) -> None:
    from openpyxl.worksheet.hyperlink import Hyperlink

    from handouts.workbook.paint import body, fit_height, font, put

    texts = (", ".join(found.cells), found.message, found.mend, SEVERITY_WORDS[found.severity])
    for number, text in enumerate(texts, 1):
        body(sheet.cell(row, number), banded=row % 2 == 1, wrap=True)
        put(sheet.cell(row, number), str(writable(text)))
    fit_height(sheet, row, dict(enumerate(WIDTHS[:3], 1)))
    spots = _spots(found, titles)
    if spots:
        name, cell = spots[0]
        quoted = name.replace("'", "''")
        where = sheet.cell(row, 1)
        where.hyperlink = Hyperlink(ref=where.coordinate, location=f"'{quoted}'!{cell}")
        where.font = font(underline="single", color="0563C1")
