"""A weight told in the name of a cloth: figures, or a word before the name."""

from __future__ import annotations

import pytest

from handouts import knowledge, labelling
from handouts.advice import facts_of, find_cloth
from handouts.advice.spoken_weight import figure_gsm
from handouts.records import Fact

KNOWN = knowledge.load()


def weight(said: str, content: str, **typed: float) -> tuple[str, Fact]:
    """The cloth that a name means, and its weight in g/m²."""
    read = labelling.read_content(content, KNOWN)
    item = find_cloth(said, KNOWN, read).item
    assert item is not None, said
    facts = facts_of({"cloth": said, **typed}, lambda key: f"cell of {key}", item, read, KNOWN)
    return item.id, facts["weight_gsm"]


@pytest.mark.parametrize(
    ("said", "gsm"),
    [
        ("12 oz denim", 407),
        ("denim 12oz", 407),
        ("canvas, 10.5 oz/yd²", 356),
        ("boiled wool 400 g/m²", 400),
        ("cotton jersey 220gsm", 220),
        ("silk charmeuse 19 momme", 82),
        ("ripstop 1.9 oz per sq yd", 64),
        ("420D pack cloth", None),
        ("21 wale corduroy", None),
        ("2x2 rib", None),
    ],
)  # 1 oz/yd² = 33.906 g/m², 1 momme = 4.34 g/m²: reference/fabric_weight.md
def test_figures_in_a_name_are_its_weight(said: str, gsm: float | None) -> None:
    """Ounces per square yard, grams per square metre, momme; other figures are none."""
    assert figure_gsm(said) == gsm


def test_a_name_with_figures_is_read_for_sure_and_the_cell_is_named() -> None:
    """`10 oz canvas` is canvas without a finding; the weight says where it stands and a typed one outranks it."""
    found = find_cloth("canvas 10 oz", KNOWN)
    assert found.sure and found.item is not None and found.item.id == "canvas"
    assert weight("canvas 10 oz", "100% cotton")[1] == Fact(339, "derived", "cell of cloth")
    assert weight("canvas 10 oz", "100% cotton", weight_gsm=300.0)[1] == Fact(300.0, "typed", "cell of weight_gsm")


@pytest.mark.parametrize(
    ("said", "content", "times"),
    [
        ("lightweight wool crepe", "100% wool", 0.75),
        ("light wool flannel", "100% wool", 0.75),
        ("heavy-weight cotton twill", "100% cotton", 1.35),
        ("heavy satin", "100% polyester", 1.35),
        ("wool suiting, heavy", "100% wool", 1.35),
        ("light blue linen", "100% linen", 1),
        ("heavy linen", "100% linen", 1),
        ("light-weight denim", "100% cotton", 1),
    ],
)
def test_a_word_before_the_name_shifts_the_usual_weight(said: str, content: str, times: float) -> None:
    """Not when the cloth's own name holds it, nor before a colour; it stays an assumption."""
    id, fact = weight(said, content)
    usual = KNOWN.cloths[id].usual["weight_gsm"]
    assert fact == Fact(round(usual * times) if times != 1 else usual, "assumed", id)


def test_figures_that_no_cloth_weighs_are_left_alone() -> None:
    """3000 g/m² in a name is no weight of cloth."""
    assert weight("felt 3000 gsm", "100% wool")[1].origin == "assumed"
