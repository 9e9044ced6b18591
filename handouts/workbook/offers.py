"""The Lists sheet: every drop-down's words in a column of their own, each under a name that the other sheets refer to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from openpyxl import Workbook
from openpyxl.utils import get_column_letter
from openpyxl.workbook.defined_name import DefinedName

from handouts.sheets import SHEETS, YES_NO, Column
from handouts.workbook.paint import head, locked, printed, put
from handouts.workbook.rows import Words

TITLE = "Lists"
CONDITIONS = ("Cloth", "Fibre", "Family", "Structure")


def offered(column: Column, words: Words) -> tuple[str, ...]:
    """The words a column's drop-down offers; none when it has none."""
    if column.kind == "yes_no":
        return YES_NO
    return column.choices or tuple(words.get(column.vocabulary, ())) if column.key != "when" else conditions()


def conditions() -> tuple[str, ...]:
    """What a house rule may ask about."""
    fabrics = next(sheet for sheet in SHEETS if sheet.key == "fabrics")
    facts = (
        c.title() for c in fabrics.columns if c.group == "facts" and c.kind not in ("text", "content", "photo", "cloth")
    )
    return (*CONDITIONS, *facts)


def list_names(words: Words) -> dict[tuple[str, ...], str]:
    """Each different list of words and the name it goes by; the first column that offers it gives the name."""
    names: dict[tuple[str, ...], str] = {}
    for column in (column for sheet in SHEETS for column in sheet.columns):
        offer = offered(column, words)
        if offer:
            names.setdefault(offer, "list_" + ("yes_no" if offer == YES_NO else column.key))
    return names


def write_lists(book: Workbook, names: Mapping[tuple[str, ...], str], letter: bool) -> None:
    """Adds the sheet and the defined names."""
    sheet = book.create_sheet(TITLE)
    for number, (offer, name) in enumerate(names.items(), 1):
        _write_list(book, number, name, offer)
    sheet.freeze_panes = "A2"
    printed(sheet, landscape=True, letter=letter, pages_wide=2)
    locked(sheet)


def _write_list(book: Workbook, number: int, name: str, offer: Sequence[str]) -> None:
    sheet, column = book[TITLE], get_column_letter(number)
    head(sheet.cell(1, number), name.replace("_", " of ", 1).replace("_", " "))
    for row, word in enumerate(offer, 2):
        put(sheet.cell(row, number), word)
    sheet.column_dimensions[column].width = min(40, max(12, *(len(word) + 2 for word in offer)))
    book.defined_names[name] = DefinedName(name, attr_text=f"{TITLE}!${column}$2:${column}${len(offer) + 1}")
