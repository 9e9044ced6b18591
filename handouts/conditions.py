"""The conditions of rules: what they test, whether a value passes, and facts and tests in words a teacher follows."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from handouts.model import Knowledge, Topic, Value
from handouts.sheets import FABRICS, Column
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
    "supplier_dots": "dots on the bolt end",
    "supplier_steam": "steam on the bolt end",
    "growth_pct": "growth after stretching",
    "price_per_m": "price per metre",
}


def fact_name(fact: str, knowledge: Knowledge) -> str:
    """A fact or topic by the name people read: `weight_gsm` → `weight`."""
    if fact in NAMES:
        return NAMES[fact]
    if fact in knowledge.topics:
        return knowledge.topics[fact].title.lower()
    column = column_of(fact)
    return column.heading.split("(")[0].strip().lower() if column else fact


def column_of(fact: str) -> Column | None:
    """The Fabrics column that a fact is typed in, None when no cell holds it."""
    return next((column for column in FABRICS.columns if column.key == fact), None)


def fact_unit(fact: str) -> str:
    """The unit a fact is counted in: `g/m²`, `%`, or nothing."""
    column = column_of(fact)
    if column is not None and column.unit is not None and "({unit})" in column.heading:
        return column.unit.metric
    return "%" if fact.endswith("_pct") else ""


def fact_words(fact: str, value: Any, knowledge: Knowledge) -> str:
    """A fact in words: `weight 380 g/m²`, `frays 2 of 3`, `sheer: no`, `fibre wool, silk`."""
    name, column = fact_name(fact, knowledge), column_of(fact)
    if isinstance(value, bool):
        return f"{name}: {'yes' if value else 'no'}"
    if isinstance(value, (int, float)):
        unit = "of 3" if column is not None and column.kind == "grade" else fact_unit(fact)
        return f"{name} {number_words(value)} {unit}".strip()
    words = sorted(value) if isinstance(value, frozenset) else [str(value)]
    return f"{name} {', '.join(item_name(word, knowledge) for word in words)}"


def item_name(word: str, knowledge: Knowledge) -> str:
    """The name behind an id of a cloth or a construction; a fibre's id is its everyday name (linen, not the law's flax)."""
    item = knowledge.cloths.get(word) or knowledge.constructions.get(word)
    return item.name if item and word not in knowledge.fibres else word


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


def tests_of(when: Mapping[str, Any], fact: str) -> Iterator[Any]:
    """Every test of one fact in a rule's conditions."""
    if fact in when:
        yield when[fact]
    for group in when.get("any", ()):
        yield from tests_of(group, fact)


def scalar(topic: Topic, value: Value) -> Any:
    """What a later rule tests of a decided topic: the word or number, a list's first, a range's start, the overlock's use."""
    if value is None or topic.shape == "lines":
        return None
    if topic.shape == "list":
        return value[0] if value else None
    return value.get("start", value.get("use")) if isinstance(value, dict) else value


def passes(test: Any) -> Callable[[Any], bool]:
    """A test as a question to one known value."""
    if isinstance(test, Mapping) and set(test) <= set(COMPARE):
        return lambda value: all(COMPARE[word](value, limit) for word, limit in test.items())
    how, words = next(iter(test.items())) if isinstance(test, Mapping) else ("has", test)
    wanted = frozenset(words) if isinstance(words, (list, tuple)) else frozenset([words])
    return lambda value: ASK[how](value if isinstance(value, frozenset) else frozenset([value]), wanted)


COMPARE: Mapping[str, Callable[[float, float], bool]] = {
    "min": lambda value, limit: value >= limit,
    "max": lambda value, limit: value <= limit,
    "above": lambda value, limit: value > limit,
    "below": lambda value, limit: value < limit,
}

ASK: Mapping[str, Callable[[frozenset[Any], frozenset[Any]], bool]] = {
    "has": lambda held, wanted: bool(held & wanted),
    "none": lambda held, wanted: not held & wanted,
    "only": lambda held, wanted: held <= wanted,
    "all": lambda held, wanted: held >= wanted,
}


def met(when: Mapping[str, Any], known: Mapping[str, Any]) -> Iterator[str]:
    """The facts that a rule which holds goes by; what it only rules out is not told. `known`: fact or topic → value."""
    for fact, test in when.items():
        if fact == "any":
            yield from met(next((group for group in test if holds(group, known)), {}), known)
        elif fact in known and not (isinstance(test, Mapping) and "none" in test):
            yield fact


def holds(when: Mapping[str, Any], known: Mapping[str, Any]) -> bool:
    """Whether every condition is known and holds."""
    return all(
        any(holds(group, known) for group in test) if fact == "any" else fact in known and passes(test)(known[fact])
        for fact, test in when.items()
    )
