"""Recognises headings however they are written: case, spaces, units, other names, slips of the keyboard."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from handouts.sheets import FABRICS, SHEETS, Column, Sheet
from handouts.workbook.limits import SHEET
from handouts.workbook.unit_words import Measure, imperial_of, measure, metric_of
from handouts.workbook.words import closest, plain, spoken

BRACKETS = re.compile(r"[\(\[]([^)\]]*)[\)\]]")
POINTS = {"exact": 3, "read": 2, "alike": 1}
MONEY = "€$£¥"
BY_KEY = {sheet.key: sheet for sheet in SHEETS}


@dataclass(frozen=True)
class Heading:
    """A heading as recognised. how: exact, read (another way of writing it), alike (a likely slip). measure: its unit."""

    key: str
    typed: str
    how: str
    measure: Measure | None = None


def heading(typed: str, sheet: Sheet, guess: bool = True) -> Heading | None:
    """The column of `sheet` that a heading names, None when it names none; `guess` lets slips of the keyboard pass."""
    text = " ".join("".join(sign for sign in typed if not _is_picture(sign)).split())
    return _sure(text, sheet.key) or (_alike(text, sheet.key) if guess else None)


def _is_picture(sign: str) -> bool:
    """Whether a sign is an emoji, an arrow or what shapes one; degrees are none."""
    return sign != "°" and (unicodedata.category(sign) in ("So", "Sk", "Cf") or sign == "\ufe0f")


@lru_cache(10_000)
def _sure(text: str, key: str) -> Heading | None:
    sheet = BY_KEY[key]
    return _exact(key).get(text) or _named_with_unit(text, sheet) or _read(text, sheet)


def best_fit(rows: Iterable[Sequence[Any]]) -> int:
    """How many points the row with the most recognised headings of any list has."""
    lists = [sheet for sheet in SHEETS if sheet.layout == "list"]
    return max((points(headings_in(row, sheet).values()) for row in rows for sheet in lists), default=0)


def headings_in(row: Sequence[Any], sheet: Sheet) -> dict[int, Heading]:
    """The headings of `sheet` in a row, by column number from 1. Slips pass only in a row with two sure headings."""
    texts = {column: cell for column, cell in enumerate(row, 1) if isinstance(cell, str) and 0 < len(cell) < 80}
    sure = {column: heading(text, sheet, guess=False) for column, text in texts.items()}
    last = SHEET["guessed_columns"] if sum(known is not None for known in sure.values()) > 1 else 0
    found = {
        column: known or (heading(texts[column], sheet) if column <= last else None) for column, known in sure.items()
    }
    return {column: known for column, known in found.items() if known}


def points(headings: Iterable[Heading]) -> int:
    """How sure a row of headings is; a key counts once."""
    best: dict[str, int] = {}
    for known in headings:
        best[known.key] = max(best.get(known.key, 0), POINTS[known.how])
    return sum(best.values())


@cache
def _exact(key: str) -> dict[str, Heading]:
    """The headings of a sheet as declared, in both systems of units; Frays stands for Frays (0-3) too."""
    found: dict[str, Heading] = {}
    for column in BY_KEY[key].columns:
        spelt = {column.title(): metric_of(column) if column.unit else None}
        spelt |= {column.title(imperial=True): imperial_of(column)} if column.unit else {}
        spelt |= {} if column.unit else {_without_brackets(column.title())[0]: None}
        for text, unit in spelt.items():
            found.setdefault(text, Heading(column.key, text, "exact", unit))
    return found


def _named_with_unit(text: str, sheet: Sheet) -> Heading | None:
    found = spoken("headings").get(plain(text))
    if not found or found[0] != sheet.key:
        return None
    return Heading(found[1], text, "read", measure(sheet.column(found[1]), found[2]))


def _read(text: str, sheet: Sheet) -> Heading | None:
    names = _names(sheet.key)
    bare, unit = _without_brackets(text)
    column = names.get(plain(text)) or names.get(plain(bare))
    if column:
        return Heading(column.key, text, "read", _unit_in(column, text, unit))
    words = text.replace("_", " ").strip(MONEY + " ").split()
    for count in range(1, min(4, len(words))):
        rest = words[: -count - 1] if words[-count - 1].casefold() in ("in", "per") else words[:-count]
        column = names.get(plain(" ".join(rest)))
        found = measure(column, " ".join(words[-count:])) if column and column.unit else None
        if column and found:
            return Heading(column.key, text, "read", found)
    return None


def _unit_in(column: Column, text: str, bracket: str) -> Measure | None:
    """The unit that a heading names: in brackets, as its last words (Price per meter, Preis/m), or as our own key does."""
    if not column.unit:
        return None
    words = text.replace("/", " ").split()
    ends = (" ".join(words[-count:]) for count in range(1, min(4, len(words) + 1)))
    named = next((found for word in (bracket, text, *ends) if word and (found := measure(column, word))), None)
    return metric_of(column) if plain(text) == plain(column.key) else named


@lru_cache(10_000)
def _alike(text: str, key: str) -> Heading | None:
    sheet = BY_KEY[key]
    bare, unit = _without_brackets(text)
    names = _names(sheet.key)
    near = closest(bare, names) if len(plain(bare)) > 3 else ""
    if not near:
        return None
    column = names[near]
    return Heading(column.key, text, "alike", measure(column, unit) if column.unit and unit else None)


def _without_brackets(text: str) -> tuple[str, str]:
    """The heading without what stands in brackets, and that."""
    found = BRACKETS.search(text)
    return BRACKETS.sub(" ", text).strip() or text, found[1].strip(MONEY + " ") if found else ""


@cache
def _names(key: str) -> dict[str, Column]:
    """Every way to write a heading of a sheet, brought to one spelling, and its column; the heading itself wins."""
    sheet = BY_KEY[key]
    names: dict[str, Column] = {}
    for column in reversed(sheet.columns):
        for name in reversed(column.spoken):
            names[plain(name)] = column
            names[plain(_without_brackets(name)[0])] = column
    for column in reversed(sheet.columns):
        for name in spoken("languages").get(column.key, ()) if sheet is FABRICS else ():
            names.setdefault(plain(name), column)
    for column in reversed(sheet.columns):
        names[plain(column.title())] = column
        names[plain(_without_brackets(column.heading)[0].replace("{unit}", ""))] = column
        names.setdefault(plain(column.key), column)
    return names
