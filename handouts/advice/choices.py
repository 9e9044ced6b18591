"""The teacher's own word in a fabric's row, as rules of the tier `typed`: chosen settings, and shrinkage that was measured."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from typing import Any

from handouts.model import Knowledge, Rule, Value

SOURCES = ("teacher",)
NO_DAY = date.min


def own_rule(
    topic: str, value: Value, where: str, tier: str, because: str, when: Mapping[str, Any] | None = None
) -> Rule:
    """A rule of the class itself; `where` is the cell it stands in."""
    return Rule(f"{tier} {where} {topic}", topic, tier, when or {}, value, because, SOURCES, NO_DAY, file=where)


def choices(row: Mapping[str, Value], cell: Callable[[str], str], knowledge: Knowledge) -> list[Rule]:
    """The teacher's choices in one row: needle, stitch length, seam finish, iron, steam; and the shrinkage she measured."""
    chosen = [
        own_rule(topic, value, cell(key), "typed", "Typed in the workbook as your choice.")
        for key in CHOICE
        if key in row
        for topic, value in CHOICE[key](row[key], knowledge)
    ]
    return [*chosen, *shrinkage(row, cell)]


def shrinkage(row: Mapping[str, Value], cell: Callable[[str], str]) -> Iterator[Rule]:
    """Measured shrinkage wins over what is usual; a direction not measured is left to the rules, growth counts as none."""
    keys = {way: f"shrink_{way}_pct" for way in ("length", "width") if f"shrink_{way}_pct" in row}
    if keys:
        typed = {way: max(0, row[key]) for way, key in keys.items()}
        yield own_rule("shrink_pct", typed, ", ".join(map(cell, keys.values())), "typed", "Measured on this cloth.")


def needle_choice(text: str, knowledge: Knowledge) -> Iterator[tuple[str, Value]]:
    """`universal 80` → a point and a size; either may stand alone."""
    size = re.search(r"\d+", text)
    points = tuple(point for point in knowledge.needles.points if point in text.lower())
    if points:
        yield "needle_point", points
    if size:
        yield "needle_nm", exactly(int(size.group()))


def exactly(value: float) -> dict[str, float]:
    """A range that holds one value."""
    return {"low": value, "high": value, "start": value}


def iron_choice(word: str, knowledge: Knowledge) -> Iterator[tuple[str, Value]]:
    """A dial word → its dots, their temperature and the word itself, from heat.toml."""
    heat = knowledge.tables["heat"]
    dots = heat["words"][word]
    yield "press_dots", dots
    yield "press_c", next(row["most_c"] for row in heat["dots"] if row["dots"] == dots)
    yield "iron_word", word


CHOICE: Mapping[str, Callable[[Any, Knowledge], Iterator[tuple[str, Value]]]] = {
    "needle": needle_choice,
    "stitch_mm": lambda mm, _: iter([("stitch_mm", exactly(mm))]),
    "seam_finish": lambda finish, _: iter([("seam_finish", (finish,))]),
    "iron": iron_choice,
    "steam": lambda steam, _: iter([("steam", steam)]),
}
