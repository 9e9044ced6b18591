"""The When and Is cells of a house rule as a condition: any heading or word for a fact, and what is asked of it."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from typing import Any

from handouts.advice.cloths import find_cloth
from handouts.advice.facts import TYPED, words
from handouts.advice.spelling import plain
from handouts.conditions import NAMES, column_of
from handouts.model import Knowledge
from handouts.sheets import FACTS, fact_kinds

ORDINARY = {
    "cloth": "cloth",
    "fibre": "fibres",
    "fiber": "fibres",
    "fibre content": "fibres",
    "fiber content": "fibres",
    "family": "families",
    "kind": "families",
    "made as": "structure",
}
"""Words for facts that no heading names."""


@cache
def fact_words() -> dict[str, str]:
    """Every heading and word for a fact, in plain spelling → the fact."""
    found = {plain(word): column.key for column in TYPED for word in column.spoken}
    for column in TYPED:
        bare = re.sub(r"\(.*?\)|\{unit\}", "", column.heading)
        found |= {plain(word): column.key for word in (column.title(), column.title(imperial=True), bare, column.key)}
    return {
        **found,
        **{plain(fact): fact for fact in FACTS},
        **{plain(said): fact for fact, said in NAMES.items()},
        **ORDINARY,
    }


def fact_of(text: str) -> str | None:
    """The fact a When cell names."""
    return fact_words().get(plain(text))


def test_of(fact: str, when: str, text: str, knowledge: Knowledge, imperial: bool) -> Any:
    """What an Is cell asks of a fact: a range, yes or no, or words, also `not …`; None when it cannot be read.

    A range in a unit of the other system, named in either cell, is turned into the fact's own; `imperial` where none is named.
    """
    kind = {**fact_kinds(), "cloth": "choice"}[fact]
    said = text.strip().casefold()
    if kind == "number":
        return ranged(fact, when, said, imperial)
    if kind == "yes_no":
        return {"yes": True, "y": True, "no": False, "n": False}.get(said)
    excluded = (
        re.fullmatch(r"(?:not|no|other than|except)\s+(.+)", said) if said not in known_words(fact, knowledge) else None
    )
    named = named_words(fact, words(excluded[1] if excluded else said), knowledge)
    return {"none": named} if named and excluded else named


NUMBER = r"(-?\d+(?:[.,]\d+)?)"
RANGES = (
    (rf"(?:over|above|more than|>)\s*{NUMBER}", ("above",)),
    (rf"(?:under|below|less than|<)\s*{NUMBER}", ("below",)),
    (rf"(?:from|at least|>=|≥)\s*{NUMBER}", ("min",)),
    (rf"(?:up to|at most|<=|≤)\s*{NUMBER}", ("max",)),
    (rf"{NUMBER}\s*(?:to|-|–|and)\s*{NUMBER}", ("min", "max")),
    (NUMBER, ("min", "max")),
)
METRIC = r"g/m²|g/m2|gsm|cm|mm"
IMPERIAL = r"oz/yd²|oz/yd2|oz|inches|inch|in"


def range_of(said: str) -> tuple[dict[str, float], str] | None:
    """`over 300`, `90 to 200 gsm` → a test, and the unit that follows."""
    for pattern, tests in RANGES:
        if match := re.fullmatch(rf"{pattern}\s*({METRIC}|{IMPERIAL}|%)?", said):
            *numbers, unit = match.groups()
            values = [float(number.replace(",", ".")) for number in numbers]
            return dict(zip(tests, values * 2, strict=False)), unit or ""
    return None


def ranged(fact: str, when: str, said: str, imperial: bool) -> dict[str, float] | None:
    """A range in the fact's own unit."""
    found, column = range_of(said), column_of(fact)
    if found is None or column is None or column.unit is None:
        return found[0] if found else None
    unit = column.unit
    tests, named = found
    if re.fullmatch(METRIC, named):
        imperial = False
    elif re.fullmatch(IMPERIAL, named):
        imperial = True
    else:
        imperial = unit.imperial in when or (imperial and unit.metric not in when)
    return {test: value * unit.factor for test, value in tests.items()} if imperial else tests


def named_words(fact: str, said: Sequence[str], knowledge: Knowledge) -> list[str] | None:
    """The fact's own words for those said; None when one of them is no value of it."""
    if fact == "cloth":
        cloths = [find_cloth(word, knowledge).item for word in said]
        return [item.id for item in cloths if item] if said and all(cloths) else None
    known = known_words(fact, knowledge)
    found = [known.get(plain(word)) for word in said]
    return [word for word in found if word] if found and all(found) else None


def known_words(fact: str, knowledge: Knowledge) -> Mapping[str, str]:
    """Every word for a value of a fact, in plain spelling → the value."""
    return {plain(said): value for said, value in spoken_values(fact, knowledge)}


def spoken_values(fact: str, knowledge: Knowledge) -> Iterator[tuple[str, str]]:
    """(word, value) for everything a fact can hold."""
    column = column_of(fact)
    if column is not None:
        yield from ((choice, choice) for choice in column.choices)
    elif fact in ("fibres", "main_fibre"):
        yield from ((w, f.id) for f in knowledge.fibres.values() for w in (f.id, f.us, f.eu, *f.spoken))
    elif fact == "construction":
        yield from ((w, c.id) for c in knowledge.constructions.values() for w in (c.id, c.name, *c.spoken))
    else:
        values = {
            "families": knowledge.tables["families"]["families"],
            "structure": {c.structure: None for c in knowledge.constructions.values()},
            "fibre_groups": {f.group: None for f in knowledge.fibres.values()},
        }
        yield from ((value, value) for value in values.get(fact, ()))


def did_you_mean(said: str, known: Sequence[str]) -> str:
    """`Did you mean “weight”? ` or nothing."""
    near = difflib.get_close_matches(said.lower(), [word.lower() for word in known], n=1, cutoff=0.6)
    return f"Did you mean “{near[0]}”? " if near else ""
