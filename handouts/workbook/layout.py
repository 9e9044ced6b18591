"""Finds which sheet is which by its headings, wherever it stands and whatever it is called."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from handouts.sheets import CLASS, FABRICS, HOUSE, SUPPLIES, Column, Sheet
from handouts.workbook.grid import Grid
from handouts.workbook.headings import Heading, heading, headings_in, points
from handouts.workbook.limits import SHEET
from handouts.workbook.unit_words import measure
from handouts.workbook.words import plain, spoken

PROBLEM_HEADINGS = ("Where", "What was found", "How to mend it", "Weight")
AROUND_UNITS = "()[] €$£¥"
NEEDED: Mapping[str, tuple[int, frozenset[str]]] = {
    # sheet → how many of its headings it takes, and of which one at least
    "fabrics": (2, frozenset({"name", "cloth", "fibre_content"})),
    "house": (3, frozenset({"topic", "advice"})),
    "supplies": (2, frozenset({"item"})),
}


@dataclass(frozen=True)
class Place:
    """Where a column stands."""

    column: int
    heading: Heading


@dataclass(frozen=True)
class Layout:
    """A sheet found: its grid, the row of its headings (0: none), the columns by key, and what else was seen.

    bare: the columns whose heading names no unit, with the reason for the one that is taken.
    """

    sheet: Sheet
    grid: Grid
    header: int
    places: Mapping[str, Place]
    twice: tuple[tuple[str, Place], ...] = ()
    unknown: Mapping[int, str] = field(default_factory=dict)
    first_row: int = 0
    last_row: int = SHEET["most_rows"]
    score: int = 0
    bare: Mapping[str, str] = field(default_factory=dict)


def find_lists(grids: Sequence[Grid]) -> tuple[dict[str, Layout], list[Layout]]:
    """The best layout for each list sheet by key, and further sheets that look like a list of fabrics."""
    chosen: dict[str, Layout] = {}
    others: list[Layout] = []
    found = [fit for grid in grids if not _is_written_by_us(grid) if (fit := _likeliest(grid))]
    for sheet in (FABRICS, HOUSE, SUPPLIES):
        fits = sorted((fit for fit in found if fit.sheet is sheet), key=lambda fit: -_rank(fit))
        if fits:
            chosen[sheet.key] = fits[0]
            others += fits[1:] if sheet is FABRICS else []
    return chosen, others


def _likeliest(grid: Grid) -> Layout | None:
    """The list whose headings a sheet holds most of: rows of house rules may name as many things as headings do."""
    fits = [fit for sheet in (FABRICS, HOUSE, SUPPLIES) if (fit := _as_list(grid, sheet))]
    return max(fits, key=_rank, default=None)


def _is_written_by_us(grid: Grid) -> bool:
    """Whether the sheet holds the starter's drop-down lists or a marked copy's findings."""
    first = next(iter(grid.rows.values()), [])
    texts = [cell for cell in first if isinstance(cell, str)]
    return bool(texts) and (texts[0].startswith("list of ") or texts[:2] == list(PROBLEM_HEADINGS[:2]))


def _rank(layout: Layout) -> int:
    """Sure headings first; the sheet's proper name and being visible tip the scale."""
    named = plain(layout.grid.title) == plain(layout.sheet.title)
    return layout.score + (4 if named else 0) - (6 if layout.grid.hidden else 0)


def _as_list(grid: Grid, sheet: Sheet) -> Layout | None:
    count, among = NEEDED[sheet.key]
    best, best_row = 0, 0
    for row in list(grid.rows)[: SHEET["heading_rows"]]:
        found = headings_in(grid.rows[row], sheet)
        sure = {known.key for known in found.values() if known.how != "alike"}
        score = points(found.values())
        if len({known.key for known in found.values()}) >= count and sure & among and score > best:
            best, best_row = score, row
    return _layout(grid, sheet, best_row, best) if best else None


