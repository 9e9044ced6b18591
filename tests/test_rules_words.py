"""What a card says about blends and washing: the fibre that decides is named, and no line contradicts another."""

from __future__ import annotations

import re

import pytest

from handouts import knowledge, labelling
from handouts.advice import advise, facts_of, find_cloth
from handouts.records import Decision

KNOWN = knowledge.load()


def advised(cloth: str, content: str) -> dict[str, Decision]:
    """Topic → Decision of a cloth as a teacher writes it, with its content."""
    read = labelling.read_content(content, KNOWN)
    item = find_cloth(cloth, KNOWN, read).item
    assert item is not None, cloth
    return advise([facts_of({}, str, item, read, KNOWN)], KNOWN, mights=False)[0]


@pytest.mark.parametrize(
    ("cloth", "content", "dots", "named"),
    [
        ("melton", "85% wool, 15% polyamide", 1, "polyamide"),
        ("flannel", "80% wool, 20% polyamide", 1, "polyamide"),
        ("coating", "60% wool, 40% acrylic", 1, "acrylic"),
        ("suiting", "55% wool, 45% polyester", 2, "polyester"),
        ("poplin", "65% cotton, 35% polyester", 2, "polyester"),
        ("linen blend", "55% linen, 45% viscose", 1, "viscose"),
        ("coating", "90% wool, 10% cashmere", 1, "fine hair"),
        ("voile", "70% cotton, 30% silk", 1, "silk"),
    ],
)  # reference/handling_rules.csv PH15, and the issue list: at any percentage
def test_a_blend_names_the_fibre_that_sets_the_iron(cloth: str, content: str, dots: int, named: str) -> None:
    """The reason printed beside the iron names the least tolerant fibre, when it is not the main one."""
    decision = advised(cloth, content)["press_dots"]
    assert decision.value == dots
    assert named in decision.won[0].because and decision.won[0].lasting, "lasting: so that the card prints it first"


def test_every_reason_of_a_fibre_says_which_fibre() -> None:
    """In a blend several fibres speak: a reason that begins with “It” would leave open which one is meant."""
    assert [
        f.id for f in KNOWN.fibres.values() if re.match(r"(It|Its|They|Some|A few)\b(?! per cent of)", f.because)
    ] == []


@pytest.mark.parametrize(
    ("cloth", "content"),
    [
        ("quilting cotton", "100% cotton"),
        ("canvas", "100% cotton"),
        ("flannelette", "100% cotton"),
        ("microfibre", "100% polyester"),
    ],
)
def test_washing_before_cutting_names_no_heat_that_the_care_may_forbid(cloth: str, content: str) -> None:
    """A print or a dark dye may lower the care to 30 °C: the line before cutting leaves the heat to the care."""
    lines = " ".join(advised(cloth, content)["pretreat"].value)
    assert not re.search(r"\b(wash|dry)\b[^.;]*\b(warm|hot)\b(?! as)", lines, re.I), lines


def test_nothing_is_ironed_damp_that_bears_no_steam() -> None:
    """Linen is ironed damp; with viscose in it the iron is cool and dry, so the line goes."""
    damp = "Iron it smooth while it is still damp."
    assert damp in advised("linen", "100% linen")["pretreat"].value
    assert damp not in advised("linen blend", "55% linen, 45% viscose")["pretreat"].value


def test_ticking_is_no_denim() -> None:
    """Ticking is a close striped twill whose yarns are dyed through: no word of rubbing off, no denim (common practice)."""
    advice = advised("ticking", "100% cotton")
    told = " ".join(line for topic in ("pretreat", "watch_out") for line in advice[topic].value)
    assert "denim" not in told.casefold() and "inside out" not in told
    assert advice["needle_point"].value[0] == "universal" and 80 <= advice["needle_nm"].value["start"] <= 100


@pytest.mark.parametrize(
    ("cloth", "content", "topic", "said", "unsaid"),
    [
        ("three-layer laminate", "100% polyamide", "pretreat", "No need to wash it", "Do not wash"),
        ("PUL", "PU on 100% polyester", "pretreat", "No need to wash it", "Do not wash"),
        ("swimwear", "80% polyamide, 20% elastane", "interfacing", "None; line it", "fusible"),
        ("fusible interfacing", "100% cotton", "interfacing", "press and lift", "low-heat"),
        ("beaded lace", "100% polyester", "watch_out", "clear beads", "discs"),
        ("sequin fabric", "100% polyester", "layout", "stroke smooth", "beads"),
        ("quilting cotton", "100% cotton", "layout", "Press it flat", "discs"),
        ("melton", "85% wool, 15% polyamide", "watch_out", "Press longer, not hotter", "Edges roll"),
        ("barkcloth", "100% cotton", "layout", "Centre a motif", "sleeves"),
        ("ticking", "100% cotton", "suits", "cushions", "trousers"),
        ("velboa", "100% polyester", "watch_out", "melts it flat", "starch"),
    ],
)  # common practice, no source
def test_a_line_speaks_of_this_cloth(cloth: str, content: str, topic: str, said: str, unsaid: str) -> None:
    """What a teacher would say of it, and not what belongs to its neighbour."""
    lines = " ".join(advised(cloth, content)[topic].value)
    assert said in lines and unsaid not in lines, lines
