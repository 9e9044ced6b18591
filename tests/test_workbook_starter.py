"""The starter teaches: every column has its heading, unit, help, list, range and colour, and a spreadsheet can open it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.datavalidation import DataValidation

from handouts import workbook
from handouts.sheets import CLASS, FABRICS, HOUSE, SUPPLIES, Column
from tests.books import codes, content, words

BOTH = pytest.mark.parametrize("imperial", [False, True])


@pytest.fixture(scope="module")
def books(tmp_path_factory: pytest.TempPathFactory) -> dict[bool, Any]:
    """The metric and the imperial starter, opened."""
    folder = tmp_path_factory.mktemp("starters")
    for imperial in (False, True):
        workbook.write_starter(folder / f"{imperial}.xlsx", words(), imperial)
    return {imperial: openpyxl.load_workbook(folder / f"{imperial}.xlsx") for imperial in (False, True)}


def prompts(sheet: Any) -> dict[str, DataValidation]:
    """Column letter → its validation, for a list sheet."""
    return {str(rule.sqref).split("2:")[0]: rule for rule in sheet.data_validations.dataValidation}


def columns(sheet: Any) -> Iterator[tuple[Column, DataValidation]]:
    """Every column of the Fabrics sheet with its validation."""
    rules = prompts(sheet)
    for number, column in enumerate(FABRICS.columns):
        yield column, rules[sheet.cell(1, number + 1).column_letter]


def offered(book: Any, rule: DataValidation) -> list[str]:
    """The words that a list validation refers to by name."""
    sheet, _, area = book.defined_names[rule.formula1.lstrip("=")].attr_text.partition("!")
    return [cell.value for (cell,) in book[sheet][area.replace("$", "")]]


def test_it_has_every_sheet(books: dict[bool, Any]) -> None:
    """Read me first, the lists last."""
    titles = ["Read me", "Class", "Fabrics", "House rules", "Supplies", "Lists"]
    assert [book.sheetnames for book in books.values()] == [titles, titles]


@BOTH
def test_every_column_has_its_heading_with_the_unit(books: dict[bool, Any], imperial: bool) -> None:
    """The headings are the contract of sheets.py."""
    for sheet in (FABRICS, HOUSE, SUPPLIES):
        headings = [cell.value for cell in books[imperial][sheet.title][1]]
        assert headings == [column.title(imperial) for column in sheet.columns]


def test_units_are_metric_or_imperial_and_nothing_else_differs(books: dict[bool, Any]) -> None:
    """Where a column has no unit, both starters say the same of it."""
    metric, imperial = (dict(columns(book["Fabrics"])) for book in books.values())
    unitless = [column for column in metric if column.unit is None]
    assert len(unitless) > 25
    for column in unitless:
        assert metric[column].prompt == imperial[column].prompt


@BOTH
def test_every_column_has_its_help_as_an_input_message(books: dict[bool, Any], imperial: bool) -> None:
    """Title at most 32, text at most 255 characters (printing_facts C1), shown when the cell is chosen."""
    rules = [rule for sheet in books[imperial].worksheets for rule in sheet.data_validations.dataValidation]
    assert len(rules) == sum(len(sheet.columns) for sheet in (CLASS, FABRICS, HOUSE, SUPPLIES))
    for rule in rules:
        assert rule.showInputMessage
        assert 0 < len(rule.promptTitle) <= 32 and 0 < len(rule.errorTitle) <= 32
        assert 0 < len(rule.prompt) <= 255 and 0 < len(rule.error) <= 255


@BOTH
def test_drop_downs_and_ranges_warn_so_that_a_new_value_can_be_typed(books: dict[bool, Any], imperial: bool) -> None:
    """The program asks whether it may stand; it never stops the typist."""
    rules = [rule for sheet in books[imperial].worksheets for rule in sheet.data_validations.dataValidation]
    assert {(bool(rule.showErrorMessage), rule.errorStyle) for rule in rules} == {(True, "warning")}


@BOTH
def test_where_there_is_a_vocabulary_there_is_a_drop_down(books: dict[bool, Any], imperial: bool) -> None:
    """Each list on the Lists sheet, reached by a name, never typed into the rule (255 characters are its limit)."""
    book, known = books[imperial], words()
    listed = 0
    for column, rule in columns(book["Fabrics"]):
        vocabulary = ("yes", "no") if column.kind == "yes_no" else column.choices or known.get(column.vocabulary, ())
        assert (rule.type == "list") == bool(vocabulary)
        if vocabulary:
            assert offered(book, rule) == list(vocabulary)
            listed += 1
    assert listed > 15


@BOTH
def test_ranges_of_numbers_are_in_the_headings_unit(books: dict[bool, Any], imperial: bool) -> None:
    """8 to 1500 g/m² is 0.24 to 44.2 oz/yd²; 0.3 to 7 mm is 3.6 to 84.7 stitches per inch."""
    rules = {column.key: rule for column, rule in columns(books[imperial]["Fabrics"])}
    found = {
        key: (float(rules[key].formula1), float(rules[key].formula2)) for key in ("weight_gsm", "stitch_mm", "frays")
    }
    wanted = {"weight_gsm": (8, 1500), "stitch_mm": (0.3, 7), "frays": (0, 3)}
    if imperial:
        wanted |= {"weight_gsm": (0.24, 44.2), "stitch_mm": (3.6, 84.7)}
    assert found == wanted


def test_cells_where_5_8_would_become_a_day_are_formatted_as_text(books: dict[bool, Any]) -> None:
    """Needles, codes and every other text column carry the format @, in the rows made ready and below them."""
    sheet = books[False]["Fabrics"]
    for number, column in enumerate(FABRICS.columns, 1):
        is_text = column.kind not in ("number", "percent", "grade", "yes_no")
        letter = sheet.cell(1, number).column_letter
        assert (sheet.cell(3, number).number_format == "@") == is_text, column.key
        assert (sheet.column_dimensions[letter].number_format == "@") == is_text, column.key


def test_headings_are_locked_and_cells_unlocked(books: dict[bool, Any]) -> None:
    """The sheets are protected without a password; the cells, also far below, may be typed into; sorting stays allowed."""
    sheet = books[False]["Fabrics"]
    assert sheet.protection.sheet and not sheet.protection.password
    assert not sheet.protection.sort and not sheet.protection.formatCells and not sheet.protection.deleteRows
    assert all(cell.protection.locked for cell in sheet[1])
    assert not any(cell.protection.locked for cell in sheet[3])
    assert not any(sheet.column_dimensions[cell.column_letter].protection.locked for cell in sheet[1])


def test_printing_is_set_up_and_headings_stay_in_sight(books: dict[bool, Any]) -> None:
    """Frozen on screen, repeated on paper, fitted to the paper's width; A4 for metric, Letter for imperial."""
    for imperial, book in books.items():
        sheet = book["Fabrics"]
        assert (sheet.freeze_panes, sheet.print_title_rows, sheet.print_title_cols) == ("C2", "$1:$1", "$A:$B")
        assert (sheet.page_setup.orientation, sheet.page_setup.paperSize) == ("landscape", 1 if imperial else 9)
        assert sheet.sheet_properties.pageSetUpPr.fitToPage and sheet.page_setup.fitToHeight == 0


