"""Kits against published cutting charts and examples: pieces, rows, length to cut and to buy."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handouts import knowledge
from handouts.planning.cutting import kit, length_to_buy, pieces_from, pieces_needed, rounded_up, yield_of
from tests.class_by_hand import fabric, settings

BASE = knowledge.load()
CHART = Path(__file__).parent / "reference" / "squares_per_yard.csv"


def published_squares() -> list[dict[str, str]]:
    """The cells of three published charts that follow the model; the others round further down (yardage.md, section 5)."""
    with CHART.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["match"] == "yes"]


def test_squares_from_a_yard_agree_with_every_published_cell() -> None:
    """Sources: Quilters Cache, Sylvias Quilt Depot, Docsbay charts, as collected in squares_per_yard.csv."""
    rows = published_squares()
    assert len(rows) > 50
    found = [
        (
            row["source"],
            row["square_in"],
            pieces_from(float(row["width_in"]), float(row["length_in"]), *[float(row["square_in"])] * 2),
        )
        for row in rows
    ]
    assert found == [(row["source"], row["square_in"], int(row["published"])) for row in rows]


@pytest.mark.parametrize(
    ("pieces", "width", "across", "down", "expected"),
    [
        (300, 40, 3, 2, (13, 24, 48)),  # bobbininquilts.com
        (63, 42, 9.5, 9.5, (4, 16, 152)),  # quiltingboard.com 6228687
        (100, 44, 3.5, 3.5, (12, 9, 31.5)),  # harriger.com
        (56, 42, 5, 5, (8, 7, 35)),  # quiltingboard t46327: a yard gives 56
        (12, 18, 5, 5, (3, 4, 20)),  # reveal-sound.com: 12 from 18 × 22 in
        (300, 40, 2, 3, (20, 15, 45)),  # the first case turned (computed in yardage.md): 3 in less
    ],
)
def test_rows_of_rectangles_agree_with_published_sums(
    pieces: int, width: float, across: float, down: float, expected: tuple[int, int, float]
) -> None:
    """Worked sums of quilters, inches; sources beside the cases (yardage.md, section 4)."""
    found = yield_of(pieces, width, across, down)
    assert (found.per_row, found.rows, found.length) == expected


def test_the_teachers_example_comes_out_to_the_centimetre() -> None:
    """Twelve students, two pieces and one in ten spare, 10 × 15 cm on 140 cm cloth: common practice (handling notes)."""
    cloth = fabric("F1", "Plain cotton", facts={"width_cm": 140, "shrink_length_pct": 0, "shrink_width_pct": 0})
    sheet = settings(students=12, samples_per_student=2, spare_pct=10, sample_width_cm=10, sample_height_cm=15)
    found = kit(cloth, sheet, BASE)
    assert (found.pieces, found.usable_cm, found.per_row, found.rows, found.cut_cm) == (27, 135, 13, 3, 45)


def test_what_is_bought_is_what_is_needed_after_the_wash() -> None:
    """need / (1 − s): 45 cm at 10 % is 50 cm. Arithmetic of AATCC TM135's definition of s."""
    assert length_to_buy(45, 10) == pytest.approx(50)
    assert length_to_buy(45, -3) == 45, "growth in the wash is not counted on"


@given(st.floats(0.1, 50), st.floats(0, 60))
def test_washing_what_was_bought_leaves_what_is_needed(need: float, shrink: float) -> None:
    """Whatever the shrinkage, the length that is left is the length needed."""
    assert length_to_buy(need, shrink) * (1 - shrink / 100) == pytest.approx(need)


@given(st.integers(1, 500), st.floats(5, 300), st.floats(1, 60), st.floats(1, 60))
def test_every_piece_finds_its_place(pieces: int, width: float, across: float, down: float) -> None:
    """Enough rows for all pieces, no row too many, and no row wider than the cloth."""
    found = yield_of(pieces, width, across, down)
    if across > width:
        assert (found.per_row, found.rows) == (0, 0)
        return
    assert found.per_row * across <= width + 1e-6
    assert found.rows * found.per_row >= pieces > (found.rows - 1) * found.per_row


