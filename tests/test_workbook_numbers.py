"""Numbers in cells: what people type, and what is read."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import Any

import pytest

from tests.books import FABRIC, HEADINGS, read_cell, read_lines

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
def test_percents_typed_as_5_or_5_percent_or_0_05(
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
        ("120 g/m²", 120.0, NOTHING),
        ("120gsm", 120.0, NOTHING),
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
def test_weights_as_people_type_them(tmp_path: Path, typed: Any, read: Any, said: list[str]) -> None:
    """Everything that can mean one weight is that weight; the rest is asked about. 1 oz/yd² = 33.9057 g/m²."""
    assert read_cell(tmp_path, "Weight (g/m²)", typed) == (read, said)


@pytest.mark.parametrize(("typed", "read"), [("12,50", 12.5), ("12,5", 12.5), ("140,25 g/m²", 140.25), (",5 kg", None)])
def test_decimal_commas(tmp_path: Path, typed: str, read: float | None) -> None:
    """12,50 is twelve and a half."""
    assert read_cell(tmp_path, "Weight (g/m²)", typed)[0] == read


@pytest.mark.parametrize("typed", ["1.250,5", "1,250.5", "1 250,5", "1'250.5", "1250.5", "1250,5"])
def test_1_250_5_is_one_number_however_grouped(tmp_path: Path, typed: str) -> None:
    """1.250,5 and its like: the last of two marks is the decimal one."""
    assert read_cell(tmp_path, "Weight (g/m²)", typed) == (1250.5, NOTHING)


@pytest.mark.parametrize("typed", ["1,250", "1.250"])
def test_1_250_alone_is_read_as_the_weight_it_can_be(tmp_path: Path, typed: str) -> None:
    """One and a quarter gram is no cloth: 1250, and said."""
    assert read_cell(tmp_path, "Weight (g/m²)", typed) == (1250.0, ["read-as"])


@pytest.mark.parametrize("typed", ["\u00a0120\u202f", "120\u00a0g/m²", "\u2007120"])
def test_non_breaking_spaces_around_a_number(tmp_path: Path, typed: str) -> None:
    """Whatever a web page left beside the figure."""
    assert read_cell(tmp_path, "Weight (g/m²)", typed) == (120.0, NOTHING)


@pytest.mark.parametrize("space", ["\u00a0", "\u202f", "\u2009"])
def test_non_breaking_spaces_inside_a_number_and_a_name(tmp_path: Path, space: str) -> None:
    """1 250,5 as French programs write it; a name and a heading with one are the same name and heading."""
    headings = [*HEADINGS, f"Weight{space}(g/m²)"]
    book = read_lines(tmp_path, [headings, [f"Navy{space}blue", *FABRIC[1:], f"1{space}250,5"]])
    assert (book.fabrics["weight_gsm"].tolist(), book.fabrics["name"].tolist()) == ([1250.5], ["Navy blue"])


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
def test_a_half_sign_and_other_fractions(tmp_path: Path, typed: str, read: float) -> None:
    """½, 1½, 1 1/2 and 5/8 are numbers."""
    assert read_cell(tmp_path, "Thickness (mm)", typed) == (read, NOTHING)


@pytest.mark.parametrize(
    ("heading", "typed", "read", "said"),
    [
        ("Width (in)", "44-1/2", 113.0, NOTHING),
        ("Width (in)", '44 1/2"', 113.0, NOTHING),
        ("Width (in)", "44/45", 111.8, ["read-as"]),
        ("Width (in)", '58/60"', 147.3, ["read-as"]),
        ("Width (cm)", "140-145", 140.0, ["read-as"]),
        ("Width (cm)", '44"-45"', 111.8, ["read-as"]),
        ("Width (cm)", "1½ yds", 137.2, ["read-as"]),
        ("Weight (oz/yd²)", "5 1/4 oz", 178.0, NOTHING),
        ("Weight (oz/yd²)", "5-6", None, ["number-unreadable"]),
        ("Weight (g/m²)", "'350", 350.0, NOTHING),
    ],
)
def test_widths_from_to_and_mixed_fractions(
    tmp_path: Path, heading: str, typed: str, read: Any, said: list[str]
) -> None:
    """44/45 is no fraction: cloth is sold as 44 to 45 inches wide (common practice), and the narrower counts, which is said."""
    assert read_cell(tmp_path, heading, typed) == (read, said)


def test_5_8_that_became_a_date_is_told_with_both_readings(tmp_path: Path) -> None:
    """A spreadsheet turns 5/8 into 8 May or 5 August: the message names what may have been typed."""
    book = read_lines(tmp_path, [[*HEADINGS, "Thickness (mm)"], [*FABRIC, datetime.date(2026, 5, 8)]])
    message = str(next(p for p in book.problems if p.code == "number-became-date"))
    assert "8 May 2026" in message and "5/8" in message


def test_a_weight_in_the_wrong_unit_is_proposed_in_the_other(tmp_path: Path) -> None:
    """4.2 under g/m² was weighed in ounces: the question names both."""
    book = read_lines(tmp_path, [[*HEADINGS, "Weight (g/m²)"], [*FABRIC, 4.2]])
    assert "Did you mean 4.2 oz/yd², which is 142.4 g/m²?" in book.problems[0].mend


def test_an_unusual_measure_is_kept_and_an_impossible_one_is_not(tmp_path: Path) -> None:
    """Rug canvas of 1600 g/m² exists (judgement); three kilos do not, and a stitch has firm ends."""
    assert read_cell(tmp_path, "Weight (g/m²)", 1600) == (1600.0, ["number-odd"])
    assert read_cell(tmp_path, "Weight (g/m²)", 3000) == (None, ["number-not-believed"])
    assert read_cell(tmp_path, "Stitch length (mm)", 9) == (None, ["number-not-believed"])


def test_the_currency_may_stand_in_the_price_cells(tmp_path: Path) -> None:
    """A price list without settings: “10,50 €” names it for all; two currencies name none."""
    headings = [*HEADINGS, "Price per metre"]
    book = read_lines(tmp_path, [headings, [*FABRIC, "10,50 €"], ["Red", *FABRIC[1:], 12]])
    assert (book.settings["currency"], book.problems) == ("€", ())
    book = read_lines(tmp_path, [headings, [*FABRIC, "10,50 €"], ["Red", *FABRIC[1:], "$12"]])
    assert (book.settings["currency"], [p.code for p in book.problems]) == ("", ["price-without-currency"])


@pytest.mark.parametrize(
    ("typed", "currency"),
    [
        ("€ 12,90", "€"),
        ("12,90 €/m", "€"),
        ("12,90 EUR/m", "EUR"),
        ("£12.90 per metre", "£"),
        ("US$ 12.90", "US$"),
        ("Fr. 12.90", "Fr"),
        ("12,90 pro Meter", ""),
        ("12.90 p/m", ""),
    ],
)
def test_prices_with_their_currency_and_per_metre(tmp_path: Path, typed: str, currency: str) -> None:
    """As price lists have them, signs or words, before or behind; the currency is asked for only where none is named."""
    book = read_lines(tmp_path, [[*HEADINGS, "Price per metre"], [*FABRIC, typed]])
    assert (book.fabrics["price_per_m"].tolist(), book.settings["currency"]) == ([12.9], currency)
    assert [found.code for found in book.problems] == ([] if currency else ["price-without-currency"])


@pytest.mark.parametrize("typed", ["12,-", "12,– €", "12.-", "CHF 12.–", "12 kr"])
def test_round_prices(tmp_path: Path, typed: str) -> None:
    """A dash stands for no cents."""
    assert read_cell(tmp_path, "Price per metre", typed)[0] == 12.0


def test_a_price_by_the_yard_is_said_to_be_read_per_metre(tmp_path: Path) -> None:
    """A yard is 0.9144 m: 12.90 a yard are 14.11 a metre."""
    book = read_lines(tmp_path, [[*HEADINGS, "Price per metre"], [*FABRIC, "$12.90/yd"]])
    assert (book.fabrics["price_per_m"].tolist(), book.settings["currency"]) == ([14.11], "$")
    assert "is read as 14.11 per metre." in str(book.problems[0])


def test_prices_that_may_be_two_numbers_are_asked_about(tmp_path: Path) -> None:
    """1,250 is 1.25 here and 1250 there; both are prices."""
    assert read_cell(tmp_path, "Price per metre", "1,250") == (None, ["number-ambiguous"])
