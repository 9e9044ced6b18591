"""The class's own rules: the House rules sheet, row by row, as rules of the tier `house`."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from handouts.advice.choices import own_rule
from handouts.advice.cloths import find_cloth, plain
from handouts.advice.facts import words
from handouts.model import Knowledge, Rule, Topic, Value
from handouts.problems import Problem, problem
from handouts.sheets import FABRICS, fact_kinds

ORDINARY = {"fibre": "fibres", "fiber": "fibres", "family": "families", "kind": "families", "made as": "structure"}
"""Words for facts that no Fabrics column holds."""


@dataclass(frozen=True)
class HouseRow:
    """One row of the House rules sheet: its number and its filled cells by Column.key."""

    number: int
    cells: Mapping[str, str]


def house_rules(
    rows: Sequence[HouseRow], cell: Callable[[str, int], str], knowledge: Knowledge
) -> tuple[list[Rule], list[Problem]]:
    """The class's own rules and what is wrong with their rows. Conditions add up until a row names a Topic."""
    rules: list[Rule] = []
    problems: list[Problem] = []
    when: dict[str, Any] = {}
    broken = False
    for row in rows:
        fact, found = condition(row, cell, knowledge)
        problems += found
        broken = broken or bool(found)
        when |= fact
        if "topic" not in row.cells:
            continue
        topic, found = topic_of(row, cell, knowledge)
        value, worse = advice_of(row, topic, cell) if topic else (None, [])
        problems += found + worse
        if topic and not (broken or found or worse):
            because = row.cells.get("because", "A rule of this class.")
            rules.append(own_rule(topic.id, value, cell("topic", row.number), "house", because, when))
        when, broken = {}, False
    return rules, problems


def condition(
    row: HouseRow, cell: Callable[[str, int], str], knowledge: Knowledge
) -> tuple[dict[str, Any], list[Problem]]:
    """The fact and test that When and Is name; an empty When holds for every fabric."""
    if "when" not in row.cells:
        return {}, []
    fact = fact_of(row.cells["when"])
    if fact is None:
        near = did_you_mean(row.cells["when"], list(fact_words()))
        return {}, [problem("house-when-unknown", cell("when", row.number), found=row.cells["when"], proposal=near)]
    test = test_of(fact, row.cells.get("is", "yes"), knowledge)
    if test is None:
        return {}, [
            problem(
                "house-is-unreadable", cell("is", row.number), found=row.cells.get("is", ""), when=row.cells["when"]
            )
        ]
    return {fact: test}, []


def fact_words() -> dict[str, str]:
    """Every heading and word for a fact, in plain spelling → the fact."""
    kinds = {**fact_kinds(), "cloth": "choice"}
    named = {plain(c.title(imperial)): c.key for c in FABRICS.columns if c.key in kinds for imperial in (False, True)}
    bare = {plain(re.sub(r"\(.*?\)|\{unit\}", "", c.heading)): c.key for c in FABRICS.columns if c.key in kinds}
    return {**{plain(k): k for k in kinds}, **bare, **named, **ORDINARY}


def fact_of(text: str) -> str | None:
    """The fact a When cell names."""
    return fact_words().get(plain(text))


NUMBER = r"(-?\d+(?:[.,]\d+)?)"
RANGES = (
    (rf"(?:over|above|more than|>)\s*{NUMBER}", ("above",)),
    (rf"(?:under|below|less than|<)\s*{NUMBER}", ("below",)),
    (rf"(?:from|at least|>=|≥)\s*{NUMBER}", ("min",)),
    (rf"(?:up to|at most|<=|≤)\s*{NUMBER}", ("max",)),
    (rf"{NUMBER}\s*(?:to|-|–|and)\s*{NUMBER}", ("min", "max")),
    (NUMBER, ("min", "max")),
)


