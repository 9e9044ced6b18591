"""Words in cells: ticks, needles, choices, codes, texts; what people type, and what is read."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from tests.books import FABRIC, HEADINGS, NEEDLES, about, codes, read_cell, read_lines

NOTHING: list[str] = []


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
def test_needles_70_10_and_10_70_and_any_other_order(tmp_path: Path, typed: Any, read: Any, said: list[str]) -> None:
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
        ("Colour", "dark navy blue", "dark", ["read-as"]),
        ("Colour", "pale green", "pale", ["read-as"]),
        ("Colour", "blue floral", "print", ["read-as"]),
        ("Nap", "deep brushed thing", None, ["choice-own"]),
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


@pytest.mark.parametrize(
    ("typed", "read", "said"),
    [
        (datetime.date(2026, 5, 8), "2026-05-08", NOTHING),
        (46_150, "2026-05-08", ["read-as"]),
        ("2026-05-08T00:00:00Z", "2026-05-08", NOTHING),
        (2026, "2026", NOTHING),
        ("Tuesdays in March", "Tuesdays in March", NOTHING),
    ],
)
def test_days_as_dates_numbers_and_words(tmp_path: Path, typed: Any, read: str, said: list[str]) -> None:
    """A day that lost its format is a number of days since 30 December 1899 (ECMA-376 part 1, 18.17.4.1): read, and said."""
    assert read_cell(tmp_path, "Tested on", typed) == (read, said)


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
