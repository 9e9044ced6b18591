"""Which care symbols stand for the supplier's five settings. Never for guidance: a symbol is a claim (16 CFR 423.6(c))."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from handouts.labelling.supplier import degrees_c, iron_dots, is_no, settings
from handouts.model import Knowledge


def symbols(text: str, knowledge: Knowledge) -> tuple[str, ...]:
    """Five symbol names in the order wash, bleach, dry, iron, clean; none unless all five settings have one of their own."""
    chosen = {key: value.casefold().strip(" .") for key, value in settings(text).items()}
    if not set(MAKERS) <= set(chosen) or unsaid(chosen, knowledge):
        return ()
    found = [make(chosen[key], knowledge) for key, make in MAKERS.items()]
    return tuple(found) if all(found) else ()


def unsaid(chosen: Mapping[str, str], knowledge: Knowledge) -> bool:
    """Whether the supplier forbids steam on an iron whose symbol allows it: only one dot and no iron mean no steam."""
    dots = 0 if is_no(chosen["ironing"]) else iron_dots(chosen["ironing"], knowledge) or 0
    return dots > 1 and ("no steam" in chosen["ironing"] or is_no(chosen.get("steam", "")))


def wash(value: str, knowledge: Knowledge) -> str:
    """`wash-40-mild`, `wash-hand`, `wash-no`."""
    if is_no(value):
        return "wash-no"
    if "hand" in value:
        return "wash-hand"
    number = re.search(r"\d{2,3}", value)
    celsius = next(iter(degrees_c(value)), int(number.group())) if number else 0
    way = "very-mild" if "very" in value else "mild" if re.search("gentle|mild|delicate", value) else "normal"
    if way not in knowledge.tables["care"]["symbol"]["wash"].get(str(celsius), ()):
        return ""
    return f"wash-{celsius}" if way == "normal" else f"wash-{celsius}-{way}"


def bleach(value: str, knowledge: Knowledge) -> str:
    """`bleach-no`, `bleach-oxygen`, `bleach-any`."""
    if is_no(value):
        return "bleach-no"
    return "bleach-oxygen" if re.search("oxygen|non", value) else "bleach-any" if value == "any" else ""


def dry(value: str, knowledge: Knowledge) -> str:
    """`tumble-1`, `tumble-2`, `tumble-no`, `line`, `drip`, `flat`, `flat-drip`, each of the last also with `-shade`."""
    if is_no(value) or "no tumble" in value:
        return "tumble-no"
    still = (
        "flat"
        if "flat" in value
        else "drip"
        if "drip" in value
        else "line"
        if "line" in value or "shade" in value
        else ""
    )
    if still:
        wet, dark = "-drip" if still == "flat" and "drip" in value else "", "-shade" if "shade" in value else ""
        return f"{still}{wet}{dark}"
    heat = {
        "low": "tumble-1",
        "medium": "tumble-2",
        "normal": "tumble-2",
    }
    return next((name for word, name in heat.items() if word in value), "")


def iron(value: str, knowledge: Knowledge) -> str:
    """`iron-1` to `iron-3`, `iron-no`."""
    dots = 0 if is_no(value) else iron_dots(value, knowledge)
    return "iron-no" if is_no(value) else f"iron-{dots}" if dots else ""


def clean(value: str, knowledge: Knowledge) -> str:
    """`clean-p`, `clean-f`, `clean-no`."""
    return {"p": "clean-p", "f": "clean-f", "petroleum": "clean-f"}.get(value, "clean-no" if is_no(value) else "")


MAKERS: Mapping[str, Callable[[str, Knowledge], str]] = {
    "washing": wash,
    "bleach": bleach,
    "drying": dry,
    "ironing": iron,
    "cleaning": clean,
}
"""Operation → what finds its symbol, in the standard's order."""
