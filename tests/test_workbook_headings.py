"""Headings: recognised however they are written, and said when they were not exact."""

from __future__ import annotations

from pathlib import Path

import pytest

from handouts import workbook
from handouts.sheets import CLASS, FABRICS
from handouts.workbook.words import spoken
from tests.books import FABRIC, HEADINGS, codes, make, plain, read_lines

SETTINGS = [["Setting", "Value"], ["Title", "Coats"], ["Students", 12]]


def test_only_the_three_needed_columns_are_needed(tmp_path: Path) -> None:
    """A workbook with only Name, Cloth and Fibre content has nothing to mend or to note."""
    book = workbook.read(plain(tmp_path))
    assert (len(book.fabrics), codes(book)) == (1, [])


def test_the_sheet_is_found_by_its_headings_not_its_name_or_place(tmp_path: Path) -> None:
    """An export with a summary sheet first and other names is read all the same."""
    lines = {"Export Summary": [["Sheet", "Rows"], ["Tabelle 7", 1]], "Tabelle 7": [HEADINGS, FABRIC], "x1": SETTINGS}
    book = workbook.read(make(tmp_path / "b.xlsx", lines))
    assert book.titles["fabrics"] == "Tabelle 7"
    assert (book.settings["title"], book.settings["students"], book.setting_cells["students"]) == ("Coats", 12, "x1!B3")
    assert codes(book) == []


def test_an_export_with_a_summary_sheet_first_is_read(tmp_path: Path) -> None:
    """A summary in front with two exact headings gives way to the list further back, whose headings are only like ours."""
    summary = [["Name", "Cloth"], ["all of them", 12]]
    stock = [["SKU", "Fabric name", "TYPE", "Fiber  Content"], ["A1", *FABRIC]]
    book = workbook.read(make(tmp_path / "b.xlsx", {"Summary": summary, "Stock": stock}))
    assert (book.titles["fabrics"], book.fabrics["cloth"].tolist()) == ("Stock", ["denim"])


def test_several_header_rows_above_are_passed_over(tmp_path: Path) -> None:
    """A title, a date and blank lines above the headings do no harm, and the cells keep their addresses."""
    book = read_lines(tmp_path, [["Winter 2026"], [], ["counted by Ivo", 3], HEADINGS, FABRIC])
    assert (list(book.fabrics.index), book.cell("fabrics", "cloth", 5)) == ([5], "Fabrics!B5")


def test_a_row_of_units_below_the_headings_gives_their_units(tmp_path: Path) -> None:
    """Ounces, inches and a price by the yard, said below the headings: no fabric, and not passed over either."""
    headings = [*HEADINGS, "Weight", "Width", "Shrinkage length", "Price", "Thickness (mm)"]
    units = ["", "", "", "oz/yd²", "inches", "%", "$/yd", "in"]
    book = read_lines(tmp_path, [headings, units, [*FABRIC, 10, 45, 5, 12, 0.5]])
    keys = ("weight_gsm", "width_cm", "shrink_length_pct", "price_per_m", "thickness_mm")
    assert book.fabrics.loc[3, list(keys)].tolist() == [339.1, 114.3, 5.0, 13.12, 0.5]
    assert "Weight (oz/yd²)" in str(book.problems[0])


def test_a_row_of_units_below_the_headings_is_no_fabric(tmp_path: Path) -> None:
    """Units on a line of their own are passed over."""
    book = read_lines(tmp_path, [[*HEADINGS, "Weight", "Width"], ["", "", "", "g/m²", "(cm)"], [*FABRIC, 120, 140]])
    assert list(book.fabrics.index) == [3]


@pytest.mark.parametrize(
    ("written", "key"),
    [
        ("NAME", "name"),
        (" cloth ", "cloth"),
        ("Fiber Content", "fibre_content"),
        ("fibre-content", "fibre_content"),
        ("Composition", "fibre_content"),
        ("weight_gsm", "weight_gsm"),
        ("Weight  (g/m2)", "weight_gsm"),
        ("GSM", "weight_gsm"),
        ("Wieght (g/m²)", "weight_gsm"),
        ("Width in cm", "width_cm"),
        ("Shelf", ""),
        ("Stretch %", "stretch_across_pct"),
        ("One way", "one_way"),
        ("Color", "colour"),
        ("Shrinkage", "shrink_length_pct"),
        ("Price per meter", "price_per_m"),
        ("Care instructions", "supplier_care"),
        ("Seam finnish", "seam_finish"),
    ],
)
def test_headings_are_forgiven_for_case_spaces_units_and_synonyms_with_a_note(
    tmp_path: Path, written: str, key: str
) -> None:
    """Case, spaces, units, synonyms and slips pass, and are said; a heading that is none of ours is said too."""
    needed = {"name": 0, "cloth": 1, "fibre_content": 2}
    headings = [*HEADINGS, "Width (cm)"]
    headings[needed.get(key, 3)] = written
    book = read_lines(tmp_path, [headings, [*FABRIC, ""]])
    letter = "ABCD"[needed.get(key, 3)]
    assert book.letters.get(("fabrics", key), letter if not key else None) == letter
    assert codes(book) == ["heading-read-as" if key else "heading-unknown"]


