"""Fabrics and classes made by hand, for tests of the plan and of the pages that need no rules: every value is given here."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from handouts.records import Content, Decision, Fabric, Fact, Section, Share, Spoke, Workshop
from handouts.sheets import CLASS

WORDS = {0: "no iron", 1: "silk", 2: "wool", 3: "cotton"}
CELSIUS = {0: 0, 1: 110, 2: 150, 3: 200}

ADVICE: Mapping[str, Any] = {
    "press_dots": 2,
    "press_c": 150,
    "iron_word": "wool",
    "steam": "medium",
    "pretreat": ("Wash and dry it as the finished piece will be.",),
    "shrink_pct": {"length": 3, "width": 2},
    "layout": ("Lay the grain parallel to the selvedge.",),
    "cut_tool": "either",
    "cut_layers": "double",
    "hold": ("pins", "clips"),
    "mark": ("Mark with chalk on the wrong side.",),
    "interfacing": ("Fuse a scrap first.",),
    "needle_point": ("universal",),
    "needle_nm": {"low": 70, "high": 90, "start": 80},
    "thread": "polyester, Tex 27",
    "stitch": "301 straight",
    "stitch_mm": {"low": 2.2, "high": 3.0, "start": 2.5},
    "foot": ("Use the all-purpose foot.",),
    "serger": {"use": "no", "threads": 0, "differential": {"low": 1.0, "high": 1.0}},
    "seam_finish": ("zigzag", "overlock"),
    "seam_allowance_mm": {"sew": 15, "trim": 15},
    "hem": ("Turn twice and topstitch.",),
    "press_side": "wrong",
    "press_cloth": "optional",
    "press_direction": "open",
    "suits": ("shirts", "loose dresses"),
    "watch_out": ("A hot iron marks it for good.",),
}


def spoke(topic: str, value: Any, because: str = "") -> Spoke:
    """One rule of the test's own that says this."""
    lasting = topic == "watch_out"
    never = ("wash",) if topic == "pretreat" and "not wash" in " ".join(value) else ()
    reason = because or f"Reason for {topic}."
    return Spoke(f"{topic}-by-hand", value, reason, ("judgement",), "usual", lasting=lasting, never=never)


def fabric(code: str, name: str, dots: int = 2, facts: Mapping[str, Any] | None = None, **advice: Any) -> Fabric:
    """A fabric with this advice, the rest of it ordinary. facts are taken as typed."""
    heat = {"press_dots": dots, "press_c": CELSIUS[dots], "iron_word": WORDS[dots]}
    values = {**ADVICE, **heat, **advice}
    known = {
        "structure": "woven",
        "families": (),
        "nap": "none",
        "one_way": False,
        "check": "none",
        "trim": (),
        **(facts or {}),
    }
    return Fabric(
        code=code,
        name=name,
        row=int(code[1:]) + 1,
        cloth="plain-weave",
        cloth_name="plain weave",
        content=Content("100% cotton", (Section("", (Share("cotton", 100.0, "cotton"),)),)),
        facts={key: Fact(value, "typed", f"Fabrics!{code}") for key, value in known.items()},
        advice={topic: Decision(topic, value, (spoke(topic, value),)) for topic, value in values.items()},
    )


def settings(**changed: Any) -> dict[str, Any]:
    """The Class sheet with nothing typed but these."""
    return {**{column.key: column.default for column in CLASS.columns}, **changed}


def workshop(fabrics: Sequence[Fabric], supplies: Sequence[Mapping[str, Any]] = (), **changed: Any) -> Workshop:
    """A class of these fabrics."""
    given = settings(**{"title": "Coats and linings, evening class", "teacher": "A. Example", **changed})
    return Workshop("coats", given, tuple(fabrics), (), tuple(supplies))


def serger(threads: int = 4, low: float = 1.0, high: float = 1.0, use: str = "yes") -> dict[str, Any]:
    """An overlock setting."""
    return {"use": use, "threads": threads, "differential": {"low": low, "high": high}}


def nm(start: int) -> dict[str, int]:
    """A needle size with one size either side."""
    return {"low": start - 10, "high": start + 10, "start": start}


def mm(start: float) -> dict[str, float]:
    """A stitch length with half a millimetre either side."""
    return {"low": start - 0.5, "high": start + 0.5, "start": start}
