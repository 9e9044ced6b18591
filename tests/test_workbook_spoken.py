"""The tables of how people write: every entry leads somewhere, conversions agree with pint, numbers survive every notation."""

from __future__ import annotations

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from handouts import knowledge
from handouts.sheets import CM, GSM, MM, PER_METRE, SHEETS, STITCH, Unit
from handouts.workbook.numbers import read_number
from handouts.workbook.unit_words import measure
from handouts.workbook.words import closest, plain, spoken
from tests.books import words

COLUMNS = {column.key: column for sheet in SHEETS for column in sheet.columns}
BY_KEY = {(sheet.key, column.key): column for sheet in SHEETS for column in sheet.columns}
PINT = {
    "cm": "cm",
    "mm": "mm",
    "m": "m",
    "metre": "m",
    "metres": "m",
    "yd": "yard",
    "yard": "yard",
    "yards": "yard",
    "yds": "yard",
    "ft": "foot",
}


def test_every_other_word_for_a_choice_names_one_of_the_choices() -> None:
    """spoken.toml knows no choice that sheets.py does not, and repeats none that it does."""
    table = spoken("choices")
    known = words()
    assert len(table) > 10
    for key, others in table.items():
        choices = COLUMNS[key].choices or known[COLUMNS[key].vocabulary]
        assert set(others.values()) <= set(choices), key
        assert not {plain(word) for word in others} & {plain(word) for word in choices}, key


def test_every_other_heading_names_a_column_and_a_unit_of_it() -> None:
    """“SPI” is Stitch length, in stitches per inch."""
    for sheet, key, unit in spoken("headings").values():
        assert measure(BY_KEY[sheet, key], unit) is not None


def test_every_other_word_for_a_needle_point_names_a_point() -> None:
    """The knowledge's needles have each of them."""
    assert set(spoken("needle_points").values()) <= knowledge.load().needles.points.keys()


def test_yes_and_no_share_no_word() -> None:
    """Nor do the grades share one among themselves."""
    table = spoken("yes_no")
    assert not set(table["yes"]) & set(table["no"])
    grades = [word for words in spoken("grades").values() for word in words]
    assert len(grades) == len(set(grades))


@pytest.mark.parametrize("unit", [CM, MM, GSM, PER_METRE, STITCH], ids=lambda unit: unit.metric)
def test_unit_words_convert_as_pint_does(unit: Unit) -> None:
    """Each word of the table, against an independent library."""
    registry = pint.UnitRegistry()
    column = next(column for column in COLUMNS.values() if column.unit is unit)
    table = spoken("units")["stitch" if unit is STITCH else unit.metric]
    wanted = {
        "cm": registry("inch").to("cm").magnitude,
        "mm": registry("inch").to("mm").magnitude,
        "g/m²": registry("oz / yard**2").to("g / m**2").magnitude,
        "metre": registry("1 / yard").to("1 / m").magnitude,
    }.get(unit.metric, 0.0)
    for word in table["imperial"]:
        read = measure(column, word)
        assert read is not None, word
        expected = 25.4 / 10 if unit is STITCH else 10 * wanted
        assert read.metric(10) == pytest.approx(expected, rel=5e-4), word
    for word in table["metric"]:
        read = measure(column, word)
        assert read is not None and read.metric(10) == 10
    for word in table.get("others", {}):
        read = measure(column, word)
        assert read is not None and read.metric(1) == pytest.approx(registry(PINT[word]).to(unit.metric).magnitude)


@given(st.integers(0, 9_999_999), st.integers(0, 99))
def test_a_number_is_the_same_in_every_notation(whole: int, hundredths: int) -> None:
    """English, German, French and Swiss grouping and decimal marks, plain and with a sign."""
    value = whole + hundredths / 100
    english = f"{value:,.2f}"
    swapped = english.translate(str.maketrans(",.", ".,"))
    ways = [
        english,
        swapped,
        swapped.replace(".", " "),
        english.replace(",", "'"),
        f"{value:.2f}",
        f"{value:.2f}".replace(".", ","),
    ]
    for text in ways:
        typed = read_number(text)
        assert typed is not None and typed.readings == (pytest.approx(value),), text


@given(st.text(max_size=40))
def test_no_text_breaks_the_number_reader(text: str) -> None:
    """Whatever is typed, one number, two readings or none come back."""
    typed = read_number(text)
    assert typed is None or 1 <= len(typed.readings) <= 2


def test_slips_of_the_keyboard_find_their_word() -> None:
    """One letter wrong, missing, doubled or swapped in each choice of four letters or more proposes that choice."""
    tried = 0
    for column in COLUMNS.values():
        for word in (word for word in column.choices if len(word) > 5):
            slips = (word[0] + word[2] + word[1] + word[3:], word[:3] + word[4:], word[:2] + word[1:], word[:-1] + "x")
            found = [closest(slip, column.choices) for slip in slips]
            assert found == [word] * 4, (column.key, word, found)
            tried += 1
    assert tried > 40
