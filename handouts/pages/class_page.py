"""The class on one page for a phone: every card with its reasons, the comparison, and where it all comes from. No scripts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from handouts.model import Knowledge, Source
from handouts.pages.card import card
from handouts.pages.class_words import class_words
from handouts.pages.comparison import COLUMNS, groups, never, stations, usual_line
from handouts.pages.plan import cautions
from handouts.pages.retold import retold
from handouts.pages.templates import render
from handouts.pages.words import Words, day, vocabulary, words_of
from handouts.plans import Plan
from handouts.records import Decision, Fabric, Workshop

BLOCKS = ("before", "lay_out", "sew", "seams", "press", "care", "watch", "differs", "unknown", "likes")
"""The blocks of a card in the order of work, by their keys in pages/card.py."""


def class_page(workshop: Workshop, plan: Plan, knowledge: Knowledge) -> str:
    """One HTML file, complete in itself: opens offline, prints, and is read aloud in a sensible order."""
    words = words_of(workshop.settings.get("units") or "both", knowledge)
    fabrics = {f.code: f for f in workshop.fabrics}
    cards = [shown(fabrics[step.code], words, knowledge) for step in plan.order]
    return render(
        "class.html.j2",
        settings={key: spoken(value) for key, value in workshop.settings.items()},
        cards=cards,
        groups=groups(workshop, plan, knowledge),
        columns=COLUMNS,
        usual=usual_line(plan, words),
        never=list(never(plan)),
        stations=stations(plan, knowledge),
        sources=cited(cards, knowledge),
        cautions=cautions(workshop, knowledge),
        defer=knowledge.tables["cautions"]["defer"]["say"],
        say=class_words(),
    )


def spoken(value: Any) -> str:
    """A setting as text, a date as one says it; nothing for an empty one."""
    return "" if value is None else day(str(value))


def anchor(code: str) -> str:
    """A code as the name of a place on the page: letters, digits, hyphens."""
    return "f-" + (re.sub(r"[^a-z0-9]+", "-", code.casefold()).strip("-") or "x")


def shown(fabric: Fabric, words: Words, knowledge: Knowledge) -> dict[str, Any]:
    """A card's blocks as the page shows them, and the reasons behind every decision."""
    whole = card(fabric, words, knowledge)
    whole["seams"] = [*whole["seams"], *whole["hem"]]
    titles = class_words()["block"]
    blocks = [(titles[key], whole[key]) for key in BLOCKS if whole[key]]
    return {
        **whole,
        "anchor": f"{anchor(fabric.code)}-{fabric.row}",
        "dots": fabric.advised("press_dots") or 0,
        "blocks": blocks,
        "reasons": list(reasons(fabric, words, knowledge)),
    }


def reasons(fabric: Fabric, words: Words, knowledge: Knowledge) -> Iterator[dict[str, Any]]:
    """Topic by topic: what won, why, and the ids of its sources."""
    for topic in knowledge.topics.values():
        decision = fabric.advice.get(topic.id)
        if decision is None or not decision.won:
            continue
        told = dict.fromkeys(spoke.because for spoke in decision.won)
        yield {
            "title": topic.title,
            "value": value_words(topic.id, decision, words),
            "because": [retold(because, words.measures) for because in told],
            "choice": class_words()["choice"].get(decision.choice, ""),
            "sources": list(dict.fromkeys(id for spoke in decision.won for id in spoke.sources)),
        }


def value_words(topic: str, decision: Decision, words: Words) -> str:
    """A decision's value in words; lines one after the other."""
    value = decision.value
    if topic in vocabulary()["case"] or not isinstance(value, (tuple, list)):
        return words.short(topic, value)
    return retold(" ".join(map(str, value)), words.measures)


def cited(cards: Sequence[Mapping[str, Any]], knowledge: Knowledge) -> list[Source]:
    """Every source that some reason on the page names, by id."""
    named = {id for one in cards for reason in one["reasons"] for id in reason["sources"]}
    return [knowledge.sources[id] for id in sorted(named & set(knowledge.sources))]
