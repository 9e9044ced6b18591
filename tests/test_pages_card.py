"""Cards as page markup: the goldens, the order of work, whose word a line is, and that no cell can break a page."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import pytest

from handouts import pages
from handouts.errors import TemplateError
from handouts.pages.templates import environment, render
from handouts.pipeline import advise_fabrics
from handouts.records import Decision, Fabric
from tests.fabric_parts import decision, knowledge, said
from tests.fabrics_by_hand import all_fabrics, boiled_wool, challis, lining, plain, waxed_canvas, workshop

GOLDENS = Path(__file__).parent / "goldens"
CURE = "if the change is meant: RENEW_GOLDENS=1 python -m pytest tests/test_pages_card.py, look at the diff, commit"


def sheet(*fabrics: Fabric, kind: str = "cards", **settings: str) -> ElementTree.Element:
    """The first sheet of these fabrics' markup."""
    make = pages.cards if kind == "cards" else pages.binder
    found = ElementTree.fromstring(make(workshop(*fabrics, **settings), knowledge())).find("sheet")
    assert found is not None
    return found


def said_by(element: ElementTree.Element | None) -> str:
    """All words of an element, attributes included."""
    assert element is not None
    return " ".join(text for child in element.iter() for text in (*child.attrib.values(), child.text or "")).replace(
        "\u00a0", " "
    )


def block(found: ElementTree.Element, title: str) -> str:
    """All words of the block with this title."""
    return said_by(next(child for child in found if child.get("title") == title))


@pytest.mark.parametrize(
    ("name", "kind", "units", "paper"),
    [
        ("card-both-a4", "cards", "both", "A4"),
        ("card-imperial-letter", "cards", "imperial", "Letter"),
        ("binder-metric-a4", "binder", "metric", "A4"),
    ],
)
def test_the_markup_is_as_it_was(name: str, kind: str, units: str, paper: str) -> None:
    """Five fabrics, word for word."""
    made = workshop(*all_fabrics()[:5], units=units, paper=paper)
    text = pages.cards(made, knowledge()) if kind == "cards" else pages.binder(made, knowledge())
    golden = GOLDENS / f"{name}.xml"
    if os.environ.get("RENEW_GOLDENS"):
        golden.write_text(text, encoding="utf-8")
    assert text == golden.read_text(encoding="utf-8"), CURE


def test_blocks_stand_in_the_order_of_work() -> None:
    """As one works: before cutting, cut, sew, seams, press, care, then what is lasting, what differs, room to write, cautions."""
    tags = [child.get("title") or child.tag for child in sheet(boiled_wool())]
    assert tags == [
        "Boiled wool, plum", "strip", "Before cutting", "Lay out and cut", "Needle and stitch", "Seams and hems", "Press",
        "Care", "Watch out", "Cannot be undone", "If yours is heavier or lighter", "Handled like this one",
        "My test seam, on scraps", "swatch", "foot",
    ]  # fmt: skip


def test_a_block_with_nothing_to_say_is_left_out() -> None:
    """Linen as it usually is has no box, no differences and nothing unknown."""
    titles = {child.get("title") for child in sheet(plain())}
    assert not titles & {
        "Cannot be undone",
        "If yours is heavier or lighter",
        "Not known",
        "Handled like this one",
        "Notes",
        "Watch out",
    }


def test_the_strip_shows_the_five_settings() -> None:
    """Needle with both numbers, stitch in mm with the gauge, foot, finish, iron with its dots."""
    settings = list(sheet(boiled_wool(), units="both").find("strip") or ())
    values = [(one.get("value") or "").replace("\u00a0", " ") for one in settings]
    assert values == ["universal", "3.0 mm", "walking", "none", "2 dots"]
    assert "90/14" in said_by(settings[0]) and settings[1].find("gauge") is not None
    dots = settings[4].find("dots")
    assert dots is not None and dots.get("n") == "2" and "≤ 150 °C (300 °F)" in said_by(settings[4])


def test_what_was_tested_stands_beside_what_to_start_with() -> None:
    """The test seam of boiled wool."""
    strip = said_by(sheet(boiled_wool()).find("strip"))
    assert "Needle: start" in strip and "tested: jeans 90/14" in strip and "tested: wool" in strip


def test_what_is_only_usual_is_marked() -> None:
    """Weight and shrinkage of boiled wool come from the cloth, its width was typed."""
    head = said_by(sheet(boiled_wool(), units="metric").find("head"))
    assert (
        "350 g/m² (usual)" in head
        and "140 cm wide" in head
        and "140 cm (usual)" not in head
        and "usually stretches 15 % across" in head
    )
    assert "(usual)" in block(sheet(boiled_wool()), "Before cutting")


def test_the_teachers_own_choice_is_marked_with_its_caution() -> None:
    """Acetate at two dots: her word wins, and the card says what a rule holds against it."""
    found = sheet(lining())
    assert "your choice" in said_by(found.find("strip"))
    assert "your choice" in block(found, "Press") and "Caution: Acetate softens above 110 °C (230 °F)." in block(
        found, "Press"
    )
    assert "▲ your choice, see the caution" in said_by(found.find("strip"))