def test_every_heading_of_both_starters_is_exact(tmp_path: Path) -> None:
    """The contract: each heading as declared, metric and imperial, is read as its column without a word."""
    for imperial in (False, True):
        headings = [column.title(imperial) for column in FABRICS.columns]
        book = read_lines(tmp_path, [headings, ["", *FABRIC]])
        assert [key for _, key in book.letters] == [column.key for column in FABRICS.columns]
        assert codes(book) == []


def test_every_synonym_names_its_column(tmp_path: Path) -> None:
    """Each spoken heading of sheets.py is read as the column that lists it."""
    tried = 0
    for column in FABRICS.columns:
        for word in column.spoken:
            others = [c.title() for c in FABRICS.columns if c.required and c.key != column.key]
            book = read_lines(tmp_path, [[*others, word], [*["denim"] * len(others), ""]])
            assert ("fabrics", column.key) in book.letters, word
            tried += 1
    assert tried > 40


def test_headings_in_other_languages_name_their_column(tmp_path: Path) -> None:
    """Each heading of spoken.toml's five languages is read as the column that lists it, and no word stands in two."""
    table = spoken("languages")
    words = [word for group in table.values() for word in group]
    assert len(words) > 80 and len({word.casefold() for word in words}) == len(words)
    for key, group in table.items():
        others = [c.title() for c in FABRICS.columns if c.required and c.key != key]
        for word in group:
            book = read_lines(tmp_path, [[*others, word], [*["denim"] * len(others), ""]])
            assert ("fabrics", key) in book.letters, word


def test_the_note_names_the_unit_that_is_used(tmp_path: Path) -> None:
    """“Weight” beside a width in inches is in ounces, and the note says so."""
    book = read_lines(tmp_path, [[*HEADINGS, "Weight", "Width (in)"], [*FABRIC, 10, 58]])
    assert book.fabrics["weight_gsm"].tolist() == [339.1]
    assert "read as Weight (oz/yd²)" in str(book.problems[0])


def test_every_setting_is_read(tmp_path: Path) -> None:
    """Each setting by its heading and its synonyms; the defaults stand where nothing is typed."""
    lines = [["Setting", "Value"], *([column.title(), ""] for column in CLASS.columns)]
    book = workbook.read(make(tmp_path / "b.xlsx", {"Class": lines, "Fabrics": [HEADINGS, FABRIC]}))
    assert book.settings == {column.key: column.default for column in CLASS.columns}
    assert codes(book) == []


def test_a_page_type_that_is_none_is_left_out_and_asked_about(tmp_path: Path) -> None:
    """The others count, so that one slip on the Class sheet hides no other finding of the book."""
    lines = {"Class": [["Setting", "Value"], ["Pages", "cards, postcards, Plan"]], "Fabrics": [HEADINGS, FABRIC]}
    book = workbook.read(make(tmp_path / "b.xlsx", lines))
    assert (book.settings["pages"], codes(book)) == ("cards, Plan", ["choice-unknown"])


def test_two_columns_for_one_thing_fill_each_others_gaps(tmp_path: Path) -> None:
    """Weight in grams and in ounces: gaps are filled, agreement is silent, disagreement is asked about."""
    headings = [*HEADINGS, "Weight (g/m²)", "Weight (oz/yd²)"]
    book = read_lines(
        tmp_path, [headings, [*FABRIC, 350, ""], ["Red", *FABRIC[1:], "", 10], ["Pink", *FABRIC[1:], 350, 10]]
    )
    assert book.fabrics["weight_gsm"].tolist() == [350, 339.1, 350]
    assert codes(book) == ["cells-differ", "heading-twice"]


def test_the_same_weight_in_both_columns_is_no_contradiction(tmp_path: Path) -> None:
    """339 g/m² and 10 oz/yd² are one weight, rounded twice."""
    headings = [*HEADINGS, "Weight (g/m²)", "Weight (oz/yd²)"]
    assert codes(read_lines(tmp_path, [headings, [*FABRIC, 339, 10]])) == ["heading-twice"]


