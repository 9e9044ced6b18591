"""Thread, needles, irons, hours and money against published sums and by hand."""

from __future__ import annotations

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handouts import knowledge
from handouts.planning import hours, needles, plan, power, thread
from handouts.planning.supplies import words
from tests.class_by_hand import fabric, nm, serger, settings, workshop
from tests.classes_by_hand import twelve

BASE = knowledge.load()
THREAD = BASE.tables["thread_use"]
REFERENCE = Path(__file__).parent / "reference" / "thread_consumption.csv"

SHIRT = """16x2x2.5x1=80 3x2x2.5x2=30 16x4x2.5x1=160 1x2x2.5x2=10 8x2x2.5x2=80 20x2x2.5x2=200 20x1x9x2=360 10x4x2.5x2=200
2x4x2.5x2=40 5x1x2.5x2=25 5x1x2.5x2=25 6x1x2.5x2=30 1x2x2.5x2=10 5x2x2.5x2=50 5x1x2.5x1=12.5 30x2x2.5x1=150 30x1x2.5x1=75
1.5x2x2.5x3=22.5 21x1x2.5x1=52.5 20x1x2.5x2=100 48x1x2.5x1=120 13x6=78 17x5.5=93.5 21x1x2.5x2=105 21x1x9x2=378"""
"""A full-sleeve shirt, inches: length × rows × factor × parts (N. A. Raaz, Textile Calculation, September 2015)."""


def published(kind: str) -> list[dict[str, str]]:
    """The rows of the collected table of one kind."""
    with REFERENCE.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["kind"] == kind]


def test_our_ratios_are_the_published_ones() -> None:
    """“Estimation of thread consumption of a garment”, citing Carr & Latham and Coats: 301 2.5, 304 7, 504 14 …"""
    ratios: dict[str, str] = {}
    for row in published("ratio"):  # the main table stands first; single blog factors after it contradict it
        ratios.setdefault(row["stitch_iso4915"], row["total_ratio_len_per_len_seam"])
    ours = {number: record["ratio"] for number, record in THREAD["stitch"].items() if number != "308"}
    assert len(ours) >= 7
    assert ours == {number: float(ratios[number]) for number in ours}


@pytest.mark.parametrize(
    ("stitch", "thickness_in", "per_inch", "expected"),
    [
        ("401", 0.055, 8, 4.88),  # A&E technical bulletin, Union Special chart (2008)
        ("401", 0.060, 8, 4.96),
        ("401", 0.075, 8, 5.2),
        ("301", 0.01, 10, 2.2),  # Textile Calculations
    ],
)
def test_formulas_agree_with_published_examples(
    stitch: str, thickness_in: float, per_inch: float, expected: float
) -> None:
    """C = base + 2TS with everything in one unit of length."""
    found, basis = thread.per_seam(THREAD["stitch"][stitch], 25.4 / per_inch, thickness_in * 25.4, 5)
    assert (pytest.approx(found), basis) == (expected, "formula")


def test_a_shirt_takes_as_much_as_published() -> None:
    """2,487 in, in 25 lines; with 20 % waste the source prints 76 m, and 13 cones of 3,000 m for 500 shirts."""
    total = 0.0
    for line in SHIRT.split():
        sum_, published_in = line.split("=")
        length, *factors = map(float, sum_.split("x"))
        found = thread.needed(length, math.prod(factors), 0)
        assert found == pytest.approx(float(published_in)), line
        total += found
    assert round(total) == 2487
    assert thread.needed(2487 * 0.0254, 1, 20) == pytest.approx(76, abs=0.5)
    assert math.ceil(75.96 * 500 / 3000) == 13


def test_thickness_makes_the_formula_speak() -> None:
    """3 mm stitches through two layers of 2.2 mm: 2 + 2 × 4.4 / 3 = 4.93; without a thickness the published 2.5."""
    known = thread.use(
        fabric("F1", "Boiled", facts={"thickness_mm": 2.2}, stitch_mm={"start": 3.0}), 1, settings(), BASE
    )
    assert (known.basis, known.ratio) == ("formula", pytest.approx(2 + 2 * 4.4 / 3))
    plain = thread.use(fabric("F1", "Lawn"), 1, settings(), BASE)
    assert (plain.basis, plain.ratio) == ("ratio", 2.5)


