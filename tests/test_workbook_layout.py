"""Sheets and rows: found by what they say, wherever they stand; nothing is skipped in silence."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from handouts import workbook
from handouts.sheets import FABRICS
from tests.books import FABRIC, HEADINGS, WORDS, codes, make, plain, read_lines, with_parts


def test_settings_may_stand_above_the_list(tmp_path: Path) -> None:
    """A single sheet with a few settings on top is a class."""
    book = read_lines(tmp_path, [["Teacher:", "Ann"], ["Students", 9], [], HEADINGS, FABRIC])
    assert (book.settings["teacher"], book.settings["students"], codes(book)) == ("Ann", 9, [])


def test_merged_cells_count_for_every_row(tmp_path: Path) -> None:
    """A cloth merged over three rows is the cloth of all three."""

    def merge(sheets: Mapping[str, Worksheet]) -> None:
        sheets["Fabrics"].merge_cells("B2:B4")

    lines = [HEADINGS, FABRIC, ["Red", "", "100% cotton"], ["Pink", "", "100% cotton"]]
    book = read_lines(tmp_path, lines, merge)
    assert (book.fabrics["cloth"].tolist(), codes(book)) == (["denim"] * 3, ["cells-merged"])


def test_hidden_rows_columns_and_sheets_are_said_and_read(tmp_path: Path) -> None:
    """Nothing is skipped in silence."""

    def hide(sheets: Mapping[str, Worksheet]) -> None:
        sheets["Fabrics"].row_dimensions[3].hidden = True
        sheets["Fabrics"].column_dimensions["D"].hidden = True
        sheets["Supplies"].sheet_state = "hidden"

    lines = [[*HEADINGS, "Notes"], FABRIC, ["Red", *FABRIC[1:]], ["Pink", *FABRIC[1:], "seen"]]
    path = make(tmp_path / "b.xlsx", {"Fabrics": lines, "Supplies": [["Item", "Price"], ["thread", 3]]}, hide)
    book = workbook.read(path)
    assert (book.fabrics["name"].tolist(), book.supplies["item"].tolist()) == (["Blue", "Red", "Pink"], ["thread"])
    assert codes(book) == ["rows-hidden", "columns-hidden", "sheet-hidden"]
    assert book.problems[0].message.endswith("read all the same: 3.")


def test_a_formula_without_a_result_and_an_error_cell_are_told(tmp_path: Path) -> None:
    """A formula that no program ever worked out looks blank; it is told, and so is an error."""

    def formulas(sheets: Mapping[str, Worksheet]) -> None:
        sheet = sheets["Fabrics"]
        sheet["D2"], sheet["E2"] = "=100+20", "#N/A"
        sheet["E2"].data_type = "e"

    book = read_lines(tmp_path, [[*HEADINGS, "Weight (g/m²)", "Width (cm)"], FABRIC], formulas)
    assert [(found.code, found.cells) for found in book.problems] == [
        ("cell-uncalculated", ("Fabrics!D2",)),
        ("cell-error", ("Fabrics!E2",)),
    ]


def test_formulas_with_a_result_are_values(tmp_path: Path) -> None:
    """A worked-out number counts, and a formula whose result is an empty text is a blank cell."""
    path = make(tmp_path / "a.xlsx", {"Fabrics": [[*HEADINGS, "Weight (g/m²)", "Width (cm)"], [*FABRIC, 1, 2]]})

    def work_out(xml: bytes) -> bytes:
        xml = xml.replace(b'<c r="D2" t="n"><v>1</v>', b'<c r="D2"><f>100+20</f><v>120</v>')
        return xml.replace(b'<c r="E2" t="n"><v>2</v>', b'<c r="E2" t="str"><f>IF(1,"")</f><v></v>')

    book = workbook.read(with_parts(path, tmp_path / "b.xlsx", {"xl/worksheets/sheet1.xml": work_out}))
    assert (book.fabrics["weight_gsm"].iloc[0], book.fabrics["width_cm"].isna().iloc[0], codes(book)) == (
        120.0,
        True,
        [],
    )


def test_blank_rows_unchecked_boxes_and_zeros_are_no_fabrics(tmp_path: Path) -> None:
    """Rows that hold only what a filled-down formula or an unchecked box leaves are blank rows."""
    headings = [*HEADINGS, "Sheer", "Price per metre"]
    book = read_lines(
        tmp_path, [headings, [], [*FABRIC, True, 3], ["", "", "", False, 0], [" ", "", "", False, ""], [*FABRIC]]
    )
    assert list(book.fabrics.index) == [3, 6]


@pytest.mark.parametrize(
    "word", ["Total", "SUM:", "Sub-total", "Gesamtsumme", "Sous-total", "Suma", "Totale", "Totaal 12"]
)
def test_rows_of_totals_are_left_out_and_said(tmp_path: Path, word: str) -> None:
    """In six languages, wherever the word stands, also between the fabrics; one note for all of them."""
    headings = ["Code", *HEADINGS, "Price per metre", "Shelf"]
    lines = [["", *FABRIC, 3, ""], ["", word, "", "", 3, ""], ["", *FABRIC, 4, ""], [word, "", "", "", 7, ""]]
    book = read_lines(tmp_path, [headings, *lines, ["", "", "", "", 7, word]])
    assert list(book.fabrics.index) == [2, 4]
    (aside,) = (found for found in book.problems if found.code == "rows-aside")
    assert (aside.cells, "left out: 3, 5–6." in str(aside)) == (("Fabrics!A3",), True)


def test_a_fabric_called_total_is_a_fabric(tmp_path: Path) -> None:
    """With a cloth or a fibre content it is one, whatever its name."""
    book = read_lines(tmp_path, [HEADINGS, ["Total", "denim", "100% cotton"], ["Sum", "", "100% linen"]])
    assert (list(book.fabrics.index), codes(book)) == ([2, 3], ["cloth-missing"])


def test_headings_that_stand_again_further_down_are_no_fabric(tmp_path: Path) -> None:
    """As in a list that was printed page by page."""
    book = read_lines(tmp_path, [HEADINGS, FABRIC, HEADINGS, ["Red", *FABRIC[1:]]])
    assert (list(book.fabrics.index), codes(book)) == ([2, 4], ["rows-aside"])


def test_a_row_that_is_started_asks_for_the_rest(tmp_path: Path) -> None:
    """One word in a row makes it a fabric."""
    book = read_lines(tmp_path, [[*HEADINGS, "Notes"], FABRIC, ["", "", "", "find out"]])
    assert codes(book) == ["name-missing", "cloth-missing", "content-missing"]


def test_a_list_of_supplies_below_the_fabrics_is_read(tmp_path: Path) -> None:
    """Two lists on one sheet: each is read, with the addresses of the sheet."""
    lines = [HEADINGS, FABRIC, [], ["What we need"], ["Item", "Pack size", "Price"], ["thread", 500, 3.2], ["", 10, 1]]
    book = read_lines(tmp_path, lines)
    assert (list(book.fabrics.index), book.supplies["item"].dropna().to_dict()) == ([2], {6: "thread"})
    assert [(found.code, found.cells) for found in book.problems] == [("item-missing", ("Fabrics!A7",))]


def test_a_list_beside_the_first_is_said_not_to_be_read(tmp_path: Path) -> None:
    """The note stands in its first heading; other words for the same things are no second list."""
    lines = [[*HEADINGS, "", *HEADINGS], [*FABRIC, "", "Red", *FABRIC[1:]]]
    (found,) = read_lines(tmp_path, lines).problems
    assert (found.code, found.cells) == ("sheet-not-read", ("Fabrics!E1",))
    book = read_lines(tmp_path, [[*HEADINGS, "", "Fabric", "Type", "Composition"], [*FABRIC, "", "", "", ""]])
    assert codes(book) == ["heading-twice"] * 3


def test_own_columns_and_a_second_list_are_noted(tmp_path: Path) -> None:
    """Columns of one's own do no harm; a second list of fabrics is said to be left out."""
    lines = {"Fabrics": [[*HEADINGS, "Shelf"], [*FABRIC, "top"]], "Old": [HEADINGS, FABRIC]}
    assert codes(workbook.read(make(tmp_path / "b.xlsx", lines))) == ["sheet-not-read", "heading-unknown"]