def test_headings_without_units_follow_the_others(tmp_path: Path) -> None:
    """Among imperial headings a bare Width is in inches; among metric ones in centimetres."""
    for other, width in (("Weight (oz/yd²)", 45 * 2.54), ("Weight (g/m²)", 45.0)):
        book = read_lines(tmp_path, [[*HEADINGS, other, "Width"], [*FABRIC, 10, 45]])
        assert book.fabrics["width_cm"].iloc[0] == width
        assert codes(book)[0] == "unit-assumed" and "like the other headings" in str(book.problems[0])


@pytest.mark.parametrize(
    ("units", "weight", "read", "why"),
    [
        ("imperial", "Weight", 339.1, "as Units on the Class sheet says"),
        ("metric", "Weight", 10.0, "as Units on the Class sheet says"),
        ("both", "Weight", 10.0, "since nothing says otherwise"),
        ("imperial", "Weight (g/m²)", 10.0, ""),
    ],
)
def test_a_heading_without_a_unit_follows_the_class_sheet(
    tmp_path: Path, units: str, weight: str, read: float, why: str
) -> None:
    """The heading's own unit first, then what the Class sheet's Units say, and the note tells which; no doubt about it."""
    lines = [[*HEADINGS, weight], [*FABRIC, 10], ["Red", *FABRIC[1:], "8 oz"], ["Pink", *FABRIC[1:], "150 g/m²"]]
    path = make(tmp_path / "b.xlsx", {"Fabrics": lines, "Class": [["Setting", "Value"], ["Units", units]]})
    book = workbook.read(path)
    assert book.fabrics["weight_gsm"].tolist() == [read, 271.2, 150.0]
    assert [why in str(p) for p in book.problems if p.code == "unit-assumed"] == ([True] if why else [])
    assert "unit-doubtful" not in codes(book)


def test_a_bare_column_in_inches_is_not_doubted_as_metric(tmp_path: Path) -> None:
    """Imperial class, headings Weight and Width: what makes sense in ounces and inches draws no doubt; grams do."""
    lines = [[*HEADINGS, "Weight", "Width"], *([f"C{n}", *FABRIC[1:], n, 45] for n in range(4, 9))]
    settings = [["Setting", "Value"], ["Units", "imperial"], ["Sample width", 6]]
    book = workbook.read(make(tmp_path / "b.xlsx", {"Fabrics": lines, "Class": settings}))
    assert (codes(book), book.settings["sample_width_cm"]) == (["unit-assumed"] * 3, 15.24)
    lines = [[*HEADINGS, "Width"], *([f"C{n}", *FABRIC[1:], 150] for n in range(3))]
    book = workbook.read(make(tmp_path / "b.xlsx", {"Fabrics": lines, "Class": settings[:2]}))
    (doubt,) = (found for found in book.problems if found.code == "unit-doubtful")
    assert "around 150 in, which is unlikely in inches" in str(doubt) and "measured in centimetres" in str(doubt)


@pytest.mark.parametrize(
    "heading", ["Price per meter", "Preis pro Meter", "Prix au mètre", "Preis/m", "Price per metre"]
)
def test_a_price_per_metre_stays_one_among_imperial_headings(tmp_path: Path, heading: str) -> None:
    """The unit stands in its last word."""
    book = read_lines(tmp_path, [[*HEADINGS, "Weight (oz/yd²)", "Width (in)", heading], [*FABRIC, 10, 45, 12]])
    assert book.fabrics["price_per_m"].tolist() == [12.0]


def test_a_whole_column_in_the_wrong_unit_is_doubted(tmp_path: Path) -> None:
    """Widths of 45 and 60 under a heading in cm are probably inches."""
    book = read_lines(
        tmp_path, [[*HEADINGS, "Width (cm)"], [*FABRIC, 45], ["Red", *FABRIC[1:], 60], ["Pink", *FABRIC[1:], 58]]
    )
    assert codes(book) == ["unit-doubtful"]
    assert "If you measured in inches" in book.problems[0].mend
    heavy = read_lines(tmp_path, [[*HEADINGS, "Weight (g/m²)"], [*FABRIC, 1234]])
    assert "1230 g/m²" in heavy.problems[0].message


def test_a_needed_column_that_is_missing_is_said_once(tmp_path: Path) -> None:
    """Not once for every fabric."""
    book = read_lines(tmp_path, [["Name", "Cloth"], ["Blue", "denim"], ["Red", "denim"]])
    assert codes(book) == ["column-missing"]
