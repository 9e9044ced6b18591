"""A fabric's card and its binder page as plain dicts and texts, ready for the template."""

from __future__ import annotations

from typing import Any

from handouts.model import Knowledge
from handouts.pages.actions import Actions
from handouts.pages.beyond import cautions, differs, likes
from handouts.pages.glance import settings, what_it_is, what_it_is_like
from handouts.pages.sentences import Sentences
from handouts.pages.unknown import unknown
from handouts.pages.words import Words, vocabulary
from handouts.records import Fabric


def card(fabric: Fabric, words: Words, knowledge: Knowledge, detail: str = "page") -> dict[str, Any]:
    """Everything a card (or, with detail `page`, a full page) says; what a fabric has nothing to say about is empty."""
    limits = vocabulary()["detail"][detail]
    do = Actions(Sentences(fabric, words, knowledge), limits)
    blocks = {
        "lasting": do.lasting(),
        "before": do.before(),
        "lay_out": do.lay_out(),
        "sew": do.sew(),
        "seams": do.seams(),
        "hem": do.hem(),
        "press": do.press(),
        "watch": do.watch(),
    }
    return {
        "code": fabric.code,
        "name": fabric.name,
        "lines": [line for line in (what_it_is(fabric, words), what_it_is_like(fabric, words)) if line],
        "settings": settings(fabric, words),
        **do.quietened(blocks),
        "allowance": allowance(fabric),
        "care": do.care(),
        "notes": fabric.notes.strip(),
        "differs": differs(fabric, words, limits["changes"]),
        "unknown": unknown(fabric, words if detail == "page" else words.single, limits),
        "likes": likes(fabric, words, limits["likes"]),
        "cautions": cautions(fabric, knowledge),
    }


def allowance(fabric: Fabric) -> dict[str, str] | None:
    """The seam allowance to draw, in mm; None when nothing or all of it is trimmed: then there is nothing to see."""
    value = fabric.advice["seam_allowance_mm"].value if "seam_allowance_mm" in fabric.advice else None
    return {key: f"{value[key]:g}" for key in ("sew", "trim")} if value and 0 < value["trim"] < value["sew"] else None
