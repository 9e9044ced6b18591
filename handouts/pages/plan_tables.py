"""The plan's tables for the hands: order of work, kits, what to lay ready; and the lines above them."""

from __future__ import annotations

from typing import Any

from handouts.pages.amounts import bought, cut
from handouts.pages.class_words import class_words
from handouts.pages.comparison import feed_words
from handouts.pages.measures import FIX, percent
from handouts.pages.plan_cells import DASH, TICK, Cell, Class, Row, codes, counted
from handouts.plans import Kit, Step


def order(of: Class) -> list[Row]:
    """One row a fabric: to tick, its stations, what changes before it."""
    return [step_row(of, number, step) for number, step in enumerate(of.plan.order)]


def step_row(of: Class, number: int, step: Step) -> Row:
    """One fabric in the order of work."""
    point, nm = step.settings["needle"]
    dots = step.settings["iron"] or 0
    changed = ", ".join(change(of, station, step) for station in step.changes)
    return [
        TICK,
        of.name(step.code, of.notes.get(step.code, "")),
        Cell(of.words.short("press_dots", dots), dots=dots),
        Cell(f"{of.words.short('needle_point', point)} {of.words.needle_size(nm)}"),
        overlock(step),
        Cell(changed or (DASH if number else of.say["change"]["start"])),
    ]


def overlock(step: Step) -> Cell:
    """Threads, and the differential where it is not plain."""
    threads, feed = step.settings["overlock"], step.settings["differential"]
    if not threads:
        return Cell(DASH)
    said = feed_words(*feed) if feed else "1"
    note = "" if said == "1" else class_words()["overlock"]["feed"].format(said)
    return Cell(counted("threads", threads), note)


def change(of: Class, station: str, step: Step) -> str:
    """One change in words: `needle`, `iron up to 2 dots`, `4 threads`."""
    value: Any = step.settings[station]
    if station == "iron":
        value = of.words.short("press_dots", value)
    if station == "differential":
        value = feed_words(*value)
    return str(of.say["change"][station].format(value))


def order_lines(of: Class) -> list[str]:
    """What the order saves, what litters, and what to do without an overlock."""
    now, before = sum(of.plan.changes.values()), sum(of.plan.changes_listed.values())
    saved = of.say["order_note" if now < before else "order_same"]
    litter = codes(step.code for step in of.plan.order if step.litters)
    wanting = codes(step.code for step in of.plan.order if step.settings["overlock"])
    lacking = wanting if not int(of.settings.get("sergers") or 0) else ""
    return [
        saved.format(now=counted("changes", now), before=before),
        of.say["litter"].format(codes=litter) if litter else "",
        of.say["no_overlock"].format(codes=lacking) if lacking else "",
    ]


def kits(of: Class) -> list[Row]:
    """One row a fabric: pieces, how they lie, what to cut and to buy."""
    return [[TICK, of.name(kit.code, "; ".join(kit_notes(of, kit))), *kit_row(of, kit)] for kit in of.plan.kits]


def kit_row(of: Class, kit: Kit) -> Row:
    """Pieces, how they lie, usable width, cut, shrinkage, buy, cost. Skins go by area."""
    pieces = Cell(str(kit.pieces))
    if kit.area_m2 is not None:
        area = of.measures.area(kit.area_m2)
        return [pieces, *[Cell(DASH)] * 4, Cell(area, of.say["kit"]["skin_note"], strong=True), of.money(None)]
    whole = of.measures.single.across(kit.width_cm)
    assumed = of.say["kit"]["width"].format(whole) if "width" in kit.assumed else ""
    laid = kit.rows > 0
    return [
        pieces,
        Cell(f"{kit.per_row}{FIX}×{FIX}{kit.rows}" if laid else DASH, mark=not laid),
        Cell(of.measures.across(int(kit.usable_cm)), assumed),
        Cell(cut(kit.cut_cm, of.measures) if laid else DASH),
        Cell((of.say["usual"] if "shrinkage" in kit.assumed else "{}").format(percent(kit.shrink_pct))),
        Cell(bought(kit.ask_m, of.measures) if laid else DASH, strong=True),
        of.money(kit.cost if laid else None),
    ]


def kit_notes(of: Class, kit: Kit) -> list[str]:
    """What to know before cutting this one."""
    say = of.say["kit"]
    worth = kit.saves_cm >= of.number("shop_step_cm")
    said = {
        say["too_wide"]: kit.rows == 0 and kit.area_m2 is None,
        say["one_way"]: kit.one_way,
        say["turned"]: kit.turned,
        say["saves"].format(cut(kit.saves_cm, of.measures)): worth,
    }
    return [words for words, so in said.items() if so]


def kit_lines(of: Class) -> list[str]:
    """How the pieces are cut and the lengths reckoned."""
    across, down = (cut(float(of.settings[key]), of.measures) for key in ("sample_width_cm", "sample_height_cm"))
    return [of.say["kits_note"].format(across=across, down=down)]


def ready(of: Class) -> list[Row]:
    """One row a thing to lay ready, and the fabrics that want it."""
    return [[TICK, Cell(item.title, strong=True), Cell(of.codes(item.codes))] for item in of.plan.ready]


def ready_lines(of: Class) -> list[str]:
    """What every student has at her place, and what all share."""
    kit = of.knowledge.tables["planning"]["kit"]
    samples = counted("samples", of.settings["samples_per_student"])
    return [
        of.say["ready_student"].format(things=", ".join(kit["student"]), samples=samples),
        of.say["ready_shared"].format(things=", ".join(kit["shared"])),
    ]
