"""More statements of the kinds the United States rules print, written down from memory of the text (sections beside them).

The rows of tests/reference/fibre_law_examples.csv were read in the regulations; these were not, so only the form is tested.
"""

from __future__ import annotations

import pytest

from handouts.labelling import label, read_content
from tests.labelling_knowledge import knowledge

PRINTED = {
    # 303.10(b): fibres of two polymers
    "100% biconstituent fiber (65% nylon, 35% polyester)": "100% Biconstituent Fiber (65% Nylon, 35% Polyester)",
    "80% matrix fiber (60% nylon, 40% polyester), 15% polyester, 5% rayon": (
        "80% Matrix Fiber (60% Nylon, 40% Polyester) / 15% Polyester / 5% Rayon"
    ),
    # 303.10(a), with full stops between the sections
    "Front and back non-elastic sections: 50% acetate, 50% cotton. Elastic: rayon, cotton, nylon, rubber.": (
        "Front and back non-elastic sections: / 50% Acetate / 50% Cotton / Elastic: Rayon, cotton, nylon, rubber"
    ),
    # 303.13, 303.14: material nobody can name
    "fabric remnants, 50% cotton, 50% rayon": "Remnants, 50% Cotton / 50% Rayon",
    "secondhand materials": "Secondhand materials--fiber content unknown",
    "scraps": "Made of miscellaneous scraps of undetermined fiber content",
    "all undetermined fibers - textile scraps": "All undetermined fibers--textile scraps",
    "45% cotton, 30% rayon, 25% unknown fibers - waste materials": (
        "45% Cotton / 30% Rayon / 25% Unknown fibers--waste materials"
    ),
    # 303.16(d): a type number stays with its fibre
    "60% nylon 66, 40% pima cotton": "60% Nylon 66 / 40% Pima Cotton",
    # 303.22: linings and fillings
    "covering 100% rayon; filling 100% cotton": "Covering: 100% Rayon / Filling: 100% Cotton",
    # 303.24: dashes and a bracket, as printed
    "Face - 60% Rayon, 40% Nylon; Back - 70% Cotton, 30% Rayon (Face constitutes 60% of fabric and back 40%)": (
        "Face: / 60% Rayon / 40% Nylon / Back: / 70% Cotton / 30% Rayon / (Face constitutes 60% of fabric and back 40%)"
    ),
    "100% nylon pile, 100% cotton back, back constitutes 60% of fabric and pile 40%": (
        "100% Nylon Pile / 100% Cotton Back / (Back constitutes 60% of fabric and pile 40%)"
    ),
    # 303.26, 303.27: what is left out
    "100% rayon; exclusive of 3% silk": "100% Rayon / Exclusive of 3% Silk Ornamentation",
    "100% cotton; exclusive of elastic": "100% Cotton / Exclusive of Elastic",
    "all polyester, exclusive of decoration": "All Polyester / Exclusive of Decoration",
    # 300.3(a)(2): matter that is no fibre
    "100% wool, 10% loading": "100% Wool / Contains at most 10% Non-Fibrous Loading",
    # 300.8(g), 303.6(b): hair of other animals
    "60% wool, 30% fur fiber, 10% angora rabbit": "60% Wool / 30% Fur Fiber / 10% Angora Rabbit",
    "100% cashgora hair": "100% Cashgora Hair",
    "100% paco-vicuna hair": "100% Paco-Vicuna Hair",
    # 300.19(b): specialty wools in the place of wool
    "40% recycled llama, 35% recycled vicuna, 25% cotton": "40% Recycled Llama / 35% Recycled Vicuna / 25% Cotton",
    # 300.26: the face of wool called pile in the bracket
    "100% wool face, 100% cotton back (back constitutes 60% of fabric and pile 40%)": (
        "100% Wool Face / 100% Cotton Back / (Back constitutes 60% of fabric and pile 40%)"
    ),
}


@pytest.mark.parametrize("cell", PRINTED)
def test_other_forms_of_the_united_states_rules(cell: str) -> None:
    """The section stands above each form; nothing is refused."""
    content = read_content(cell, knowledge())
    assert (PRINTED[cell], ()) == (" / ".join(label(content, "US", knowledge()).statement), content.findings)


def test_two_polymers_count_for_the_iron_and_in_the_eu() -> None:
    """Art. 9(1): every fibre with its share; the advice sees both polymers."""
    content = read_content("80% matrix fiber (60% nylon, 40% polyester), 15% polyester, 5% rayon", knowledge())
    assert label(content, "EU", knowledge()).statement == ("48 % polyamide", "47 % polyester", "5 % viscose")
    assert set(content.fibres()) == {"polyamide", "polyester", "viscose"}


def test_virgin_wool_beside_other_wool_is_plain_wool_in_the_eu() -> None:
    """Art. 8(2)(a): all the wool in the mixture must be virgin."""
    made = label(read_content("70% virgin wool, 30% recycled wool", knowledge()), "EU", knowledge())
    assert (made.statement, [p.code for p in made.problems]) == (("100 % wool",), ["label-virgin"])


def test_leather_trim_beside_the_fibres_draws_the_phrase() -> None:
    """Art. 12(1): 100% cotton with leather trim."""
    made = label(read_content("100% cotton with leather trim", knowledge()), "EU", knowledge())
    assert made.statement == ("100 % cotton", "Contains non-textile parts of animal origin")
