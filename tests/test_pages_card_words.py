"""The words and numbers of cards: checked against pint, the trade's pairs of needle numbers, and common sense."""

from __future__ import annotations

import re

import pint
import pytest

from handouts.pages.care import care_lines, pressed_by_the_bolt
from handouts.pages.measures import Measures, per_inch, whole_fahrenheit
from handouts.pages.retold import retold
from handouts.pages.templates import unbroken
from handouts.pages.words import Words, day, listed, vocabulary

UNITS = pint.UnitRegistry()
BOTH, METRIC, IMPERIAL = Measures("both"), Measures("metric"), Measures("imperial")
SIZES = {60: 8, 65: 9, 70: 10, 75: 11, 80: 12, 90: 14, 100: 16, 110: 18}
FRACTIONS = {"": 0.0, "⅛": 0.125, "¼": 0.25, "⅜": 0.375, "½": 0.5, "⅝": 0.625, "¾": 0.75, "⅞": 0.875}


def number(text: str) -> float:
    """The first number of a text, with its fraction."""
    found = re.search(r"(\d*\.?\d*)([⅛¼⅜½⅝¾⅞]?)", text)
    assert found
    return float(found[1] or 0) + FRACTIONS[found[2]]


@pytest.mark.parametrize("gsm", [28, 88, 120, 350, 640])
def test_weight_agrees_with_pint(gsm: float) -> None:
    """Ounces per square yard to a tenth."""
    exact = (gsm * UNITS.gram / UNITS.meter**2).to(UNITS.ounce / UNITS.yard**2).magnitude
    assert number(IMPERIAL.weight(gsm)) == pytest.approx(exact, abs=0.051)


@pytest.mark.parametrize("mm", [3, 6, 10, 15, 20, 40])
def test_allowances_agree_with_pint_to_an_eighth(mm: float) -> None:
    """Inches as a tape shows them: half an eighth off at most."""
    assert number(IMPERIAL.length(mm)) == pytest.approx(
        (mm * UNITS.millimeter).to(UNITS.inch).magnitude, abs=1 / 16 + 1e-9
    )


def test_the_trades_pairs() -> None:
    """15 mm is ⅝ in, 6 mm ¼ in, 2.5 mm about 10 stitches to the inch (common practice, no source)."""
    assert (
        BOTH.length(15) == "15\u00a0mm (⅝\u00a0in)"
        and METRIC.length(6) == "6\u00a0mm"
        and IMPERIAL.length(6) == "¼\u00a0in"
    )
    assert BOTH.stitch(2.5) == "2.5\u00a0mm (10\u00a0per\u00a0inch)" and per_inch(3.0) == "8½"


@pytest.mark.parametrize("celsius", [110, 150, 200, 143, 148])
def test_fahrenheit_is_never_hotter_than_celsius(celsius: float) -> None:
    """Rounded down to a five: pint's value is at most five degrees more, never less."""
    exact = UNITS.Quantity(celsius, UNITS.degC).to(UNITS.degF).magnitude
    assert -1e-9 <= exact - whole_fahrenheit(celsius) < 5


def test_both_needle_numbers() -> None:
    """80/12, 70/10, 90/14, 100/16: as printed on needle packets (common practice, no source); an unknown size stands alone."""
    words = Words(METRIC, SIZES)
    assert [words.needle_size(nm) for nm in (70, 80, 90, 100)] == ["70/10", "80/12", "90/14", "100/16"]
    assert words.needle_size(85) == "85"


@pytest.mark.parametrize(
    ("topic", "value", "expected"),
    [
        ("seam_finish", ("overlock", "french"), "overlock or French"),
        ("seam_allowance_mm", {"sew": 15, "trim": 6}, "15\u00a0mm, trim to 6\u00a0mm"),
        ("seam_allowance_mm", {"sew": 10, "trim": 10}, "10\u00a0mm"),
        ("serger", {"use": "no", "threads": 0, "differential": {"low": 1.0, "high": 1.0}}, "not used"),
        (
            "serger",
            {"use": "yes", "threads": 4, "differential": {"low": 1.3, "high": 1.5}},
            "4\u00a0threads, differential 1.3 to 1.5",
        ),
        ("press_dots", 0, "no iron"),
        ("shrink_pct", {"length": 5, "width": 3}, "5\u00a0% along, 3\u00a0% across"),
        ("thread", "polyester, Tex 27", "polyester, Tex 27"),
        ("hold", None, "–"),
    ],
)
def test_values_in_few_words(topic: str, value: object, expected: str) -> None:
    """Each shape of value."""
    assert Words(METRIC, SIZES).short(topic, value) == expected


