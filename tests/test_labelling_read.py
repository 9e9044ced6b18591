"""The Fibre content cell read as the bolt end says it: forms, separators, languages and faults."""

from __future__ import annotations

import pytest

from handouts.labelling import read_content
from handouts.problems import catalogue, fields
from handouts.sheets import COATINGS
from tests.labelling_knowledge import knowledge

FORMS = {
    "97% cotton, 3% elastane": {"cotton": 97, "elastane": 3},
    "100% linen": {"linen": 100},
    "cotton": {"cotton": 100},
    "cotton 60 / linen 40": {"cotton": 60, "linen": 40},
    "60/40 cotton linen": {"cotton": 60, "linen": 40},
    "60-40 cotton/linen": {"cotton": 60, "linen": 40},
    "cotton/linen 60/40": {"cotton": 60, "linen": 40},
    "cotton 97 %, elastane 3 %": {"cotton": 97, "elastane": 3},
    "80 cotton 20 polyester": {"cotton": 80, "polyester": 20},
    "cotton(80%) polyester(20%)": {"cotton": 80, "polyester": 20},
    "cotton: 97%; elastane: 3%": {"cotton": 97, "elastane": 3},
    "97,5 % cotton; 2,5 % elastane": {"cotton": 97.5, "elastane": 2.5},
    "97.5% cotton + 2.5% elastane": {"cotton": 97.5, "elastane": 2.5},
    "97.5% cotton & 2.5% elastane": {"cotton": 97.5, "elastane": 2.5},
    "60% cotton\n40% linen": {"cotton": 60, "linen": 40},
    "60 percent Cotton. 40 percent Linen.": {"cotton": 60, "linen": 40},
    "60 per cent cotton and 40 per cent linen": {"cotton": 60, "linen": 40},
    "cotton 97%, 3% elastane": {"cotton": 97, "elastane": 3},
    "97%cotton/3%elastane": {"cotton": 97, "elastane": 3},
    "60%,cotton,40%,linen": {"cotton": 60, "linen": 40},
    "95% organic cotton, 5% spandex - 180 gsm": {"cotton": 95, "elastane": 5},
    "34% cotton, nylon 66": {"cotton": 34, "polyamide": 66},
    "nylon 66": {"polyamide": 100},
    "50% acetate, 50% triacetate": {"acetate": 50, "triacetate": 50},
    "viscose from bamboo": {"viscose": 100},
    "Fibre content: 100% cotton": {"cotton": 100},
}

LANGUAGES = {
    # Annex I names of Regulation (EU) 1007/2011 in French, German, Spanish, Italian, Dutch; from memory of the annex
    "95 % coton, 5 % élasthanne": {"cotton": 95, "elastane": 5},
    "60 % laine et 40 % soie": {"wool": 60, "silk": 40},
    "70 % lin, 30 % chanvre": {"linen": 70, "hemp": 30},
    "97 % Baumwolle, 3 % Elasthan": {"cotton": 97, "elastane": 3},
    "50% Wolle und 50% Seide": {"wool": 50, "silk": 50},
    "100 % Leinen": {"linen": 100},
    "80 % algodón, 20 % poliéster": {"cotton": 80, "polyester": 20},
    "60% lana y 40% seda": {"wool": 60, "silk": 40},
    "95% cotone, 5% elastan": {"cotton": 95, "elastane": 5},
    "lana 80%, poliammide 20%": {"wool": 80, "polyamide": 20},
    "60% lino e 40% viscosa": {"linen": 60, "viscose": 40},
    "95% katoen, 5% elastaan": {"cotton": 95, "elastane": 5},
    "50% wol en 50% zijde": {"wool": 50, "silk": 50},
    "reine Baumwolle": {"cotton": 100},
    "pur coton": {"cotton": 100},
    "100 % regenerierte Proteinfaser": {"protein": 100},
    "100% yack": {"yak": 100},
    "80% polilactida, 20% capok": {"polylactide": 80, "kapok": 20},
    "100% polyamide (nylon)": {"polyamide": 100},
}


