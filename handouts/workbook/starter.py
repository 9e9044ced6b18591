"""The starter workbook, empty or filled."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from openpyxl import Workbook

from handouts.sheets import FABRICS, HOUSE, SUPPLIES
from handouts.workbook.class_sheet import write_class
from handouts.workbook.list_sheets import Making, write_list
from handouts.workbook.offers import list_names, write_lists
from handouts.workbook.readme_sheet import write_readme
from handouts.workbook.rows import Words

Records = Sequence[Mapping[str, Any]]


def starter(
    words: Words,
    imperial: bool = False,
    rows: Records | None = None,
    settings: Mapping[str, Any] | None = None,
    house: Records | None = None,
    supplies: Records | None = None,
) -> Workbook:
    """The workbook in memory. Records and settings by Column.key, in metric units; None leaves a sheet with its example."""
    book = Workbook()
    book.remove(book.worksheets[0])
    making = Making(words, list_names(words), imperial)
    own = (
        {}
        if settings is None and not imperial
        else {"units": "imperial", "paper": "Letter"}
        if settings is None
        else settings
    )
    write_readme(book, making)
    write_class(book, making, own)
    write_list(book, FABRICS, making, rows)
    write_list(book, HOUSE, making, house)
    write_list(book, SUPPLIES, making, supplies)
    write_lists(book, making.names, imperial)
    book.active = book.sheetnames.index(FABRICS.title) if rows else 0
    return book
