"""A plain table as a workbook, ready to print: the comparison."""

from __future__ import annotations

from datetime import date

from openpyxl import Workbook
from openpyxl.styles import Alignment
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from handouts.records import Table
from handouts.workbook.copies import allowed_title, writable
from handouts.workbook.paint import body, fit_height, font, head, printed, put

WIDEST, NARROWEST = 44, 8


def table_book(table: Table, letter: bool) -> Workbook:
    """The table under its title, headings on every page, notes below; every text a text."""
    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = allowed_title(table.title)
    put(sheet["A1"], writable(table.title))
    sheet["A1"].font = font(bold=True, size=13)
    for number, heading in enumerate(table.headings, 1):
        head(sheet.cell(3, number), str(writable(heading)))
    for row, values in enumerate(table.rows, 4):
        for number, value in enumerate(values, 1):
            cell = sheet.cell(row, number)
            body(cell, banded=row % 2 == 1, wrap=True)
            put(cell, _plain(value))
    for row, note in enumerate(table.notes, len(table.rows) + 5):
        put(sheet.cell(row, 1), writable(note))
        sheet.cell(row, 1).alignment = Alignment(wrap_text=False)
    widths = _widths(sheet, table)
    for row in range(3, len(table.rows) + 4):
        fit_height(sheet, row, widths)
    sheet.freeze_panes = "B4"
    printed(sheet, landscape=True, letter=letter, headings="3:3")
    return book


def _plain(value: object) -> object:
    """A value that a cell can hold; anything else as its words."""
    return value if value is None or isinstance(value, bool | int | float | date) else writable(str(value))


def _widths(sheet: Worksheet, table: Table) -> dict[int, float]:
    """Sets the columns as wide as their longest line, within reason; column number → width in characters."""
    widths: dict[int, float] = {}
    for number, heading in enumerate(table.headings):
        texts = [str(row[number]) for row in table.rows if number < len(row) and row[number] is not None]
        longest = max((len(line) for text in (heading, *texts) for line in text.split("\n")), default=0)
        widths[number + 1] = min(WIDEST, max(NARROWEST, longest + 2))
        sheet.column_dimensions[get_column_letter(number + 1)].width = widths[number + 1]
    return widths
