"""The class plan: what to have ready before people arrive. Plain frozen records, made by planning, read by pages."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

Value = Any


@dataclass(frozen=True)
class Step:
    """One fabric in the order of work. settings: station → what it must show, None when unused.

    Stations: iron, needle, overlock, differential. changes: those to change before this fabric. litters: it sheds, so the
    machines want cleaning after it.
    """

    code: str
    name: str
    settings: Mapping[str, Value]
    changes: tuple[str, ...]
    litters: bool = False


@dataclass(frozen=True)
class Usual:
    """What most of the class does in one column. value is None when too few agree; share: 0 to 1; exceptions: codes."""

    value: Value
    share: float
    exceptions: tuple[str, ...]


@dataclass(frozen=True)
class Kit:
    """What to cut of one fabric. Lengths in cm run along the cloth; ask_m is buy_cm rounded up to what a shop cuts.

    usable_cm: width after shrinkage, less the selvedges. area_m2: for skins, which have no width. saves_cm: what
    turning the pieces would save where the cloth allows it. assumed: facts that no cell gave (width, shrinkage).
    """

    code: str
    name: str
    pieces: int
    turned: bool
    width_cm: float
    usable_cm: float
    per_row: int
    rows: int
    cut_cm: float
    shrink_pct: float
    buy_cm: float
    ask_m: float
    assumed: tuple[str, ...] = ()
    area_m2: float | None = None
    saves_cm: float = 0.0
    one_way: bool = False
    cost: float | None = None


@dataclass(frozen=True)
class ThreadUse:
    """Thread for one fabric's samples, in metres with waste. basis: published `ratio`, or `formula` of the thickness."""

    code: str
    thread: str
    stitch: str
    seam_m: float
    ratio: float
    basis: str
    machine_m: float
    overlock_m: float


@dataclass(frozen=True)
class NeedleNeed:
    """Needles of one kind. where: machine or overlock; each: how many a machine takes; hours: of sewing, a machine."""

    point: str
    nm: int
    where: str
    count: int
    each: int
    hours: float
    codes: tuple[str, ...]


@dataclass(frozen=True)
class Power:
    """Irons against circuits, in watts. limit_w: the published 80 % figure, only where it was published (else None).

    busiest_w: the irons on the fullest circuit when they are shared out evenly. verdict: fits, over or unknown.
    """

    irons: int
    iron_watts: float
    circuits: int
    volts: float
    amps: float
    capacity_w: float
    limit_w: float | None
    busiest_irons: int
    busiest_w: float
    irons_that_fit: int
    verdict: str


@dataclass(frozen=True)
class StationTime:
    """How long each place of a kind is busy, in minutes, the work shared evenly; most: students that one can serve."""

    station: str
    count: int
    minutes: float
    students_each: float
    most: float


@dataclass(frozen=True)
class Hours:
    """Minutes a class takes. each: one student's own sewing; slowest: the place all wait for; total: with everything."""

    each: float
    stations: tuple[StationTime, ...]
    slowest: str
    showing: float
    changing: float
    total: float
    sittings: int


@dataclass(frozen=True)
class Supply:
    """One thing to have: how much, and packs and cost where the Supplies sheet gives them. need None: not counted."""

    item: str
    need: float | None
    unit: str
    packs: int | None = None
    pack_size: float | None = None
    price: float | None = None
    cost: float | None = None
    codes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Cost:
    """Money in the workbook's currency. missing: what has no price, so it is not in the total."""

    lines: tuple[tuple[str, float], ...]
    total: float
    each: float
    missing: tuple[str, ...]


@dataclass(frozen=True)
class Listed:
    """A thing to lay ready, or to never do, and the fabrics it is about, in the order of work."""

    title: str
    codes: tuple[str, ...]


@dataclass(frozen=True)
class Plan:
    """Everything to have ready before people arrive. settings: code → column of the comparison → value.

    changes and changes_listed: station → how often it changes, in the order of work and in the order of the list.
    """

    order: tuple[Step, ...]
    changes: Mapping[str, int]
    changes_listed: Mapping[str, int]
    settings: Mapping[str, Mapping[str, Value]]
    usual: Mapping[str, Usual]
    never: tuple[Listed, ...]
    kits: tuple[Kit, ...]
    threads: tuple[ThreadUse, ...]
    needles: tuple[NeedleNeed, ...]
    power: Power | None
    hours: Hours
    supplies: tuple[Supply, ...]
    cost: Cost | None
    ready: tuple[Listed, ...]
