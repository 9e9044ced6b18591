"""Every fibre name of the two laws is known, and stands on the statement of its market.

16 CFR 303.7 as listed in fibre_law.md R-US-8 (names read there). Annex I of Regulation 1007/2011: English, from memory.
"""

from __future__ import annotations

import pytest

from handouts.labelling import label, read_content
from tests.labelling_knowledge import knowledge

US = """acrylic modacrylic polyester elasterell-p triexta rayon lyocell acetate triacetate saran azlon nytril nylon rubber
lastrile spandex vinal olefin lastol vinyon metallic glass anidex novoloid aramid sulfar PBI elastoester melamine fluoropolymer
PLA"""
NAMES = tuple(US.split())
ISO = (
    "chitin",
    "ceramic",
    "polycarbamide",
    "polypropylene/polyamide bicomponent",
    "trivinyl",
)  # added by ISO 2076:2013
EU = """wool alpaca llama camel cashmere mohair angora vicuna yak guanaco cashgora beaver otter; horsehair; cattle hair;
common goat hair; animal hair; silk cotton kapok flax; true hemp; jute abaca alfa coir broom ramie sisal sunn henequen maguey
acetate alginate cupro modal protein triacetate viscose acrylic chlorofibre fluorofibre modacrylic polyamide aramid polyimide
lyocell polylactide polyester polyethylene polypropylene polycarbamide polyurethane vinylal trivinyl elastodiene elastane;
glass fibre; elastomultiester elastolefin melamine metallic paper; polypropylene/polyamide bicomponent; polyacrylate"""
ANNEX = [name.strip() for run in EU.split(";") for name in ([run] if len(run.split()) < 4 else run.split())]


@pytest.mark.parametrize("name", [*NAMES, *ISO])
def test_every_generic_name_of_the_united_states_stands_as_it_is(name: str) -> None:
    """303.7(a) to (y) with the names in brackets; each apart from its neighbours (saran is no vinyon)."""
    made = label(read_content(f"60% {name}, 40% linen", knowledge()), "US", knowledge())
    assert (made.statement[0].casefold(), made.problems) == (f"60% {name}".casefold(), ())


@pytest.mark.parametrize("name", ANNEX)
def test_every_name_of_annex_one_stands_as_it_is(name: str) -> None:
    """Art. 5(1): only these names."""
    made = label(read_content(f"100% {name}", knowledge()), "EU", knowledge())
    assert (made.statement, made.problems) == ((f"100 % {name}",), ())


@pytest.mark.parametrize(
    "name", ["nytril", "anidex", "novoloid", "sulfar", "PBI", "chitin", "pineapple leaf fibre", "nettle"]
)
def test_a_fibre_that_is_not_in_annex_one_is_other_fibres(name: str) -> None:
    """Art. 9(5): with its percentage."""
    made = label(read_content(f"60% cotton, 40% {name}", knowledge()), "EU", knowledge())
    assert made.statement == ("60 % cotton", "40 % other fibres")


def test_no_name_is_left_without_a_test() -> None:
    """25 lettered names and 6 in brackets (fibre_law.md R-US-8); 50 numbers of Annex I; 2, 3 and 48 name several."""
    assert (len(NAMES), len(ANNEX)) == (31, 65)
    named = {word for record in knowledge().tables["labelling"]["name"] for word in record["words"]}
    goats = {word for word in named if "goat" in word}
    assert named - goats - {"others", "esparto", "polybenzimidazole", "polybenzimidazol"} <= {
        n.casefold() for n in (*NAMES, *ISO, *ANNEX)
    }


def test_an_animal_is_named_with_hair_unless_wool_is_beside_it() -> None:
    """303.6(b): the animal's name with “hair”, “fiber” or “blend”; 300.8(g) prints “Angora Rabbit” beside wool (from memory)."""
    typed = {"60% cotton, 40% angora rabbit": "40% Angora Rabbit Hair", "60% wool, 40% angora rabbit": "40% Angora Rabbit",
             "60% cotton, 40% mink": "40% Mink Hair", "60% cotton, 40% mink fiber": "40% Mink Fiber",
             "60% wool, 40% angora goat hair": "40% Mohair", "70% wool, 30% cashmere goat hair": "30% Cashmere",
             "60% cotton, 40% animal hair": "40% Fur Fiber", "60% cotton, 40% cow hair": "40% Cattle Hair"}  # fmt: skip
    made = {cell: label(read_content(cell, knowledge()), "US", knowledge()).statement[1] for cell in typed}
    assert made == typed
