"""Numbers with units: read, made metric, and held against the range that is believed."""

from __future__ import annotations

import re
from typing import Any

from handouts.sheets import PER_METRE, Column
from handouts.workbook.limits import BELIEF, LIST
from handouts.workbook.numbers import Typed, proposed_number, read_number, read_range
from handouts.workbook.outcome import Outcome, outcome
from handouts.workbook.texts import as_text, clean
from handouts.workbook.unit_words import Measure, imperial_of, measure, metric_of
from handouts.workbook.words import did_you_mean, plain, shown, spoken

PERCENT_WORDS = frozenset({"%", "percent", "per cent", "pct", "prozent", "％"})
ALONE = "Type the figure alone, like 12."
ROUND_PRICE = re.compile(r"(?<=\d)[.,]\s?[-–—]+")  # 12,– and 12.-
BEFORE_SLASH = re.compile(r"(?<=[^\W\d]{2})/")  # EUR/m, not p/m


def read_measure(value: Any, column: Column, own: Measure, heading: str, percent: bool) -> Outcome:
    """A number in the column's metric unit. own: the unit that the heading says; percent: the cell is formatted so."""
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        return _unreadable(as_text(value), column, heading)
    if isinstance(value, str):
        text, _ = clean(value)
        bare = _without_money(text, column)
        typed = read_number(bare) or _lower(bare, column)
        return _from_text(text, typed, column, own, heading) if typed else _unreadable(text, column, heading)
    if column.kind == "percent":
        return _percent(float(value), column, heading, percent)
    return _judged((own.metric(float(value)),), shown(float(value)), column, own, heading)


def _from_text(text: str, typed: Typed, column: Column, own: Measure, heading: str) -> Outcome:
    rest = _without_money(typed.rest, column)
    if column.kind == "percent" and (not rest or plain(rest) in PERCENT_WORDS or rest.casefold() in PERCENT_WORDS):
        return _percent(typed.readings[0], column, heading, sure=bool(rest), scale=1.0)
    other = measure(column, rest) if rest else own
    loose = plain(rest) in spoken("about")["words"] or (
        column.unit is None and column.kind == "number" and len(rest) < 20
    )
    if other is None and not loose:
        return _unreadable(text, column, heading)
    used = other or own
    read = _judged(tuple(used.metric(value) for value in typed.readings), shown(text), column, used, heading)
    changed = (used != own and not used.own) or typed.about or (loose and rest)
    if read.findings or not changed:
        return read
    return outcome(read.value, "read-as", heading=heading, found=shown(text), read=_with_unit(read.value, column))


def _lower(text: str, column: Column) -> Typed | None:
    """The lower end of a range, where that is what counts; marked as a reading of its own."""
    spread = read_range(text) if column.key in LIST["lower_of_range"] else None
    return Typed(spread.readings[:1], spread.rest, about=True) if spread else None


def _without_money(text: str, column: Column) -> str:
    """The text without currency signs and words, where the column holds a price: `12,– EUR/m` as `12 /m`."""
    if not column.key.startswith("price"):
        return text
    bare = text
    for sign in spoken("money")["signs"]:
        bare = bare.replace(sign, " ")
    words = BEFORE_SLASH.sub(" /", ROUND_PRICE.sub("", bare)).replace("/ ", "/").split()
    return " ".join(word for word in words if word.casefold().rstrip(".") not in spoken("money")["words"])


def _percent(value: float, column: Column, heading: str, sure: bool, scale: float = 100.0) -> Outcome:
    """Percent points. sure: the cell says %, so a number cell is a fraction; a bare 0.05 is read as 5, and said."""
    points = round(value * scale, 6) if sure else value
    if sure and scale != 1.0 and not _believed(points, column) and _believed(value, column):
        return outcome(value, "read-as", heading=heading, found=f"{shown(points)} %", read=f"{shown(value)} %")
    if not sure and 0 < abs(value) < 1:
        points = round(value * 100, 6)
        return outcome(points, "percent-read-as", heading=heading, found=shown(value), read=shown(points))
    return _judged((points,), shown(points), column, Measure("%"), heading)


def _judged(values: tuple[float, ...], found: str, column: Column, used: Measure, heading: str) -> Outcome:
    """The one value that is believed; a finding when none or more than one is."""
    good = [value for value in values if _believed(value, column)]
    if len(values) > 1 and len(good) != 1:
        one, other = (shown(value) for value in values[:2])
        return outcome(None, "number-ambiguous", heading=heading, found=found, one=one, other=other)
    if len(values) > 1:
        return outcome(good[0], "read-as", heading=heading, found=found, read=_with_unit(good[0], column))
    if good:
        return Outcome(good[0])
    proposal = _other_unit(values[0], found, column, used)
    told = {"heading": heading, "found": found, "range": _range(column, used)}
    if not proposal and _possible(values[0], column):
        return outcome(values[0], "number-odd", **told)
    return outcome(None, "number-not-believed", proposal=proposal, **told)


def _believed(value: float, column: Column) -> bool:
    return (column.low is None or value >= column.low) and (column.high is None or value <= column.high)


def _possible(value: float, column: Column) -> bool:
    """Whether a measured number is odd and no more than that: outside the believed range, and not far."""
    if not column.unit or column.group not in ("facts", "measured") or column.low is None or column.high is None:
        return False
    return column.low / BELIEF["reach"] <= value <= column.high * BELIEF["reach"]


def _range(column: Column, used: Measure) -> str:
    """The believed range in the unit in which the value was typed."""
    ends = [end for end in (column.low, column.high) if end is not None]
    if used.word != (column.unit.metric if column.unit else used.word):
        ends = sorted(used.factor / end if used.reciprocal else end / used.factor for end in ends if end)
    unit = used.word or ("%" if column.kind == "percent" else "")
    words = " to ".join(f"{end:.3g}" if end < 100 else f"{end:.0f}" for end in ends)
    return f"{words} {unit}".strip()


def _other_unit(value: float, found: str, column: Column, used: Measure) -> str:
    """A question that names the unit in which the number would make sense; the value comes in metric."""
    if not column.unit:
        return ""
    typed = used.typed(value)
    units = [
        unit for unit in (metric_of(column), imperial_of(column), measure(column, "m"), measure(column, "mm")) if unit
    ]
    for unit in units:
        if unit.word != used.word and _believed(unit.metric(typed), column):
            return did_you_mean(f"{shown(typed)} {unit.word}, which is {_with_unit(unit.metric(typed), column)}")
    return ""


def _with_unit(value: float, column: Column) -> str:
    unit = column.unit.metric if column.unit else "%" if column.kind == "percent" else ""
    return f"{value:.4g} {'per ' if unit == PER_METRE.metric else ''}{unit}".strip()


def _unreadable(text: str, column: Column, heading: str) -> Outcome:
    number = proposed_number(text)
    proposal = did_you_mean(shown(number)) if number is not None else ""
    return outcome(
        None, "number-unreadable", heading=heading, found=shown(text), proposal=proposal, help=column.help or ALONE
    )
