"""If yours is heavier or lighter: the rules run at every weight they name, and what changes at which."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from handouts.advice.advise import advise
from handouts.conditions import tests_of
from handouts.model import Knowledge, Rule
from handouts.records import Change, Decision, Fact

CHANGED_BY_WEIGHT = (
    "needle_nm",
    "needle_point",
    "stitch_mm",
    "seam_finish",
    "press_direction",
    "cut_layers",
    "hold",
    "cut_tool",
    "thread",
)
"""The settings that a student would change at the machine or the table, in the order of telling."""


def limits(rules: Sequence[Rule], fact: str) -> list[float]:
    """Every value at which some rule's test of `fact` turns."""
    found: set[float] = set()
    for rule in rules:
        for test in tests_of(rule.when, fact):
            found |= {float(v) for v in test.values()} if isinstance(test, Mapping) else set()
    return sorted(found)


def changes(
    fabrics: Sequence[Mapping[str, Fact]],
    knowledge: Knowledge,
    advice: Sequence[Mapping[str, Decision]],
    reach: float,
    own: Sequence[Sequence[Rule]],
    house: Sequence[Rule],
    fact: str = "weight_gsm",
) -> list[tuple[Change, ...]]:
    """Per fabric, what changes above and below its own `fact`, nearest first, as far as `reach` times it and 1/`reach` of it.

    own: the choices typed in each row; house: the class's own rules; both hold at every weight.
    """
    turns = limits((*knowledge.rules, *house), fact)
    probes: list[tuple[int, float, bool]] = []
    for number, facts in enumerate(fabrics):
        here = facts[fact].value if fact in facts else None
        if here:
            probes += [(number, turn, turn <= here) for turn in turns if here / reach <= turn <= here * reach]
    moved = [moved_to(fabrics[number], fact, turn, below) for number, turn, below in probes]
    typed = [own[number] for number, _, _ in probes]
    there = advise(moved, knowledge, typed, house, mights=False, topics=CHANGED_BY_WEIGHT) if moved else []
    found: list[list[tuple[float, bool, dict[str, Decision]]]] = [[] for _ in fabrics]
    for (number, turn, below), decisions in zip(probes, there, strict=True):
        found[number].append((turn, below, decisions))
    return [tuple(walk(advice[number], found[number], fact)) for number in range(len(fabrics))]


def moved_to(facts: Mapping[str, Fact], fact: str, turn: float, below: bool) -> dict[str, Fact]:
    """The same fabric just past a turning point."""
    step = -0.001 if below else 0.001
    return {**facts, fact: replace(facts[fact], value=turn + step)}


def walk(
    here: Mapping[str, Decision], probes: Sequence[tuple[float, bool, Mapping[str, Decision]]], fact: str
) -> Iterator[Change]:
    """The changes met walking away from the fabric's own value, upward and downward."""
    for below in (False, True):
        last = here
        for turn, _, decisions in sorted((p for p in probes if p[1] is below), key=lambda p: -p[0] if below else p[0]):
            for topic in CHANGED_BY_WEIGHT:
                if decisions[topic].value != last[topic].value and here[topic].choice == "rules":
                    yield Change(fact, turn, below, topic, decisions[topic].value)
            last = decisions
