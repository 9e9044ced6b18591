"""What a card says beyond its own fabric: heavier or lighter, handled alike, cautions. Plain dicts and texts."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from handouts.model import Knowledge
from handouts.pages.lines import Line, line
from handouts.pages.words import Words, capital, listed, vocabulary
from handouts.records import Change, Fabric


def differs(fabric: Fabric, words: Words, most: int) -> list[Line]:
    """At which weights which advice changes, heavier first, the `most` nearest each way; what reads the same is left out."""
    says = vocabulary()["when"]
    found: list[Line] = []
    for below in (False, True):
        news = list(news_on_the_way(fabric, words, below))[:most]
        limit = says["below" if below else "from"]
        found += [
            line(f"{', '.join(texts)}.", when=f"{limit.format(words.measures.weight(at))}:") for at, texts in news
        ]
    return found


def news_on_the_way(fabric: Fabric, words: Words, below: bool) -> Iterator[tuple[float, list[str]]]:
    """Each threshold walking away from the fabric's own weight, with what reads differently from there on."""
    one = words.single
    last = {topic: one.case(topic, decision.value) for topic, decision in fabric.advice.items()}
    for at, changes in stages(fabric.changes, below):
        told = {change.topic: one.case(change.topic, change.value) for change in changes}
        news = [text for topic, text in told.items() if text != last.get(topic)]
        last |= told
        if news:
            yield at, news


def stages(changes: Sequence[Change], below: bool) -> list[tuple[float, list[Change]]]:
    """The changes on one side by threshold, nearest to the fabric first."""
    mine = [change for change in changes if change.below is below]
    thresholds = sorted({change.at for change in mine}, reverse=below)
    return [(at, [change for change in mine if change.at == at]) for at in thresholds]


def likes(fabric: Fabric, words: Words, most: int) -> list[Line]:
    """Cloths handled like this one, with the few settings in which they differ; those that differ alike stand together.

    What the class decided itself is no difference: it decides it for the other cloth too.
    """
    says = vocabulary()["when"]
    found: dict[str, list[str]] = {}
    for like in fabric.likes[:most]:
        told = ", ".join(
            words.single.case(topic, value)
            for topic, value in like.differs.items()
            if fabric.advice[topic].choice == "rules"
        )
        found.setdefault(says["except"].format(told) if told else says["same"], []).append(like.name)
    return [line(text, when=f"{capital(listed(names, 'and'))}:") for text, names in found.items()]


def cautions(fabric: Fabric, knowledge: Knowledge) -> str:
    """The usual cautions that this fabric calls for, then who decides in the end."""
    said = [record["card"] for record in usual([fabric], knowledge) if record["card"]]
    said += [spoke.say for spoke in fabric.flags if spoke.rule in FIRE]
    return " ".join([*said, knowledge.tables["cautions"]["defer"]["say"]])


def usual(fabrics: Iterable[Fabric], knowledge: Knowledge, *beside: str) -> list[dict[str, Any]]:
    """The usual cautions that some of these fabrics call for, in the order they are printed. beside: what else calls for some."""
    called = {*beside, *(word for fabric in fabrics for word in calls(fabric, knowledge.tables))}
    return [record for record in knowledge.tables["cautions"]["caution"] if record["when"] in called]


FIRE = ("flag-light-flammable", "flag-raised-flammable")
"""Flags of labelling.toml that belong on a card too; the others are about a shop's label, or a usual caution says them."""


def calls(fabric: Fabric, tables: Mapping[str, Any]) -> Iterator[str]:
    """What on this card calls for a caution: the `when` words of cautions.toml."""
    values = {topic: decision.value for topic, decision in fabric.advice.items()}
    trim, families = set(fabric.fact("trim") or ()), set(fabric.fact("families") or ())
    litter = tables.get("planning", {}).get("litter", {"families": (), "trims": ()})
    yield "always"
    found = {
        "iron": bool(values.get("press_dots")),
        "rotary": values.get("cut_tool") in ("rotary", "either"),
        "vinyl": fabric.fact("coating") == "PVC" or "chlorofibre" in (fabric.fact("fibres") or ()),
        "synthetic": bool(fabric.fact("synthetic_pct")),
        "litter": bool(families & set(litter["families"]) or trim & set(litter["trims"])),
    }
    yield from (name for name, called in found.items() if called)
    said = " ".join(said_of(fabric)).casefold()
    for record in tables["cautions"]["caution"]:
        if trim & set(record.get("trims", ())) or any(word in said for word in record.get("words", ())):
            yield record["when"]


def said_of(fabric: Fabric) -> Iterator[str]:
    """Every line that is advised for a fabric: the words of its winning rules, without their reasons."""
    for decision in fabric.advice.values():
        for spoke in decision.won:
            yield spoke.say
            yield from map(str, spoke.value if isinstance(spoke.value, tuple) else ())
