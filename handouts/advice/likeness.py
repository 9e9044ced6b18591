"""Handled like this one, except: the cloths whose Decisions differ least, computed, never written by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from handouts.model import Knowledge, Value
from handouts.records import Decision, Fact, Likeness

COMPARED = (
    "needle_point", "needle_nm", "stitch", "stitch_mm", "serger", "seam_finish", "press_dots", "iron_word", "steam",
    "press_side", "press_cloth", "press_direction", "cut_tool", "cut_layers", "hold",
)  # fmt: skip
"""The settings in which two cloths can differ for a student."""


@dataclass(frozen=True)
class Neighbours:
    """Cloths with their usual facts decided: what a fabric is compared with."""

    names: Mapping[str, str]
    facts: Mapping[str, Mapping[str, Fact]]
    advice: Mapping[str, Mapping[str, Decision]]


def likenesses(
    cloth: str,
    facts: Mapping[str, Fact],
    advice: Mapping[str, Decision],
    neighbours: Neighbours,
    knowledge: Knowledge,
) -> tuple[Likeness, ...]:
    """A few related cloths (limits.toml says how many) with the few settings in which they differ, the most alike first."""
    mine = facts["families"].value
    found = []
    for other, theirs in neighbours.advice.items():
        shared = len(mine & neighbours.facts[other]["families"].value)
        if other == cloth or not related(facts, neighbours.facts[other]):
            continue
        differs = differences(advice, theirs)
        if len(differs) <= knowledge.number("alike_differences"):
            found.append((len(differs), -shared, other, differs))
    found.sort(key=lambda item: item[:3])
    shown = found[: int(knowledge.number("alike_shown"))]
    return tuple(Likeness(other, neighbours.names[other], differs) for _, _, other, differs in shown)


def related(facts: Mapping[str, Fact], other: Mapping[str, Fact]) -> bool:
    """Whether two cloths are made alike and share a family or their main fibre; what goes inside is no cloth to sew instead."""
    if facts["structure"].value != other["structure"].value:
        return False
    if ("interfacing" in facts["families"].value) != ("interfacing" in other["families"].value):
        return False
    same_fibre = (
        "main_fibre" in facts and "main_fibre" in other and facts["main_fibre"].value == other["main_fibre"].value
    )
    return same_fibre or bool(facts["families"].value & other["families"].value)


def differences(mine: Mapping[str, Decision], theirs: Mapping[str, Decision]) -> dict[str, Value]:
    """Topic → the other cloth's value, where it is not the same."""
    return {topic: theirs[topic].value for topic in COMPARED if theirs[topic].value != mine[topic].value}
