"""Several lists on one sheet, below each other or side by side: each becomes a grid of its own that keeps its addresses."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from handouts.sheets import FABRICS, HOUSE, SUPPLIES
from handouts.workbook.grid import Grid
from handouts.workbook.headings import headings_in
from handouts.workbook.limits import SHEET
from handouts.workbook.words import plain

FIRST_WORDS = {
    spelt: sheet
    for word, sheet in (("Item", SUPPLIES), ("Topic", HOUSE))
    for spelt in (word, word.upper(), word.lower())
}
"""A heading that each kind of list needs, as people spell it: cheap to look for in every row."""
NEEDED = frozenset(column.key for column in FABRICS.columns if column.required)


def apart(grid: Grid) -> Iterator[Grid]:
    """The lists of one sheet, in its own order; most sheets hold one."""
    head = next((row for row in list(grid.rows)[: SHEET["heading_rows"]] if _names_fabrics(grid.rows[row])), 0)
    starts = [row for row in grid.rows if row > head and _starts_other_list(grid.rows[row])] if head else []
    tops = [1, *(_title_above(grid, row) for row in starts), SHEET["most_rows"] + 1]
    for top, end in pairwise(tops):
        part = replace(grid, rows={row: cells for row, cells in grid.rows.items() if top <= row < end})
        yield from _side_by_side(part, _second_list(part.rows.get(head, ())))


def _names_fabrics(cells: Sequence[Any]) -> bool:
    """Whether a row holds the needed headings of a list of fabrics."""
    return {known.key for known in headings_in(cells, FABRICS).values()} >= NEEDED


def _starts_other_list(cells: Sequence[Any]) -> bool:
    """Whether a row holds the headings of the supplies or the house rules."""
    if FIRST_WORDS.keys().isdisjoint(cells):
        return False
    sheet = next(FIRST_WORDS[cell] for cell in cells if cell in FIRST_WORDS)
    return len(headings_in(cells, sheet)) > 1


def _title_above(grid: Grid, row: int) -> int:
    """The first of the rows right above with a single cell, the title of the list; else the row itself."""
    while sum(cell is not None for cell in grid.rows.get(row - 1, ())) == 1:
        row -= 1
    return row


def _second_list(head: Sequence[Any]) -> int:
    """The column where the needed headings begin again in the same words, after a blank column; 0 when they do not."""
    words = [plain(cell) if isinstance(cell, str) else "" for cell in head]
    needed = [words[column - 1] for column, known in headings_in(head, FABRICS).items() if known.key in NEEDED]
    first = [words.index(word) for word in needed]
    again = [words.index(word, at + 1) for word, at in zip(needed, first, strict=True) if word in words[at + 1 :]]
    blanks = [at for at in range(max(first, default=0), min(again, default=0)) if not words[at]]
    return blanks[-1] + 2 if blanks and len(set(again)) == len(NEEDED) else 0


def _side_by_side(grid: Grid, second: int) -> Iterator[Grid]:
    """The sheet cut at the column where a second list begins."""
    if not second:
        yield grid
        return
    left = {row: cells[: second - 1] for row, cells in grid.rows.items()}
    right = {row: [None] * (second - 1) + cells[second - 1 :] for row, cells in grid.rows.items()}
    for rows in (left, right):
        yield replace(grid, rows={row: cells for row, cells in rows.items() if any(cell is not None for cell in cells)})
