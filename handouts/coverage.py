"""What the knowledge base covers: rules per topic and family of constructions, idle rules, idle and ageing sources."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date

from handouts.model import Knowledge, Rule
from handouts.records import Decision, Fact
from handouts.sheets import FABRICS

Advised = Sequence[tuple[Mapping[str, Fact], Mapping[str, Decision]]]
"""Fabrics with their facts and advice: every cloth as it usually is, and with what may be typed of it."""


def report(knowledge: Knowledge, advised: Advised, today: date) -> Iterator[str]:
    """The lines of `handouts check --knowledge`."""
    yield from counts(knowledge)
    yield ""
    yield from table(knowledge, advised)
    yield ""
    yield from listed(
        "Rules never fired by any cloth, usual or with one more cell typed", idle_rules(knowledge, advised)
    )
    yield from listed("Sources never cited", idle_sources(knowledge))
    yield from listed("Sources last looked at more than two years ago", old_sources(knowledge, today))
    yield from listed("Holes (a topic without a rule of its own for a structure)", holes(knowledge, advised))


def probes(facts: Mapping[str, Fact], typed: Iterable[tuple[str, object]]) -> Iterator[dict[str, Fact]]:
    """A fabric as it is, and with each of some values typed of it, one at a time."""
    yield dict(facts)
    yield from ({**facts, name: Fact(value, "typed", "probe")} for name, value in typed)


def typed_values(turns: Mapping[str, Sequence[float]]) -> list[tuple[str, object]]:
    """Every choice of every column, yes and no, steam forbidden by the bolt end, and both sides of every turning point."""
    return [("supplier_steam", "none"), *chosen_values(), *turning_points(turns)]


def chosen_values() -> Iterator[tuple[str, object]]:
    """Every choice of every column, yes and no."""
    for column in FABRICS.columns:
        if column.group == "facts" and column.choices:
            yield from ((column.key, frozenset([word]) if column.several else word) for word in column.choices)
        elif column.kind == "yes_no":
            yield from ((column.key, answer) for answer in (True, False))


def turning_points(turns: Mapping[str, Sequence[float]]) -> list[tuple[str, object]]:
    """Just below, at and above every value at which some rule's test of a number turns."""
    return [(name, value + step) for name, values in turns.items() for value in values for step in (-0.01, 0, 0.01)]


def counts(knowledge: Knowledge) -> Iterator[str]:
    """How much there is of everything."""
    own = list(written(knowledge.rules))
    yield (
        f"{len(knowledge.fibres)} fibres, {len(knowledge.constructions)} constructions, {len(knowledge.cloths)} cloths, "
        f"{len(own)} rules (and {len(knowledge.rules) - len(own)} from fibres and dots), {len(knowledge.sources)} sources"
    )


def structures(knowledge: Knowledge) -> list[str]:
    """Every structure, in order of first use."""
    return list(dict.fromkeys(c.structure for c in knowledge.constructions.values()))


def spoken_in(advised: Advised, structure: str) -> Iterator[tuple[str, str]]:
    """(topic, rule) for every rule that spoke of a fabric of this structure."""
    for facts, advice in advised:
        if facts["structure"].value == structure:
            for topic, decision in advice.items():
                yield from ((topic, spoke.rule) for spoke in (*decision.won, *decision.lost))


def table(knowledge: Knowledge, advised: Advised) -> Iterator[str]:
    """Topics × structures: how many different rules speak."""
    names = structures(knowledge)
    rules = {name: set(spoken_in(advised, name)) for name in names}
    yield f"{'rules that speak':20}" + "".join(f"{name:>11}" for name in names)
    for topic in knowledge.topics:
        numbers = [sum(1 for spoke in rules[name] if spoke[0] == topic) for name in names]
        yield f"{topic:20}" + "".join(f"{number:>11}" for number in numbers)


def holes(knowledge: Knowledge, advised: Advised) -> Iterator[str]:
    """Required topics on which no rule speaks for some structure."""
    for structure in structures(knowledge):
        spoke = {topic for topic, _ in spoken_in(advised, structure)}
        yield from (
            f"{topic.id} for {structure}"
            for topic in knowledge.topics.values()
            if topic.required and topic.id not in spoke
        )


def idle_rules(knowledge: Knowledge, advised: Advised) -> Iterator[str]:
    """Rules that speak of none of the fabrics."""
    fired = {
        spoke.rule for _, advice in advised for decision in advice.values() for spoke in (*decision.won, *decision.lost)
    }
    yield from (f"{rule.id} ({rule.file})" for rule in written(knowledge.rules) if rule.id not in fired)


def written(rules: Iterable[Rule]) -> Iterator[Rule]:
    """The rules of rules/*.toml, without those that fibres and dots bring."""
    return (rule for rule in rules if rule.file not in ("fibres.toml", "heat.toml"))


def idle_sources(knowledge: Knowledge) -> Iterator[str]:
    """Sources that nothing cites."""
    cited = {id for item in (*knowledge.fibres.values(), *knowledge.items) for id in item.sources}
    cited |= {id for rule in knowledge.rules for id in rule.sources} | set(cited_by_tables(knowledge))
    yield from (id for id in knowledge.sources if id not in cited)


def cited_by_tables(knowledge: Knowledge) -> Iterator[str]:
    """Sources that the small tables cite, at any depth."""
    heap: list[object] = list(knowledge.tables.values())
    while heap:
        item = heap.pop()
        if isinstance(item, Mapping):
            yield from (source for source in item.get("sources", ()) if isinstance(source, str))
            heap += list(item.values())
        elif isinstance(item, list):
            heap += item
    yield from knowledge.needles.sources


def old_sources(knowledge: Knowledge, today: date) -> Iterator[str]:
    """Sources that nobody has looked at for two years."""
    old = knowledge.number("source_old")
    yield from (s.id for s in knowledge.sources.values() if (today - s.checked).days > old)


def listed(title: str, items: Iterable[str]) -> Iterator[str]:
    """A title with its number, and the items below it."""
    found = list(items)
    yield f"{title}: {len(found)}"
    yield from (f"  {item}" for item in found)
