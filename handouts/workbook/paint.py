"""How written workbooks look: calm, black on white, everything on the cells themselves so that every program keeps it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from openpyxl.cell.cell import Cell
from openpyxl.styles import Alignment, Border, Font, PatternFill, Protection, Side
from openpyxl.styles.fonts import DEFAULT_FONT
from openpyxl.worksheet.worksheet import Worksheet

BAND, HEAD, CHOICE, TESTED = "F5F5F5", "D9D9D9", "E4E0D2", "D6E0E4"
MISSING, GREYED, MARK, NOTED = "F6C9A0", "8C8C8C", "F6C9B0", "FFF2C4"
GROUPS = {"facts": HEAD, "choice": CHOICE, "tested": TESTED, "measured": TESTED}
LINE = Border(bottom=Side(style="thin", color="BFBFBF"))
HEAD_LINE = Border(bottom=Side(style="medium", color="404040"))
FREEDOMS = (
    "formatCells",
    "formatColumns",
    "formatRows",
    "insertRows",
    "deleteRows",
    "insertColumns",
    "sort",
    "autoFilter",
)
FREE = Protection(locked=False)
TEXT = "@"
LINE_POINTS, FILLED = 15, 0.9
A4, LETTER = 9, 1  # paper codes of ECMA-376 part 1, 18.3.1.63


def put(cell: Cell, value: Any) -> None:
    """Writes a value; a text is a text, never a formula, whatever it begins with."""
    cell.value = "" if value is None else value
    if isinstance(value, str):
        cell.data_type = "s"
    elif value is None:
        cell.value = None


def font(**changes: Any) -> Font:
    """The workbook's own font with changes: one that names no face prints in another in some programs."""
    return Font(**{"name": DEFAULT_FONT.name, "sz": DEFAULT_FONT.sz, "family": DEFAULT_FONT.family, **changes})


def fit_height(sheet: Worksheet, row: int, columns: Mapping[int, float], least: int = 1) -> None:
    """Makes a row as high as its wrapped texts need: column number → width in characters. Not every program does it itself."""
    lines = [lines_of(sheet.cell(row, column).value, width) for column, width in columns.items()]
    sheet.row_dimensions[row].height = LINE_POINTS * max(least, *lines)


def lines_of(value: object, width: float) -> int:
    """Lines that a text takes in a column of so many characters; words do not fill a line to its end."""
    texts = str("" if value is None else value).split("\n")
    return sum(max(1, -(-len(text) // max(1, int(width * FILLED)))) for text in texts)


def fill(colour: str) -> PatternFill:
    """A plain fill."""
    return PatternFill("solid", start_color=colour, end_color=colour)


def head(cell: Cell, text: str, colour: str = HEAD, bold: bool = True) -> None:
    """A heading: bold, filled, wrapped, locked."""
    put(cell, text)
    cell.font = font(bold=bold)
    cell.fill = fill(colour)
    cell.border = HEAD_LINE
    cell.alignment = Alignment(wrap_text=True, vertical="center")


def body(cell: Cell, banded: bool, text: bool = False, wrap: bool = False) -> None:
    """A cell to fill: unlocked, banded, formatted as text where a spreadsheet would turn 5/8 into a day."""
    cell.protection = FREE
    cell.border = LINE
    cell.alignment = Alignment(wrap_text=wrap, vertical="top")
    if banded:
        cell.fill = fill(BAND)
    if text:
        cell.number_format = TEXT


def printed(sheet: Worksheet, landscape: bool, letter: bool, pages_wide: int = 1, headings: str = "1:1") -> None:
    """Print set-up: paper, direction, so many pages wide, headings on every page, sheet name and page number below."""
    sheet.page_setup.orientation = "landscape" if landscape else "portrait"
    sheet.page_setup.paperSize = LETTER if letter else A4
    sheet.page_setup.fitToWidth = pages_wide
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.print_title_rows = headings
    sheet.page_margins.left = sheet.page_margins.right = 0.5
    sheet.page_margins.top = sheet.page_margins.bottom = 0.6
    sheet.oddFooter.left.text = "&A"
    sheet.oddFooter.right.text = "&P / &N"


def locked(sheet: Worksheet) -> None:
    """Only locked cells are kept from harm, without a password; formatting, sorting, rows and columns stay free."""
    protection = sheet.protection
    protection.enable()
    for freedom in FREEDOMS:
        setattr(protection, freedom, False)
