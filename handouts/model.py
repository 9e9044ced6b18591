"""What the knowledge files hold, as plain frozen records. Filled by handouts.knowledge, read by every leaf."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

Value = Any
"""What a topic advises: a word, a number, a list of words or a mapping, as the topic's shape says."""


@dataclass(frozen=True)
class Source:
    """Where a fact comes from. `kind` is one of law, standard, extension, book, maker, shop, web, judgement, common practice."""

    id: str
    title: str
    publisher: str
    year: str
    url: str
    kind: str
    trust: int
    checked: date


@dataclass(frozen=True)
class Fibre:
    """One fibre. `names` by market (us, eu); `spoken` are words that mean it, in any language; `trade` words only propose it."""

    id: str
    us: str
    eu: str
    group: str  # plant, regenerated, protein, ester, synthetic, elastomeric, mineral, metal, unknown
    spoken: tuple[str, ...]
    trade: tuple[str, ...]
    codes: tuple[str, ...]
    dots: int
    press_c: int
    iron_word: str
    steam: str
    because: str
    sources: tuple[str, ...]
    checked: date
    max_wash_c: int | None = None
    bleach: str = "none"
    tumble: str = "low"
    dry_clean: str = "allowed"
    note: str = ""


@dataclass(frozen=True)
class Construction:
    """How a cloth is made: its structure and the traits that cloth of this kind usually has."""

    id: str
    name: str
    structure: str  # woven, knit, net, nonwoven, skin, film, layered
    families: tuple[str, ...]
    usual: Mapping[str, Value]
    spoken: tuple[str, ...]
    sources: tuple[str, ...]
    checked: date


@dataclass(frozen=True)
class Cloth:
    """A cloth as a teacher names it. `usual` are the facts it fills when the cell is empty, by fact name."""

    id: str
    name: str
    construction: str
    families: tuple[str, ...]
    usual_content: str
    usual: Mapping[str, Value]
    spoken: tuple[str, ...]
    sources: tuple[str, ...]
    checked: date


@dataclass(frozen=True)
class Topic:
    """One thing a card advises on, and how the advice of several rules combines.

    combine: `lowest` or `highest` along `order`; `one` (the highest tier that spoke); `all` (every line).
    shape: choice, list, lines, range, number, words, record.
    safety: a rule for the whole class may stay below the trade's limit, never lift it; only a typed choice does, with a caution.
    """

    id: str
    title: str
    shape: str
    combine: str
    order: tuple[Value, ...] = ()
    unit: str = ""
    safety: bool = False
    required: bool = True


@dataclass(frozen=True)
class Rule:
    """When the facts are so, this is the advice.

    when: fact name → test (see DEVELOPERS.md, “The rule grammar”); empty holds for every cloth.
    value: what it advises, in the topic's shape; None if the rule only forbids.
    never: values that must not win, whoever proposed them; the choice typed in the row still does, with a caution.
    safety: no rule for the whole class lifts what this one forbids.
    lasting: the harm cannot be undone, so the line goes in the boxed part of the card.
    replaces: ids of rules whose lines this one makes superfluous, or a less specific tier for all of its rules
    (topics that combine `all`).
    """

    id: str
    topic: str
    tier: str
    when: Mapping[str, Value]
    value: Value
    because: str
    sources: tuple[str, ...]
    checked: date
    never: tuple[Value, ...] = ()
    say: str = ""
    safety: bool = False
    lasting: bool = False
    replaces: tuple[str, ...] = ()
    file: str = ""


@dataclass(frozen=True)
class Needles:
    """Needle sizes sold for household machines (NM, 1/100 mm) with the number that goes beside each, and the points."""

    us_size: Mapping[int, int]
    points: Mapping[str, str]
    sources: tuple[str, ...]


@dataclass(frozen=True, eq=False)
class Knowledge:
    """Everything in the knowledge folder. `tables` are the small named tables (dots, bands, …) by file stem.

    Two are the same only when they are one object, so that what is worked out of one can be kept beside it.
    """

    sources: Mapping[str, Source]
    fibres: Mapping[str, Fibre]
    constructions: Mapping[str, Construction]
    cloths: Mapping[str, Cloth]
    topics: Mapping[str, Topic]
    tiers: tuple[str, ...]
    rules: tuple[Rule, ...]
    needles: Needles
    tables: Mapping[str, Mapping[str, Value]]

    def number(self, name: str, table: str = "limits") -> float:
        """The figure of a record `[number.name]` of a table, in the unit that it says."""
        return float(self.tables[table]["number"][name]["value"])

    @property
    def items(self) -> tuple[Cloth | Construction, ...]:
        """Everything a Cloth cell may name: the cloths, then the bare constructions."""
        return (*self.cloths.values(), *self.constructions.values())
