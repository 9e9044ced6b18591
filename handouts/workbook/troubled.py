"""A workbook with every kind of trouble: drawn by its cells, or written out where no readable book can draw it.

From workbooks/data/troubled.toml.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Alignment
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from handouts.places import shipped
from handouts.problems import catalogue, problem
from handouts.workbook.paint import fill, fit_height, head, printed, put
from handouts.workbook.rows import Words

WIDTH = 18
OTHERS = ("Other messages", "What it says", "How to mend it", "What draws it")
OTHER_WIDTHS = (30, 60, 60, 40)


def troubled(words: Words) -> Workbook:
    """The workbook in memory. Its cells are written as they are: no drop-downs stand in the way of a wrong word."""
    book = Workbook()
    book.remove(book.worksheets[0])
    with (shipped("workbooks") / "data" / "troubled.toml").open("rb") as file:
        data = tomllib.load(file)
    for about in data["sheets"]:
        _write(book.create_sheet(about["title"]), about)
    _write_others(book.create_sheet(OTHERS[0]), data["elsewhere"])
    return book


def _write_others(sheet: Worksheet, elsewhere: Mapping[str, Mapping[str, Any]]) -> None:
    """The messages that other files draw, one a row, worded by the catalogue."""
    for number, (text, width) in enumerate(zip(OTHERS, OTHER_WIDTHS, strict=True), 1):
        head(sheet.cell(1, number), text)
        sheet.column_dimensions[get_column_letter(number)].width = width
    for row, (code, about) in enumerate(elsewhere.items(), 2):
        said = problem(code, **about["found"])
        for number, text in enumerate((catalogue()[code].title, said.message, said.mend, about["draws"]), 1):
            put(sheet.cell(row, number), text)
            sheet.cell(row, number).alignment = Alignment(wrap_text=True, vertical="top")
        fit_height(sheet, row, dict(enumerate(OTHER_WIDTHS, 1)))
    printed(sheet, landscape=True, letter=False)


def _write(sheet: Worksheet, about: Mapping[str, Any]) -> None:
    """One sheet: its lines, then single cells with their formats, then what is hidden or merged."""
    for row, line in enumerate(about["lines"], 1):
        for column, value in enumerate(line, 1):
            if value != "":
                put(sheet.cell(row, column), value)
    for cell in about.get("cells", ()):
        _write_cell(sheet, cell)
    for block in about.get("merged", ()):
        sheet.merge_cells(block)
    for row in about.get("hidden_rows", ()):
        sheet.row_dimensions[row].hidden = True
    for number in range(1, len(about["lines"][about["headings"] - 1]) + 1):
        sheet.column_dimensions[get_column_letter(number)].width = WIDTH
        sheet.cell(about["headings"], number).fill = fill("D9D9D9")
    for letter in about.get("hidden_columns", ()):
        sheet.column_dimensions[letter].hidden = True
    if about.get("hidden"):
        sheet.sheet_state = "hidden"


def _write_cell(sheet: Worksheet, about: Mapping[str, Any]) -> None:
    """A cell that a line cannot hold: a formula, an error, a number with its format, a repeated text."""
    cell = sheet[about["at"]]
    if "formula" in about:
        cell.value = "=" + about["formula"]
    elif "error" in about:
        cell.value = about["error"]
        cell.data_type = "e"
    elif "repeat" in about:
        put(cell, about["value"] * about["repeat"])
    else:
        put(cell, about["value"])
    cell.number_format = about.get("format", cell.number_format)