def test_header_fill_and_banding_stand_on_the_cells(books: dict[bool, Any]) -> None:
    """Table styles do not survive every program (printing_facts C3), cell fills do."""
    sheet = books[False]["Fabrics"]
    assert not sheet.tables
    assert sheet["A1"].fill.fill_type == "solid"
    assert [sheet.cell(row, 1).fill.fill_type for row in (2, 3, 4, 5)] == [None, "solid", None, "solid"]


def test_a_missing_required_cell_is_coloured(books: dict[bool, Any]) -> None:
    """Each needed column has a rule: the row is started and the cell is blank."""
    sheet = books[False]["Fabrics"]
    found = {
        str(area.sqref).split("2:")[0]: rule
        for area in sheet.conditional_formatting
        for rule in area.rules
        if rule.dxf.fill
    }
    assert sorted(found) == ["B", "C", "D"]
    assert found["B"].formula == [f"AND(COUNTA($A2:${get_column_letter(len(FABRICS.columns))}2)>0,LEN(TRIM(B2))=0)"]


@BOTH
def test_the_example_row_is_greyed(books: dict[bool, Any], imperial: bool) -> None:
    """By a rule that asks for each of its cells as it stands, so that the grey goes with the first change."""
    sheet = books[imperial]["Fabrics"]
    (grey,) = [r for area in sheet.conditional_formatting for r in area.rules if r.dxf.font and r.dxf.font.color]
    example = {cell.coordinate: cell.value for cell in sheet[2] if cell.value is not None}
    assert len(example) == 4
    assert [grey.formula[0].count(f"${place}=") for place in example] == [1] * 4
    red, green, blue = (int(grey.dxf.font.color.rgb[at : at + 2], 16) for at in (2, 4, 6))
    assert red == green == blue > 100


