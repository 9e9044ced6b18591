"""A sheet as it stands in the file, whatever program wrote it: values by row, and what the values do not show."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from handouts.errors import HandoutsError
from handouts.problems import Problem, problem
from handouts.workbook.limits import SHEET
from handouts.workbook.words import shown

Spot = tuple[int, int]
"""Row and column, both counted from 1."""
Block = tuple[int, int, int, int]
"""Top, left, bottom, right, all counted from 1 and included."""


class Unreadable(HandoutsError):
    """The file cannot be read at all: carries the finding that says why."""

    def __init__(self, code: str, **found: object) -> None:
        self.finding: Problem = problem(code, **{key: shown(value) for key, value in found.items()})
        super().__init__(str(self.finding))


@dataclass(frozen=True)
class Look:
    """What a sheet's values do not show. stale: formulas without a result; percent: cells formatted as percent."""

    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    merged: tuple[Block, ...] = ()
    errors: Mapping[Spot, str] = field(default_factory=dict)
    stale: frozenset[Spot] = frozenset()
    percent: frozenset[Spot] = frozenset()
    far: tuple[Spot, ...] = ()


@dataclass(frozen=True)
class Grid:
    """One sheet: `rows` holds the rows that hold something, by row number; blank cells are None."""

    title: str
    rows: Mapping[int, list[Any]]
    hidden: bool = False
    look: Look = Look()

    def value(self, row: int, column: int) -> Any:
        """The value at a spot, None when blank."""
        cells = self.rows.get(row, ())
        return cells[column - 1] if column <= len(cells) else None

    def column(self, column: int, rows: Iterable[int]) -> Iterator[tuple[int, Any]]:
        """Row and value for those of some rows that hold anything in a column."""
        for row in rows:
            cells = self.rows[row]
            if column <= len(cells) and cells[column - 1] is not None:
                yield row, cells[column - 1]

    def cell(self, row: int, column: int) -> str:
        """The spot as a spreadsheet says it: `Fabrics!F4`."""
        return f"{self.title}!{letters(column)}{row}"

    def with_merges_filled(self) -> Grid:
        """The same sheet with the value of a block of merged cells in each of its rows that holds anything (first column only)."""
        rows = {number: list(cells) for number, cells in self.rows.items()}
        left_to_fill = SHEET["most_filled"]
        for top, left, bottom, _ in self.look.merged:
            value = self.value(top, left)
            inside = range(top + 1, min(bottom, max(rows, default=0)) + 1) if value is not None else ()
            for row in (row for row in inside[:left_to_fill] if row in rows):
                left_to_fill -= 1
                _put(rows, row, left, value)
        return replace(self, rows=rows)


def _put(rows: dict[int, list[Any]], row: int, column: int, value: Any) -> None:
    cells = rows.setdefault(row, [])
    cells.extend([None] * (column - len(cells)))
    cells[column - 1] = value


def letters(column: int) -> str:
    """The letters of a column counted from 1: 1 → A, 28 → AB."""
    text = ""
    while column > 0:
        column, rest = divmod(column - 1, 26)
        text = chr(65 + rest) + text
    return text


def column_number(text: str) -> int:
    """The column, counted from 1, for its letters: AB → 28."""
    number = 0
    for letter in text:
        number = number * 26 + ord(letter) - 64
    return number


def filled_rows(rows: Iterable[list[Any]]) -> dict[int, list[Any]]:
    """The rows that hold something, by row number from 1; blank texts become None."""
    found = {}
    for number, cells in enumerate(rows, 1):
        if any(cell != "" and cell is not None for cell in cells):
            found[number] = [None if cell == "" else cell for cell in cells]
    return found


def blank_after(numbers: Iterable[int], gap: int) -> int:
    """The last number before the first gap of more than `gap`; the numbers need no order."""
    last = 0
    for number in sorted(numbers):
        if last and number - last > gap:
            break
        last = number
    return last


def ranges(numbers: Iterable[int]) -> str:
    """5, 6, 7, 12 as “5–7, 12”; the first dozen of them."""
    spans: list[list[int]] = []
    for number in numbers:
        if spans and number == spans[-1][1] + 1:
            spans[-1][1] = number
        else:
            spans.append([number, number])
    words = [str(low) if low == high else f"{low}–{high}" for low, high in spans]
    return ", ".join(words[:12]) + (" …" if len(words) > 12 else "")
