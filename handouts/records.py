"""What passes between the parts: facts, decisions, fabrics, labels, the class. Plain frozen records, no frames."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from handouts.plans import Plan as Plan
from handouts.problems import Problem

if TYPE_CHECKING:
    from pathlib import Path

    import pandas as pd

Value = Any


@dataclass(frozen=True)
class Fact:
    """One thing known of a fabric. origin: typed, derived or assumed; where: the cell, or the file and id, or the formula."""

    value: Value
    origin: str
    where: str


@dataclass(frozen=True)
class Share:
    """One fibre's share of a section, in percent. `fibre` is an id of fibres.toml; None when the words name no fibre."""

    fibre: str | None
    pct: float | None
    words: str  # as typed, without the number
    reason: str = ""  # “(for stretch)”


@dataclass(frozen=True)
class Section:
    """A part of the cloth with its own content: "", pile, back, coating, ornament, except, elastic, …; pct is its share."""

    part: str
    shares: tuple[Share, ...]
    pct: float | None = None


@dataclass(frozen=True)
class Content:
    """The Fibre content cell, read. `findings` are (problem code, found) pairs that the caller turns into Problems."""

    typed: str
    sections: tuple[Section, ...]
    exclusive_of: str = ""  # words after “exclusive of”
    coating: str = ""  # PVC, PU, wax, …
    skin: str = ""  # leather, suede
    unknown: bool = False
    remnants: str = ""
    findings: tuple[tuple[str, Mapping[str, object]], ...] = ()

    def fibres(self) -> dict[str, float | None]:
        """Fibre id → greatest share in any section, in percent; `unknown` stands for any part nobody can name."""
        found: dict[str, float | None] = {}
        for share in (s for section in self.sections for s in section.shares):
            fibre = share.fibre or "unknown"
            known = [p for p in (found.get(fibre), share.pct) if p is not None]
            found[fibre] = max(known) if known else None
        return found or {"unknown": None}


@dataclass(frozen=True)
class Spoke:
    """One rule that spoke (or might have): what it said and why. value is None for a prohibition."""

    rule: str
    value: Value
    because: str
    sources: tuple[str, ...]
    tier: str
    cells: tuple[str, ...] = ()
    say: str = ""
    lasting: bool = False
    safety: bool = False
    never: tuple[Value, ...] = ()
    unknown: tuple[str, ...] = ()  # facts that would have decided it (for `might`)
    test: str = ""  # the condition in words, e.g. “weight under 90 g/m²” (for `might`)


@dataclass(frozen=True)
class Decision:
    """The advice on one topic and its whole trace. choice: rules, house (the class's own rule) or typed (the row)."""

    topic: str
    value: Value
    won: tuple[Spoke, ...]
    might: tuple[Spoke, ...] = ()
    lost: tuple[Spoke, ...] = ()
    cautions: tuple[Spoke, ...] = ()
    choice: str = "rules"
    clash: tuple[str, ...] = ()


@dataclass(frozen=True)
class Change:
    """What changes when a fact crosses a threshold: from `at` (in the fact's unit) upward, or below it when `below`."""

    fact: str
    at: float
    below: bool
    topic: str
    value: Value


@dataclass(frozen=True)
class Likeness:
    """A cloth handled like this one except for `differs` (topic → its value there)."""

    cloth: str
    name: str
    differs: Mapping[str, Value]


@dataclass(frozen=True)
class Tested:
    """What a test seam showed, as typed in the row: needle NM and point, stitch mm, iron words, the day."""

    needle: str = ""
    stitch_mm: float | None = None
    iron: str = ""
    on: str = ""


@dataclass(frozen=True)
class Label:
    """Fibre statement lines for a market, care lines, who supplied the facts, and what stands in the way."""

    market: str
    statement: tuple[str, ...]
    care: tuple[str, ...]
    supplied_by: str
    problems: tuple[Problem, ...] = ()
    symbols: tuple[
        str, ...
    ] = ()  # care symbols of the supplier's five settings, in the standard's order: wash-40-mild …


@dataclass(frozen=True)
class Fabric:
    """One fabric of the class, ready for the pages."""

    code: str
    name: str
    row: int
    cloth: str  # cloth id
    cloth_name: str
    content: Content
    facts: Mapping[str, Fact]
    advice: Mapping[str, Decision]
    changes: tuple[Change, ...] = ()
    likes: tuple[Likeness, ...] = ()
    label: Label | None = None
    tested: Tested = Tested()
    notes: str = ""
    shop: Mapping[str, Value] = field(default_factory=dict)  # origin, link, shop_cards: cells only shop pages need
    flags: tuple[Spoke, ...] = ()  # fire, fumes, animal parts: `say` is the line to print

    def fact(self, name: str) -> Value:
        """The value of a fact, None when nobody knows it."""
        found = self.facts.get(name)
        return found.value if found else None

    def advised(self, topic: str) -> Value:
        """The value decided for a topic, None when there is no advice on it."""
        found = self.advice.get(topic)
        return found.value if found else None


@dataclass(frozen=True)
class Book:
    """A workbook as read: typed values only, nothing decided. Frames are indexed by the sheet's own row number.

    settings: Class sheet, by Column.key. fabrics, house, supplies: one column per Column.key, nullable dtypes.
    letters: (sheet key, column key) → column letter; titles: sheet key → the sheet's title in the file.
    """

    path: Path
    settings: Mapping[str, Value]
    fabrics: pd.DataFrame
    house: pd.DataFrame
    supplies: pd.DataFrame
    letters: Mapping[tuple[str, str], str]
    titles: Mapping[str, str]
    problems: tuple[Problem, ...] = ()
    setting_cells: Mapping[str, str] = field(default_factory=dict)

    def cell(self, sheet: str, key: str, row: int) -> str:
        """Where a value stands, as a spreadsheet says it: `Fabrics!F4`. The heading stands in when the column is absent."""
        title = self.titles.get(sheet, sheet.title())
        letter = self.letters.get((sheet, key))
        return f"{title}!{letter}{row}" if letter else f"{title}, row {row}"


@dataclass(frozen=True)
class Workshop:
    """A class or a shop list with its fabrics: what the pages are made from. settings by Column.key of the Class sheet."""

    slug: str
    settings: Mapping[str, Value]
    fabrics: tuple[Fabric, ...]
    problems: tuple[Problem, ...]
    supplies: tuple[Mapping[str, Value], ...] = ()


@dataclass(frozen=True)
class Table:
    """A table for a spreadsheet: title, headings, rows of plain values, notes below."""

    title: str
    headings: tuple[str, ...]
    rows: tuple[tuple[object, ...], ...]
    notes: tuple[str, ...] = ()
