"""The class's own rules: the House rules sheet, row by row, as rules of the tier `house`."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from handouts.advice.choices import iron_choice, own_rule
from handouts.advice.house_advice import ALLOWED, SHAPES
from handouts.advice.house_when import did_you_mean, fact_of, fact_words, known_words, test_of
from handouts.advice.spelling import plain
from handouts.model import Knowledge, Rule, Topic, Value
from handouts.problems import Problem, problem

Cell = Callable[[str, int], str]
"""(column key, row number) → where it stands."""


@dataclass(frozen=True)
class HouseRow:
    """One row of the House rules sheet: its number and its filled cells by Column.key."""

    number: int
    cells: Mapping[str, str]


def house_rules(
    rows: Sequence[HouseRow], cell: Cell, knowledge: Knowledge, imperial: bool = False
) -> tuple[list[Rule], list[Problem]]:
    """The class's own rules and what is wrong with their rows. Conditions add up until a row names a Topic."""
    rules: list[Rule] = []
    problems: list[Problem] = []
    when: dict[str, Any] = {}
    broken, waiting = False, ""
    for row in rows:
        fact, found = condition(row, cell, knowledge, imperial)
        problems += found
        broken = broken or bool(found)
        when = both(when, fact)
        if "topic" not in row.cells:
            waiting = cell("topic", row.number)
            continue
        topic, found = topic_of(row, cell, knowledge)
        value, worse = advice_of(row, topic, cell, knowledge) if topic else (None, [])
        problems += found + worse
        if topic and not (broken or found or worse):
            rules += ruled(topic, value, row, cell("topic", row.number), when, knowledge)
        when, broken, waiting = {}, False, ""
    return rules, problems + ([problem("house-topic-missing", waiting)] if waiting else [])


def ruled(
    topic: Topic, value: Value, row: HouseRow, where: str, when: Mapping[str, Any], knowledge: Knowledge
) -> Iterator[Rule]:
    """A row as a rule; a setting of the iron also says its dots and its temperature."""
    because = row.cells.get("because", "A rule of this class.")
    said = iron_choice(value, knowledge) if topic.id == "iron_word" else [(topic.id, value)]
    yield from (own_rule(id, part, where, "house", because, when) for id, part in said)


def both(when: Mapping[str, Any], fact: Mapping[str, Any]) -> dict[str, Any]:
    """Conditions with one more; two ranges of one fact hold together."""
    same = {
        name: {**when[name], **test}
        for name, test in fact.items()
        if isinstance(test, Mapping) and isinstance(when.get(name), Mapping)
    }
    return {**when, **fact, **same}


def condition(row: HouseRow, cell: Cell, knowledge: Knowledge, imperial: bool) -> tuple[dict[str, Any], list[Problem]]:
    """The fact and test that When and Is name; an empty When holds for every fabric."""
    if "when" not in row.cells:
        return {}, []
    when, said = row.cells["when"], row.cells.get("is", "yes")
    fact = fact_of(when)
    if fact is None:
        near = did_you_mean(when, list(fact_words()))
        return {}, [problem("house-when-unknown", cell("when", row.number), found=when, proposal=near)]
    test = test_of(fact, when, said, knowledge, imperial)
    if test is None:
        near = did_you_mean(said, list(known_words(fact, knowledge)))
        where = cell("is", row.number)
        return {}, [problem("house-is-unreadable", where, found=row.cells.get("is", ""), when=when, proposal=near)]
    return {fact: test}, []


def topic_of(row: HouseRow, cell: Cell, knowledge: Knowledge) -> tuple[Topic | None, list[Problem]]:
    """The topic that a Topic cell names, by title or id."""
    said = plain(row.cells["topic"])
    named = {plain(word): topic for topic in knowledge.topics.values() for word in (topic.title, topic.id)}
    if said in named:
        return named[said], []
    near = did_you_mean(row.cells["topic"], [topic.title for topic in knowledge.topics.values()])
    return None, [problem("house-topic-unknown", cell("topic", row.number), found=row.cells["topic"], proposal=near)]


def advice_of(row: HouseRow, topic: Topic, cell: Cell, knowledge: Knowledge) -> tuple[Value, list[Problem]]:
    """The Advice cell in the topic's shape."""
    text = str(row.cells.get("advice", "")).strip()
    value = SHAPES[topic.shape](text, topic, knowledge) if text else None
    if value is not None:
        return value, []
    allowed = ALLOWED.get(topic.id) or ", ".join(map(str, topic.order)) or "a sentence"
    where = cell("advice", row.number)
    return None, [problem("house-advice-unfit", where, found=text, topic=topic.title, allowed=allowed)]
