"""The Class sheet read: a setting and its value a row, defaults where nothing is typed."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

from handouts.problems import Problem, problem
from handouts.sheets import CLASS, PAGE_TYPES, Column
from handouts.workbook.bare_units import AS_CLASS_SAYS
from handouts.workbook.cells import read_cell, sense_of
from handouts.workbook.grid import Grid
from handouts.workbook.headings import Heading, heading
from handouts.workbook.layout import Layout
from handouts.workbook.outcome import Finding, Outcome
from handouts.workbook.rows import Words
from handouts.workbook.unit_words import imperial_of
from handouts.workbook.words import closest, did_you_mean, plain, shown


@dataclass
class Settings:
    """Values by Column.key, the cells they were typed in, and findings."""

    values: dict[str, Any] = field(default_factory=lambda: {column.key: column.default for column in CLASS.columns})
    cells: dict[str, str] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)


def read_settings(layout: Layout | None, words: Words) -> Settings:
    """The settings of a class; all defaults when there is no Class sheet."""
    settings = Settings()
    if layout is None:
        return settings
    key_column, value_column = layout.places["setting"].column, layout.places["value"].column
    units = _units(layout)
    for row in (row for row in layout.grid.rows if row <= layout.last_row):
        typed = layout.grid.value(row, key_column)
        if row == layout.header or not isinstance(typed, str) or not typed.strip():
            continue
        known = heading(typed.strip().rstrip(":"), CLASS, guess=_is_whole_sheet(layout))
        if known:
            _read_setting(settings, layout.grid, row, value_column, _with_unit(known, units), words)
        elif _is_whole_sheet(layout) and layout.grid.value(row, value_column) is not None and row >= layout.header:
            settings.problems.append(_unknown(layout.grid.cell(row, key_column), typed))
    return settings


def _units(layout: Layout) -> str:
    """What the setting Units says, wherever it stands: other settings may name no unit of their own."""
    key_column, value_column = layout.places["setting"].column, layout.places["value"].column
    column = CLASS.column("units")
    for row in layout.grid.rows:
        typed, value = layout.grid.value(row, key_column), layout.grid.value(row, value_column)
        known = heading(typed.strip().rstrip(":"), CLASS, guess=False) if isinstance(typed, str) else None
        if known and known.key == column.key and value is not None:
            return str(read_cell(value, sense_of(column, column.title(), None, {})).value)
    return ""


def _with_unit(known: Heading, units: str) -> Heading:
    """The setting with the unit that Units names, where its own words name none."""
    column = CLASS.column(known.key)
    bare = column.unit and not known.measure
    return replace(known, measure=imperial_of(column)) if bare and units == "imperial" else known


def _is_whole_sheet(layout: Layout) -> bool:
    """Whether the settings have a sheet of their own rather than a few lines above a list."""
    return bool(layout.header) or plain(layout.grid.title) == plain(CLASS.title)


def _unknown(cell: str, typed: str) -> Problem:
    near = closest(typed, [column.title() for column in CLASS.columns])
    return problem("setting-unknown", cell, found=shown(typed), proposal=did_you_mean(near))


def _read_setting(settings: Settings, grid: Grid, row: int, value_column: int, known: Heading, words: Words) -> None:
    column = CLASS.column(known.key)
    cell = grid.cell(row, value_column)
    spot = (row, value_column)
    read = read_cell(
        grid.value(*spot), sense_of(column, column.title(), known.measure, words), spot in grid.look.percent
    )
    read = _known_pages(read) if column.key == "pages" and read.value else read
    for finding in (*_blank_findings(grid, spot), *read.findings):
        settings.problems.append(problem(finding.code, cell, **{"heading": column.title(), **finding.found}))
    if read.value is None:
        return
    if known.key in settings.cells:
        settings.problems.append(problem("setting-twice", settings.cells[known.key], cell, heading=column.title()))
        return
    if known.measure and not known.measure.own and known.measure.word not in known.typed:
        settings.problems.append(_in_units(grid.cell(row, value_column - 1), column, known))
    elif known.how == "alike" or (known.how == "read" and plain(known.typed) not in plain(column.title())):
        found = {"found": shown(known.typed), "read": column.title()}
        settings.problems.append(problem("setting-read-as", grid.cell(row, value_column - 1), **found))
    settings.cells[known.key] = cell
    settings.values[known.key] = _whole(read.value)


def _in_units(cell: str, column: Column, known: Heading) -> Problem:
    """That a setting without a unit is read in the one that Units says."""
    found = {"found": shown(known.typed), "read": column.title(imperial=True), "other": column.title()}
    return problem("unit-assumed", cell, why=AS_CLASS_SAYS, **found)


def _blank_findings(grid: Grid, spot: tuple[int, int]) -> list[Finding]:
    if grid.value(*spot) is not None:
        return []
    if spot in grid.look.errors:
        return [Finding("cell-error", {"found": shown(grid.look.errors[spot])})]
    return [Finding("cell-uncalculated")] if spot in grid.look.stale else []


def _known_pages(read: Outcome) -> Outcome:
    """The page types among the words of the cell, and a finding for each word that is none."""
    words = [word for word in map(str.strip, read.value.split(",")) if word]
    known = [word for word in words if plain(word) in map(plain, PAGE_TYPES)]
    strange = (
        {"found": shown(word), "proposal": did_you_mean(closest(word, PAGE_TYPES)), "choices": ", ".join(PAGE_TYPES)}
        for word in words
        if word not in known
    )
    return Outcome(", ".join(known), (*read.findings, *(Finding("choice-unknown", found) for found in strange)))


def _whole(value: Any) -> Any:
    """8.0 students as 8."""
    return int(value) if isinstance(value, float) and value.is_integer() else value
