"""One Decision out of the rules that hold: how a topic's advice combines, what is forbidden, what the teacher overrules."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from handouts.model import Rule, Topic, Value
from handouts.records import Decision, Spoke

OWN = ("house", "typed")
"""The tiers that belong to the class: its own rules, and the choice typed in the row."""


@dataclass(frozen=True)
class Verdict:
    """A value and the rules that carried it."""

    value: Value
    winners: tuple[Rule, ...]
    clash: tuple[str, ...] = ()


NOTHING = Verdict(None, ())


def decide(topic: Topic, rules: Sequence[Rule], tiers: Sequence[str]) -> Decision:
    """The advice on one topic from the rules that hold. A class's own word wins; what it overrules for safety is a caution."""
    rank = {tier: number for number, tier in enumerate(tiers)}
    ordered = sorted(rules, key=lambda rule: (-rank[rule.tier], rule.id))
    trade = [rule for rule in ordered if rule.tier not in OWN]
    verdict = combine(topic, trade, forbidden(trade), rank)
    chosen, choice = verdict, "rules"
    for tier in OWN:
        own = [rule for rule in ordered if rule.tier == tier]
        if own and topic.combine != "all":
            said = ours(topic, own, trade, rank)
            chosen, choice = (said, tier) if any(rule.tier == tier for rule in said.winners) else (chosen, choice)
    if topic.combine == "all":
        chosen, choice = (
            combine(topic, ordered, forbidden(trade), rank),
            "house" if any(r.tier in OWN for r in ordered) else "rules",
        )
    chosen = completed(chosen, verdict)
    won = {rule.id for rule in chosen.winners}
    lost = tuple(spoke(rule) for rule in ordered if rule.id not in won)
    cautions = overruled(topic, chosen, verdict, trade) if choice in OWN else ()
    return Decision(topic.id, chosen.value, tuple(map(spoke, chosen.winners)), (), lost, cautions, choice, chosen.clash)


def ours(topic: Topic, own: Sequence[Rule], trade: Sequence[Rule], rank: dict[str, int]) -> Verdict:
    """What the class's own rules of one tier say. One for the whole class lifts no limit of heat and no safety prohibition."""
    if own[0].tier == "typed":
        return combine(topic, own, (), rank)
    if topic.safety:
        return combine(topic, [*trade, *own], forbidden(trade), rank)
    return combine(topic, own, firm(trade), rank)


def completed(chosen: Verdict, verdict: Verdict) -> Verdict:
    """A class's own record with the parts that it leaves open filled by the rules: only the length was measured."""
    if isinstance(chosen.value, dict) and isinstance(verdict.value, dict):
        return replace(chosen, value={**verdict.value, **chosen.value})
    return chosen


def forbidden(rules: Sequence[Rule]) -> tuple[Value, ...]:
    """Every value that some rule forbids."""
    return tuple(value for rule in rules for value in rule.never)


def firm(rules: Sequence[Rule]) -> tuple[Value, ...]:
    """Every value that a safety rule forbids: not even the class's own rules lift these."""
    return tuple(value for rule in rules if rule.safety for value in rule.never)


def combine(topic: Topic, rules: Sequence[Rule], never: tuple[Value, ...], rank: dict[str, int]) -> Verdict:
    """The value of one topic, by the way it combines."""
    speaking = [rule for rule in rules if rule.value is not None]
    if not speaking:
        return NOTHING
    return COMBINE[topic.combine](topic, speaking, never, rank)


def extreme(pick: Callable[..., Any]) -> Callable[..., Verdict]:
    """Combines by the lowest (min) or the highest (max) value along the topic's order."""

    def combined(topic: Topic, rules: Sequence[Rule], never: tuple[Value, ...], rank: dict[str, int]) -> Verdict:
        place = {value: number for number, value in enumerate(topic.order)} if topic.order else None
        allowed = [rule for rule in rules if rule.value not in never] or rules
        value = pick((rule.value for rule in allowed), key=lambda v: place[v] if place else v)
        return Verdict(value, tuple(rule for rule in allowed if rule.value == value))

    return combined


def most_specific(topic: Topic, rules: Sequence[Rule], never: tuple[Value, ...], rank: dict[str, int]) -> Verdict:
    """The value of the highest tier that spoke and has something left that is not forbidden."""
    for tier in sorted({rule.tier for rule in rules}, key=lambda t: -rank[t]):
        said = [(rule, allowed(rule.value, never)) for rule in rules if rule.tier == tier]
        said = [(rule, value) for rule, value in said if value not in (None, ())]
        if said:
            value = said[0][1]
            winners = tuple(rule for rule, other in said if other == value)
            clash = tuple(sorted(rule.id for rule, _ in said)) if len(winners) < len(said) else ()
            return Verdict(value, winners, clash)
    return NOTHING


def allowed(value: Value, never: tuple[Value, ...]) -> Value:
    """What is left of a value: a list loses what is forbidden, a single word is dropped whole."""
    if isinstance(value, tuple):
        return tuple(word for word in value if word not in never)
    return None if value in never else value


def every_line(topic: Topic, rules: Sequence[Rule], never: tuple[Value, ...], rank: dict[str, int]) -> Verdict:
    """All lines, the most specific rule first, each once, without those of rules, or of whole tiers, that another one replaces."""
    replaced = {word for rule in rules for word in rule.replaces}
    winners = tuple(rule for rule in rules if rule.id not in replaced and rule.tier not in replaced)
    lines = dict.fromkeys(line for rule in winners for line in rule.value if line not in never)
    return Verdict(tuple(lines), winners)


COMBINE: dict[str, Callable[..., Verdict]] = {
    "lowest": extreme(min),
    "highest": extreme(max),
    "one": most_specific,
    "all": every_line,
}


def overruled(topic: Topic, chosen: Verdict, verdict: Verdict, trade: Sequence[Rule]) -> tuple[Spoke, ...]:
    """The rules whose limit or prohibition the class's own choice goes beyond."""
    beyond = [rule for rule in trade if set(rule.never) & as_set(chosen.value)]
    if topic.combine == "lowest" and exceeds(topic, chosen.value, verdict.value):
        beyond += list(verdict.winners)
    return tuple(map(spoke, beyond))


def exceeds(topic: Topic, value: Value, limit: Value) -> bool:
    """Whether a value stands above a limit in the topic's order."""
    if limit is None:
        return False
    return topic.order.index(value) > topic.order.index(limit) if topic.order else value > limit


def as_set(value: Value) -> set[Value]:
    """A value as the set of words it names; a mapping names none."""
    return set(value) if isinstance(value, tuple) else set() if isinstance(value, dict) else {value}


def spoke(rule: Rule) -> Spoke:
    """A rule as the trace keeps it."""
    return Spoke(
        rule.id,
        rule.value,
        rule.because,
        rule.sources,
        rule.tier,
        cells_of(rule),
        rule.say,
        rule.lasting,
        rule.safety,
        rule.never,
    )


def cells_of(rule: Rule) -> tuple[str, ...]:
    """The cells that a class's own rule stands in (its `file` names them); none for the trade's rules."""
    return (rule.file,) if rule.tier in OWN else ()