def shares(cell: str, part: str = "") -> dict[str | None, float | None]:
    """Fibre → percent of one part of a cell."""
    content = read_content(cell, knowledge())
    return {s.fibre: s.pct for section in content.sections if section.part == part for s in section.shares}


@pytest.mark.parametrize("cell", [*FORMS, *LANGUAGES])
def test_a_bolt_end_is_read_without_a_word(cell: str) -> None:
    """Every form and language gives its fibres and percentages, and no finding."""
    assert ({**FORMS, **LANGUAGES}[cell], ()) == (shares(cell), read_content(cell, knowledge()).findings)


def test_a_bracket_that_names_a_function_is_the_reason() -> None:
    """16 CFR 303.3(a) wants the function in words; a repeated name, a quality or looks are none."""
    reasons = {
        "3% spandex (for stretch), 97% cotton": "for stretch",
        "3 % elastane (stretch), 97 % cotton": "stretch",
        "97% cotton, 3% metallic (antistatic)": "antistatic",
        "97% cotton, 3% elastane (Rücksprung und Dehnbarkeit)": "Rücksprung und Dehnbarkeit",
        "97% cotton, 3% nylon (polyamide)": "",
        "97% cotton, 3% polyester (recycled)": "",
        "97% cotton, 3% metallic (for looks)": "",
    }
    found = {}
    for cell in reasons:
        sections = read_content(cell, knowledge()).sections
        found[cell] = next(s.reason for s in sections[0].shares if s.pct == 3)
    assert reasons == found


def test_parts_have_their_own_fibres_and_share() -> None:
    """Pile and back, labelled or trailing, with the share of one or both."""
    for cell in (
        "pile 100% nylon; back 100% cotton; pile 40%",
        "100% nylon pile, 100% cotton back, pile 40%",
        "Pile: 100% nylon; Back: 100% cotton; back constitutes 60% of fabric and pile 40%",
        "Flor: 100% Polyamid, Rücken: 100% Baumwolle, Flor 40%",
    ):
        content = read_content(cell, knowledge())
        assert [(s.part, s.shares[0].fibre) for s in content.sections] == [("pile", "polyamide"), ("back", "cotton")], (
            cell
        )
        assert content.sections[0].pct == 40, cell
    assert shares("shell 100% cotton, lining 100% polyester", "lining") == {"polyester": 100}
    assert shares("Obermaterial: 80% Baumwolle, 20% Polyester; Futter: 100% Viskose", "shell") == {
        "cotton": 80,
        "polyester": 20,
    }


def test_what_is_left_out_or_added_stands_apart() -> None:
    """Ornamentation and exceptions do not disturb the hundred, and their fibres still count for the iron."""
    content = read_content("100% rayon; exclusive of 3% silk ornamentation", knowledge())
    assert (content.exclusive_of, content.fibres()) == ("3% silk ornamentation", {"viscose": 100, "silk": 3})
    content = read_content("55% cotton, 45% rayon; except 5% nylon added to toe and heel", knowledge())
    assert shares(content.typed, "except") == {"polyamide": 5}
    assert content.sections[-1].shares[0].reason == "added to toe and heel"


def test_coatings_are_those_of_the_coating_column() -> None:
    """`PVC on 100% polyester` and its like set the coating; the base keeps its fibres."""
    coatings = {
        "PVC on 100% polyester": ("PVC", {"polyester": 100}),
        "PU coated nylon": ("PU", {"polyamide": 100}),
        "100% polyester with PU coating": ("PU", {"polyester": 100}),
        "100% polyester, PU coated": ("PU", {"polyester": 100}),
        "waxed cotton": ("wax", {"cotton": 100}),
        "laminated cotton": ("laminated", {"cotton": 100}),
        "rubberised cotton": ("rubber", {"cotton": 100}),
        "84% PVC, 16% polyester": ("PVC", {"polyester": 100}),
    }
    found = {cell: (read_content(cell, knowledge()).coating, shares(cell)) for cell in coatings}
    assert coatings == found
    assert {coating for coating, _ in found.values()} <= set(COATINGS)


