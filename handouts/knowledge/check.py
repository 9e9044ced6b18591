"""Cross-checks of the knowledge base: every id that is used exists, every value fits its topic, every test its fact."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from handouts.errors import KnowledgeError
from handouts.model import Knowledge, Rule, Topic
from handouts.sheets import fact_kinds

NUMBER_TESTS = frozenset({"min", "max", "above", "below"})
SET_TESTS = frozenset({"only", "none", "all"})


def check(knowledge: Knowledge) -> None:
    """Nothing, or KnowledgeError with every fault found (at most twenty)."""
    faults = [*sources(knowledge), *families(knowledge), *cloths(knowledge), *rules(knowledge)]
    if faults:
        raise KnowledgeError("; ".join(faults[:20]))


def sources(knowledge: Knowledge) -> Iterator[str]:
    """Every record cites at least one known source."""
    groups = (knowledge.fibres, knowledge.constructions, knowledge.cloths, {rule.id: rule for rule in knowledge.rules})
    for group in groups:
        for id, item in group.items():
            unknown = sorted(set(item.sources) - set(knowledge.sources))
            if unknown or not item.sources:
                yield f"{id}: sources: {', '.join(unknown) or 'none given'} not in sources.toml"
    for table, records in knowledge.tables.items():
        yield from figures(table, records.get("number", {}), knowledge)


def figures(table: str, numbers: Mapping[str, Any], knowledge: Knowledge) -> Iterator[str]:
    """Every figure of a small table has its unit, reason, sources and the day somebody looked."""
    for name, record in numbers.items():
        if set(record) != {"value", "unit", "why", "sources", "checked"}:
            yield f"{table}.toml: number {name}: needs value, unit, why, sources, checked"
        elif not record["sources"] or set(record["sources"]) - set(knowledge.sources):
            yield f"{table}.toml: number {name}: sources {record['sources']} not in sources.toml"


def families(knowledge: Knowledge) -> Iterator[str]:
    """Every family is in families.toml."""
    known = set(knowledge.tables["families"]["families"])
    for item in knowledge.items:
        for family in sorted(set(item.families) - known):
            yield f"{item.id}: families: “{family}” is not in families.toml"


def cloths(knowledge: Knowledge) -> Iterator[str]:
    """Every cloth has a known construction and fills known facts; no word means two cloths."""
    kinds = fact_kinds()
    said: dict[str, str] = {}
    for item in knowledge.items:
        construction = getattr(item, "construction", item.id)
        if construction not in knowledge.constructions:
            yield f"{item.id}: construction “{construction}” is not in constructions.toml"
        for fact in sorted(set(item.usual) - set(kinds)):
            yield f"{item.id}: usual: “{fact}” is not a fact"
        for word in {item.name.casefold(), *(w.casefold() for w in item.spoken)}:
            if said.setdefault(word, item.id) != item.id:
                yield f"{item.id}: “{word}” already means {said[word]}"


def rules(knowledge: Knowledge) -> Iterator[str]:
    """Every rule tests facts that exist in a way that fits them, and advises what its topic can hold."""
    order = list(knowledge.topics)
    ids = {rule.id for rule in knowledge.rules}
    for rule in knowledge.rules:
        if rule.topic not in knowledge.topics or rule.tier not in knowledge.tiers:
            yield f"{rule.file}: {rule.id}: topic “{rule.topic}” or tier “{rule.tier}” is not in topics.toml"
            continue
        earlier = set(order[: order.index(rule.topic)])
        yield from (f"{rule.file}: {rule.id}: when: {fault}" for fault in tests(rule.when, earlier, knowledge))
        yield from (f"{rule.file}: {rule.id}: {fault}" for fault in values(rule, knowledge.topics[rule.topic]))
        below = set(knowledge.tiers[: knowledge.tiers.index(rule.tier)])
        yield from (
            f"{rule.file}: {rule.id}: replaces “{word}”, which is no rule and no less specific tier"
            for word in rule.replaces
            if word not in ids | below
        )


def tests(when: Mapping[str, Any], earlier: set[str], knowledge: Knowledge) -> Iterator[str]:
    """What is wrong with the conditions of one rule."""
    for fact, test in when.items():
        if fact == "any":
            for group in test:
                yield from tests(group, earlier, knowledge)
        else:
            yield from one_test(fact, test, earlier, knowledge)


def one_test(fact: str, test: Any, earlier: set[str], knowledge: Knowledge) -> Iterator[str]:
    """What is wrong with the test of one fact."""
    kinds = {**fact_kinds(), **dict.fromkeys(earlier, "topic"), "cloth": "choice"}
    if fact not in kinds:
        yield f"“{fact}” is no fact and no earlier topic"
        return
    kind = kinds[fact]
    if isinstance(test, Mapping):
        legal = (
            NUMBER_TESTS
            if kind == "number"
            else SET_TESTS
            if kind == "set"
            else NUMBER_TESTS | SET_TESTS
            if kind == "topic"
            else {"none"}
        )
        if not test or set(test) - legal:
            yield f"{fact}: {sorted(test)} does not fit a {kind}"
    elif kind == "yes_no" and not isinstance(test, bool):
        yield f"{fact}: needs true or false"
    elif kind == "number" and not isinstance(test, (int, float)):
        yield f"{fact}: needs a number or a range"
    yield from unknown_words(fact, test, knowledge)


def unknown_words(fact: str, test: Any, knowledge: Knowledge) -> Iterator[str]:
    """Words in a test that the fact can never hold."""
    known = vocabulary(fact, knowledge)
    if known is None:
        return
    given = (
        [w for v in test.values() for w in v]
        if isinstance(test, Mapping)
        else test
        if isinstance(test, (list, tuple))
        else [test]
    )
    yield from (f"{fact}: “{word}” is not a value of it" for word in given if word not in known)


def vocabulary(fact: str, knowledge: Knowledge) -> set[Any] | None:
    """Every value that a fact can hold, None when it has no list."""
    from handouts.sheets import FABRICS

    lists: dict[str, set[Any]] = {
        "cloth": {*knowledge.cloths, *knowledge.constructions},
        "construction": set(knowledge.constructions),
        "structure": {c.structure for c in knowledge.constructions.values()},
        "families": set(knowledge.tables["families"]["families"]),
        "fibres": set(knowledge.fibres),
        "main_fibre": set(knowledge.fibres),
        "fibre_groups": {f.group for f in knowledge.fibres.values()},
    }
    lists |= {c.key: set(c.choices) for c in FABRICS.columns if c.choices}
    return lists.get(fact)


def values(rule: Rule, topic: Topic) -> Iterator[str]:
    """What is wrong with the value and the prohibitions of one rule."""
    if rule.value is None and not rule.never and not rule.replaces:
        yield "says nothing: give value or never"
    if rule.value is not None and not fits(rule.value, topic):
        yield f"value {rule.value!r} does not fit {topic.id} ({topic.shape})"
    if topic.order and any(word not in topic.order for word in rule.never):
        yield f"never {rule.never!r} does not fit {topic.id}"


def fits(value: Any, topic: Topic) -> bool:
    """Whether a value has the topic's shape and words."""
    if topic.shape == "choice":
        return value in topic.order
    if topic.shape in ("list", "lines"):
        return (
            isinstance(value, tuple)
            and all(isinstance(v, str) for v in value)
            and (not topic.order or set(value) <= set(topic.order))
        )
    if topic.shape == "range":
        return (
            isinstance(value, Mapping)
            and set(value) == {"low", "high", "start"}
            and value["low"] <= value["start"] <= value["high"]
        )
    if topic.shape == "record":
        return isinstance(value, Mapping) and set(value) == set(RECORD_KEYS[topic.id])
    return isinstance(value, (int, float) if topic.shape == "number" else str)


RECORD_KEYS = {
    "serger": ("use", "threads", "differential"),
    "seam_allowance_mm": ("sew", "trim"),
    "shrink_pct": ("length", "width"),
}
