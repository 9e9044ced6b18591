"""What the supplier's own care words claim, and in which line they stand."""

from __future__ import annotations

import pytest

from handouts.labelling import label, read_content
from tests.labelling_knowledge import knowledge


def lines(cell: str, care: str, market: str) -> tuple[str, ...]:
    """The care lines of a cloth with a supplier's words."""
    return label(read_content(cell, knowledge()), market, knowledge(), supplier_care=care).care


@pytest.mark.parametrize(
    ("cell", "care", "market", "found"),
    [
        ("100% wool", "Machine wash hot", "EU", 1),
        ("100% wool", "Machine wash cold", "EU", 0),
        ("100% viscose", "Machine wash warm", "EU", 1),  # warm is 31 °C and more
        ("100% polyester", "Machine wash warm", "EU", 0),
        ("100% viscose", "Machine wash cold, not in hot water", "EU", 0),
        ("100% wool", "Machine wash, gentle cycle", "EU", 0),
        ("100% wool", "Machine wash, gentle cycle", "US", 1),  # no temperature: hot is safe
        ("100% cotton", "Machine wash", "US", 0),
        ("100% wool", "wash: any; iron: 1", "EU", 1),
        ("100% acrylic", "Machine wash cold. Iron on the reverse.", "US", 1),  # no heat: a hot iron is safe
        ("100% acrylic", "Machine wash cold. Iron on the reverse.", "EU", 0),
        ("100% acrylic", "Machine wash cold. Do not iron.", "US", 0),
        ("100% acrylic", "Machine wash cold. Steam only.", "US", 0),
    ],
)
def test_words_and_silence_are_claims(cell: str, care: str, market: str, found: int) -> None:
    """16 CFR 423.6(b), App. A: warm from 31 °C, hot from 45 °C; silence on heat says that the hottest is safe."""
    made = label(read_content(cell, knowledge()), market, knowledge(), supplier_care=care)
    assert [one.code for one in made.problems] == ["care-conflict"] * found
    assert all("(no heat named, so hot)" in one.message for one in made.problems if market == "US")


def test_words_of_other_languages_and_wiping_are_sorted() -> None:
    """Nothing that the supplier said is called not stated; what is only wiped is neither washed nor sent to a cleaner."""
    french = lines("100% viscose", "Laver à 30, ne pas blanchir, séchage en tambour interdit, repassage doux", "EU")
    assert [line.split(":")[0] for line in french if "(supplier)" in line] == ["Washing", "Bleach", "Drying", "Ironing"]
    wiped = lines("100% polyester", "Wipe clean only", "EU")
    assert wiped[0] == "Washing: do not wash (supplier: wipe clean)"
    assert "Cleaning: Wipe clean only (supplier)" in wiped