def test_skins_and_cloth_nobody_knows() -> None:
    """Leather and suede, unknown, remnants and scraps."""
    base = knowledge()
    assert [read_content(c, base).skin for c in ("leather", "100% suede", "Leder")] == ["leather", "suede", "leather"]
    assert all(
        read_content(c, base).unknown for c in ("unknown", "?", "unbekannt", "not known", "remnants unknown", "n/a")
    )
    content = read_content("45% rayon, 30% acetate, 25% unknown scraps", base)
    assert (content.fibres(), content.findings) == ({"viscose": 45, "acetate": 30, "unknown": 25}, ())
    assert read_content("polyester suede", base).skin == ""


FAULTS = {
    "97% cotton, 2% elastane": "content-sum",
    "60% cotton, 41% linen": "content-sum",
    "33.3% cotton, 33.3% linen, 33.3% silk": "content-sum",
    "60% cotton, linen": "content-no-share",
    "cotton, linen": "content-no-share",
    "100% cottn": "content-unknown-word",
    "100% flubber": "content-unknown-word",
    "CO 100": "content-code",
    "PES 65% CO 35%": "content-code",
    "95% cotton, 5% spandex*": "content-mark",
    "polyester silk": "content-implies",
    "silky polyester": "content-implies",
    "100% acrylic cashmere feel": "content-implies",
    "linen look polyester": "content-implies",
    "100% bamboo": "content-bamboo",
    "polycotton": "content-blend",
    "faux leather": "content-imitation",
    "60% cotton 40%": "content-number",
    "1000% cotton": "content-number",
    "0% cotton, 100% linen": "content-number",
    "cotton linen union": "content-union",
    "100% cotton; pile 40%": "content-part",
    "100% cotton; except 5% nylon": "content-except",
    "97% cotton, 3% elastane, dry clean only": "content-beside",
    "!!!": "content-nothing",
    "cotton " * 400: "content-long",
}


@pytest.mark.parametrize("cell", FAULTS, ids=lambda cell: cell[:30])
def test_what_cannot_stand_is_found(cell: str) -> None:
    """The finding has the code, and every field that its sentences need."""
    findings = dict(read_content(cell, knowledge()).findings)
    assert FAULTS[cell] in findings
    for code, found in findings.items():
        assert fields(code) <= set(found)
        assert catalogue()[code].sentence.format(**found)


def test_every_finding_is_drawn_by_some_cell() -> None:
    """No message of the content group is dead: the cells above draw them, trade and short words beside them."""
    drawn = {
        code
        for cell in (*FAULTS, "poly 100", "elast 3, cotton 97")
        for code, _ in read_content(cell, knowledge()).findings
    }
    assert {code for code in catalogue() if code.startswith("content-")} - {"content-missing"} == drawn


def test_a_doubtful_word_still_finds_its_fibre() -> None:
    """Heat advice must be right while the wording is not: code, short form, bamboo, imitation, slip of the finger."""
    cells = {
        "CO": "cotton",
        "poly 100": "polyester",
        "bamboo": "viscose",
        "polyester silk": "polyester",
        "cottn": "cotton",
    }
    assert cells == {cell: next(iter(shares(cell))) for cell in cells}


def test_proposals_say_what_to_write() -> None:
    """The missing share and the meant fibre are named."""
    said = {
        code: found
        for cell in ("60% cotton, linen", "100% cottn")
        for code, found in read_content(cell, knowledge()).findings
    }
    assert "40% linen" in str(said["content-no-share"]["proposal"])
    assert "Did you mean cotton?" in str(said["content-unknown-word"]["proposal"])