def test_lists_read_as_people_speak() -> None:
    """One, two, three."""
    assert [listed(words) for words in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == ["", "a", "a or b", "a, b or c"]


def test_numbers_keep_their_units() -> None:
    """Text from elsewhere gets no-break spaces too; other texts stay as they are."""
    assert unbroken("at 110 °C, 10 mm in, 5 % of 3 men") == "at 110\u00a0°C, 10\u00a0mm in, 5\u00a0% of 3 men"
    assert unbroken(5) == 5


CARE = (
    "Washing: wash by hand, at most 30 °C (not stated by supplier)",
    "Bleach: do not bleach (not stated by supplier)",
    "Drying: dry flat or on the line, never in a tumble dryer of any kind (not",
    "stated by supplier)",
    "Ironing: iron at most 150 °C (not stated by supplier)",
    "Guidance from fibres and finish: test a piece first; the bolt end decides.",
)


def test_care_that_nobody_stated_is_said_once() -> None:
    """Five remarks become one; our guidance on ironing gives way to the Press block, which knows the whole cloth."""
    told = care_lines(CARE, True, str)
    assert (
        len(told) == 1
        and told[0].count("ot stated by supplier") == 1
        and "Ironing" not in told[0]
        and "150" not in told[0]
    )
    assert "wash by hand, at most 30 °C · do not bleach · dry flat" in told[0].replace("\u00a0", " ")


def test_on_a_full_page_the_remark_stands_once_above_a_line_an_operation() -> None:
    """The same care with room: what it is, then washing, bleach, drying, each without the remark."""
    told = care_lines(CARE, False, str)
    assert [words.partition(":")[0] for words in told[1:]] == ["Washing", "Bleach", "Drying"]
    assert sum("ot stated" in words for words in told) == 1


@pytest.mark.parametrize(
    ("care", "says"),
    [
        (("Ironing: Warm iron (supplier)",), "Warm iron"),
        (("Washing, ironing: 30 °C gentle, cool iron (supplier)",), "30 °C gentle, cool iron"),
        (("Ironing: iron at most 200 °C (not stated by supplier)",), ""),
        (("Drying: Line dry (supplier)",), ""),
    ],
)
def test_what_the_bolt_says_of_ironing_is_found(care: tuple[str, ...], says: str) -> None:
    """The supplier's words, never our guidance."""
    assert pressed_by_the_bolt(care) == says


def test_care_that_the_supplier_stated_keeps_its_words() -> None:
    """Word for word, ironing included, apart from what nobody stated."""
    stated = ("Washing, ironing: 30 °C gentle, cool iron (supplier)", "Bleach: do not bleach (not stated by supplier)")
    told = care_lines(stated, True, str)
    assert told[0] == stated[0] and "do not bleach" in told[1]
    assert told[1].startswith("Nothing more is stated by supplier")


def test_the_suppliers_words_follow_our_heading_with_a_small_letter() -> None:
    """`Washing: Wash 40` would be two beginnings."""
    told = care_lines(("Washing: Wash 40 (supplier)",), True, str)
    assert told == ["Washing: wash 40 (supplier)"]


def test_our_guide_to_washing_speaks_the_units_of_the_class() -> None:
    """30 °C is 86 °F, printed as 85; what the supplier stated stays as it was typed."""
    care = ("Washing: 40 °C (supplier)", *CARE)
    told = " ".join(care_lines(care, True, lambda words: retold(words, IMPERIAL))).replace("\u00a0", " ")
    assert "at most 85 °F" in told and "30 °C" not in told and "40 °C (supplier)" in told


def test_a_day_is_written_out() -> None:
    """No reader takes it for a month; what is no date stands as it was typed."""
    assert day("2026-03-04").replace("\u00a0", " ") == "4 March 2026"
    assert day("after Easter") == "after Easter" and day("2026-13-01") == "2026-13-01"


def test_every_topic_of_a_difference_has_its_words() -> None:
    """What the advice compares and changes by weight can be told: each has a pattern with a place for the value."""
    patterns = vocabulary()["case"]
    assert set(vocabulary()["when"]["settings"]) <= set(patterns) and all(
        "{}" in pattern for pattern in patterns.values()
    )
