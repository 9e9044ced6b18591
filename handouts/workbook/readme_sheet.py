"""The Read me sheet: how to fill the workbook, and every column with its help."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Alignment
from openpyxl.worksheet.worksheet import Worksheet

from handouts.sheets import FABRICS, Column
from handouts.workbook.list_sheets import Making
from handouts.workbook.offers import offered
from handouts.workbook.paint import GROUPS, LINE, LINE_POINTS, fit_height, font, head, lines_of, locked, printed, put
from handouts.workbook.prompts import message

TITLE = "Read me"
MOST_WORDS = 14
GAP_POINTS = 4
WIDTHS = {"A": 24, "B": 9, "C": 58, "D": 40}


def write_readme(book: Workbook, making: Making) -> None:
    """Adds the sheet."""
    page = book.create_sheet(TITLE)
    with Path(__file__).with_name("readme.toml").open("rb") as file:
        text = tomllib.load(file)
    for letter, width in WIDTHS.items():
        page.column_dimensions[letter].width = width
    put(page["A1"], text["title"])
    page["A1"].font = font(bold=True, size=14)
    row = 3
    for paragraph in text["paragraphs"]:
        _paragraph(page, row, paragraph)
        row += 1
    row = _table(page, row + 1, text, making)
    printed(page, landscape=False, letter=making.imperial, headings="1:1")
    locked(page)


def _paragraph(page: Worksheet, row: int, text: str) -> None:
    page.merge_cells(start_row=row, start_column=1, end_row=row, end_column=4)
    put(page.cell(row, 1), text)
    page.cell(row, 1).alignment = Alignment(wrap_text=True, vertical="top")
    page.row_dimensions[row].height = LINE_POINTS * lines_of(text, sum(WIDTHS.values())) + GAP_POINTS


def _table(page: Worksheet, row: int, text: dict[str, Any], making: Making) -> int:
    for number, heading in enumerate(text["headings"], 1):
        head(page.cell(row, number), heading)
    for column in FABRICS.columns:
        row += 1
        _line(page, row, column, making)
    return row


def _line(page: Worksheet, row: int, column: Column, making: Making) -> None:
    offer = offered(column, making.words)
    words = ", ".join(offer[:MOST_WORDS]) + (" … (see Lists)" if len(offer) > MOST_WORDS else "")
    help_text = message(column, making.imperial).removeprefix("Needed. ")
    cells = (column.title(making.imperial), "needed" if column.required else "", help_text, words)
    for number, value in enumerate(cells, 1):
        cell = page.cell(row, number)
        put(cell, value)
        cell.border = LINE
        cell.alignment = Alignment(wrap_text=True, vertical="top")
    head(page.cell(row, 1), cells[0], GROUPS[column.group], bold=column.required)
    fit_height(page, row, {3: WIDTHS["C"], 4: WIDTHS["D"]})