@pytest.mark.parametrize(("count", "spare", "expected"), [(24, 10, 27), (20, 10, 22), (8, 0, 8), (7, 50, 11)])
def test_spares_round_up_but_not_twice(count: int, spare: float, expected: int) -> None:
    """20 and 10 % are 22 and not 23: a binary hair must not add a piece."""
    assert pieces_needed(count, 1, spare) == expected


SMALL = settings(students=12, samples_per_student=2, spare_pct=10, sample_width_cm=10, sample_height_cm=15)


@pytest.mark.parametrize(
    "facts",
    [{"nap": "short"}, {"one_way": True}, {"structure": "knit"}, {"check": "uneven check"}, {"check": "stripe"}],
)
def test_cloth_with_a_direction_is_never_turned(facts: dict[str, object]) -> None:
    """Napped, one-way, checked and knitted pieces keep their direction even where turning saves: handling notes."""
    found = kit(fabric("F1", "Cloth", facts={"width_cm": 140, **facts}), SMALL, BASE)
    assert (found.turned, found.saves_cm, found.cut_cm) == (False, 0, 45)


def test_plain_cloth_keeps_the_grain_and_says_what_turning_would_save() -> None:
    """Nine a row in three rows of 10 cm: 15 cm less, but across the grain."""
    found = kit(fabric("F1", "Cloth", facts={"width_cm": 140, "shrink_width_pct": 0}), SMALL, BASE)
    assert (found.turned, found.cut_cm, found.saves_cm) == (False, 45, 15)


def test_cloth_without_grain_is_laid_the_shorter_way() -> None:
    """Felt has no grain: nine a row turned, three rows of 10 cm."""
    felt = fabric("F1", "Felt", facts={"width_cm": 140, "shrink_width_pct": 0, "structure": "nonwoven"})
    found = kit(felt, SMALL, BASE)
    assert (found.turned, found.cut_cm) == (True, 30)


def test_skins_are_bought_by_area() -> None:
    """27 pieces of 150 cm² and a quarter on top, in m²."""
    found = kit(fabric("F1", "Hide", facts={"structure": "skin"}), SMALL, BASE)
    assert found.area_m2 == pytest.approx(27 * 150 / 1e4 * 1.25)
    assert kit(fabric("F1", "Cloth"), SMALL, BASE).area_m2 is None


def test_an_unknown_width_is_assumed_and_said_so() -> None:
    """Nobody gave a width: the planning table's is used and the kit says that it is assumed."""
    found = kit(fabric("F1", "Cloth"), SMALL, BASE)
    assert "width" in found.assumed and found.width_cm == BASE.tables["planning"]["number"]["assumed_width_cm"]["value"]
    assert kit(fabric("F1", "Cloth", facts={"width_cm": 90, "shrink_length_pct": 2}), SMALL, BASE).assumed == ()


def test_a_piece_wider_than_the_cloth_asks_for_nothing() -> None:
    """No row fits, so nothing can be cut: rows 0, and the pages say so."""
    found = kit(fabric("F1", "Ribbon", facts={"width_cm": 12, "nap": "short"}), SMALL, BASE)
    assert (found.per_row, found.rows, found.cut_cm, found.ask_m) == (0, 0, 0, 0)


@pytest.mark.parametrize(
    ("metres", "imperial", "asked"),
    [(0.464, False, 0.5), (0.5, False, 0.5), (0.464, True, 0.5715), (0.4572, True, 0.4572)],
)
def test_shops_cut_in_steps(metres: float, imperial: bool, asked: float) -> None:
    """10 cm, or an eighth of a yard (0.1143 m): 0.464 m is five eighths."""
    assert rounded_up(metres, imperial, BASE) == pytest.approx(asked)
