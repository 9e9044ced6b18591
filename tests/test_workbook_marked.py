"""The marked copy: findings in their cells, a list with links, and the user's own file untouched."""

from __future__ import annotations

import os
from pathlib import Path

import openpyxl
import pytest

from handouts import workbook
from handouts.errors import HandoutsError
from tests.books import FABRIC, HEADINGS, WORDS, codes, content, make, ods, ods_row, text_cell, with_rows

LINES = [[*HEADINGS, "Weight (g/m²)", "Nap"], ["", "denim", "100% cotton", "12o", "brused"], [*FABRIC, 300, "none"]]


def marked(path: Path) -> tuple[workbook.Book, openpyxl.Workbook]:
    """The book and its marked copy, opened."""
    book = workbook.read(path, WORDS)
    copy = path.parent / "copy.xlsx"
    workbook.write_marked(path, copy, book.problems)
    return book, openpyxl.load_workbook(copy)


def test_each_cell_is_coloured_and_commented(tmp_path: Path) -> None:
    """The comment says what and how to mend; a cell without a finding keeps its look."""
    book, copy = marked(make(tmp_path / "b.xlsx", {"My list": LINES}))
    sheet = copy["My list"]
    told = {cell.coordinate: cell.comment.text for row in sheet.iter_rows() for cell in row if cell.comment}
    assert told == {found.cells[0].split("!")[1]: f"{found.message} {found.mend}" for found in book.problems}
    assert {sheet[cell].fill.start_color.rgb for cell in told} == {"00F6C9B0"}
    assert sheet["D3"].fill.fill_type is None
    assert sheet["D2"].value == "12o"


def test_the_problems_sheet_links_to_the_cells(tmp_path: Path) -> None:
    """One line a finding, worst first, each with a link; below it stands what the copy has lost."""
    book, copy = marked(make(tmp_path / "b.xlsx", {"Ann's list": LINES}))
    sheet = copy.worksheets[0]
    assert [cell.value for cell in sheet["A"][1 : len(book.problems) + 1]] == [
        found.cells[0] for found in book.problems
    ]
    assert sheet["A2"].hyperlink.location == "'Ann''s list'!A2"


def test_the_copy_says_what_it_has_lost_and_that_the_file_was_not_touched(tmp_path: Path) -> None:
    """Below the list, for whoever misses a text box."""
    _, copy = marked(make(tmp_path / "b.xlsx", {"Fabrics": LINES}))
    words = " ".join(str(cell.value) for cell in copy.worksheets[0]["A"])
    assert all(lost in words for lost in ("text boxes", "form buttons", "sparklines", "was not touched"))


def test_the_own_file_is_never_written_to(tmp_path: Path) -> None:
    """Not under its name, nor through a link, nor by another spelling of the path."""
    path = make(tmp_path / "b.xlsx", {"Fabrics": LINES})
    before = path.read_bytes()
    os.link(path, tmp_path / "link.xlsx")
    (tmp_path / "way").mkdir()
    for copy in (path, tmp_path / "link.xlsx", tmp_path / "way" / ".." / "b.xlsx"):
        with pytest.raises(HandoutsError, match="never written to"):
            workbook.write_marked(path, copy, ())
    assert path.read_bytes() == before
    with pytest.raises(HandoutsError, match=r"copy\.xlsx"):
        workbook.write_marked(path, tmp_path / "copy.xlsm", ())


def test_checking_the_copy_finds_the_same(tmp_path: Path) -> None:
    """Somebody who mends the copy after all is served: its list of problems is not taken for fabrics."""
    book, _ = marked(make(tmp_path / "b.xlsx", {"Fabrics": LINES}))
    assert codes(workbook.read(tmp_path / "copy.xlsx", WORDS)) == codes(book)


def test_formulas_are_copied_as_their_results(tmp_path: Path) -> None:
    """No live formula of the book, least of all a DDE call, gets into the copy."""
    path = make(tmp_path / "a.xlsx", {"Fabrics": LINES})
    live = '<row r="4"><c r="A4" t="str"><f>cmd|\' /C calc\'!A0</f><v>Red</v></c><c r="B4"><f>1+1</f><v>2</v></c></row>'
    _, copy = marked(with_rows(path, tmp_path / "b.xlsx", live))
    assert (copy["Fabrics"]["A4"].value, copy["Fabrics"]["B4"].value) == ("Red", 2)
    assert not any(b"<f>" in part for part in content(tmp_path / "copy.xlsx").values())


def test_texts_that_look_like_formulas_stay_texts(tmp_path: Path) -> None:
    """Also in the list of problems and in the comments."""
    lines = [[*HEADINGS, "Nap"], ["=1+1", "denim", "100% cotton", "=HYPERLINK(1)"]]
    _, copy = marked(make(tmp_path / "b.xlsx", {"Fabrics": lines}))
    assert copy["Fabrics"]["A2"].data_type == "s"
    assert not any(b"<f>" in part for part in content(tmp_path / "copy.xlsx").values())


def test_csv_and_ods_get_a_copy_of_their_values(tmp_path: Path) -> None:
    """What openpyxl cannot open is copied as values, with its addresses."""
    (tmp_path / "b.csv").write_text("Name,Cloth,Fibre content\n,denim,100% cotton\n=1+1,denim,100% cotton\n")
    _, copy = marked(tmp_path / "b.csv")
    assert (copy["b"]["A2"].comment is not None, copy["b"]["A3"].data_type, copy["b"]["B2"].value) == (
        True,
        "s",
        "denim",
    )
    _, copy = marked(ods(tmp_path / "c.ods", ods_row([text_cell(""), text_cell("denim")])))
    assert copy["Fabrics"]["A3"].comment is not None


def test_merged_cells_are_told_in_their_visible_corner(tmp_path: Path) -> None:
    """A finding about a covered cell lands in the one that shows."""
    path = make(tmp_path / "b.xlsx", {"Fabrics": LINES}, lambda sheets: sheets["Fabrics"].merge_cells("D2:D3"))
    _, copy = marked(path)
    assert "12o" in copy["Fabrics"]["D2"].comment.text


def test_a_file_that_cannot_be_read_gets_a_list_all_the_same(tmp_path: Path) -> None:
    """The copy then holds the one finding."""
    (tmp_path / "b.xlsx").write_bytes(b"PK\3\4 broken")
    _, copy = marked(tmp_path / "b.xlsx")
    assert "damaged" in copy.worksheets[0]["B2"].value


def test_nothing_found_is_said(tmp_path: Path) -> None:
    """A book without findings gets a copy that says so; same book, same bytes."""
    path = make(tmp_path / "b.xlsx", {"Fabrics": [HEADINGS, FABRIC]})
    _, copy = marked(path)
    first = (tmp_path / "copy.xlsx").read_bytes()
    assert copy.worksheets[0]["B2"].value == "Nothing to mend."
    marked(path)
    assert (tmp_path / "copy.xlsx").read_bytes() == first