def test_a_rule_of_the_class_is_marked() -> None:
    """Whose word a line is can be seen."""
    own = Decision(
        "foot", ("Use the blue foot.",), (said(("Use the blue foot.",), "Ours slip.", "house"),), choice="house"
    )
    found = sheet(replace(plain(), advice={**plain().advice, "foot": own}))
    assert "class rule" in block(found, "Needle and stitch") and "Ours slip." in block(found, "Needle and stitch")


def test_a_prohibition_stands_beside_what_to_use() -> None:
    """Waxed canvas: clips or tape; no pins, and why."""
    words = block(sheet(waxed_canvas()), "Lay out and cut")
    assert "Hold with clips or tape; no pins." in words and "A needle hole stays." in words


def test_only_odd_advice_gives_its_reason_and_only_once() -> None:
    """Usual lines stand bare; a reason shared by several lines is printed once."""
    wool = sheet(boiled_wool())
    assert block(wool, "Before cutting").count("Felting may go on.") == 1
    reasons = [item.get("because") for item in wool.iter("item") if item.get("because")]
    assert len(reasons) == len(set(reasons)) <= 3


def test_no_iron_leaves_no_dial_and_no_press_cloth() -> None:
    """Waxed canvas is pressed with the finger only."""
    words = block(sheet(waxed_canvas()), "Press")
    assert "No iron." in words and "Finger-press the seams." in words and "Dial" not in words and "cloth" not in words


def test_cautions_follow_what_the_card_calls_for() -> None:
    """No iron, no word about irons; no rotary cutter, none about blades; the deferral always."""
    words = said_by(sheet(waxed_canvas()).find("foot"))
    assert "Iron upright" not in words and "Close the cutter" in words and "Follow the equipment's manual" in words
    assert "Iron upright" in said_by(sheet(plain()).find("foot"))


def test_cloth_that_burns_fast_says_so() -> None:
    """16 CFR 1610.1(d): plain cotton under 88 g/m² and raised cotton are outside the exemption; denim is not."""
    rows = [
        {"name": name, "cloth": name, "fibre_content": "100% cotton"}
        for name in ("cotton voile", "cotton flannel", "denim")
    ]
    voile, flannel, denim = (said_by(sheet(fabric).find("foot")) for fabric in advise_fabrics(rows))
    assert "burns fast" in voile and "flash over" in flannel and "flames" not in denim


def test_differences_by_weight_name_the_threshold_in_the_classes_units() -> None:
    """420 g/m² is 12.4 oz/yd²; what reads the same is not told."""
    words = block(sheet(boiled_wool(), units="imperial"), "If yours is heavier or lighter")
    assert (
        "From 12.4 oz/yd²:" in words
        and "needle 100/16" in words
        and "Under 7.7 oz/yd²:" in words
        and "g/m²" not in words
    )


def test_what_is_not_known_says_what_it_would_change() -> None:
    """Challis without a weight."""
    assert "Weight under 90 g/m²: needle 60/8." in block(sheet(challis(), units="metric"), "Not known")


def test_likes_name_only_the_differences() -> None:
    """A cloth that differs in nothing says so."""
    words = block(sheet(boiled_wool()), "Handled like this one")
    assert "Wool felt: except seams to one side." in words and "Loden: the same settings." in words


def test_a_binder_page_tells_more_than_a_card() -> None:
    """The full page keeps what the card leaves to it."""
    brief, full = (said_by(sheet(challis(), kind=kind)) for kind in ("cards", "binder"))
    assert (
        len(full) > len(brief)
        and "Sharp needle, 60/8 to 80/12." in full
        and "Sharp needle, 60/8 to 80/12." not in brief
    )


HOSTILE = "<b>&\"'{{ 7 * 7 }}{% raw %}]]> <sheet/> \x00\x0b ‮ 100 % 😀 " + "wide" * 40


def test_no_cell_can_break_a_page() -> None:
    """Markup, template code, control signs and emoji in the cells a teacher fills print as they stand, or as question marks."""
    fabric = replace(
        boiled_wool(),
        code=HOSTILE,
        name=HOSTILE,
        notes=HOSTILE,
        cloth_name=HOSTILE,
        content=replace(boiled_wool().content, typed=HOSTILE),
    )
    own = replace(fabric, advice={**fabric.advice, "thread": decision("thread", HOSTILE)})
    from handouts.printing import print_pages

    made = workshop(own, title=HOSTILE, teacher=HOSTILE)
    text = pages.cards(made, knowledge())
    assert "&lt;b&gt;&amp;" in text and "{{ 7 * 7 }}" in text and "49" not in text
    assert print_pages(text).pages >= 1


def test_templates_are_strict_and_shut_in() -> None:
    """A name that is not there is an error, and a template cannot reach Python."""
    env = environment()
    assert env.autoescape is True
    with pytest.raises(TemplateError, match="nowhere"):
        render("nowhere.xml.j2")
    for code in (
        "{{ missing }}",
        "{{ ''.__class__.__mro__ }}",
        "{{ cycler.__init__.__globals__ }}",
        "{% set x = [].append(1) %}",
    ):
        with pytest.raises(Exception, match=r"undefined|unsafe|not safely|has no attribute"):
            env.from_string(code).render()
