"""Every topic decided for every fabric, in the order of topics.toml, so that a rule may test what was decided before."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

import pandas as pd

from handouts.advice.decide import decide, spoke
from handouts.advice.match import fact_frame, holds
from handouts.advice.words import condition_words, unknown_facts
from handouts.model import Knowledge, Rule, Topic, Value
from handouts.records import Decision, Fact, Spoke

Verdicts = list[list[bool | None]]
"""Per rule, per fabric: holds, does not, unknown."""


def advise(
    fabrics: Sequence[Mapping[str, Fact]],
    knowledge: Knowledge,
    own: Sequence[Sequence[Rule]] = (),
    house: Sequence[Rule] = (),
    topics: Sequence[str] = (),
    mights: bool = True,
) -> list[dict[str, Decision]]:
    """Topic → Decision per fabric. `own`: the choices typed in each row; `house`: the class's rules; `topics`: only these (all)."""
    frame = fact_frame(fabrics)
    decided: list[dict[str, Decision]] = [{} for _ in fabrics]
    for topic in knowledge.topics.values():
        if topics and topic.id not in topics:
            continue
        rules = [rule for rule in (*knowledge.rules, *house) if rule.topic == topic.id]
        verdicts = [truths(rule, frame) for rule in rules]
        for row, facts in enumerate(fabrics):
            mine = [rule for rule in (own[row] if own else ()) if rule.topic == topic.id]
            decision = decide(topic, [*pick(rules, verdicts, row, True), *mine], knowledge.tiers)
            if mights:
                decision = replace(
                    decision, might=tuple(might(topic, rules, verdicts, row, mine, decision, knowledge, facts))
                )
            decided[row][topic.id] = decision
        frame[topic.id] = pd.Series([scalar(topic, d[topic.id].value) for d in decided], dtype="object")
    return decided


def truths(rule: Rule, frame: pd.DataFrame) -> list[bool | None]:
    """Whether one rule holds, per fabric; None when a fact it needs is unknown."""
    return [None if value is pd.NA else bool(value) for value in holds(rule.when, frame).tolist()]


def pick(rules: Sequence[Rule], verdicts: Verdicts, row: int, wanted: bool | None) -> list[Rule]:
    """The rules that hold (True) or cannot be judged (None) for one fabric."""
    return [rule for rule, truth in zip(rules, verdicts, strict=True) if truth[row] is wanted]


def might(
    topic: Topic,
    rules: Sequence[Rule],
    verdicts: Verdicts,
    row: int,
    mine: Sequence[Rule],
    decision: Decision,
    knowledge: Knowledge,
    facts: Mapping[str, Fact],
) -> Iterator[Spoke]:
    """The rules that nobody can judge and that would change the advice if they held."""
    holding = [*pick(rules, verdicts, row, True), *mine]
    for rule in pick(rules, verdicts, row, None):
        if decide(topic, [*holding, rule], knowledge.tiers).value != decision.value:
            unknown = unknown_facts(rule.when, facts)
            yield replace(spoke(rule), unknown=unknown, test=condition_words(rule.when, knowledge, unknown))


def scalar(topic: Topic, value: Value) -> Any:
    """What a later rule tests of a decided topic: the word or number, a list's first, a range's start, the overlock's use."""
    if value is None or topic.shape == "lines":
        return None
    if topic.shape == "list":
        return value[0] if value else None
    return value.get("start", value.get("use")) if isinstance(value, dict) else value
