"""Everything as JSON: the contract of `handouts explain --json` and of advice.json (design.md, section 7)."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from handouts.model import Value
from handouts.problems import Problem
from handouts.records import Decision, Fabric, Fact, Label, Spoke, Workshop


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