def _layout(grid: Grid, sheet: Sheet, row: int, score: int) -> Layout:
    found = headings_in(grid.rows[row], sheet)
    sure_first = sorted(found.items(), key=lambda pair: (pair[1].how == "alike", pair[0]))
    places: dict[str, Place] = {}
    twice: list[tuple[str, Place]] = []
    for column, known in sure_first:
        if known.key not in places:
            places[known.key] = Place(column, known)
        elif known.how != "alike":
            twice.append((known.key, Place(column, known)))
    used = {place.column for place in (*places.values(), *(place for _, place in twice))}
    cells = enumerate(grid.rows[row], 1)
    unknown = {
        column: str(cell) for column, cell in cells if column not in used and cell is not None and str(cell).strip()
    }
    if not _are_units(grid.rows.get(row + 1, ())):
        return Layout(sheet, grid, row, places, tuple(twice), unknown, row + 1, score=score)
    places = {key: _with_unit_below(place, sheet.column(key), grid, row) for key, place in places.items()}
    return Layout(sheet, grid, row, places, tuple(twice), unknown, row + 2, score=score)


def _are_units(row: Sequence[Any]) -> bool:
    """Whether a row below the headings holds nothing but units: g/m² · inches · % · €/m."""
    cells = [cell for cell in row if cell is not None]
    units = {plain(word) for table in spoken("units").values() for word in (*table["metric"], *table["imperial"])}
    known = units | {"%", "0 3", *spoken("money")["signs"]}
    return bool(cells) and all(
        isinstance(cell, str) and {plain(cell.strip(AROUND_UNITS)), cell.strip()} & known for cell in cells
    )


def _with_unit_below(place: Place, column: Column, grid: Grid, row: int) -> Place:
    """The place with the unit that stands below its heading, where the heading names none."""
    below = grid.value(row + 1, place.column)
    found = measure(column, below.strip(AROUND_UNITS)) if isinstance(below, str) else None
    return place if place.heading.measure else replace(place, heading=replace(place.heading, measure=found))


def find_class(grids: Sequence[Grid], lists: Iterable[Layout]) -> Layout | None:
    """The Class sheet: settings in one column, values in the next; it may stand above the fabrics on their own sheet."""
    above = {id(found.grid): found.header for found in lists}
    fits = [_as_pairs(grid, above.get(id(grid), 0)) for grid in grids]
    good = sorted((fit for fit in fits if fit), key=lambda fit: -_rank(fit))
    return good[0] if good else None


def _as_pairs(grid: Grid, header_below: int) -> Layout | None:
    rows = [row for row in grid.rows if not header_below or row < header_below][:200]
    titles, column, value = _pair_columns(grid, rows)
    known = [found for row in rows if (found := _setting(grid.value(row, column), guess=False))]
    sure = {found.key for found in known}
    named = plain(grid.title) == plain(CLASS.title)
    if len(sure) < (1 if named or titles else 2 if header_below else 3):
        return None
    key_place = Heading("setting", "Setting", "exact")
    value_place = Heading("value", "Value", "exact")
    places = {"setting": Place(column, key_place), "value": Place(value, value_place)}
    return Layout(
        CLASS, grid, titles, places, first_row=rows[0], last_row=rows[-1], score=points(known) + (3 if titles else 0)
    )


def _pair_columns(grid: Grid, rows: Sequence[int]) -> tuple[int, int, int]:
    """The row of the words Setting and Value (0: none) and the columns that hold settings and values."""
    for row in rows[:20]:
        words = {plain(cell): column for column, cell in enumerate(grid.rows[row], 1) if isinstance(cell, str)}
        if "setting" in words and "value" in words:
            return row, words["setting"], words["value"]
    columns = range(1, 1 + min(8, max((len(grid.rows[row]) for row in rows), default=0)))
    counts = {column: sum(bool(_setting(grid.value(row, column), False)) for row in rows) for column in columns}
    best = max(counts, key=lambda column: counts[column], default=1)
    wide = next((block[3] for block in grid.look.merged if block[1] == best and block[0] == block[2]), best)
    return 0, best, wide + 1


def _setting(cell: Any, guess: bool = True) -> Heading | None:
    """The setting that a cell names."""
    return heading(cell.strip().rstrip(":"), CLASS, guess) if isinstance(cell, str) and 0 < len(cell) < 60 else None
