"""Cloths advised on the topics before the machine, for the tests of their rules."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from handouts import knowledge, labelling
from handouts.advice import advise, facts_of
from handouts.model import Cloth, Construction
from handouts.records import Decision, Fact

TOPICS = (
    "pretreat",
    "shrink_pct",
    "layout",
    "cut_tool",
    "cut_layers",
    "hold",
    "mark",
    "interfacing",
    "hem",
    "suits",
    "watch_out",
)
LINES = tuple(topic for topic in TOPICS if topic not in ("shrink_pct", "cut_tool", "cut_layers", "hold"))
HEAT = ("press_dots",)  # decided before these, and tested by some of their rules
KNOWN = knowledge.load()
OURS = replace(KNOWN, rules=tuple(rule for rule in KNOWN.rules if rule.topic in (*HEAT, *TOPICS)))
ITEMS: dict[str, Cloth | Construction] = {**KNOWN.constructions, **KNOWN.cloths}


def facts(id: str, typed: Mapping[str, Any], content: str = "") -> Mapping[str, Fact]:
    """The facts of a cloth with the given content (what it usually has; a bare construction is cotton) and typed cells."""
    item = ITEMS[id]
    text = content or getattr(item, "usual_content", "100% cotton")
    return facts_of(typed, str, item, labelling.read_content(text, KNOWN), KNOWN)


def decide(fabrics: list[Mapping[str, Fact]]) -> list[dict[str, Decision]]:
    """Decisions on the topics under test."""
    return advise(fabrics, OURS, mights=False)


@cache
def advised(typed: tuple[tuple[str, Any], ...] = ()) -> dict[str, dict[str, Decision]]:
    """Every cloth and bare construction by id, decided with the same typed cells."""
    return dict(zip(ITEMS, decide([facts(id, dict(typed)) for id in ITEMS]), strict=True))
