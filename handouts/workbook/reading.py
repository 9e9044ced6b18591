"""A workbook in, a Book out: opens the file, finds the sheets, reads the cells, checks the columns."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from handouts.problems import Problem, problem, worst_first
from handouts.records import Book
from handouts.sheets import FABRICS, HOUSE, SUPPLIES
from handouts.workbook.bare_units import with_units
from handouts.workbook.columns import check_fabrics
from handouts.workbook.csvs import one_cell_lines
from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.layout import Layout, find_class, find_lists
from handouts.workbook.lists_apart import apart
from handouts.workbook.notes import notes_on
from handouts.workbook.opening import open_grids
from handouts.workbook.rows import Rows, Words, empty_frame, read_rows
from handouts.workbook.settings import Settings, read_settings
from handouts.workbook.words import shown, spoken

if TYPE_CHECKING:
    import pandas as pd


def read_book(path: Path, words: Words) -> Book:
    """The workbook as typed, and every finding; a file that cannot be read gives an empty Book with one finding of `stop`."""
    try:
        grids, problems = open_grids(path)
    except Unreadable as error:
        return _empty(path, Settings(), [error.finding])
    whole = [replace(grid, title=shown(grid.title) or "Sheet").with_merges_filled() for grid in grids]
    grids = [part for grid in whole for part in apart(grid)]
    lists, others = find_lists(grids)
    fabrics = lists.get(FABRICS.key)
    settings = read_settings(find_class(grids, lists.values()), words)
    if fabrics is None:
        return _empty(path, settings, [*problems, _no_list(path, whole)])
    return _filled(path, settings, lists, words, [*problems, *_others(others)])


def _no_list(path: Path, grids: Sequence[Grid]) -> Problem:
    """Why no list was found."""
    for grid in grids:
        if sign := one_cell_lines(grid):
            return problem(
                "lines-in-one-cell", grid.cell(min(grid.rows), 1), title=grid.title, sign=SIGNS.get(sign, sign)
            )
    titles = ", ".join(grid.title for grid in grids[:6])
    return problem("fabrics-missing", name=shown(path.name), titles=titles or "none")


SIGNS = {"\t": "tab"}


def currency_of(rows: Rows) -> str:
    """The one currency that the price cells name, like € in `10,50 €`; nothing when they name none or several."""
    place = rows.layout.places.get("price_per_m")
    if place is None:
        return ""
    cells = [rows.layout.grid.value(row, place.column) for row in rows.numbers]
    money = spoken("money")
    signs = "|".join(map(re.escape, money["signs"]))
    words = [re.findall(rf"{signs}|[^\W\d_]+", cell) for cell in cells if isinstance(cell, str)]
    named = {word for found in words for word in found if word in money["signs"] or word.casefold() in money["words"]}
    return named.pop() if len(named) == 1 else ""


def _others(others: Sequence[Layout]) -> list[Problem]:
    firsts = ((other, min(place.column for place in other.places.values())) for other in others)
    return [
        problem("sheet-not-read", other.grid.cell(other.header, at), title=other.grid.title) for other, at in firsts
    ]


def _filled(path: Path, settings: Settings, lists: Mapping[str, Layout], words: Words, problems: list[Problem]) -> Book:
    frames: dict[str, pd.DataFrame] = {}
    letters: dict[tuple[str, str], str] = {}
    found = [*problems, *settings.problems]
    for sheet in (FABRICS, HOUSE, SUPPLIES):
        layout = lists.get(sheet.key)
        if layout is None:
            frames[sheet.key] = empty_frame(sheet.columns)
            continue
        layout = with_units(layout, settings.values["units"])
        rows = read_rows(layout, words)
        frames[sheet.key] = rows.frame()
        if sheet is FABRICS and not settings.values["currency"]:
            settings.values["currency"] = currency_of(rows)
        letters |= rows.letters
        _check(rows, frames[sheet.key], settings)
        found += [*notes_on(layout), *rows.problems()]
    titles = {key: layout.grid.title for key, layout in lists.items()}
    return _book(path, settings, frames, letters, titles, found)


def _check(rows: Rows, frame: pd.DataFrame, settings: Settings) -> None:
    """The checks by column of one sheet."""
    if rows.layout.sheet is FABRICS:
        if frame.empty:
            rows.add(rows.layout.first_row, "name", "fabrics-none")
        check_fabrics(rows, frame, settings.values["currency"])
    if rows.layout.sheet is SUPPLIES:
        for row in frame.index[frame["item"].isna()]:
            rows.add(int(row), "item", "item-missing")


def _empty(path: Path, settings: Settings, problems: list[Problem]) -> Book:
    frames = {sheet.key: empty_frame(sheet.columns) for sheet in (FABRICS, HOUSE, SUPPLIES)}
    return _book(path, settings, frames, {}, {}, [*problems, *settings.problems])


def _book(
    path: Path,
    settings: Settings,
    frames: Mapping[str, pd.DataFrame],
    letters: Mapping[tuple[str, str], str],
    titles: Mapping[str, str],
    problems: list[Problem],
) -> Book:
    return Book(
        path=path,
        settings=settings.values,
        fabrics=frames["fabrics"],
        house=frames["house"],
        supplies=frames["supplies"],
        letters=letters,
        titles=titles,
        problems=tuple(worst_first(problems)),
        setting_cells=settings.cells,
    )
