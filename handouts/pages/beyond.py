"""What a card says beyond its own fabric: heavier or lighter, not known, handled alike, cautions. Plain dicts and texts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from handouts.model import Knowledge
from handouts.pages.actions import Line, line
from handouts.pages.words import Words, capital, listed, vocabulary
from handouts.records import Change, Fabric, Spoke
from handouts.sheets import FABRICS


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


def unknown(fabric: Fabric, words: Words, most: int) -> list[Line]:
    """What nobody knows: the `most` weightiest settings it would change in full, the rest by the names of the facts."""
    says = vocabulary()["when"]
    groups: dict[str, list[str]] = {}
    rest: list[tuple[str, Spoke]] = []
    for topic, spoke in mights(fabric):
        text = might_words(topic, spoke, words)
        if text == words.case(topic, fabric.advice[topic].value):
            continue
        if weighty(topic, spoke) and (spoke.test in groups or len(groups) < most):
            groups.setdefault(spoke.test, []).append(text)
        else:
            rest.append((topic, spoke))
    told = [
        line(f"{'; '.join(dict.fromkeys(t))}.", when=says["if"].format(in_units(test, words)))
        for test, t in groups.items()
    ]
    return [*told, *in_short(rest, fabric)]


def weighty(topic: str, spoke: Spoke) -> bool:
    """Whether a might is worth telling in full: a setting of the machine, the iron or the table, or safety."""
    return topic in vocabulary()["when"]["settings"] or spoke.safety


def in_short(mights: Sequence[tuple[str, Spoke]], fabric: Fabric) -> list[Line]:
    """One line that names the facts nobody knows and that could change something."""
    facts = dict.fromkeys(
        fact_name(name) for _, spoke in mights for name in spoke.unknown if name not in {*fabric.facts, *fabric.advice}
    )
    return [line(vocabulary()["when"]["could"].format(capital(listed(list(facts), "and"))))] if facts else []


def fact_name(fact: str) -> str:
    """A fact by the name people read: `shrink_length_pct` → `shrinkage`."""
    heading = next((column.heading for column in FABRICS.columns if column.key == fact), fact)
    return str(vocabulary()["fact"].get(fact, heading.split("(")[0].replace("{unit}", "").strip().lower()))


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


def likes(fabric: Fabric, words: Words, most: int) -> list[Line]:
    """Cloths handled like this one, with the few settings in which they differ."""
    says = vocabulary()["when"]
    found = []
    for like in fabric.likes[:most]:
        told = ", ".join(words.single.case(topic, value) for topic, value in like.differs.items())
        found.append(line(says["except"].format(told) if told else says["same"], when=f"{capital(like.name)}:"))
    return found


def cautions(fabric: Fabric, knowledge: Knowledge) -> str:
    """The usual cautions that this fabric calls for, then who decides in the end."""
    table = knowledge.tables.get("cautions", {})
    called = set(calls(fabric, knowledge.tables))
    said = [record["card"] for record in table.get("caution", ()) if record["when"] in called and record["card"]]
    defer = table.get("defer", {})
    return " ".join([*said, defer.get("card", defer.get("say", ""))]).strip()


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