def test_house_rules_about_cloths_are_no_list_of_fabrics(tmp_path: Path) -> None:
    """A rule “Cloth · denim · Steam · low” names as many things as a row of headings would, and is none."""
    rules = [["When", "Is", "Topic", "Advice", "Because"], ["Cloth", "denim", "Steam", "low", "So."]]
    book = workbook.read(make(tmp_path / "b.xlsx", {"House rules": rules, "Fabrics": [HEADINGS, FABRIC]}), WORDS)
    assert (book.titles["fabrics"], len(book.house), codes(book)) == ("Fabrics", 1, [])


def test_codes_and_names_that_stand_twice(tmp_path: Path) -> None:
    """A code twice is to be mended, a name twice is noted, whatever their case."""
    book = read_lines(tmp_path, [["Code", *HEADINGS], ["a1", *FABRIC], ["A1", *FABRIC]])
    assert [(found.code, found.cells) for found in book.problems] == [
        ("code-twice", ("Fabrics!A2", "Fabrics!A3")),
        ("name-twice", ("Fabrics!B2", "Fabrics!B3")),
    ]


def test_a_book_without_fabrics_or_without_a_list(tmp_path: Path) -> None:
    """No row below the headings is to be mended; no headings at all stops."""
    assert codes(read_lines(tmp_path, [HEADINGS])) == ["fabrics-none"]
    book = workbook.read(make(tmp_path / "b.xlsx", {"Letter": [["Dear Ann,"], ["thank you for the cloth."]]}))
    assert ([found.severity for found in book.problems], codes(book)) == (["stop"], ["fabrics-missing"])