def test_a_zigzagged_seam_by_hand() -> None:
    """One sample: 30 cm and 2 × 2.5 cm ends; a seam at 2.5 and, pressed open, two zigzagged edges at 7; 15 % waste."""
    found = thread.use(fabric("F1", "Twill", seam_finish=("zigzag",)), 1, settings(seam_per_sample_cm=30), BASE)
    assert found.seam_m == pytest.approx(0.35)
    assert found.machine_m == pytest.approx(0.35 * (2.5 + 2 * 7) * 1.15)
    assert found.overlock_m == 0


def test_an_overlocked_seam_is_its_own_finish() -> None:
    """Four threads at 19, and no second row."""
    cloth = fabric(
        "F1", "Jersey", stitch="514 overlock", serger=serger(4), seam_finish=("overlock",), press_direction="one side"
    )
    found = thread.use(cloth, 1, settings(seam_per_sample_cm=30), BASE)
    assert (found.machine_m, found.overlock_m) == (0, pytest.approx(0.35 * 19 * 1.15))


@given(st.floats(5, 500), st.integers(1, 40), st.sampled_from(["none", "zigzag", "overlock", "french", "bound"]))
def test_longer_seams_never_take_less_thread(seam_cm: float, samples: int, finish: str) -> None:
    """Thread grows with the seam and with the samples."""
    cloth = fabric("F1", "Cloth", seam_finish=(finish,), serger=serger(3))
    less = thread.use(cloth, samples, settings(seam_per_sample_cm=seam_cm), BASE)
    more = thread.use(cloth, samples + 1, settings(seam_per_sample_cm=seam_cm + 1), BASE)
    assert less.machine_m < more.machine_m and less.overlock_m <= more.overlock_m


@pytest.mark.parametrize(
    ("machines", "hours_each", "each", "expected"), [(4, 2, 1, 5), (4, 8, 1, 5), (4, 8.1, 1, 9), (2, 1, 2, 5)]
)
def test_needles_wear_out_after_eight_hours(machines: int, hours_each: float, each: int, expected: int) -> None:
    """Eight hours lie in every published range (consumables.md); one spare of each kind."""
    assert needles.count(machines, hours_each, 8, 1, each) == expected


def test_overlocks_take_two_needles_for_four_threads() -> None:
    """Four-thread: two needles and two loopers, three-thread: one and two (authorizedvacandsew.com, sewpub.com)."""
    cloths = [
        fabric("F1", "Ponte", needle_point=("stretch",), needle_nm=nm(90), serger=serger(4), seam_finish=("overlock",))
    ]
    found = needles.needs(cloths, settings(machines=4, sergers=1), BASE)
    assert [(n.where, n.point, n.nm, n.each, n.count) for n in found] == [
        ("machine", "stretch", 90, 1, 5),
        ("overlock", "stretch", 90, 2, 3),
    ]
    assert [n.where for n in needles.needs(cloths, settings(sergers=0), BASE)] == ["machine"]


@pytest.mark.parametrize(
    ("volts", "amps", "limit"),
    [
        (120, 15, 1440),  # NEC 210.23(A)(1) as reported by a trade magazine: 12 A
        (120, 20, 1920),  # 16 A
        (230, 16, None),  # 3,680 W is arithmetic: no figure was published
        (230, 13, None),
        (230, 20, None),  # the rating alone does not make it a US circuit
        (120, 30, None),  # not a rating the figure is about
    ],
)
def test_the_eighty_per_cent_figure_holds_only_where_it_was_published(
    volts: float, amps: float, limit: float | None
) -> None:
    """Safety facts F5: 1,440 W on 15 A and 1,920 W on 20 A at 120 V; elsewhere only volts × amps."""
    assert power.limit_w(volts, amps, BASE) == limit
    assert power.capacity_w(230, 16) == 3680


def test_two_irons_never_share_an_american_circuit() -> None:
    """Safety facts F8: two 1,500 W irons are 25 A, over 15 and over 20 A."""
    for amps in (15, 20):
        found = power.check(settings(irons=2, iron_watts=1500, circuits=1, circuit_volts=120, circuit_amps=amps), BASE)
        assert found is not None and found.verdict == "over" and found.busiest_w == 3000
    one = power.check(settings(irons=2, iron_watts=1200, circuits=2, circuit_volts=120, circuit_amps=15), BASE)
    assert one is not None and (one.verdict, one.irons_that_fit) == ("fits", 2)


