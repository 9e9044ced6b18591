"""What to have on the shelf, and what it all costs where the workbook gives prices."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from handouts.plans import Cost, Kit, NeedleNeed, Supply, ThreadUse
from handouts.units import M_PER_YARD


@dataclass(frozen=True)
class Want:
    """Something needed: its name, how much, the unit, and the words by which a Supplies row is known for it."""

    item: str
    amount: float
    unit: str
    words: frozenset[str]
    codes: tuple[str, ...]


def words(text: str) -> frozenset[str]:
    """The plain words and numbers of an item, plurals cut: `Needles, universal 80/12` → needle universal 80 12."""
    return frozenset(word.removesuffix("s") for word in re.findall(r"[\w-]+", text.casefold()))


def wants(threads: Sequence[ThreadUse], needles: Sequence[NeedleNeed], us_size: Mapping[int, int]) -> list[Want]:
    """Needles of every kind, machine thread by its words, overlock thread, each with the fabrics it is for."""
    found = [needle_want(need, us_size) for need in needles]
    kinds: dict[str, list[ThreadUse]] = {}
    for use in threads:
        kinds.setdefault(use.thread, []).append(use)
    for thread, uses in kinds.items():
        fibre = re.split(r"[\s,;]", thread.casefold())[0]
        found.append(thread_want(f"thread, {thread}", {"thread", fibre} - {""}, [(u.code, u.machine_m) for u in uses]))
    overlock = [(use.code, use.overlock_m) for use in threads if use.overlock_m]
    return [*found, thread_want("overlock thread", {"overlock", "thread"}, overlock)] if overlock else found


def needle_want(need: NeedleNeed, us_size: Mapping[int, int]) -> Want:
    """Needles of one kind: `needles, universal 80/12`, `overlock needles, stretch 90/14`."""
    overlock = need.where == "overlock"
    size = f"{need.nm}/{us_size[need.nm]}" if need.nm in us_size else str(need.nm)
    item = f"{'overlock ' if overlock else ''}needles, {need.point} {size}"
    known = {"needle", need.point, str(need.nm)} | ({"overlock"} if overlock else set())
    return Want(item, need.count, "", frozenset(known), need.codes)


def thread_want(item: str, known: set[str], uses: Sequence[tuple[str, float]]) -> Want:
    """Metres of one thread for the fabrics that take it."""
    return Want(item, sum(metres for _, metres in uses), "m", frozenset(known), tuple(code for code, _ in uses))


def supplies(found: Sequence[Want], sheet: Sequence[Mapping[str, Any]], imperial: bool = False) -> tuple[Supply, ...]:
    """Every want with its pack and price, where a row of the sheet names it; then the rows that nothing here counts.

    A pack of thread is so many metres, or yards in an imperial workbook.
    """
    taken: set[int] = set()
    lines = []
    for want in found:
        row = next((n for n, r in enumerate(sheet) if fits(want, words(str(r.get("item", ""))))), None)
        taken.add(-1 if row is None else row)
        lines.append(supply(want, {} if row is None else sheet[row], imperial))
    rest = [r for n, r in enumerate(sheet) if n not in taken and r.get("item")]
    return (*lines, *(Supply(str(r["item"]), None, "", None, r.get("pack_size"), r.get("price")) for r in rest))


def fits(want: Want, said: frozenset[str]) -> bool:
    """Whether a row means this want: all its words are there, and an overlock's things are only for the overlock."""
    overlock = bool({"overlock", "serger", "cone"} & said)
    said = said | {"overlock"} if overlock else said
    return want.words <= said and overlock == ("overlock" in want.words)


def supply(want: Want, row: Mapping[str, Any], imperial: bool) -> Supply:
    """One want in whole packs, and what they cost."""
    pack, price = row.get("pack_size"), row.get("price")
    amount = want.amount / M_PER_YARD if imperial and want.unit == "m" else want.amount
    packs = math.ceil(amount / pack) if pack else None
    cost = packs * float(price) if packs is not None and price is not None else None
    return Supply(want.item, want.amount, want.unit, packs, pack, price, cost, want.codes)


def cost(kits: Sequence[Kit], lines: Sequence[Supply], students: int) -> Cost | None:
    """Cloth and supplies added up, for the class and a student; None when the workbook gives no price at all."""
    cloth = [(f"{kit.code} {kit.name}", kit.cost) for kit in kits]
    shelf = [(line.item, line.cost) for line in lines if line.need is not None]
    priced = [(name, amount) for name, amount in (*cloth, *shelf) if amount is not None]
    if not priced:
        return None
    total = sum(amount for _, amount in priced)
    missing = tuple(name for name, amount in (*cloth, *shelf) if amount is None)
    return Cost(tuple(priced), total, total / students, missing)
