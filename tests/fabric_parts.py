"""What fabrics made by hand are put together from: rules that spoke, decisions, a whole ordinary advice, facts."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from handouts.model import Knowledge, Needles, Rule
from handouts.records import Decision, Fact, Spoke
from tests.class_by_hand import ADVICE

DAY = date(2026, 11, 25)
CAUTIONS = {
    "defer": {"say": "General information. Follow the equipment's manual, the label on the bolt and local codes."},
    "caution": [
        {"when": "iron", "card": "Iron upright; fingers out of the steam."},
        {"when": "always", "card": "Machine off to change a needle."},
        {"when": "rotary", "card": "Close the cutter after every cut."},
        {"when": "vinyl", "card": "Do not heat PVC."},
        {"when": "plan", "card": ""},
    ],
}


def knowledge() -> Knowledge:
    """Only what pages look up: needle numbers, cautions, one prohibition."""
    sizes = {60: 8, 70: 10, 75: 11, 80: 12, 90: 14, 100: 16, 110: 18}
    no_pins = Rule(
        "hold-no-pins", "hold", "surface", {}, None, "A pin hole stays.", ("judgement",), DAY, never=("pins",)
    )
    return Knowledge({}, {}, {}, {}, {}, (), (no_pins,), Needles(sizes, {}, ()), {"cautions": CAUTIONS})


def said(value: Any, because: str = "", tier: str = "usual", **more: Any) -> Spoke:
    """A rule of the test's own."""
    return Spoke("by-hand", value, because, ("judgement",), tier, **more)


def decision(topic: str, value: Any, because: str = "", tier: str = "usual", **more: Any) -> Decision:
    """A decision that one rule carried."""
    return Decision(topic, value, (said(value, because, tier),), **more)


def advice(**given: Any) -> dict[str, Decision]:
    """A whole advice: these values, the rest ordinary. A Decision is taken as it is."""
    ordinary: Mapping[str, Any] = {
        **ADVICE,
        "shrink_pct": {"length": 3, "width": 3},
        "stitch_mm": {"low": 2.0, "high": 3.0, "start": 2.5},
        "seam_finish": ("overlock", "zigzag"),
        "suits": (),
        "watch_out": (),
    }
    whole = {**ordinary, **given}
    return {topic: value if isinstance(value, Decision) else decision(topic, value) for topic, value in whole.items()}


def facts(assumed: Mapping[str, Any] | None = None, **typed: Any) -> dict[str, Fact]:
    """Facts, typed ones in cells, the others usual for the cloth."""
    found = {name: Fact(value, "typed", "Fabrics!F2") for name, value in typed.items()}
    return found | {name: Fact(value, "assumed", "cloths") for name, value in (assumed or {}).items()}
