"""The ladders of needle sizes and stitch lengths: whole, rising, and never falling where one rule hands over to another."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from itertools import pairwise

import pytest

from handouts.advice import advise
from handouts.model import Rule
from handouts.records import Fact
from tests.test_rules_sewing import EVERY, OWN, only


def ladders() -> Mapping[str, list[Rule]]:
    """Rules whose ids differ only by the weight they begin at, by what the ids share."""
    found: dict[str, list[Rule]] = defaultdict(list)
    for rule in OWN:
        stem = re.sub(r"-(\d+|lightest)$", "", rule.id)
        if stem != rule.id and "weight_gsm" in rule.when:
            found[stem].append(rule)
    for rules in found.values():
        rules.sort(key=lambda rule: rule.when.get("weight_gsm", {}).get("min", 0))
    return found


def test_ladders_have_neither_gap_nor_overlap() -> None:
    """Each step begins at the weight where the one before ends; the last has no end. (The finest wovens join the common steps.)"""
    assert len(ladders()) > 40
    for stem, rules in ladders().items():
        steps = [
            rule.when.get("weight_gsm", {})
            for rule in rules
            if stem != "needle-woven" or "below" in rule.when["weight_gsm"]
        ]
        assert all(a["below"] == b["min"] for a, b in pairwise(steps)), stem
        assert stem == "needle-woven-sharp" or "below" not in rules[-1].when.get("weight_gsm", {}), stem


def test_ladders_only_rise() -> None:
    """Low, start and high of needle sizes and stitch lengths never fall with the weight within a ladder."""
    for stem, rules in ladders().items():
        if rules[0].topic in ("needle_nm", "stitch_mm"):
            for key in ("low", "start", "high"):
                row = [rule.value[key] for rule in rules]
                assert row == sorted(row), f"{stem} {key}"


def turns(names: Iterable[str]) -> list[float]:
    """A weight just below and at every limit that the needle and stitch rules name."""
    limits = {float(v) for r in OWN if r.topic in names for v in dict(r.when.get("weight_gsm", {})).values()}
    return sorted({w for limit in limits for w in (limit - 0.5, limit)})


SOME = sorted(EVERY)[::9]


@pytest.mark.parametrize("topic", ["needle_nm", "stitch_mm"])
def test_heavier_is_never_finer_or_shorter_across_rules(topic: str) -> None:
    """Every ninth cloth at every limit: also where one rule hands over to another, for weights nobody expects of it."""
    steps = turns([topic])
    rows = [{**EVERY[id], "weight_gsm": Fact(w, "typed", "")} for id in SOME for w in steps]
    there = advise(rows, only(("press_dots", "needle_point", "needle_nm", "stitch", "stitch_mm")), mights=False)
    assert len(there) > 1000
    for number, id in enumerate(SOME):
        mine = [d[topic].value for d in there[number * len(steps) : (number + 1) * len(steps)]]
        for key in ("low", "start", "high"):
            falls = [w for w, (a, b) in zip(steps[1:], pairwise(mine), strict=True) if b[key] < a[key]]
            assert falls == [], f"{id} {key}"
