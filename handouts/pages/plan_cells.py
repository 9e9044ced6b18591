"""What the plan's tables are written with: cells, and the class that they are about."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from handouts.model import Knowledge
from handouts.pages.amounts import money
from handouts.pages.class_words import class_words
from handouts.pages.measures import FIX, Measures
from handouts.pages.words import Words
from handouts.plans import Plan

DASH = "–"


@dataclass(frozen=True)
class Cell:
    """What stands in one cell: words, a smaller second line, and whether it is strong, marked or to tick."""

    words: str = ""
    note: str = ""
    strong: bool = False
    mark: bool = False
    tick: bool = False
    dots: int | None = None


TICK = Cell(tick=True)
Row = list[Cell]


@dataclass(frozen=True)
class Class:
    """A class and its plan, with the words to write it in. notes: code → what a glance at the iron must not miss."""

    plan: Plan
    settings: Mapping[str, Any]
    words: Words
    knowledge: Knowledge
    notes: Mapping[str, str] = field(default_factory=dict)

    @property
    def say(self) -> Mapping[str, Any]:
        """The plan's own words."""
        words: Mapping[str, Any] = class_words()["plan"]
        return words

    @property
    def measures(self) -> Measures:
        """Amounts in the class's units."""
        return self.words.measures

    def name(self, code: str, note: str = "") -> Cell:
        """A fabric by code and name."""
        names = {step.code: step.name for step in self.plan.order}
        return Cell(f"{code}{FIX}{names[code]}", note, strong=True)

    def codes(self, found: Sequence[str]) -> str:
        """Codes in a row; `all` for the whole class."""
        return str(self.say["all"]) if len(found) == len(self.plan.order) > 1 else codes(found)

    def money(self, amount: float | None) -> Cell:
        """An amount in the class's currency; a dash when nobody knows it."""
        return Cell(DASH if amount is None else money(amount, str(self.settings.get("currency") or "")))

    def number(self, name: str, table: str = "planning") -> Any:
        """A figure of the planning tables."""
        return self.knowledge.tables[table]["number"][name]["value"]


def codes(found: Iterable[str]) -> str:
    """Codes in a row: `W9 · W12`."""
    return f"{FIX}· ".join(found)


def counted(key: str, number: Any) -> str:
    """`1 overlock`, `2 irons`, by the names of class_words.toml."""
    one, many = class_words()["plan"]["count"][key]
    count = int(number or 0)
    return f"{count}{FIX}{one if count == 1 else many}"
