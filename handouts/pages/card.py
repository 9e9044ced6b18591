"""A fabric's card and its binder page as plain dicts and texts, ready for the template."""

from __future__ import annotations

from typing import Any

from handouts.model import Knowledge
from handouts.pages.actions import Actions
from handouts.pages.beyond import cautions, differs, likes, unknown
from handouts.pages.glance import settings, what_it_is, what_it_is_like
from handouts.pages.words import Words
from handouts.records import Fabric


def card(fabric: Fabric, words: Words, knowledge: Knowledge) -> dict[str, Any]:
    """Everything a card says, block by block; what a fabric has nothing to say about is empty."""
    do = Actions(fabric, words, knowledge)
    return {
        "code": fabric.code,
        "name": fabric.name,
        "lines": [line for line in (what_it_is(fabric, words), what_it_is_like(fabric, words)) if line],
        "settings": settings(fabric, words),
        "lasting": do.lasting(),
        "before": do.before(),
        "lay_out": do.lay_out(),
        "sew": do.sew(),
        "seams": do.seams(),
        "allowance": allowance(fabric),
        "hem": do.hem(),
        "press": do.press(),
        "care": do.care(),
        "watch": do.watch(),
        "notes": fabric.notes.strip(),
        "differs": differs(fabric, words),
        "unknown": unknown(fabric, words),
        "likes": likes(fabric, words),
        "cautions": cautions(fabric, knowledge),
    }


def allowance(fabric: Fabric) -> dict[str, str] | None:
    """The seam allowance to draw, in mm; None when nothing is trimmed: then there is nothing to see."""
    value = fabric.advice["seam_allowance_mm"].value if "seam_allowance_mm" in fabric.advice else None
    return {key: f"{value[key]:g}" for key in ("sew", "trim")} if value and value["trim"] < value["sew"] else None
