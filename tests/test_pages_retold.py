"""Measures inside sentences of the rules, told in the class's units; checked against pint."""

from __future__ import annotations

import re

import pint
import pytest

from handouts import knowledge
from handouts.pages.measures import Measures
from handouts.pages.retold import retold, round_inches
from handouts.units import EIGHTHS

UNITS = pint.UnitRegistry()
BOTH, METRIC, IMPERIAL = Measures("both"), Measures("metric"), Measures("imperial")


@pytest.mark.parametrize(
    ("words", "imperial"),
    [
        ("Turn once, 40 mm, edge bound.", "Turn once, 1½ in, edge bound."),
        ("Turn twice, 10 to 25 mm, and machine it.", "Turn twice, ⅜ to 1 in, and machine it."),
        ("Wash a marked 20 cm square first.", "Wash a marked 8 in square first."),
        ("Mark a 20 cm square, or a 28 cm one.", "Mark an 8 in square, or an 11 in one."),
        ("Butt the edges; zigzag 4 mm wide over the join.", "Butt the edges; zigzag 4 mm wide over the join."),
        ("Short stitches cut; topstitch 3.5 to 4 mm.", "Short stitches cut; topstitch 3.5 to 4 mm."),
        ("It bears 110 °C at most.", "It bears 230 °F at most."),
        ("Published 135 and 149 °C.", "Published 275 and 300 °F."),
        ("Follow a rib of loops.", "Follow a rib of loops."),
    ],
)
def test_a_sentence_in_inches(words: str, imperial: str) -> None:
    """Lengths as a tape is read, stitch lengths and the swing of a zigzag as machines show them (common practice, no source)."""
    assert retold(words, IMPERIAL).replace("\u00a0", " ") == imperial
    assert retold(words, METRIC) == words


def test_a_sentence_in_both_units_holds_both_once() -> None:
    """And telling it again changes nothing; brackets do not nest."""
    once = retold("Turn once, 40 mm.", BOTH)
    assert once == "Turn once, 40\u00a0mm (1½\u00a0in)." and retold(once, BOTH) == once
    assert retold("Hot (149 °C).", BOTH).replace("\u00a0", " ") == "Hot (149 °C, 300 °F)."


@pytest.mark.parametrize("mm", [3, 6, 10, 15, 20, 25, 40, 50, 150, 200, 1150])
def test_round_inches_are_near(mm: float) -> None:
    """Within a sixteenth of an inch of pint's value below 25 mm, within a twentieth of the length above."""
    found = re.fullmatch(r"(\d*)([⅛¼⅜½⅝¾⅞]?)", round_inches(mm))
    assert found is not None
    inches = int(found[1] or 0) + EIGHTHS.index(found[2]) / 8
    exact = (mm * UNITS.millimeter).to(UNITS.inch).magnitude
    assert inches == pytest.approx(exact, abs=1 / 16 + 1e-9 if mm < 25 else exact / 20)


def test_no_rule_keeps_millimetres_in_a_class_of_inches() -> None:
    """Every line and reason of the rules: what is left metric is a stitch length or the swing of a zigzag."""
    said = [str(text) for rule in knowledge.load().rules for text in (rule.value, rule.say, rule.because) if text]
    left = [words for words in said if re.search(r"\d (?:mm|cm)\b", retold(words, IMPERIAL))]
    assert len(said) > 500 and all(re.search(r"(?i)\d\.\d|stitch|zigzag", words) for words in left), left