@BOTH
def test_the_example_row_is_ignored_until_it_is_changed(books: dict[bool, Any], imperial: bool, tmp_path: Path) -> None:
    """Untouched it is no fabric; with another name it is one."""
    workbook.write_starter(tmp_path / "s.xlsx", words(), imperial)
    assert codes(workbook.read(tmp_path / "s.xlsx", words())) == ["fabrics-none"]
    book = openpyxl.load_workbook(tmp_path / "s.xlsx")
    assert (book["Fabrics"]["B2"].value, book["House rules"]["C2"].value) == ("Plum boiled wool", "foot")
    book["Fabrics"]["B2"] = "Green boiled wool"
    book.save(tmp_path / "s.xlsx")
    read = workbook.read(tmp_path / "s.xlsx", words())
    assert (read.fabrics["name"].tolist(), len(read.house), codes(read)) == (["Green boiled wool"], 0, [])


def test_the_read_me_sheet_tells_of_every_column(books: dict[bool, Any]) -> None:
    """Each heading stands on the first sheet with its help."""
    told = [row[0].value for row in books[False]["Read me"].iter_rows(max_col=1)]
    assert {column.title() for column in FABRICS.columns} <= set(told)


def test_same_words_same_bytes(tmp_path: Path) -> None:
    """No clock and no order of writing gets into the file."""
    for name in ("a.xlsx", "b.xlsx"):
        workbook.write_starter(tmp_path / name, words())
    assert (tmp_path / "a.xlsx").read_bytes() == (tmp_path / "b.xlsx").read_bytes()
    assert b"2000-01-01T00:00:00Z" in content(tmp_path / "a.xlsx")["docProps/core.xml"]


@BOTH
def test_rows_and_settings_that_are_given_come_back(tmp_path: Path, imperial: bool) -> None:
    """Metric values written in the starter's units are read back within a part in a thousand."""
    fabric = {"code": "=A1", "name": "=1+1", "cloth": "denim", "fibre_content": "100% cotton", "weight_gsm": 340.0}
    fabric |= {
        "sheer": False,
        "stitch_mm": 2.5,
        "price_per_m": 12.5,
        "trim": ["beads", "studs"],
        "shrink_length_pct": 3.0,
    }
    settings = {"title": "Coats", "students": 9, "sample_width_cm": 15.0, "market": "EU", "currency": "€"}
    workbook.write_starter(
        tmp_path / "s.xlsx", words(), imperial, [fabric], settings, [], [{"item": "thread", "price": 2.0}]
    )
    book = workbook.read(tmp_path / "s.xlsx", words())
    row = {key: value for key, value in book.fabrics.iloc[0].items() if key in fabric}
    numbers = {key for key, value in fabric.items() if isinstance(value, float)}
    assert {key: row[key] for key in numbers} == pytest.approx({key: fabric[key] for key in numbers}, rel=1e-3)
    assert {key: row[key] for key in row.keys() - numbers} == {key: fabric[key] for key in row.keys() - numbers} | {
        "trim": "beads, studs"
    }
    assert book.settings["sample_width_cm"] == pytest.approx(15.0, rel=1e-3)
    assert (book.settings["students"], book.supplies["item"].tolist(), codes(book)) == (9, ["thread"], [])


def test_a_text_that_looks_like_a_formula_is_written_as_text(tmp_path: Path) -> None:
    """=cmd|… in a name never becomes a live formula (printing_facts D5)."""
    workbook.write_starter(
        tmp_path / "s.xlsx", words(), rows=[{"name": "=cmd|' /C calc'!A0", "notes": "+1", "code": "@x"}]
    )
    sheet = openpyxl.load_workbook(tmp_path / "s.xlsx")["Fabrics"]
    assert (sheet["B2"].data_type, sheet["B2"].value) == ("s", "=cmd|' /C calc'!A0")
    assert b"<f>" not in content(tmp_path / "s.xlsx")["xl/worksheets/sheet3.xml"]


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    """The sentence names the file; nothing half-written is left."""
    from handouts.errors import HandoutsError

    with pytest.raises(HandoutsError, match="Cannot write"):
        workbook.write_starter(tmp_path / "none" / "s.xlsx", words())
    assert list(tmp_path.iterdir()) == []
