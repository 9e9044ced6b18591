"""Kits: how many pieces, how they lie on the cloth, how much to cut and how much to buy."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from handouts.model import Knowledge
from handouts.plans import Kit
from handouts.records import Fabric
from handouts.units import M_PER_YARD

HAIR = 1e-9  # lengths that differ by less are the same: 12 × 3.5 fits 42 in spite of binary fractions


@dataclass(frozen=True)
class Yield:
    """Pieces a row, rows, and the length they take in the unit that went in."""

    per_row: int
    rows: int
    length: float


def whole(value: float) -> int:
    """The whole number below, forgiving a hair."""
    return math.floor(value + HAIR)


def up(value: float) -> int:
    """The whole number above, forgiving a hair."""
    return math.ceil(value - HAIR)


def pieces_needed(students: int, each: int, spare_pct: float) -> int:
    """Pieces to cut: one set for every student and the spare share, rounded up (24 and 10 % are 27)."""
    return up(students * each * (1 + spare_pct / 100))


def yield_of(pieces: int, width: float, across: float, down: float) -> Yield:
    """Rows of rectangles on a cloth: per row = ⌊width / across⌋, rows = ⌈pieces / per row⌉, length = rows × down.

    The arithmetic of published cutting charts (squares_per_yard.csv). No row fits: rows and length are 0.
    """
    per_row = whole(width / across)
    rows = up(pieces / per_row) if per_row else 0
    return Yield(per_row, rows, rows * down)


def pieces_from(width: float, length: float, across: float, down: float) -> int:
    """How many rectangles a cloth of this width and length gives."""
    return whole(width / across) * whole(length / down)


def length_to_buy(need: float, shrink_pct: float) -> float:
    """Length to buy so that `need` is left after the first wash: need / (1 − s). Growth is not counted on.

    s is the dimensional change of a wash test, (before − after) / before (AATCC TM135 as reported).
    """
    return need / (1 - max(0.0, shrink_pct) / 100)


def rounded_up(metres: float, imperial: bool, knowledge: Knowledge) -> float:
    """Metres to ask for in a shop: the next step of its rule, 10 cm or an eighth of a yard."""
    number = knowledge.tables["planning"]["number"]
    step = number["shop_step_yd"]["value"] * M_PER_YARD if imperial else number["shop_step_cm"]["value"] / 100
    return up(metres / step) * step


def shrinkage(fabric: Fabric, way: str) -> tuple[float, bool]:
    """Percent that the first wash takes, length or width, and whether that is assumed: the cell, else the advice, else 0."""
    fact = fabric.facts.get(f"shrink_{way}_pct")
    if fact is not None and fact.value is not None:
        return float(fact.value), fact.origin != "typed"
    return float((fabric.advised("shrink_pct") or {}).get(way) or 0), True


def one_way(fabric: Fabric) -> bool:
    """Whether all pieces must point the same way: print, sheen, nap or an uneven check."""
    return bool(fabric.fact("one_way") or fabric.fact("nap") in ("brushed", "short", "deep") or uneven(fabric))


def uneven(fabric: Fabric) -> bool:
    """Whether a check or stripe differs when turned end for end."""
    return fabric.fact("check") == "uneven check"


def may_turn(fabric: Fabric, knowledge: Knowledge) -> bool:
    """Whether a piece may lie across the cloth: never on one-way, napped, checked or knitted cloth."""
    never = knowledge.tables["planning"]["turning"]["never"]
    checked = (fabric.fact("check") or "none") != "none"
    return not (one_way(fabric) or checked or fabric.fact("structure") in never)


def kit(fabric: Fabric, settings: Mapping[str, Any], knowledge: Knowledge) -> Kit:
    """What to cut and buy of one fabric. The shrinkage is added before cutting, in both directions."""
    pieces = pieces_needed(int(settings["students"]), int(settings["samples_per_student"]), settings["spare_pct"])
    across, down = float(settings["sample_width_cm"]), float(settings["sample_height_cm"])
    width_cm, narrower = width(fabric, knowledge), shrinkage(fabric, "width")[0]
    selvedges = knowledge.tables["planning"]["number"]["selvedges_cm"]["value"]
    usable = max(0.0, width_cm * (1 - max(0.0, narrower) / 100) - selvedges)
    laid, turned, saves = lay(fabric, pieces, (usable, across, down), knowledge)
    shrink, guessed = shrinkage(fabric, "length")
    buy_cm = length_to_buy(laid.length, shrink)
    ask_m = rounded_up(buy_cm / 100, settings.get("units") == "imperial", knowledge)
    unknown = (("width", not typed(fabric.facts.get("width_cm"))), ("shrinkage", guessed))
    return Kit(
        code=fabric.code,
        name=fabric.name,
        pieces=pieces,
        turned=turned,
        width_cm=width_cm,
        usable_cm=usable,
        per_row=laid.per_row,
        rows=laid.rows,
        cut_cm=laid.length,
        shrink_pct=shrink,
        buy_cm=buy_cm,
        ask_m=ask_m,
        assumed=tuple(name for name, is_so in unknown if is_so),
        area_m2=skin_area(fabric, pieces * across * down, knowledge),
        saves_cm=saves,
        one_way=one_way(fabric),
        cost=cloth_cost(fabric, ask_m),
    )


def lay(
    fabric: Fabric, pieces: int, size: tuple[float, float, float], knowledge: Knowledge
) -> tuple[Yield, bool, float]:
    """How the pieces lie (usable width, across, down in cm), whether they are turned, and the cm that turning would save.

    Pieces keep the grain; cloth without one is laid whichever way takes less; one-way, napped and knitted cloth never turns.
    """
    usable, across, down = size
    straight, turned = yield_of(pieces, usable, across, down), yield_of(pieces, usable, down, across)
    shorter = turned.rows > 0 and (straight.rows == 0 or turned.length < straight.length - HAIR)
    if not shorter or not may_turn(fabric, knowledge):
        return straight, False, 0.0
    if fabric.fact("structure") in knowledge.tables["planning"]["turning"]["no_grain"]:
        return turned, True, 0.0
    return straight, False, straight.length - turned.length if straight.rows else 0.0


def width(fabric: Fabric, knowledge: Knowledge) -> float:
    """Width of the cloth in cm, the planning table's when nobody gave one."""
    return float(fabric.fact("width_cm") or knowledge.tables["planning"]["number"]["assumed_width_cm"]["value"])


def typed(fact: Any) -> bool:
    """Whether the person at the workbook gave this fact."""
    return fact is not None and fact.value is not None and fact.origin == "typed"


def skin_area(fabric: Fabric, pieces_cm2: float, knowledge: Knowledge) -> float | None:
    """Square metres of skin to buy, with the share lost to edges and flaws; None for cloth that has a width."""
    if fabric.fact("structure") != "skin":
        return None
    waste = knowledge.tables["planning"]["number"]["skin_waste_pct"]["value"]
    return pieces_cm2 / 1e4 * (1 + waste / 100)


def cloth_cost(fabric: Fabric, ask_m: float) -> float | None:
    """What the cloth costs in the workbook's currency; None without a price, and for skins, whose price is by area."""
    price = fabric.fact("price_per_m")
    return None if price is None or fabric.fact("structure") == "skin" else float(price) * ask_m
