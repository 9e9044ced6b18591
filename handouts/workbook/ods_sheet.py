"""One sheet of an .ods while it is being read."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any

from handouts.workbook.grid import Block, Grid, Look, Spot
from handouts.workbook.limits import SHEET
from handouts.workbook.packed import SheetTooBig

HIDDEN = ("collapse", "filter")
CELLS = ("table:table-cell", "table:covered-table-cell")


class SpreadSheet:
    """Collects rows, cells and what is special about them. Repeats of blank cells cost nothing."""

    def __init__(self, title: str, style: str) -> None:
        self.title, self.style = title, style
        self.row, self.column, self.column_at = 0, 0, 0
        self.rows: dict[int, list[Any]] = {}
        self.cells: list[tuple[int, Any]] = []
        self.about: Mapping[str, str] = {}
        self.repeat_row, self.filled = 1, 0
        self.words: list[str] | None = None
        self.aside = 0
        self.hidden_row = False
        self.hidden_rows: set[int] = set()
        self.hidden_columns: set[int] = set()
        self.merged: list[Block] = []
        self.errors: dict[Spot, str] = {}
        self.stale: set[Spot] = set()
        self.percent: set[Spot] = set()

    def start(self, name: str, about: Mapping[str, str]) -> None:
        """An element opens."""
        if self.aside or name in ("office:annotation", "draw:frame", "draw:custom-shape"):
            self.aside += 1
        elif name == "table:table-row":
            self.cells, self.column = [], 0
            self.repeat_row = _count(about, "table:number-rows-repeated", SHEET["most_rows"])
            self.hidden_row = about.get("table:visibility") in HIDDEN
        elif name == "table:table-column":
            self._columns(about)
        elif name in CELLS:
            self.about, self.words = about, []
        elif self.words is not None:
            self._inside(name, about)

    def text(self, text: str) -> None:
        """Characters of the cell that is open."""
        if self.words is not None and not self.aside:
            self.words.append(text)

    def end(self, name: str) -> None:
        """An element closes."""
        if self.aside:
            self.aside -= 1
        elif name in CELLS:
            self._cell()
            self.words = None
        elif name == "table:table-row":
            self._row()

    def grid(self, hidden_styles: set[str]) -> Grid:
        """The sheet, read."""
        look = Look(
            frozenset(self.hidden_rows),
            frozenset(self.hidden_columns),
            tuple(self.merged),
            self.errors,
            frozenset(self.stale),
            frozenset(self.percent),
        )
        return Grid(self.title, self.rows, self.style in hidden_styles, look)

    def _inside(self, name: str, about: Mapping[str, str]) -> None:
        """Paragraphs, and the signs that stand for spaces."""
        if self.words is None:
            return
        if name == "text:p" and self.words:
            self.words.append("\n")
        elif name == "text:s":
            self.words.append(" " * _count(about, "text:c", 100))
        elif name in ("text:tab", "text:line-break"):
            self.words.append(" ")

    def _columns(self, about: Mapping[str, str]) -> None:
        repeat = _count(about, "table:number-columns-repeated", SHEET["most_columns"])
        if about.get("table:visibility") in HIDDEN:
            self.hidden_columns |= set(range(self.column_at + 1, self.column_at + repeat + 1))
        self.column_at += repeat
        if self.column_at > 4 * SHEET["most_columns"]:
            raise SheetTooBig

    def _cell(self) -> None:
        about = self.about
        repeat = _count(about, "table:number-columns-repeated", SHEET["most_columns"])
        value = self._value()
        first = (self.row + 1, self.column + 1)
        if value is not None:
            self.filled += repeat
            if self.filled > SHEET["most_cells"]:
                raise SheetTooBig
            self.cells += [(self.column + n + 1, value) for n in range(repeat)]
            if about.get("office:value-type") == "percentage":
                self.percent |= {(first[0], self.column + n + 1) for n in range(repeat)}
        elif about.get("table:formula") and not about.get("office:value-type") and first not in self.errors:
            self.stale.add(first)
        self._merge(first)
        self.column += repeat

    def _merge(self, first: Spot) -> None:
        rows = _count(self.about, "table:number-rows-spanned", SHEET["most_rows"])
        columns = _count(self.about, "table:number-columns-spanned", SHEET["most_columns"])
        if rows > 1 or columns > 1:
            self.merged.append((*first, first[0] + rows - 1, first[1] + columns - 1))

    def _value(self) -> Any:
        """The cell's value as a spreadsheet holds it; None when blank or an error."""
        about, words = self.about, "".join(self.words or ())
        kind = about.get("office:value-type", "")
        if about.get("calcext:value-type") == "error" or (kind != "string" and words.startswith("Err:")):
            self.errors[(self.row + 1, self.column + 1)] = words[:20]
            return None
        if kind in ("float", "percentage", "currency"):
            return float(about["office:value"])
        if kind == "boolean":
            return about.get("office:boolean-value") == "true"
        if kind == "date":
            return _day(about.get("office:date-value", "")) or words or None
        return about.get("office:string-value", words).strip() or None

    def _row(self) -> None:
        """Closes a row, repeated as often as it says."""
        if self.cells:
            self.filled += (self.repeat_row - 1) * len(self.cells)
            if self.filled > SHEET["most_cells"]:
                raise SheetTooBig
            last = max(column for column, _ in self.cells)
            line: list[Any] = [None] * last
            for column, value in self.cells:
                line[column - 1] = value
            numbers = range(self.row + 1, self.row + self.repeat_row + 1)
            self.rows |= dict.fromkeys(numbers, line)
            self.hidden_rows |= set(numbers) if self.hidden_row else set()
        self.row += self.repeat_row
        if self.row > 4 * SHEET["most_rows"]:
            raise SheetTooBig


def _count(about: Mapping[str, str], name: str, most: int) -> int:
    """A repeat, at least 1. Raises SheetTooBig beyond what a sheet has."""
    count = int(about.get(name, "1") or 1)
    if count > most:
        raise SheetTooBig
    return max(1, count)


def _day(text: str) -> datetime.date | None:
    try:
        return datetime.date.fromisoformat(text[:10])
    except ValueError:
        return None
