"""The sheets with a record a row: Fabrics, House rules, Supplies. Headings, prompts, colours, examples, given rows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from openpyxl import Workbook
from openpyxl.formatting.rule import FormulaRule
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from handouts.sheets import Column, Sheet
from handouts.workbook.no_fabrics import imperial_example
from handouts.workbook.paint import (
    FREE,
    GREYED,
    GROUPS,
    MISSING,
    TEXT,
    body,
    fill,
    fit_height,
    head,
    locked,
    printed,
    put,
)
from handouts.workbook.prompts import in_imperial, prompt
from handouts.workbook.rows import Words

READY_ROWS = 40
LAST_ROW = 1_048_576
TEXT_KINDS = frozenset({"text", "cloth", "content", "choice", "needle", "photo", "date"})
WIDTHS = {"content": 30, "cloth": 20, "needle": 16, "choice": 14, "photo": 16, "date": 13, "text": 16}
WRAPPED = frozenset(
    {"name", "fibre_content", "trim_fibres", "supplier_care", "notes", "is", "advice", "because", "item"}
)
WIDE = {
    "name": 26,
    "notes": 40,
    "supplier_care": 26,
    "advice": 46,
    "because": 40,
    "item": 34,
    "is": 22,
    "when": 22,
    "topic": 22,
}


@dataclass(frozen=True)
class Making:
    """What every sheet of one starter is made with."""

    words: Words
    names: Mapping[tuple[str, ...], str]
    imperial: bool


def write_list(book: Workbook, sheet: Sheet, making: Making, rows: Sequence[Mapping[str, Any]] | None) -> Worksheet:
    """Adds the sheet. rows: records by Column.key in metric units; None writes the grey example instead."""
    page = book.create_sheet(sheet.title)
    for number, column in enumerate(sheet.columns, 1):
        _write_column(page, number, column, making)
    _write_rows(page, sheet, making, rows)
    _colour_rules(page, sheet, making)
    many = len(sheet.columns) > 8
    page.freeze_panes = "C2" if many else "A2"
    page.row_dimensions[1].height = 46 if many else 22
    printed(page, landscape=True, letter=making.imperial, pages_wide=3 if many else 1)
    if many:
        page.print_title_cols = "A:B"
    locked(page)
    return page


def _write_column(page: Worksheet, number: int, column: Column, making: Making) -> None:
    letter = get_column_letter(number)
    head(page.cell(1, number), column.title(making.imperial), GROUPS[column.group])
    about = page.column_dimensions[letter]
    about.width = width(column)
    about.protection = FREE
    about.number_format = TEXT if column.kind in TEXT_KINDS else "General"
    rule = prompt(column, making.imperial, making.names, making.words)
    rule.add(f"{letter}2:{letter}{LAST_ROW}")
    page.add_data_validation(rule)


def _write_rows(page: Worksheet, sheet: Sheet, making: Making, rows: Sequence[Mapping[str, Any]] | None) -> None:
    given = [example(sheet, making.imperial)] if rows is None else rows
    last = max(READY_ROWS, len(given) + 20)
    for row in range(2, last + 2):
        values = given[row - 2] if row - 2 < len(given) else {}
        for number, column in enumerate(sheet.columns, 1):
            cell = page.cell(row, number)
            wrap = column.key in WRAPPED
            body(cell, banded=row % 2 == 1, text=column.kind in TEXT_KINDS, wrap=wrap)
            if column.key in values:
                put(cell, values[column.key] if rows is None else typed(values[column.key], column, making.imperial))
        if values:
            fit_height(page, row, {n: width(c) for n, c in enumerate(sheet.columns, 1) if c.key in WRAPPED})


def width(column: Column) -> float:
    """Of a column, in characters."""
    return WIDE.get(column.key, WIDTHS.get(column.kind, 11))


def example(sheet: Sheet, imperial: bool) -> dict[str, Any]:
    """The example row of a sheet, empty when it has none."""
    texts = {c.key: imperial_example(c) if imperial else c.example for c in sheet.columns if c.example}
    numbers = {c.key for c in sheet.columns if c.kind in ("number", "percent", "grade")}
    return {key: float(text) if key in numbers else text for key, text in texts.items()}


def typed(value: Any, column: Column, imperial: bool) -> Any:
    """A metric value as somebody would type it into the column: yes, 10.3, `universal 80/12`."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Sequence) and not isinstance(value, str):
        return ", ".join(map(str, value))
    if imperial and column.unit and isinstance(value, int | float):
        return float(f"{in_imperial(column, float(value)):.4g}")
    return value


def _colour_rules(page: Worksheet, sheet: Sheet, making: Making) -> None:
    """Orange: a needed cell of a started row is empty. Grey: the example, as long as nobody changed it."""
    last = get_column_letter(len(sheet.columns))
    letters = {column.key: get_column_letter(number) for number, column in enumerate(sheet.columns, 1)}
    same = [
        f"${letters[key]}2={value:g}" if isinstance(value, float) else f'${letters[key]}2="{value}"'
        for key, value in example(sheet, making.imperial).items()
    ]
    if same:
        rule = FormulaRule(formula=[f"AND({','.join(same)})"], font=Font(color=GREYED, italic=True), stopIfTrue=True)
        page.conditional_formatting.add(f"A2:{last}{LAST_ROW}", rule)
    for column in sheet.columns:
        if column.required:
            letter = letters[column.key]
            started = f"AND(COUNTA($A2:${last}2)>0,LEN(TRIM({letter}2))=0)"
            page.conditional_formatting.add(
                f"{letter}2:{letter}{LAST_ROW}", FormulaRule(formula=[started], fill=fill(MISSING))
            )
