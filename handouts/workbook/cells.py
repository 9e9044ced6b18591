"""One cell read by the kind of its column: what it gives, and what there is to say about it."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from handouts.sheets import Column
from handouts.workbook.choices import read_choice
from handouts.workbook.measures import read_measure
from handouts.workbook.needles import read_needle
from handouts.workbook.outcome import BLANK, Outcome, outcome
from handouts.workbook.texts import as_text, became, clean, read_date, read_text
from handouts.workbook.unit_words import Measure, metric_of
from handouts.workbook.words import did_you_mean, plain, shown, spoken


@dataclass(frozen=True)
class Sense:
    """How the cells of one column are to be read: its unit as the heading says it, and the words of its drop-down."""

    column: Column
    heading: str
    measure: Measure
    words: tuple[str, ...] = ()


def sense_of(column: Column, heading: str, measure: Measure | None, words: Mapping[str, tuple[str, ...]]) -> Sense:
    """The Sense of a column whose heading was typed as `heading`."""
    vocabulary = column.choices or tuple(words.get(column.vocabulary, ()))
    return Sense(column, heading, measure or metric_of(column), vocabulary)


def read_cell(value: Any, sense: Sense, percent: bool = False) -> Outcome:
    """The value in metric units and the findings; blank cells and “?” give nothing. percent: the cell is formatted so."""
    if value is None or (isinstance(value, str) and not value.strip()):
        return BLANK
    return KINDS[sense.column.kind](value, sense, percent)


def _number(value: Any, sense: Sense, percent: bool) -> Outcome:
    if _is_unknown(value):
        return BLANK
    if isinstance(value, datetime.date):
        return outcome(None, "number-became-date", heading=sense.heading, **became(value))
    return read_measure(value, sense.column, sense.measure, sense.heading, percent)


def _grade(value: Any, sense: Sense, percent: bool) -> Outcome:
    if isinstance(value, str):
        word = plain(value)
        for grade, words in spoken("grades").items():
            if word in words:
                return outcome(float(grade), "read-as", heading=sense.heading, found=shown(value), read=grade)
    return _number(value, sense, percent)


def _is_unknown(value: Any) -> bool:
    return isinstance(value, str) and value.strip().casefold() in spoken("unknown")["words"]


def _yes_no(value: Any, sense: Sense, percent: bool) -> Outcome:
    table = spoken("yes_no")
    word = as_text(value).strip().casefold()
    if word in table["yes"] or word in table["marks"]:
        return Outcome(True)
    if word in table["no"]:
        return Outcome(False)
    if _is_unknown(value):
        return BLANK
    return outcome(
        None, "yes-no-unreadable", heading=sense.heading, found=shown(value), help=f" {sense.column.help}".rstrip()
    )


def _choice(value: Any, sense: Sense, percent: bool) -> Outcome:
    if _is_unknown(value) and plain(str(value)) not in {plain(word) for word in sense.words}:
        return BLANK
    read = read_text(value)
    return read if read.value is None else read_choice(read.value, sense.column, sense.words, sense.heading)


def _needle(value: Any, sense: Sense, percent: bool) -> Outcome:
    if isinstance(value, datetime.date):
        return outcome(None, "number-became-date", heading=sense.heading, **became(value))
    if _is_unknown(value):
        return BLANK
    typed, _ = clean(as_text(value))
    needle = read_needle(typed, sense.words)
    near = did_you_mean(str(needle.found.get("near", "")))
    found = {**needle.found, "heading": sense.heading, "found": shown(typed), "proposal": near}
    return outcome(needle.text or None, needle.fault, **found)


def _content(value: Any, sense: Sense, percent: bool) -> Outcome:
    if percent and isinstance(value, float | int):
        return Outcome(f"{round(value * 100, 6):g}%")
    return read_text(value)


def _photo(value: Any, sense: Sense, percent: bool) -> Outcome:
    read = read_text(value)
    name = read.value or ""
    if re.search(r"[/\\:]|\.\.", name):
        bare = re.split(r"[/\\:]", name)[-1].strip(". ")
        return outcome(None, "photo-path", found=shown(name), proposal=did_you_mean(f"“{shown(bare)}”" if bare else ""))
    return read


def _text(value: Any, sense: Sense, percent: bool) -> Outcome:
    return read_text(value)


def _date(value: Any, sense: Sense, percent: bool) -> Outcome:
    return read_date(value, sense.heading)


KINDS: Mapping[str, Callable[[Any, Sense, bool], Outcome]] = {
    "text": _text,
    "cloth": _text,
    "content": _content,
    "photo": _photo,
    "number": _number,
    "percent": _number,
    "grade": _grade,
    "yes_no": _yes_no,
    "choice": _choice,
    "needle": _needle,
    "date": _date,
}
