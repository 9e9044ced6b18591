"""Which care symbols the supplier's settings give, and when there are none."""

from __future__ import annotations

import pytest

from handouts.labelling import label, read_content
from tests.labelling_knowledge import knowledge


@pytest.mark.parametrize(
    ("typed", "names"),
    [
        ("wash: 40; bleach: no; dry: line, shade; iron: 2; clean: P", "wash-40 bleach-no line-shade iron-2 clean-p"),
        ("wash: hand; bleach: no; dry: drip flat; iron: 1; clean: no", "wash-hand bleach-no flat-drip iron-1 clean-no"),
        (
            "wash: 50 gentle; bleach: no; dry: low; iron: no; clean: F",
            "wash-50-mild bleach-no tumble-1 iron-no clean-f",
        ),
        ("wash: 50; bleach: no; dry: low; iron: no; clean: F", ""),  # not in the list that was read
        ("wash: 40; bleach: no; dry: low; iron: 2; steam: no; clean: P", ""),  # two dots allow steam
        ("wash: 40; bleach: no; dry: low; iron: 1; steam: no; clean: P", "wash-40 bleach-no tumble-1 iron-1 clean-p"),
    ],
)
def test_symbols_say_neither_more_nor_less_than_the_settings(typed: str, names: str) -> None:
    """care_symbols.md 2.1 to 2.5 (GINETEX table, a maker's rows): one dot is without steam; shade has its own line."""
    made = label(read_content("100% cotton", knowledge()), "EU", knowledge(), supplier_care=typed)
    assert " ".join(made.symbols) == names


def test_the_words_beside_a_symbol_say_as_much() -> None:
    """Never milder in words than in the sign: shade, dripping, very gentle."""
    typed = "wash: 30 very gentle; bleach: no; dry: drip flat, shade; iron: 1; clean: no"
    made = label(read_content("100% silk", knowledge()), "EU", knowledge(), supplier_care=typed)
    assert made.symbols[::2] == ("wash-30-very-mild", "flat-drip-shade", "clean-no")
    assert made.care[0] == "Washing: Wash at most 30 °C, very gentle (supplier)"
    assert made.care[2] == "Drying: Drip dry flat in the shade (supplier)"