def test_frames_have_a_column_for_every_key_and_nullable_types(tmp_path: Path) -> None:
    """Whatever the workbook holds, pipeline.py sees the same columns; the index is the sheet's row number."""
    book = read_lines(tmp_path, [HEADINGS, FABRIC])
    kinds = {"number": "Float64", "percent": "Float64", "grade": "Float64", "yes_no": "boolean"}
    assert {key: str(kind) for key, kind in book.fabrics.dtypes.items()} == {
        column.key: kinds.get(column.kind, "string") for column in FABRICS.columns
    }
    assert book.fabrics.index.name == "row"


def test_house_rules_and_supplies_are_read(tmp_path: Path) -> None:
    """Texts as they stand, numbers as texts where a text is asked for."""
    lines = {
        "Fabrics": [HEADINGS, FABRIC],
        "Ours": [["When", "Is", "Topic", "Advice", "Because"], ["Weight (g/m²)", 300, "Foot", "Walking foot.", "So."]],
        "Shop": [["Item", "Pack size", "Price"], ["thread", 500, 3.5], ["", 2, 1]],
    }
    book = workbook.read(make(tmp_path / "b.xlsx", lines), WORDS)
    assert book.house.loc[2].tolist() == ["Weight (g/m²)", "300", "Foot", "Walking foot.", "So."]
    assert (book.cell("house", "topic", 2), codes(book)) == ("Ours!C2", ["item-missing"])


def test_excel_tables_written_by_other_programs_with_prefixes_are_read(tmp_path: Path) -> None:
    """Element names with a prefix, single quotes and cells without an address are all allowed by the standard."""

    def respell(xml: bytes) -> bytes:
        text = xml.decode().replace('r="', "r='")
        return "".join(_close_single(text)).encode()

    source = plain(tmp_path)
    assert openpyxl.load_workbook(source).sheetnames == ["Fabrics"]
    book = workbook.read(with_parts(source, tmp_path / "b.xlsx", {"xl/worksheets/sheet1.xml": respell}))
    assert (book.fabrics["name"].tolist(), codes(book)) == (["Blue"], [])


def _close_single(text: str) -> str:
    """r='A1" → r='A1'."""
    parts = text.split("r='")
    return parts[0] + "".join("r='" + part.replace('"', "'", 1) for part in parts[1:])
