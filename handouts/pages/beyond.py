"""What a card says beyond its own fabric: heavier or lighter, not known, handled alike, cautions. Plain dicts and texts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from handouts.model import Knowledge
from handouts.pages.actions import Line, line
from handouts.pages.words import Words, capital, vocabulary
from handouts.records import Change, Fabric, Spoke

Case = Line
"""A line with `when` in bold before it."""


def differs(fabric: Fabric, words: Words) -> list[Case]:
    """At which weights which advice changes, heavier first, each nearest first; what reads the same is left out."""
    found: list[Case] = []
    for below in (False, True):
        last = {topic: words.case(topic, decision.value) for topic, decision in fabric.advice.items()}
        for at, changes in stages(fabric.changes, below):
            told = {change.topic: words.case(change.topic, change.value) for change in changes}
            news = [text for topic, text in told.items() if text != last.get(topic)]
            last |= told
            if news:
                limit = vocabulary()["when"]["below" if below else "from"].format(words.measures.weight(at))
                found.append(line(f"{', '.join(news)}.", when=f"{limit}:"))
    return found


def stages(changes: Sequence[Change], below: bool) -> list[tuple[float, list[Change]]]:
    """The changes on one side by threshold, nearest to the fabric first."""
    mine = [change for change in changes if change.below is below]
    thresholds = sorted({change.at for change in mine}, reverse=below)
    return [(at, [change for change in mine if change.at == at]) for at in thresholds]


def unknown(fabric: Fabric, words: Words) -> list[Case]:
    """What nobody knows and what it would change, what is lasting first; no more than a card has room for."""
    groups: dict[str, list[str]] = {}
    for topic, spoke in mights(fabric):
        text = might_words(topic, spoke, words)
        if text and text != words.case(topic, fabric.advice[topic].value):
            groups.setdefault(spoke.test, []).append(text)
    most, says = vocabulary()["limits"]["mights"], vocabulary()["when"]
    found = [
        line("; ".join(dict.fromkeys(texts)), when=says["if"].format(in_units(test, words)))
        for test, texts in groups.items()
    ]
    rest = len(found) - most
    return [*found[:most], *([line(says["more"].format(rest))] if rest > 0 else [])]


def in_units(test: str, words: Words) -> str:
    """A condition with its weights in the class's units."""
    return re.sub(r"(\d+(?:\.\d+)?) g/m²", lambda found: words.measures.weight(float(found[1])), test)


def mights(fabric: Fabric) -> list[tuple[str, Spoke]]:
    """Every rule that might have spoken with its topic, what can hurt first."""
    found = [(topic, spoke) for topic, decision in fabric.advice.items() for spoke in decision.might]
    return sorted(found, key=lambda pair: not (pair[1].safety or pair[1].lasting))


def might_words(topic: str, spoke: Spoke, words: Words) -> str:
    """What a rule would say: its own words, its lines, else the value with the topic's name."""
    if spoke.say or spoke.value is None:
        return (spoke.say or spoke.because).rstrip(".")
    if topic not in vocabulary()["case"]:
        return " ".join(spoke.value if isinstance(spoke.value, (tuple, list)) else [str(spoke.value)]).rstrip(".")
    return words.case(topic, spoke.value)


def likes(fabric: Fabric, words: Words) -> list[Case]:
    """Cloths handled like this one, with the few settings in which they differ."""
    says, most = vocabulary()["when"], vocabulary()["limits"]["likes"]
    found = []
    for like in fabric.likes[:most]:
        told = ", ".join(words.case(topic, value) for topic, value in like.differs.items())
        found.append(line(says["except"].format(told) if told else says["same"], when=f"{capital(like.name)}:"))
    return found


def cautions(fabric: Fabric, knowledge: Knowledge) -> str:
    """The usual cautions that this fabric calls for, then who decides in the end."""
    table = knowledge.tables.get("cautions", {})
    called = set(calls(fabric, knowledge.tables))
    said = [record["card"] for record in table.get("caution", ()) if record["when"] in called and record["card"]]
    return " ".join([*said, table.get("defer", {}).get("say", "")]).strip()


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
        "sequins": bool(trim & {"sequins", "beads"}),
        "litter": bool(families & set(litter["families"]) or trim & set(litter["trims"])),
    }
    yield from (name for name, called in found.items() if called)
