"""Every topic decided for every fabric, in the order of topics.toml: a rule may test what was decided before its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from handouts.advice.decide import decide, spoke
from handouts.advice.match import FactTable
from handouts.conditions import condition_words, scalar, tested, unknown_facts
from handouts.model import Knowledge, Rule, Topic
from handouts.records import Decision, Fact, Spoke

Pick = list[Rule]


def advise(
    fabrics: Sequence[Mapping[str, Fact]],
    knowledge: Knowledge,
    own: Sequence[Sequence[Rule]] = (),
    house: Sequence[Rule] = (),
    mights: bool = True,
    topics: Sequence[str] = (),
) -> list[dict[str, Decision]]:
    """Topic → Decision per fabric. `own`: the choices typed in each row; `house`: the class's own rules.

    topics: decide only these and what they depend on; empty decides all.
    """
    table = FactTable(fabrics)
    decided: list[dict[str, Decision]] = [{} for _ in fabrics]
    by_topic = sorted_by_topic((*knowledge.rules, *house))
    for topic in needed(topics, by_topic, knowledge):
        for row, (holding, open_) in enumerate(judged(by_topic.get(topic.id, []), table)):
            holding += [rule for rule in (own[row] if own else ()) if rule.topic == topic.id]
            decision = decide(topic, holding, knowledge.tiers)
            if mights and open_:
                found = might(topic, holding, open_, decision, knowledge, {**fabrics[row], **decided[row]})
                decision = replace(decision, might=tuple(found))
            decided[row][topic.id] = decision
        table.add(topic.id, [scalar(topic, decisions[topic.id].value) for decisions in decided])
    return decided


def sorted_by_topic(rules: Sequence[Rule]) -> dict[str, Pick]:
    """Rules by the topic they speak on."""
    found: dict[str, Pick] = {}
    for rule in rules:
        found.setdefault(rule.topic, []).append(rule)
    return found


def needed(wanted: Sequence[str], by_topic: Mapping[str, Pick], knowledge: Knowledge) -> list[Topic]:
    """The topics wanted and those that their rules test, in the order of deciding."""
    found = set(wanted or knowledge.topics)
    for topic in reversed(list(knowledge.topics)):
        if topic in found:
            found |= {
                fact for rule in by_topic.get(topic, []) for fact in tested(rule.when) if fact in knowledge.topics
            }
    return [topic for topic in knowledge.topics.values() if topic.id in found]


def judged(rules: Pick, table: FactTable) -> Iterator[tuple[Pick, Pick]]:
    """Per fabric, the rules that hold and those that cannot be judged for want of a fact."""
    verdicts = [table.holds(rule.when) for rule in rules]
    unknown = np.array([verdict.isna() for verdict in verdicts]).reshape(len(rules), table.rows)
    true = np.array([verdict.to_numpy(dtype=bool, na_value=False) for verdict in verdicts]).reshape(
        len(rules), table.rows
    )
    for row in range(table.rows):
        yield [rules[n] for n in np.flatnonzero(true[:, row])], [rules[n] for n in np.flatnonzero(unknown[:, row])]


def might(
    topic: Topic, holding: Pick, open_: Pick, decision: Decision, knowledge: Knowledge, known: Mapping[str, object]
) -> Iterator[Spoke]:
    """Of the rules that nobody can judge, those that would change the advice if they held. `known`: facts and decided topics."""
    for rule in open_:
        if decide(topic, [*holding, rule], knowledge.tiers).value != decision.value:
            unknown = unknown_facts(rule.when, known)
            yield replace(spoke(rule), unknown=unknown, test=condition_words(rule.when, knowledge, unknown))
