"""Which care symbols stand for the supplier's five settings. Never for guidance: a symbol is a claim (16 CFR 423.6(c))."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from handouts.labelling.supplier import iron_dots, is_no, settings

WASH_C = (30, 40, 50, 60, 70, 95)
"""°C of the washing symbols of ISO 3758 (50 without a bar was not seen in the sources)."""


def symbols(text: str, iron_words: Mapping[str, int]) -> tuple[str, ...]:
    """Five symbol names in the order wash, bleach, dry, iron, clean; none unless all five settings have one of their own."""
    chosen = {key: value.casefold().strip(" .") for key, value in settings(text).items()}
    if not set(MAKERS) <= set(chosen):
        return ()
    found = [make(chosen[key], iron_words) for key, make in MAKERS.items()]
    return tuple(found) if all(found) else ()


def wash(value: str, words: Mapping[str, int]) -> str:
    """`wash-40-mild`, `wash-hand`, `wash-no`."""
    if is_no(value):
        return "wash-no"
    if "hand" in value:
        return "wash-hand"
    number = re.search(r"\d{2}", value)
    if not number or int(number.group()) not in WASH_C:
        return ""
    way = "-very-mild" if "very" in value else "-mild" if re.search("gentle|mild|delicate", value) else ""
    return f"wash-{int(number.group())}{way}"


def bleach(value: str, words: Mapping[str, int]) -> str:
    """`bleach-no`, `bleach-oxygen`, `bleach-any`."""
    if is_no(value):
        return "bleach-no"
    return "bleach-oxygen" if re.search("oxygen|non", value) else "bleach-any" if value == "any" else ""


def dry(value: str, words: Mapping[str, int]) -> str:
    """`tumble-1`, `tumble-2`, `tumble-no`, `line`, `drip`, `flat`."""
    if is_no(value) or "no tumble" in value:
        return "tumble-no"
    heat = {
        "low": "tumble-1",
        "medium": "tumble-2",
        "normal": "tumble-2",
        "line": "line",
        "drip": "drip",
        "flat": "flat",
    }
    return next((name for word, name in heat.items() if word in value), "")


def iron(value: str, words: Mapping[str, int]) -> str:
    """`iron-1` to `iron-3`, `iron-no`."""
    dots = 0 if is_no(value) else iron_dots(value, words)
    return "iron-no" if is_no(value) else f"iron-{dots}" if dots else ""


def clean(value: str, words: Mapping[str, int]) -> str:
    """`clean-p`, `clean-f`, `clean-no`."""
    return {"p": "clean-p", "f": "clean-f", "petroleum": "clean-f"}.get(value, "clean-no" if is_no(value) else "")


MAKERS: Mapping[str, Callable[[str, Mapping[str, int]], str]] = {
    "washing": wash,
    "bleach": bleach,
    "drying": dry,
    "ironing": iron,
    "cleaning": clean,
}
"""Operation → what finds its symbol, in the standard's order."""
