"""One cell at a time: what people type, and what is read."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from tests.books import FABRIC, HEADINGS, NEEDLES, about, codes, read_cell, read_lines

NOTHING: list[str] = []


@pytest.mark.parametrize(
    ("typed", "number_format", "read", "said"),
    [
        (5, "General", 5.0, NOTHING),
        ("5", "General", 5.0, NOTHING),
        ("5%", "General", 5.0, NOTHING),
        ("5 %", "General", 5.0, NOTHING),
        ("5\u00a0%", "General", 5.0, NOTHING),
        ("5 percent", "General", 5.0, NOTHING),
        (0.05, "0%", 5.0, NOTHING),
        (0.05, "0.0\\ %", 5.0, NOTHING),
        (0.005, "0.0%", 0.5, NOTHING),
        (0.05, "General", 5.0, ["percent-read-as"]),
        (5, "0%", 5.0, ["read-as"]),
        ("2,5 %", "General", 2.5, NOTHING),
        (-2, "General", -2.0, NOTHING),
        (80, "General", None, ["number-not-believed"]),
    ],
)
def test_percents_typed_as_5_or_5_percent_or_a_fraction(
    tmp_path: Path, typed: Any, number_format: str, read: float | None, said: list[str]
) -> None:
    """5, 5 % and a cell formatted as percent are the same; a bare 0.05 is taken as 5 and said."""
    assert read_cell(tmp_path, "Shrinkage length (%)", typed, number_format) == (read, said)


def test_a_percent_sign_in_quotes_is_no_percent_format(tmp_path: Path) -> None:
    """The format 0.00" %" only shows the sign: the number under it is the number meant."""
    assert read_cell(tmp_path, "Shrinkage length (%)", 4, '0.00" %"') == (4.0, NOTHING)


@pytest.mark.parametrize(
    ("typed", "read", "said"),
    [
        (120, 120.0, NOTHING),
        ("120", 120.0, NOTHING),
        (" 120 ", 120.0, NOTHING),
        ("\u00a0120\u202f", 120.0, NOTHING),
        ("120 g/m²", 120.0, NOTHING),
        ("120gsm", 120.0, NOTHING),
        ("12,50", 12.5, NOTHING),
        ("1.250,5", 1250.5, NOTHING),
        ("1,250.5", 1250.5, NOTHING),
        ("1 250,5", 1250.5, NOTHING),
        ("1\u202f250,5", 1250.5, NOTHING),
        ("1'250.5", 1250.5, NOTHING),
        ("1,250", 1250.0, ["read-as"]),
        ("1.250", 1250.0, ["read-as"]),
        ("about 120", 120.0, ["read-as"]),
        ("~120", 120.0, ["read-as"]),
        ("4.2 oz", 142.4, ["read-as"]),
        ("4.2 oz/yd²", 142.4, ["read-as"]),
        ("?", None, NOTHING),
        ("unknown", None, NOTHING),
        ("12o", None, ["number-unreadable"]),
        ("120-140", None, ["number-unreadable"]),
        ("heavy", None, ["number-unreadable"]),
        ("120 kg", None, ["number-unreadable"]),
        (True, None, ["number-unreadable"]),
        (4.2, None, ["number-not-believed"]),
        (-120, None, ["number-not-believed"]),
        (1e300, None, ["number-not-believed"]),
        ("1e300", None, ["number-unreadable"]),
        ("nan", None, ["number-unreadable"]),
        (datetime.date(2026, 5, 8), None, ["number-became-date"]),
        (datetime.datetime(2026, 5, 8, 12), None, ["number-became-date"]),
    ],
)
def test_numbers_with_decimal_commas_groups_spaces_and_units(
    tmp_path: Path, typed: Any, read: Any, said: list[str]
) -> None:
    """Everything that can mean one weight is that weight; the rest is asked about. 1 oz/yd² = 33.9057 g/m²."""
    found, codes_ = read_cell(tmp_path, "Weight (g/m²)", typed)
    assert found == read
    assert codes_ == said


@pytest.mark.parametrize(
    ("heading", "typed", "read"),
    [
        ("Weight (oz/yd²)", 10, 339.1),
        ("Weight oz", 10, 339.1),
        ("Width (in)", 45, 114.3),
        ("Width inches", 45, 114.3),
        ("Width (cm)", '45"', 114.3),
        ("Width (cm)", "45 in", 114.3),
        ("Width (in)", "114 cm", 114.0),
        ("Width (cm)", "1.5 m", 150.0),
        ("Width (cm)", "1½ yd", 137.2),
        ("Thickness (in)", 0.1, 2.54),
        ("Stitch length (per inch)", 10, 2.54),
        ("SPI", 10, 2.54),
        ("Stitch length (mm)", "10 spi", 2.54),
        ("Stitch length (mm)", 2.5, 2.5),
        ("Price per yard", 9.144, 10.0),
        ("Price (€/m)", "12,90 €", 12.9),
        ("Price per metre", "$ 12.90", 12.9),
        ("Price per metre", "12 EUR", 12.0),
    ],
)
def test_units_in_headings_and_cells_become_metric(tmp_path: Path, heading: str, typed: Any, read: float) -> None:
    """The book is metric whatever was typed: inch 25.4 mm, yard 0.9144 m and the ounce are exact (NIST SP 811)."""
    found, _ = read_cell(tmp_path, heading, typed)
    assert found == read


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("½", 0.5),
        ("1½", 1.5),
        ("1 ½", 1.5),
        ("1 1/2", 1.5),
        ("5/8", 0.625),
        ("5⁄8", 0.625),
        ("⅝", 0.625),
        ("2 ⅜ mm", 2.375),
    ],
)
def test_fractions(tmp_path: Path, typed: str, read: float) -> None:
    """½, 1½, 1 1/2 and 5/8 are numbers."""
    assert read_cell(tmp_path, "Thickness (mm)", typed) == (read, NOTHING)


def test_a_fraction_that_became_a_date_is_told_with_both_readings(tmp_path: Path) -> None:
    """A spreadsheet turns 5/8 into 8 May or 5 August: the message names what may have been typed."""
    book = read_lines(tmp_path, [[*HEADINGS, "Thickness (mm)"], [*FABRIC, datetime.date(2026, 5, 8)]])
    message = str(next(p for p in book.problems if p.code == "number-became-date"))
    assert "8 May 2026" in message and "5/8" in message


@pytest.mark.parametrize(
    "typed", ["yes", "Yes ", "Y", "x", "X", "✓", "✔", "☑", True, 1, "1", "true", "ja", "oui", "sí", "ü", "on"]
)
def test_ticks_and_other_ways_to_say_yes(tmp_path: Path, typed: Any) -> None:
    """A tick, an x, a 1, a checked box and yes in six languages mean yes; ü is a tick of a symbol font."""
    assert read_cell(tmp_path, "Sheer", typed) == (True, NOTHING)


@pytest.mark.parametrize("typed", ["no", "N", False, 0, "0", "false", "nein", "non", "-", "–", "☐"])
def test_ways_to_say_no(tmp_path: Path, typed: Any) -> None:
    """An unchecked box, a dash and a 0 mean no."""
    assert read_cell(tmp_path, "Sheer", typed) == (False, NOTHING)


@pytest.mark.parametrize("typed", ["maybe", "✗", 2, "a bit"])
def test_neither_yes_nor_no_is_asked_about(tmp_path: Path, typed: Any) -> None:
    """What could be either is not guessed."""
    assert read_cell(tmp_path, "Sheer", typed) == (None, ["yes-no-unreadable"])


@pytest.mark.parametrize(
    ("typed", "read", "said"),
    [
        ("universal 80/12", "universal 80", NOTHING),
        ("80/12", "universal 80", NOTHING),
        (80, "universal 80", NOTHING),
        ("70/10", "universal 70", NOTHING),
        ("10/70", "universal 70", ["needle-turned"]),
        ("90/14 jeans", "jeans 90", NOTHING),
        ("Jeans NM 100", "jeans 100", NOTHING),
        ("denim needle, size 90/14", "jeans 90", NOTHING),
        ("12", "universal 80", ["needle-us"]),
        (14, "universal 90", ["needle-us"]),
        ("80/14", None, ["needle-pair"]),
        ("banana 90", None, ["needle-point-unknown"]),
        ("thick", None, ["needle-unreadable"]),
        ("13", None, ["needle-unreadable"]),
        (datetime.date(2026, 10, 8), None, ["number-became-date"]),
    ],
)
def test_needles_in_both_sizes_and_any_order(tmp_path: Path, typed: Any, read: Any, said: list[str]) -> None:
    """70/10 and 10/70 are one needle; a pair that no needle has is asked about (sizes: the drop-down's own)."""
    assert read_cell(tmp_path, "Needle", typed) == (read, said)
    assert "universal 80/12" in NEEDLES


@pytest.mark.parametrize(
    ("heading", "typed", "read", "said"),
    [
        ("Nap", "Deep", "deep", NOTHING),
        ("Nap", "no", "none", ["read-as"]),
        ("Nap", "brused", None, ["choice-unknown"]),
        ("Colour", "teal", None, ["choice-own"]),
        ("Color", "navy", "dark", ["read-as"]),
        ("Texture", "boucle", "bouclé", ["read-as"]),
        ("Trim", "sequins; beads", "sequins, beads", NOTHING),
        ("Trim", "beads and studs, none", "beads, studs", NOTHING),
        ("Trim", "none", "none", NOTHING),
        ("Finish", "pre-shrunk + glazed", "preshrunk, glazed", ["read-as"]),
        ("Iron", "•••", "cotton", ["read-as"]),
        ("Iron", "hottish", None, ["choice-unknown"]),
        ("Steam", "plenty", "high", ["read-as"]),
        ("Frays", "a little", 1.0, ["read-as"]),
        ("Frays", 3, 3.0, NOTHING),
        ("Frays", 5, None, ["number-not-believed"]),
    ],
)
def test_choices_with_did_you_mean(tmp_path: Path, heading: str, typed: Any, read: Any, said: list[str]) -> None:
    """Other spellings are read and said; near misses are proposed; a word of one's own among the facts is only noted."""
    assert read_cell(tmp_path, heading, typed) == (read, said)


def test_the_proposal_stands_in_the_message(tmp_path: Path) -> None:
    """“12o” is asked as 120 and “brused” as brushed, with how to measure."""
    book = read_lines(tmp_path, [[*HEADINGS, "Weight (g/m²)", "Nap"], [*FABRIC, "12o", "brused"]])
    assert [str(found) for found in book.problems] == [
        "Fabrics!D2: Weight (g/m²): expected a number, found “12o”. Did you mean 120? "
        "Weigh a 10 × 10 cm square in grams; times 100.",
        "Fabrics!E2: Nap: “brused” is none of the words we know here. Did you mean brushed? "
        "The words are: none, brushed, short, deep.",
    ]


def test_a_weight_in_the_wrong_unit_is_proposed_in_the_other(tmp_path: Path) -> None:
    """4.2 under g/m² was weighed in ounces: the question names both."""
    book = read_lines(tmp_path, [[*HEADINGS, "Weight (g/m²)"], [*FABRIC, 4.2]])
    assert "Did you mean 4.2 oz/yd², which is 142.4 g/m²?" in book.problems[0].mend


def test_prices_that_may_be_two_numbers_are_asked_about(tmp_path: Path) -> None:
    """1,250 is 1.25 here and 1250 there; both are prices."""
    assert read_cell(tmp_path, "Price per metre", "1,250") == (None, ["number-ambiguous"])


def test_codes_and_names_stay_texts(tmp_path: Path) -> None:
    """007 typed as text stays, 150.0 is 150, NA is a name, 3-5 that became a date is said."""
    lines = [
        ["Code", *HEADINGS],
        ["007", *FABRIC],
        [150, *FABRIC],
        [datetime.date(2026, 5, 3), *FABRIC],
        ["x", "NA", *FABRIC[1:]],
    ]
    book = read_lines(tmp_path, lines)
    assert book.fabrics["code"].tolist()[:2] == ["007", "150"]
    assert about(book, "A4") == ["text-became-date"]
    assert book.fabrics["name"].tolist()[3] == "NA"


def test_a_photo_from_another_folder_is_refused(tmp_path: Path) -> None:
    """A path in a cell never reaches the disk: only a file name beside the workbook."""
    for typed in ("../secret.png", "/etc/passwd", "C:\\x.png", "a/b.png", "..\\x"):
        assert read_cell(tmp_path, "Photo", typed) == (None, ["photo-path"])
    assert read_cell(tmp_path, "Photo", "plum.jpg") == ("plum.jpg", NOTHING)


def test_control_and_bidi_characters_are_taken_out_with_a_note(tmp_path: Path) -> None:
    """Characters that turn the reading order or ring a bell do not reach a page; line breaks become spaces silently."""
    assert read_cell(tmp_path, "Notes", "a\u202eb\u2066c\u0085d") == ("abc d", ["text-cleaned"])
    assert read_cell(tmp_path, "Notes", "two\nlines\u200b") == ("two lines", NOTHING)


def test_a_cell_of_32767_characters_is_cut_with_a_note(tmp_path: Path) -> None:
    """The longest cell a spreadsheet holds is cut to a card's length."""
    found, said = read_cell(tmp_path, "Notes", "x" * 32_767)
    assert (len(found), said) == (2_000, ["text-cut"])


def test_formulas_typed_as_text_stay_text(tmp_path: Path) -> None:
    """A cell that holds =cmd|… as text is a text like another."""
    assert read_cell(tmp_path, "Notes", "=cmd|' /C calc'!A0") == ("=cmd|' /C calc'!A0", NOTHING)


def test_every_bad_cell_of_a_row_is_told_in_one_pass(tmp_path: Path) -> None:
    """One mistake hides no other."""
    book = read_lines(
        tmp_path, [[*HEADINGS, "Sheer", "Nap", "Frays"], ["", "", "", "perhaps", "brused", "much too much"]]
    )
    found = {
        "name-missing",
        "cloth-missing",
        "content-missing",
        "yes-no-unreadable",
        "choice-unknown",
        "number-unreadable",
    }
    assert set(codes(book)) == found
