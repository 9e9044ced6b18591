"""A list sheet read: every cell by its column, into a frame whose index is the sheet's row number."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from handouts.problems import Problem, problem
from handouts.sheets import Column
from handouts.workbook.cells import read_cell, sense_of
from handouts.workbook.grid import letters, ranges
from handouts.workbook.layout import Layout, Place
from handouts.workbook.limits import LIST, SHEET
from handouts.workbook.no_fabrics import asides, is_example
from handouts.workbook.outcome import Finding, Outcome
from handouts.workbook.words import shown

if TYPE_CHECKING:
    import pandas as pd

ROUNDING = LIST["rounding"]
DTYPES = {"number": "Float64", "percent": "Float64", "grade": "Float64", "yes_no": "boolean"}
Words = Mapping[str, tuple[str, ...]]


@dataclass
class Rows:
    """What a list sheet holds so far. values: column key → row → value. found: (row, column number, Problem)."""

    layout: Layout
    values: dict[str, dict[int, Any]] = field(default_factory=dict)
    numbers: list[int] = field(default_factory=list)
    found: list[tuple[int, int, Problem]] = field(default_factory=list)
    faulty: set[tuple[int, str]] = field(default_factory=set)

    @property
    def letters(self) -> dict[tuple[str, str], str]:
        """(sheet key, column key) → letter."""
        return {(self.layout.sheet.key, key): letters(place.column) for key, place in self.layout.places.items()}

    def problems(self) -> list[Problem]:
        """The findings in the order of the sheet."""
        return [finding for _, _, finding in sorted(self.found, key=lambda one: one[:2])]

    def cell(self, key: str, row: int) -> str:
        """Where a value stands; the row when the sheet lacks the column."""
        place = self.layout.places.get(key)
        grid = self.layout.grid
        return grid.cell(row, place.column) if place else f"{grid.title}, row {row}"

    def add(self, row: int, key: str, code: str, *more_cells: str, **found: object) -> None:
        """Notes a finding about a cell (and further cells)."""
        place = self.layout.places.get(key)
        cells = (self.cell(key, row), *more_cells)
        self.found.append((row, place.column if place else 0, problem(code, *cells, **found)))
        self.faulty.add((row, key))

    def frame(self) -> pd.DataFrame:
        """One column per Column.key, nullable types, absent columns all blank; the index is the sheet's row number."""
        import pandas as pd

        index = pd.Index(self.numbers, name="row", dtype="int64")
        columns = {}
        for column in self.layout.sheet.columns:
            values = self.values.get(column.key, {})
            typed = [values.get(row, pd.NA) for row in self.numbers]
            columns[column.key] = pd.Series(typed, index=index, dtype=DTYPES.get(column.kind, "string"))
        return pd.DataFrame(columns, index=index)


def empty_frame(columns: tuple[Column, ...]) -> pd.DataFrame:
    """A frame of these columns without rows."""
    import pandas as pd

    index = pd.Index([], name="row", dtype="int64")
    return pd.DataFrame(
        {c.key: pd.Series([], index=index, dtype=DTYPES.get(c.kind, "string")) for c in columns}, index=index
    )


def read_rows(layout: Layout, words: Words) -> Rows:
    """Every row that says something, read cell by cell."""
    rows = Rows(layout)
    started = [row for row in _started(layout) if not is_example(layout, row)]
    aside = asides(layout, started)
    if aside:
        rows.found.append((0, 0, problem("rows-aside", layout.grid.cell(aside[0], 1), rows=ranges(aside))))
    rows.numbers = sorted(set(started) - set(aside))
    if len(rows.numbers) > SHEET["most_fabrics"]:
        last = rows.numbers[SHEET["most_fabrics"]]
        rows.found.append((0, 0, problem("rows-cut", layout.grid.title, most=SHEET["most_fabrics"], row=last)))
        rows.numbers = rows.numbers[: SHEET["most_fabrics"]]
    for key, place in layout.places.items():
        _read_column(rows, key, place, words)
    for key, place in layout.twice:
        _read_column(rows, key, place, words)
    _missing_results(rows)
    return rows


def _started(layout: Layout) -> Iterator[int]:
    """Rows below the headings that say something: dashes, ticks taken out and zeros that formulas leave say nothing."""
    columns = [place.column for place in (*layout.places.values(), *(place for _, place in layout.twice))]
    for row, cells in layout.grid.rows.items():
        if row >= layout.first_row and any(column <= len(cells) and _says(cells[column - 1]) for column in columns):
            yield row


def _says(value: Any) -> bool:
    if isinstance(value, str):
        return value.strip() not in ("", "-", "–", "—")
    return value is not None and value is not False and value != 0


def _read_column(rows: Rows, key: str, place: Place, words: Words) -> None:
    sense = sense_of(rows.layout.sheet.column(key), shown(place.heading.typed), place.heading.measure, words)
    values = rows.values.setdefault(key, {})
    read: dict[tuple[type, Any, bool], Outcome] = {}
    percents = rows.layout.grid.look.percent
    for row, raw in rows.layout.grid.column(place.column, rows.numbers):
        percent = (row, place.column) in percents
        known = (type(raw), raw, percent)
        if known not in read:
            read[known] = read_cell(raw, sense, percent)
        _keep(rows, values, key, place, row, read[known])


def _missing_results(rows: Rows) -> None:
    """Says so where a cell looks blank and is not: an error, or a formula that was never worked out."""
    grid, started = rows.layout.grid, set(rows.numbers)
    places = {place.column: (key, place) for key, place in (*rows.layout.twice, *rows.layout.places.items())}
    errors = {spot: Finding("cell-error", {"found": shown(text)}) for spot, text in grid.look.errors.items()}
    for (row, column), finding in {**dict.fromkeys(grid.look.stale, Finding("cell-uncalculated")), **errors}.items():
        if row in started and column in places and grid.value(row, column) is None:
            _note(rows, *places[column], row, finding)


def _keep(rows: Rows, values: dict[int, Any], key: str, place: Place, row: int, read: Outcome) -> None:
    for finding in read.findings:
        _note(rows, key, place, row, finding)
    if read.value is None:
        return
    if row in values and not _same(values[row], read.value):
        first = rows.layout.places[key]
        cells = rows.layout.grid.cell(row, first.column)
        column = rows.layout.sheet.column(key)
        unit = f" {column.unit.metric}" if column.unit else ""
        one, other = (f"{v:.4g}{unit}" if isinstance(v, float) else f"“{shown(v)}”" for v in (values[row], read.value))
        found = {"heading": column.title(), "one": one, "other": other}
        rows.found.append(
            (row, place.column, problem("cells-differ", cells, rows.layout.grid.cell(row, place.column), **found))
        )
        return
    values.setdefault(row, read.value)


def _same(one: Any, other: Any) -> bool:
    """Whether two cells say one thing; numbers may differ by their rounding."""
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= ROUNDING * max(abs(one), abs(other))
    return bool(one == other)


def _note(rows: Rows, key: str, place: Place, row: int, finding: Finding) -> None:
    where = rows.layout.grid.cell(row, place.column)
    found = {"heading": shown(place.heading.typed), **finding.found}
    rows.found.append((row, place.column, problem(finding.code, where, **found)))
    rows.faulty.add((row, key))