def test_irons_elsewhere_are_added_up() -> None:
    """Two of 1,800 W on one circuit of 16 A at 230 V: 3,600 of 3,680 W, by arithmetic alone."""
    found = power.check(settings(irons=2, iron_watts=1800, circuits=1, circuit_volts=230, circuit_amps=16), BASE)
    assert found is not None and (found.busiest_w, found.capacity_w, found.limit_w, found.verdict) == (
        3600,
        3680,
        None,
        "fits",
    )
    assert power.check(settings(irons=0), BASE) is None


def test_people_queue_for_what_there_is_least_of() -> None:
    """Eight students, four machines: 2 samples × 12 min × half of it × 8 / 4 = 24 minutes a fabric at each machine."""
    cloths = [fabric("F1", "Twill"), fabric("F2", "Drill")]
    found = hours.of_class(cloths, {}, settings(students=8, machines=4, irons=1), BASE)
    assert found.each == 48
    assert {s.station: s.minutes for s in found.stations} == {"machine": 48, "iron": 96}
    assert (found.slowest, found.total) == ("iron", 96 + 2 * 5)


def test_plenty_of_machines_leave_only_the_students_own_time() -> None:
    """Nobody waits: the class takes one student's own time, the showing and the changes."""
    found = hours.of_class([fabric("F1", "Twill")], {"needle": 2}, settings(students=4, machines=8, irons=8), BASE)
    assert (found.slowest, found.total) == ("", 24 + 5 + 2 * 2)


SHELF = [
    {"item": "Needles, universal 80/12", "pack_size": 5, "price": 4.0},
    {"item": "Polyester thread", "pack_size": 100, "price": 2.5},
    {"item": "Overlock thread, cones", "pack_size": 1000, "price": 6.0},
    {"item": "Chalk", "pack_size": 10, "price": 3.0},
]


def test_cost_adds_up_what_has_a_price() -> None:
    """Cloth at its price and whole packs of supplies; what has no price is named, and never counted as nothing."""
    cloths = [
        fabric("F1", "Twill", facts={"width_cm": 140, "price_per_m": 10.0, "shrink_length_pct": 0}),
        fabric("F2", "Lawn"),
    ]
    made = plan(workshop(cloths, SHELF, students=8, machines=4), BASE)
    assert made.cost is not None
    lines = dict(made.cost.lines)
    assert lines["F1 Twill"] == pytest.approx(10 * 0.6), (
        "18 pieces of 15 × 20, 9 a row: 40 cm; 140 cm less shrinkage gives 8 a row: 60 cm"
    )
    assert lines["needles, universal 80/12"] == 4.0
    assert made.cost.total == pytest.approx(sum(lines.values())) and made.cost.each == pytest.approx(
        made.cost.total / 8
    )
    assert made.cost.missing == ("F2 Lawn",)
    assert [s.item for s in made.supplies if s.need is None] == ["Overlock thread, cones", "Chalk"], (
        "nothing is overlocked here"
    )


def test_no_prices_no_cost() -> None:
    """A workbook without a price gets no sum."""
    assert plan(workshop([fabric("F1", "Twill")]), BASE).cost is None


def test_supplies_are_known_by_their_words() -> None:
    """`Needles, universal 80/12` is known by needle, universal and 80."""
    assert words("Needles, universal 80/12") >= {"needle", "universal", "80", "12"}


def test_the_whole_plan_of_twelve_stands_in_the_order_of_work() -> None:
    """Every list of the plan is in the same order and holds every fabric."""
    made = plan(workshop(twelve()), BASE)
    codes = [s.code for s in made.order]
    assert [k.code for k in made.kits] == codes == [t.code for t in made.threads] == list(made.settings)
    assert made == plan(workshop(twelve()), BASE)


def test_an_empty_class_has_an_empty_plan() -> None:
    """No fabric: nothing to cut, nothing to change, and no crash."""
    made = plan(workshop([]), BASE)
    assert (made.order, made.kits, made.never, made.usual) == ((), (), (), {})
