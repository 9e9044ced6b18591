"""Rows of a list that are no records: totals, headings said again, the starter's example."""

from __future__ import annotations

from collections.abc import Sequence

from handouts.sheets import FABRICS, Column
from handouts.workbook.layout import Layout, Place
from handouts.workbook.words import plain, shown, spoken

TELLING = ("cloth", "fibre_content")


def is_example(layout: Layout, row: int) -> bool:
    """Whether the row is the starter's example, untouched."""
    wanted = {column.key: column.example for column in layout.sheet.columns if column.example}
    if not wanted:
        return False
    for key, place in layout.places.items():
        value = layout.grid.value(row, place.column)
        if shown("" if value is None else value).strip() != _example(layout, key, place):
            return False
    return wanted.keys() <= layout.places.keys()


def _example(layout: Layout, key: str, place: Place) -> str:
    column = layout.sheet.column(key)
    measure = place.heading.measure
    if column.example and measure and not measure.own:
        return imperial_example(column)
    return column.example


def imperial_example(column: Column) -> str:
    """The example in the column's imperial unit, to one decimal."""
    unit = column.unit
    if unit is None or not column.example:
        return column.example
    value = float(column.example)
    return f"{(unit.factor / value if unit.reciprocal else value / unit.factor):.1f}".removesuffix(".0")


def asides(layout: Layout, rows: Sequence[int]) -> list[int]:
    """Those of some rows that are no records, and worth saying so."""
    titles = _titles(layout)
    return [row for row in rows if row in titles or is_total(layout, row) or repeats_headings(layout, row)]


def is_total(layout: Layout, row: int) -> bool:
    """Whether a row of the fabrics only adds up: no cloth, no fibre content, and a word for a total in it."""
    if layout.sheet is not FABRICS or _texts(layout, row, TELLING):
        return False
    name = _texts(layout, row, ("name",))
    words = name or [cell for cell in layout.grid.rows[row] if isinstance(cell, str)]
    totals = spoken("totals")["words"]
    return any(plain(word).rstrip("0123456789 ,()=") in totals for word in words)


def _titles(layout: Layout) -> set[int]:
    """The rows in which one merged cell covers name, cloth and fibre content: titles of groups."""
    columns = [place.column for key, place in layout.places.items() if key in (*TELLING, "name")]
    if layout.sheet is not FABRICS or len(columns) < 2:
        return set()
    first, last = min(columns), max(columns)
    merged = layout.grid.look.merged
    return {top for top, left, bottom, right in merged if top == bottom and left <= first and last <= right}


def repeats_headings(layout: Layout, row: int) -> bool:
    """Whether a row says the headings again, as lists do that were printed page by page."""
    places = [place for key, place in layout.places.items() if key in (*TELLING, "name")]
    cells = [layout.grid.value(row, place.column) for place in places]
    return len(places) > 1 and cells == [layout.grid.value(layout.header, place.column) for place in places]


def _texts(layout: Layout, row: int, keys: tuple[str, ...]) -> list[str]:
    """The texts of a row under these headings."""
    cells = [layout.grid.value(row, layout.places[key].column) for key in keys if key in layout.places]
    return [str(cell) for cell in cells if cell is not None and str(cell).strip()]
