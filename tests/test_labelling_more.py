"""Statements in the forms in which the regulations print theirs, from memory of the text; each with its section.

Not the rows that were read (test_labelling_law.py) and not those of test_labelling_printed.py: here the small print is tried.
"""

from __future__ import annotations

import pytest

from handouts.labelling import label, read_content
from tests.labelling_knowledge import knowledge

US = {
    # 303.3(a), 303.16(a)(1): functions in other words, each in its place; what has none goes last and is summed
    "90% acetate, 4% nylon (for reinforcement), 3% cotton, 3% spandex (for elasticity)": (
        "90% Acetate / 4% Nylon / 3% Spandex / 3% Other Fiber"
    ),
    "98% cotton, 2% metallic (for static)": "98% Cotton / 2% Metallic",
    "85.3% cotton, 4.9% nylon, 4.9% rayon, 4.9% acrylic": "85.3% Cotton / 14.7% Other Fibers",
    "60% cotton, 36% rayon, 4% other fiber": "60% Cotton / 36% Rayon / 4% Other Fiber",
    "60% rayon, 31% cotton, 9% other fibers": "60% Rayon / 31% Cotton / 9% Other Fibers",
    "97% cotton, 3% rabbit hair": "97% Cotton / 3% Other Fiber",  # 303.6(b): named from 5 percent only
    # 303.43: the tolerance never rounds
    "95.04% cotton, 4.96% spandex": "95.04% Cotton / 4.96% Other Fiber",
    "95% cotton, 5.0% metallic": "95% Cotton / 5% Metallic",
    "99.5% cotton, 0.5% wool": "99.5% Cotton / 0.5% Wool",
    # 303.6, 303.7: names in brackets, older and common words
    "100% rayon (viscose)": "100% Rayon",
    "100% viscose rayon": "100% Rayon",
    "50% modal, 50% viscose": "100% Rayon",
    "50% viscose, 50% lyocell": "50% Rayon / 50% Lyocell",
    "60% flax, 40% ramie": "60% Linen / 40% Ramie",
    "60% cotton, 30% rayon, 10% mink fiber": "60% Cotton / 30% Rayon / 10% Mink Fiber",
    # 303.10(a): wholly elastic, both parts by percent
    "wholly of elastic: 80% spandex, 20% nylon": "Wholly of elastic: / 80% Spandex / 20% Nylon",
    # 303.14(a), (b): words as typed
    "100% unknown fibers - rags": "100% unknown fibers--rags",
    "all unknown fibers - textile scraps": "All unknown fibers--textile scraps",
    "60% cotton, 40% unknown fibers - scraps": "60% Cotton / 40% Unknown fibers--scraps",
    # 303.23, 300.27: added fibre
    "55% cotton, 45% rayon; except 5% nylon added to toe and heel": (
        "55% Cotton / 45% Rayon / Except 5% Nylon added to toe and heel"
    ),
    "all wool except 5% nylon added to toe and heel": "All Wool / Except 5% Nylon added to toe and heel",
    # 303.25: sections by colour or place, ornamentation as one of them
    "red: 100% nylon; blue: 100% polyester; green: 80% cotton, 20% nylon; ornamentation: 100% silk": (
        "Red: 100% Nylon / Blue: 100% Polyester / Green: / 80% Cotton / 20% Nylon / Ornamentation: 100% Silk"
    ),
    "body 100% cotton; sleeves 100% nylon": "Body: 100% Cotton / Sleeves: 100% Nylon",
    # 303.26, 303.27: `all` stays `all`
    "all cotton; exclusive of ornamentation": "All Cotton / Exclusive of Ornamentation",
    "all nylon exclusive of elastic": "All Nylon / Exclusive of Elastic",
    "100% nylon exclusive of trimming": "100% Nylon / Exclusive of Trimming",
    "75% cotton, 25% rayon; exclusive of 5% metallic ornamentation": (
        "75% Cotton / 25% Rayon / Exclusive of 5% Metallic Ornamentation"
    ),
    # 303.24: one fibre on either side, the ratio worked out
    "100% acetate face; 100% cotton back; back 30%": (
        "100% Acetate Face / 100% Cotton Back / (Face constitutes 70% of fabric and back 30%)"
    ),
    # 300.3, 300.8, 300.19: wools
    "98% rayon, 2% wool": "98% Rayon / 2% Wool",
    "97% wool, 3% cotton": "97% Wool / 3% Other Fiber",
    "97% cotton, 3% recycled wool": "97% Cotton / 3% Recycled Wool",
    "50% wool, 25% reprocessed wool, 25% reused wool": "50% Wool / 50% Recycled Wool",  # one word since 1980
    "55% alpaca, 45% camel hair": "55% Alpaca / 45% Camel Hair",
    "50% wool, 48% mohair, 2% cashmere": "50% Wool / 48% Mohair / 2% Cashmere",
    "40% recycled camel hair, 35% recycled cashmere, 25% cotton": (
        "40% Recycled Camel Hair / 35% Recycled Cashmere / 25% Cotton"
    ),
    "100% new wool": "100% Virgin Wool",
    # 300.28(b)
    "35% recycled wool, 30% acetate, 35% unknown reclaimed fibers": (
        "35% Recycled Wool / 30% Acetate / 35% Unknown Reclaimed Fibers"
    ),
}
EU = {
    "95% cotton, 5% other fibres": "95 % cotton / 5 % other fibres",  # Art. 9(2)
    "85% cotton, 15% other fibres": "85 % cotton / 15 % other fibres",
    "98% cotton, others 2": "98 % cotton / 2 % other fibres",
    "97% cotton, 2% polyamide, 1% elastane": "97 % cotton / 2 % polyamide / 1 % elastane",  # Art. 9(1)
    "98% polyester, 2% metallic (antistatic)": "98 % polyester / 2 % metallic",
    "25% virgin wool, 75% polyester": "75 % polyester / 25 % virgin wool",  # Art. 8(2)
    "24.9% virgin wool, 75.1% polyester": "75.1 % polyester / 24.9 % wool",
    "50% virgin wool, 30% polyester, 20% cotton": "50 % wool / 30 % polyester / 20 % cotton",
    "pure new wool": "100 % virgin wool",
    "70% cotton, 30% viscose; pile 100% viscose; back 100% cotton": (
        "70 % cotton / 30 % viscose / pile: 100 % viscose / back: 100 % cotton"  # Annex IV.7
    ),
    "textile composition unspecified": "unspecified textile composition",
    "60% wool, 40% animal hair": "60 % wool / 40 % animal hair",
    "100% recycled polyester": "100 % polyester",
    "100% polyurethane": "100 % polyurethane",
}  # fmt: skip
REFUSED = [
    ("US", "all undetermined fibers"),  # 303.14 names what the material is
    ("US", "33.3% cotton, 33.3% linen, 33.3% silk"),
    ("US", "60% polyester, 40% silky polyester"),
    ("US", "94% cotton, 6% other fiber"),  # 303.6(a)
    ("US", "silk"),
    ("EU", "94% cotton, 6% other fibre"),
    ("EU", "84% cotton, 16% other fibres"),
    ("EU", "100% artificial silk"),
    ("EU", "60% cotton, 40% unknown"),
    ("EU", "100% cotton except 5% nylon added to the border"),
]


@pytest.mark.parametrize(("market", "cell"), [("US", cell) for cell in US] + [("EU", cell) for cell in EU])
def test_the_form_is_the_one_the_law_uses(market: str, cell: str) -> None:
    """The section stands beside each; the cell itself has no fault."""
    content = read_content(cell, knowledge())
    expected = (US if market == "US" else EU)[cell]
    assert (expected, ()) == (" / ".join(label(content, market, knowledge()).statement), content.findings)


@pytest.mark.parametrize("cell", EU)
def test_the_united_kingdom_says_what_the_union_says(cell: str) -> None:
    """fibre_law.md section 5: the same rule set."""
    content = read_content(cell, knowledge())
    assert label(content, "UK", knowledge()).statement == label(content, "EU", knowledge()).statement


@pytest.mark.parametrize(("market", "cell"), REFUSED)
def test_what_cannot_stand(market: str, cell: str) -> None:
    """No statement, one reason."""
    made = label(read_content(cell, knowledge()), market, knowledge())
    assert (made.statement, [found.code for found in made.problems]) == ((), ["label-refused"])
