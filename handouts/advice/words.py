"""Conditions in words a teacher follows: `weight under 90 g/m²`, `made of silk`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from handouts.model import Knowledge
from handouts.sheets import FABRICS
from handouts.units import number_words

COMPARED = {"min": "{} or more", "max": "{} or less", "above": "over {}", "below": "under {}"}
NAMES = {
    "fibres": "fibre",
    "families": "kind of cloth",
    "fibre_groups": "kind of fibre",
    "main_fibre": "main fibre",
    "elastane_pct": "elastane",
    "metallic_pct": "metal fibre",
    "synthetic_pct": "synthetic fibre",
    "wool_pct": "wool and hair",
    "fibre_count": "number of fibres",
    "recovery_pct": "recovery",
    "growth_pct": "growth after stretching",
}


def fact_name(fact: str, knowledge: Knowledge) -> str:
    """A fact or topic by the name people read: `weight_gsm` → `weight`."""
    if fact in NAMES:
        return NAMES[fact]
    if fact in knowledge.topics:
        return knowledge.topics[fact].title.lower()
    heading = next((c.heading for c in FABRICS.columns if c.key == fact), fact)
    return heading.split("(")[0].replace("{unit}", "").strip().lower()


def fact_unit(fact: str) -> str:
    """The unit a fact is counted in: `g/m²`, `%`, or nothing."""
    column = next((c for c in FABRICS.columns if c.key == fact), None)
    if column is not None and column.unit is not None:
        return column.unit.metric
    return "%" if fact.endswith("_pct") else ""


def condition_words(when: Mapping[str, Any], knowledge: Knowledge, only: tuple[str, ...] = ()) -> str:
    """The conditions of a rule in words, or only those on some facts."""
    parts = []
    for fact, test in when.items():
        if fact == "any":
            groups = [words for group in test if (words := condition_words(group, knowledge, only))]
            parts.append(" or ".join(dict.fromkeys(groups)))
        elif not only or fact in only:
            parts.append(test_words(fact, test, knowledge))
    return " and ".join(part for part in parts if part)


def test_words(fact: str, test: Any, knowledge: Knowledge) -> str:
    """One condition in words."""
    name = fact_name(fact, knowledge)
    if isinstance(test, bool):
        return name if test else f"not {name}"
    if isinstance(test, Mapping) and set(test) <= set(COMPARED):
        unit = fact_unit(fact)
        limits = [COMPARED[word].format(f"{number_words(limit)} {unit}".strip()) for word, limit in test.items()]
        return f"{name} " + " and ".join(limits)
    how, values = next(iter(test.items())) if isinstance(test, Mapping) else ("has", test)
    listed = ", ".join(str(v) for v in (values if isinstance(values, (list, tuple)) else [values]))
    return f"{name} " + {"has": "", "none": "other than ", "only": "only ", "all": "all of "}[how] + listed


def unknown_facts(when: Mapping[str, Any], known: Mapping[str, object]) -> tuple[str, ...]:
    """The facts a rule needs that nobody knows; `known` by fact, or by topic already decided."""
    return tuple(dict.fromkeys(fact for fact in tested(when) if fact not in known))


def tested(when: Mapping[str, Any]) -> Iterator[str]:
    """Every fact that a rule's conditions name."""
    for fact, test in when.items():
        if fact == "any":
            for group in test:
                yield from tested(group)
        else:
            yield fact
