"""What the rules ask no statement of, what may be left out of one, and origins."""

from __future__ import annotations

import pytest

from handouts.labelling import label, origin_problems, read_content
from handouts.pipeline import advise_fabrics
from tests.labelling_knowledge import knowledge


def made(cell: str, market: str, **facts: object) -> tuple[str, list[str]]:
    """The statement and the codes of its findings."""
    done = label(read_content(cell, knowledge()), market, knowledge(), facts=facts)
    return " / ".join(done.statement), [found.code for found in done.problems]


@pytest.mark.parametrize(
    ("cell", "codes"),
    [
        ("74% polyester, 26% PVC", ["label-exempt"]),  # 26 on 74 is 35.1 %
        ("75% polyester, 25% PVC", []),  # 33.3 %
        ("20% PVC coating, 80% polyester", []),
        ("100% polyester, 35% PU coating", ["label-exempt"]),
        ("100% polyester, 34% PU coating", []),
        ("PVC on 100% polyester", []),  # nobody knows how heavy: stated as if asked for
    ],
)
def test_cloth_with_a_film_of_35_percent_of_its_base_is_outside_the_act(cell: str, codes: list[str]) -> None:
    """303.1(o), 303.45(b): no statement is asked; one that is made stays whole (303.45(c))."""
    film = "Polyurethane" if "PU" in cell else "Polyvinyl Chloride"  # in full: 303.5(a), Art. 14(3)
    assert made(cell, "US") == (f"100% Polyester / Coating: {film}", codes)
    assert made(cell, "EU") == (f"100 % polyester / coating: {film.lower()}", [])


def test_what_is_outside_is_not_refused() -> None:
    """A coated cloth on an unknown base needs no statement in the US, so its absence is no fault; in the EU it is."""
    assert made("70% PVC, 30% unknown fabric", "US") == ("", ["label-exempt"])
    assert made("70% PVC, 30% unknown fabric", "EU") == ("", ["label-refused"])


def test_stiffenings_in_the_eu_and_tapestry_in_the_us() -> None:
    """Annex V of Regulation 1007/2011; 303.45(b). The cloth decides, not its fibres."""
    stiff = {"cloth": "buckram", "families": frozenset({"interfacing"})}
    assert made("100% cotton", "EU", **stiff) == ("100 % cotton", ["label-exempt"])
    assert made("60% cotton", "UK", **stiff) == ("", ["label-exempt"])
    assert made("100% cotton", "US", **stiff) == ("100% Cotton", [])
    assert made("100% cotton", "US", cloth="tapestry") == ("100% Cotton", ["label-exempt"])
    assert made("", "EU", **stiff) == ("", [])


def test_a_lining_is_stated_only_where_it_must_be() -> None:
    """303.22: for warmth, or when something is claimed. One that can be stated is; another is left off unless for warmth."""
    assert made("100% nylon; interlining: 100% rayon (for warmth)", "US") == (
        "100% Nylon / Interlining: 100% Rayon",
        [],
    )
    assert made("60% rayon, 40% cotton; lining unknown", "US") == ("60% Rayon / 40% Cotton", ["label-lining"])
    assert made("60% rayon, 40% cotton; lining: 60% acetate", "US") == ("60% Rayon / 40% Cotton", ["label-lining"])
    assert made("60% rayon, 40% cotton; lining: 60% acetate (for warmth)", "US") == ("", ["label-refused"])
    assert made("60% rayon, 40% cotton; lining: 60% acetate", "EU") == ("", ["label-refused"])
    assert made("lining unknown", "US") == ("", ["label-refused"])


@pytest.mark.parametrize(
    ("market", "words", "stated"),
    [
        ("EU", "2% antistatic metal fibre", True),  # Art. 10: up to 2 % against static
        ("EU", "2.1% antistatic metal fibre", False),
        ("EU", "7% decoration", True),  # Art. 10: up to 7 % of decoration
        ("EU", "7.1% decoration", False),
        ("US", "5% metallic ornamentation", True),  # 303.26
        ("US", "5.1% metallic ornamentation", False),
        ("US", "5.1% silk", False),
        ("US", "15% decoration", True),  # 303.12(b), from memory: 15 % of the surface
        ("US", "16% decoration", False),
        ("US", "20% elastic", True),  # 303.12(b), from memory: 20 %
        ("US", "21% elastic", False),
        ("US", "2% antistatic fiber", False),  # no such thing in 303.26, 303.27
        ("US", "lining", True),
    ],
)
def test_what_may_be_left_out(market: str, words: str, stated: bool) -> None:
    """Above its limit it belongs inside the percentages."""
    statement, codes = made(f"100% cotton; exclusive of {words}", market)
    assert (bool(statement), codes) == (stated, [] if stated else ["label-refused"])


@pytest.mark.parametrize(
    "origin",
    ["Portugal", "Made in U.S.A.", "Made in USA of imported fabric", "Woven in Italy, printed in the United Kingdom",
     "Product of Türkiye", "Gt. Britain", "Hong Kong", "made in Viet Nam", ""],
)  # fmt: skip
def test_an_origin_with_a_country_is_no_matter(origin: str) -> None:
    """303.33(a): a country, or the process in each place."""
    assert list(origin_problems(origin, "US", knowledge())) == []


@pytest.mark.parametrize(
    ("origin", "told"),
    [("imported", "no country"), ("EU", "no country"), ("Made in EU", "no country"), ("Asia", "no country"),
     ("Tuscany", "in full"), ("PT", "“Portugal”"), ("Deutschland", "“Germany”"), ("hergestellt in Deutschland", "“Germany”"),
     ("IN", "in full"), ("?", "in full")],
)  # fmt: skip
def test_an_origin_without_a_country_is_told(origin: str, told: str) -> None:
    """303.33(a), (e): the country's English name. Only the United States ask for it; the card prints what was typed."""
    (found,) = origin_problems(origin, "US", knowledge(), "Fabrics!M4")
    assert (found.code, found.cells) == ("label-origin", ("Fabrics!M4",)) and told in found.message
    assert list(origin_problems(origin, "EU", knowledge())) == []


def test_two_polymers_under_one_name_of_annex_one() -> None:
    """Annex I no. 49: one fibre, not two."""
    assert made("60% polypropylene/polyamide bicomponent, 40% cotton", "EU")[0] == (
        "60 % polypropylene/polyamide bicomponent / 40 % cotton"
    )


def test_the_printed_form_of_a_union_with_its_flax() -> None:
    """Art. 9(3): flax 40 % or more; without its share the share is asked for."""
    union = "cotton linen union, pure cotton warp - pure flax weft"
    assert made(f"{union}, flax 45%", "EU") == ("cotton linen union / pure cotton warp - pure flax weft", [])
    assert made(f"{union}, flax 39%", "EU") == ("61 % cotton / 39 % flax", [])
    assert made(union, "EU") == ("", ["label-refused"])


def test_a_cloth_of_the_list_knows_what_it_is() -> None:
    """From the row to the finding: the cloth's own families reach the label."""
    (fabric,) = advise_fabrics(
        [{"name": "Stiff", "cloth": "buckram", "fibre_content": "100% cotton"}], {"market": "EU"}
    )
    assert fabric.label and [found.code for found in fabric.label.problems] == ["label-exempt"]
