"""The Class sheet: a setting, its value, and what it is for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from openpyxl import Workbook
from openpyxl.styles import Alignment

from handouts.sheets import CLASS
from handouts.workbook.list_sheets import TEXT_KINDS, Making, typed
from handouts.workbook.paint import GREYED, body, fit_height, font, head, locked, printed, put
from handouts.workbook.prompts import message, prompt

VALUE_WIDTH, NOTE_WIDTH = 34, 66


def write_class(book: Workbook, making: Making, settings: Mapping[str, Any]) -> None:
    """Adds the sheet with the given settings (metric, by Column.key); the others stay empty and say what that means."""
    page = book.create_sheet(CLASS.title)
    for number, text in enumerate(("Setting", "Value", "What it is for"), 1):
        head(page.cell(1, number), text)
    for row, column in enumerate(CLASS.columns, 2):
        head(page.cell(row, 1), column.title(making.imperial), "FFFFFF", bold=False)
        value = page.cell(row, 2)
        body(value, banded=row % 2 == 1, text=column.kind in TEXT_KINDS, wrap=True)
        if column.key in settings:
            put(value, typed(settings[column.key], column, making.imperial))
        note = page.cell(row, 3)
        put(note, message(column, making.imperial))
        note.font = font(color=GREYED)
        note.alignment = Alignment(wrap_text=True, vertical="top")
        fit_height(page, row, {2: VALUE_WIDTH, 3: NOTE_WIDTH})
        rule = prompt(column, making.imperial, making.names, making.words)
        rule.add(value.coordinate)
        page.add_data_validation(rule)
    for letter, width in (("A", 24), ("B", VALUE_WIDTH), ("C", NOTE_WIDTH)):
        page.column_dimensions[letter].width = width
    page.freeze_panes = "A2"
    printed(page, landscape=False, letter=making.imperial)
    locked(page)
