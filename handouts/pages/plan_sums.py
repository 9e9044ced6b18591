"""The plan's tables for the purse and the clock: supplies, time, cost, thread; and the lines above them."""

from __future__ import annotations

from handouts.pages.amounts import minutes, thread
from handouts.pages.measures import FIX
from handouts.pages.plan_cells import DASH, TICK, Cell, Class, Row, codes, counted
from handouts.plans import StationTime, Supply, ThreadUse
from handouts.units import number_words


def supplies(of: Class) -> list[Row]:
    """One row a thing: how much, packs, cost, which fabrics; last what only the teacher can count."""
    return [supply(of, one) for one in of.plan.supplies]


def supply(of: Class, one: Supply) -> Row:
    """One thing to have."""
    amount = DASH
    if one.need is not None:
        amount = thread(one.need, of.measures) if one.unit == "m" else str(int(one.need))
    return [
        TICK,
        Cell(one.item, strong=True),
        Cell(amount),
        packs(of, one),
        of.money(one.cost),
        Cell(of.codes(one.codes)),
    ]


def packs(of: Class, one: Supply) -> Cell:
    """How many packs of what: `2 of 500 m`, and what one costs."""
    if one.pack_size is None:
        return Cell(DASH)
    unit = of.measures.pick("m", "yd") if one.unit == "m" and of.measures.units == "imperial" else one.unit
    size = f"of{FIX}{number_words(float(one.pack_size))}" + (f"{FIX}{unit}" if unit else "")
    price = f"{of.money(float(one.price)).words} each" if one.price is not None else ""
    return Cell(size if one.packs is None else f"{one.packs}{FIX}{size}", price)


def supply_lines(of: Class) -> list[str]:
    """How needles and thread were counted."""
    hours, spare = of.number("needle_hours"), of.number("needle_spare")
    return [of.say["supplies_note"].format(hours=hours, spare=spare, waste=of.number("waste_pct", "thread_use"))]


def times(of: Class) -> list[Row]:
    """One row a place that people queue for; marked where more have to share it than it can serve."""
    return [time(of, place) for place in of.plan.hours.stations]


def time(of: Class, place: StationTime) -> Row:
    """One kind of place: how many there are, students to each, how long each is busy."""
    crowded = place.students_each > place.most
    note = of.say["time_words"]["crowded"].format(most=number_words(place.most)) if crowded else ""
    return [
        Cell(of.knowledge.tables["planning"]["place"][place.station]["title"], strong=True),
        Cell(str(place.count)),
        Cell(number_words(place.students_each), note, mark=crowded, strong=crowded),
        Cell(minutes(place.minutes)),
    ]


def costs(of: Class) -> list[Row]:
    """Cloth and supplies added up, the class and a student; what each thing costs stands in its own table."""
    cost, say = of.plan.cost, of.say["cost_words"]
    if cost is None:
        return []
    cloth = sum(kit.cost or 0.0 for kit in of.plan.kits)
    parts = [(name, amount) for name, amount in ((say["cloth"], cloth), (say["shelf"], cost.total - cloth)) if amount]
    sums = [(say["total"], cost.total), (say["each"], cost.each)]
    rows = [[Cell(name), of.money(amount)] for name, amount in parts]
    return rows + [[Cell(name, strong=True), Cell(of.money(amount).words, strong=True)] for name, amount in sums]


def cost_lines(of: Class) -> list[str]:
    """What has no price: fabrics by code, supplies by number."""
    if of.plan.cost is None:
        return []
    cloth = codes(kit.code for kit in of.plan.kits if kit.cost is None)
    shelf = sum(one.need is not None and one.cost is None for one in of.plan.supplies)
    missing = [part for part in (cloth, counted("supplies", shelf) if shelf else "") if part]
    return [of.say["cost_words"]["missing"].format(", ".join(missing))] if missing else []


def threads(of: Class) -> list[Row]:
    """One row a fabric: stitch, seam, ratio, metres."""
    return [use(of, one) for one in of.plan.threads]


def use(of: Class, one: ThreadUse) -> Row:
    """One fabric's thread."""
    name = of.knowledge.tables["thread_use"]["stitch"].get(one.stitch, {}).get("name", "")
    return [
        of.name(one.code),
        Cell(f"{one.stitch} {name}".strip()),
        Cell(thread(one.seam_m, of.measures)),
        Cell(f"{number_words(one.ratio)}{FIX}:{FIX}1, {one.basis}"),
        Cell(thread(one.machine_m, of.measures) if one.machine_m else DASH),
        Cell(thread(one.overlock_m, of.measures) if one.overlock_m else DASH),
    ]