def test_of(fact: str, text: str, knowledge: Knowledge) -> Any:
    """What an Is cell asks of a fact: a range, yes or no, or words; None when it cannot be read."""
    kind = {**fact_kinds(), "cloth": "choice"}[fact]
    said = text.strip().lower()
    if kind == "number":
        return range_of(said)
    if kind == "yes_no":
        return {"yes": True, "no": False}.get(said)
    if fact == "cloth":
        found = [find_cloth(word, knowledge).item for word in words(said)]
        return [item.id for item in found if item] if all(found) else None
    if fact in ("fibres", "main_fibre"):
        return fibres_of(words(said), knowledge)
    return words(said) or None


def range_of(said: str) -> dict[str, float] | None:
    """`over 300`, `90 to 200` → a test; the unit may follow."""
    for pattern, tests in RANGES:
        if match := re.fullmatch(pattern + r"(?:\s*(?:g/m²|gsm|cm|mm|%))?", said):
            numbers = [float(number.replace(",", ".")) for number in match.groups()]
            return dict(zip(tests, numbers * 2, strict=False))
    return None


def fibres_of(said: Sequence[str], knowledge: Knowledge) -> list[str] | None:
    """Fibre ids for the words said; None when one is no fibre."""
    known = {plain(w): f.id for f in knowledge.fibres.values() for w in (f.id, f.us, f.eu, *f.spoken)}
    found = [known.get(plain(word)) for word in said]
    return [fibre for fibre in found if fibre] if found and all(found) else None


def topic_of(
    row: HouseRow, cell: Callable[[str, int], str], knowledge: Knowledge
) -> tuple[Topic | None, list[Problem]]:
    """The topic that a Topic cell names, by title or id."""
    said = plain(row.cells["topic"])
    named = {plain(word): topic for topic in knowledge.topics.values() for word in (topic.title, topic.id)}
    if said in named:
        return named[said], []
    near = did_you_mean(row.cells["topic"], [topic.title for topic in knowledge.topics.values()])
    return None, [problem("house-topic-unknown", cell("topic", row.number), found=row.cells["topic"], proposal=near)]


def advice_of(row: HouseRow, topic: Topic, cell: Callable[[str, int], str]) -> tuple[Value, list[Problem]]:
    """The Advice cell in the topic's shape."""
    text = row.cells.get("advice", "").strip()
    value = SHAPES[topic.shape](text, topic) if text else None
    if value is None:
        allowed = ", ".join(map(str, topic.order)) or {"range": "a number, or 70 to 90", "lines": "a sentence"}.get(
            topic.shape, "words"
        )
        return None, [
            problem("house-advice-unfit", cell("advice", row.number), found=text, topic=topic.title, allowed=allowed)
        ]
    return value, []


def listed(text: str, topic: Topic) -> Value:
    """Several words of the topic's own; None when one is not."""
    found = tuple(word.lower() for word in words(text))
    return found if found and (not topic.order or set(found) <= set(topic.order)) else None


def spanned(text: str, topic: Topic) -> Value:
    """A number or `70 to 90`; starts at the lower end."""
    found = range_of(text.lower())
    return (
        {"low": found["min"], "high": found["max"], "start": found["min"]}
        if found and set(found) == {"min", "max"}
        else None
    )


def worded(text: str, topic: Topic) -> Value:
    """One word of the topic's own, with numbers read as numbers."""
    known = {str(value).lower(): value for value in topic.order}
    return known.get(text.lower())


def figure(text: str, topic: Topic) -> Value:
    """A plain number."""
    return float(text) if re.fullmatch(r"\d+(\.\d+)?", text) else None


SHAPES: Mapping[str, Callable[[str, Topic], Value]] = {
    "choice": worded,
    "list": listed,
    "lines": lambda text, _: (text,),
    "words": lambda text, _: text,
    "range": spanned,
    "number": figure,
    "record": lambda text, _: None,
}


def did_you_mean(said: str, known: Sequence[str]) -> str:
    """`Did you mean Weight? ` or nothing."""
    near = difflib.get_close_matches(said.lower(), [word.lower() for word in known], n=1, cutoff=0.6)
    return f"Did you mean “{near[0]}”? " if near else ""
