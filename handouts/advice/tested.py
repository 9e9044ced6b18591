"""Where a test seam and the advice disagree: what the next season's rules can learn."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping

from handouts.model import Knowledge
from handouts.problems import Problem, problem
from handouts.records import Decision, Tested
from handouts.units import number_words

TESTED = ("needle_nm", "stitch_mm", "press_dots")
"""Topics that a test seam can contradict."""


def disagreements(
    tested: Tested, advice: Mapping[str, Decision], cell: Callable[[str], str], knowledge: Knowledge
) -> Iterator[Problem]:
    """A note for each tested setting outside what the rules advise."""
    for key, (found, said) in outside(tested, advice, knowledge).items():
        yield problem("tested-differs", cell(key), found=found, advised=said)


def outside(tested: Tested, advice: Mapping[str, Decision], knowledge: Knowledge) -> dict[str, tuple[str, str]]:
    """Column key → what the seam showed and what the rules say, where the one lies outside the other."""
    size = re.search(r"\d+", tested.needle)
    found: dict[str, tuple[str, str]] = {}
    if size and not within(float(size.group()), advice["needle_nm"]):
        found["tested_needle"] = (tested.needle, f"{range_words(advice['needle_nm'])} NM")
    if tested.stitch_mm is not None and not within(tested.stitch_mm, advice["stitch_mm"]):
        found["tested_stitch_mm"] = (f"{number_words(tested.stitch_mm)} mm", f"{range_words(advice['stitch_mm'])} mm")
    heat = knowledge.tables["heat"]["words"]
    if tested.iron and heat[tested.iron] > advice["press_dots"].value:
        found["tested_iron"] = (tested.iron, f"at most {advice['press_dots'].value} dots")
    return found


def within(value: float, decision: Decision) -> bool:
    """Whether a value lies in a decided range."""
    return bool(decision.value["low"] <= value <= decision.value["high"])


def range_words(decision: Decision) -> str:
    """`75 to 90`."""
    low, high = (number_words(decision.value[end]) for end in ("low", "high"))
    return low if low == high else f"{low} to {high}"
