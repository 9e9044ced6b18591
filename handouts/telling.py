"""Advice told at a terminal: why each line is as it is, in words, and everything as JSON (design.md, section 7)."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from handouts.model import Knowledge, Topic, Value
from handouts.problems import Problem
from handouts.records import Change, Decision, Fabric, Fact, Label, Spoke, Workshop
from handouts.units import number_words


def as_json(workshop: Workshop) -> str:
    """The class with its problems and every fabric's facts, advice and label, as the JSON contract says."""
    whole = {
        "class": {key: plain(value) for key, value in workshop.settings.items()},
        "problems": [problem_json(found) for found in workshop.problems],
        "fabrics": [fabric_json(fabric) for fabric in workshop.fabrics],
    }
    return json.dumps(whole, ensure_ascii=False, indent=1)


def problem_json(found: Problem) -> dict[str, Any]:
    """One finding."""
    return {"code": found.code, "cells": list(found.cells), "message": f"{found.message} {found.mend}".strip()}


def fabric_json(fabric: Fabric) -> dict[str, Any]:
    """One fabric."""
    return {
        "code": fabric.code,
        "name": fabric.name,
        "facts": {name: fact_json(fact) for name, fact in fabric.facts.items()},
        "advice": {topic: decision_json(topic, decision, fabric) for topic, decision in fabric.advice.items()},
        "label": label_json(fabric.label) if fabric.label else None,
    }


def fact_json(fact: Fact) -> dict[str, Any]:
    """One fact."""
    return {"value": plain(fact.value), "origin": fact.origin, "where": fact.where}


def decision_json(topic: str, decision: Decision, fabric: Fabric) -> dict[str, Any]:
    """One topic's value and trace."""
    value = plain(decision.value)
    if topic == "shrink_pct" and isinstance(value, dict):
        value |= {"origin": shrink_origin(fabric)}
    said = {"won": decision.won, "might": decision.might, "lost": decision.lost}
    return {"value": value, **{key: [spoke_json(spoke) for spoke in spokes] for key, spokes in said.items()}}


def shrink_origin(fabric: Fabric) -> str:
    """Whether the shrinkage was typed or is only usual."""
    typed = [fabric.facts[name].origin for name in ("shrink_length_pct", "shrink_width_pct") if name in fabric.facts]
    return "typed" if "typed" in typed else "assumed"


def spoke_json(spoke: Spoke) -> dict[str, Any]:
    """One rule that spoke."""
    return {"rule": spoke.rule, "because": spoke.because, "sources": list(spoke.sources)}


def label_json(label: Label) -> dict[str, Any]:
    """The fibre statement and care."""
    return {
        "market": label.market,
        "statement": list(label.statement),
        "care": list(label.care),
        "problems": [problem_json(found) for found in label.problems],
        "supplied_by": label.supplied_by,
    }


def plain(value: Value) -> Any:
    """A value as JSON holds it: sets sorted, tuples as lists, whole floats as integers, dates as text."""
    if isinstance(value, (frozenset, set)):
        return sorted(value)
    if isinstance(value, (tuple, list)):
        return [plain(v) for v in value]
    if isinstance(value, Mapping):
        return {key: plain(v) for key, v in value.items()}
    if isinstance(value, bool) or value is None or isinstance(value, (int, str)):
        return value
    if isinstance(value, float):
        return int(value) if value.is_integer() else value
    return str(value)


def explain(workshop: Workshop, knowledge: Knowledge, code: str = "", topic: str = "") -> Iterator[str]:
    """Lines that say, per fabric and topic, what is advised, why, who says so, and what would change it."""
    for fabric in workshop.fabrics:
        if code and fabric.code.casefold() != code.casefold():
            continue
        yield f"{fabric.code}  {fabric.name}: {fabric.cloth_name}"
        if not topic:
            yield from known(fabric)
        for id, decision in fabric.advice.items():
            if not topic or id == topic:
                yield from told(knowledge.topics[id], decision, fabric, knowledge)
        yield ""


def known(fabric: Fabric) -> Iterator[str]:
    """What is known of a fabric, and where from."""
    for name, fact in fabric.facts.items():
        yield f"    {name.replace('_', ' ')}: {said(fact.value)}   [{fact.origin}: {fact.where}]"


def told(topic: Topic, decision: Decision, fabric: Fabric, knowledge: Knowledge) -> Iterator[str]:
    """One topic's advice with its reasons."""
    yield f"  {topic.title}: {said(decision.value)} {topic.unit}".rstrip() + OWN_WORD[decision.choice]
    yield from (reason("because", spoke, knowledge) for spoke in decision.won)
    yield from (reason("caution", spoke, knowledge) for spoke in decision.cautions)
    for spoke in decision.might:
        verb = f"would be {said(spoke.value)}" if spoke.value is not None else f"would not be {topic.title.lower()} as above"
        yield f"      if {spoke.test}: {verb} ({spoke.because})"
    yield from (f"      {change_words(change)}" for change in fabric.changes if change.topic == topic.id)
    behind = [spoke for spoke in decision.lost if spoke.value != decision.value]
    yield from (f"      gave way: {said(spoke.value)} ({spoke.because})" for spoke in behind)


OWN_WORD = {"rules": "", "house": "   (a rule of this class)", "typed": "   (your choice)"}


def reason(word: str, spoke: Spoke, knowledge: Knowledge) -> str:
    """One reason with its sources and, for the class's own word, its cell."""
    sources = [knowledge.sources[id].title if id in knowledge.sources else id for id in spoke.sources]
    return f"      {word}: {spoke.because} [{'; '.join((*spoke.cells, *sources))}]"


def change_words(change: Change) -> str:
    """`from 420 g/m²: 100`."""
    return f"{'under' if change.below else 'from'} {number_words(change.at, 0)} g/m²: {said(change.value)}"


def said(value: Value) -> str:
    """A value in words: ranges as `70–80, start 70`, lists with commas."""
    if value is None:
        return "nothing"
    if isinstance(value, Mapping):
        if "start" in value:
            low, high, start = (number_words(value[key], 2) for key in ("low", "high", "start"))
            return start if low == high else f"{low}–{high}, start {start}"
        return ", ".join(f"{key} {said(v)}" for key, v in value.items())
    if isinstance(value, (tuple, list, frozenset)):
        return ", ".join(sorted(value) if isinstance(value, frozenset) else map(str, value)) or "nothing"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return number_words(value, 2) if isinstance(value, float) else str(value)
