"""How the comparison is read: the line under its title, and the notes on the iron under a fabric's name."""

from __future__ import annotations

from dataclasses import replace

import pytest

from handouts import knowledge, records
from handouts.pages.comparison import note, usual_line
from handouts.pages.glance import settings
from handouts.pages.words import words_of
from handouts.planning import plan
from handouts.records import Decision, Label, Spoke
from tests.class_by_hand import fabric, mm, workshop

BASE = knowledge.load()


@pytest.mark.parametrize(
    ("units", "stitch"),
    [
        ("metric", "stitch 3.0 mm"),
        ("imperial", "stitch 8½ per inch"),
        ("both", "stitch 3.0 mm (8½ per inch)"),
    ],
)
def test_the_line_under_the_title_says_what_is_usual_and_how_it_is_marked(units: str, stitch: str) -> None:
    """In words that need no table beside them, with units, and with the key to the marks."""
    made = workshop([fabric(f"F{n}", "Coating", stitch_mm=mm(3.0)) for n in (1, 2, 3)], units=units)
    line = usual_line(plan(made, BASE), words_of(units, BASE))
    assert line.startswith("Usual in this class: medium steam; ") and f"{stitch};" in line and "no overlock" in line
    assert line.endswith("▲ and bold: not as usual; —: as usual.")


def test_the_iron_column_misses_neither_a_risky_choice_nor_the_bolt() -> None:
    """The column only groups: a choice that a rule warns of, and the supplier's own word, stand under the name."""
    cloth = fabric("F1", "Acetate", 3)
    warned = Decision("press_dots", 3, (), choice="typed", cautions=(Spoke("x", 1, "It melts.", (), "fibre"),))
    label = Label("none", (), ("Ironing: Warm iron (supplier)",), "")
    assert note(replace(cloth, advice={**cloth.advice, "press_dots": warned})) == "▲ iron by choice, see its card"
    assert note(replace(cloth, label=label)) == "▲ bolt: warm iron"
    assert note(cloth) == note(replace(fabric("F2", "Vinyl", 0), label=label)) == ""


def test_a_long_word_of_the_bolt_is_left_to_the_press_block() -> None:
    """The strip has room for a few words only."""
    label = Label("none", (), ("Ironing: Iron on the reverse at a low setting through a cloth (supplier)",), "")
    strip = settings(replace(fabric("F1", "Twill"), label=label), words_of("metric", BASE))
    assert "▲ bolt: see Press" in strip[-1]["notes"]


def test_a_tested_stitch_keeps_the_room_of_its_gauge() -> None:
    """Needle and iron say that they are where to start; the stitch shows it by what was tested under it."""
    strip = settings(replace(fabric("F1", "Twill"), tested=records.Tested("90", 3.5, "wool")), words_of("metric", BASE))
    assert [one["label"] for one in strip] == ["Needle: start", "Stitch", "Foot", "Finish", "Iron: start"]
    assert strip[1]["tested"] == "tested: 3.5 mm"
