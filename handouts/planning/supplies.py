"""What to have on the shelf, and what it all costs where the workbook gives prices."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from handouts.plans import Cost, Kit, NeedleNeed, Supply, ThreadUse


@dataclass(frozen=True)
class Want:
    """Something needed: its name, how much, the unit, and the words by which a Supplies row is known for it."""

    item: str
    amount: float
    unit: str
    words: frozenset[str]


def words(text: str) -> frozenset[str]:
    """The plain words and numbers of an item, plurals cut: `Needles, universal 80/12` → needle universal 80 12."""
    return frozenset(word.removesuffix("s") for word in re.findall(r"[\w-]+", text.casefold()))


def wants(threads: Sequence[ThreadUse], needles: Sequence[NeedleNeed]) -> list[Want]:
    """Needles of every kind, machine thread by its words, overlock thread."""
    found = []
    for n in needles:
        place = {"overlock"} if n.where == "overlock" else set()
        found.append(
            Want(f"{n.where} needles {n.point} {n.nm}", n.count, "", frozenset({"needle", n.point, str(n.nm), *place}))
        )
    metres: dict[str, float] = {}
    for use in threads:
        metres[use.thread] = metres.get(use.thread, 0.0) + use.machine_m
    for thread, amount in metres.items():
        fibre = re.split(r"[\s,;]", thread.casefold())[0]
        found.append(Want(f"thread {thread}".strip(), amount, "m", frozenset({"thread", fibre} - {""})))
    overlock = sum(use.overlock_m for use in threads)
    return [*found, Want("overlock thread", overlock, "m", frozenset({"overlock", "thread"}))] if overlock else found


def supplies(found: Sequence[Want], sheet: Sequence[Mapping[str, Any]]) -> tuple[Supply, ...]:
    """Every want with its pack and price, where a row of the sheet names it; then the rows that nothing here counts."""
    taken: set[int] = set()
    lines = []
    for want in found:
        row = next((n for n, r in enumerate(sheet) if fits(want, words(str(r.get("item", ""))))), None)
        taken.add(-1 if row is None else row)
        lines.append(supply(want, {} if row is None else sheet[row]))
    rest = [r for n, r in enumerate(sheet) if n not in taken and r.get("item")]
    return (*lines, *(Supply(str(r["item"]), None, "", None, r.get("pack_size"), r.get("price")) for r in rest))


def fits(want: Want, said: frozenset[str]) -> bool:
    """Whether a row means this want: all its words are there, and an overlock's things are only for the overlock."""
    overlock = bool({"overlock", "serger", "cone"} & said)
    said = said | {"overlock"} if overlock else said
    return want.words <= said and overlock == ("overlock" in want.words)


def supply(want: Want, row: Mapping[str, Any]) -> Supply:
    """One want in whole packs, and what they cost."""
    pack, price = row.get("pack_size"), row.get("price")
    packs = math.ceil(want.amount / pack) if pack else None
    cost = packs * float(price) if packs is not None and price is not None else None
    return Supply(want.item, want.amount, want.unit, packs, pack, price, cost)


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
