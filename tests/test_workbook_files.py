"""Files of every kind: what arrives by mail, from a phone, from a shop's till."""

from __future__ import annotations

import codecs
import shutil
import zipfile
from pathlib import Path

import pytest

from handouts import workbook
from tests.books import FABRIC, HEADINGS, ODS, ODS_TYPE, codes, make, ods, ods_row, packed, plain, text_cell, with_parts
from tests.old_books import BOF, FILEPASS, NUMBER, container, lines, old_book, record

TEXT = "Name;Cloth;Fibre content;Weight (g/m²);Notes\nCrêpe “Zoë”;crepe;100% Polyester;140,5;schön – für 3 €\n"


SEPARATORS = {"comma": ",", "semicolon": ";", "tab": "\t", "bar": "|"}


def separated(folder: Path, separator: str, first: str = "") -> Path:
    """A text file with these separators; a name holds the others."""
    lines = [separator.join(HEADINGS), separator.join(['"Blue, light; or | so"', "denim", "100% cotton"])]
    (folder / "list.csv").write_text(first + "\r\n".join(lines), encoding="utf-8", newline="")
    return folder / "list.csv"


@pytest.mark.parametrize("separator", SEPARATORS.values(), ids=list(SEPARATORS))
def test_csv_with_comma_semicolon_tab_or_bar(tmp_path: Path, separator: str) -> None:
    """Each, with the others inside a quoted name."""
    book = workbook.read(separated(tmp_path, separator))
    assert (book.fabrics["name"].tolist(), codes(book)) == (["Blue, light; or | so"], [])


@pytest.mark.parametrize("separator", SEPARATORS.values(), ids=list(SEPARATORS))
def test_csv_with_a_first_line_sep(tmp_path: Path, separator: str) -> None:
    """`sep=;` is no row: the separator that it names counts, and the cells keep their addresses as a spreadsheet shows them."""
    book = workbook.read(separated(tmp_path, separator, f"sep={separator}\r\n"))
    assert (book.fabrics["name"].tolist(), codes(book)) == (["Blue, light; or | so"], [])
    assert book.cell("fabrics", "name", book.fabrics.index[0]) == "list!A2"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252", "mac_roman"])
def test_csv_in_utf_8_utf_16_cp1252_or_mac(tmp_path: Path, encoding: str) -> None:
    """Accents, quotes, dashes and the euro come through in each."""
    text = TEXT.replace("²", "2") if encoding == "mac_roman" else TEXT
    (tmp_path / "list.csv").write_bytes(text.encode(encoding))
    book = workbook.read(tmp_path / "list.csv")
    row = book.fabrics.iloc[0]
    assert (row["name"], row["weight_gsm"], row["notes"]) == ("Crêpe “Zoë”", 140.5, "schön – für 3 €")


def test_csv_line_breaks_inside_quotes_and_old_mac_lines(tmp_path: Path) -> None:
    """A cell may hold lines; lines may end as on an old Mac; rows count as in a spreadsheet."""
    text = 'Name,Cloth,Fibre content,Notes\rBlue,denim,100% cotton,"two\rlines"\rRed,denim,100% cotton,\r'
    (tmp_path / "list.csv").write_bytes(text.encode())
    book = workbook.read(tmp_path / "list.csv")
    assert (list(book.fabrics.index), book.fabrics["notes"].iloc[0]) == ([2, 3], "two lines")


def test_csv_cells_are_named_by_the_file(tmp_path: Path) -> None:
    """The one sheet of a text file goes by the file's name, as spreadsheet programs show it."""
    (tmp_path / "stock list.csv").write_text("Name,Cloth,Fibre content\n,denim,100% cotton\n")
    assert workbook.read(tmp_path / "stock list.csv").problems[0].cells == ("stock list!A2",)


def test_xlsx_is_read(tmp_path: Path) -> None:
    """As most programs write it: every cell at its place, texts as texts, numbers as numbers."""
    book = workbook.read(make(tmp_path / "b.xlsx", {"Fabrics": [["Code", *HEADINGS], [7, *FABRIC]]}))
    assert (book.fabrics.loc[2, ["code", "name", "cloth"]].tolist(), codes(book)) == (["7", "Blue", "denim"], [])


def test_xlsm_is_read(tmp_path: Path) -> None:
    """A workbook with macros: they are passed over, and there is nothing to say."""
    types = b'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"'
    macros = b'ContentType="application/vnd.ms-excel.sheet.macroEnabled.main+xml"'
    change = {"[Content_Types].xml": lambda xml: xml.replace(types, macros), "xl/vbaProject.bin": lambda _: b"\xd0\xcf"}
    book = workbook.read(with_parts(plain(tmp_path), tmp_path / "a.xlsm", change))
    assert (book.fabrics["name"].tolist(), codes(book)) == (["Blue"], [])


@pytest.mark.parametrize("name", ["b.csv", "c.xls", "d.ods", "e", "f.txt"])
def test_a_renamed_workbook_is_read_and_said(tmp_path: Path, name: str) -> None:
    """What it is counts, not what it is called."""
    shutil.copy(plain(tmp_path), tmp_path / name)
    book = workbook.read(tmp_path / name)
    assert (len(book.fabrics), codes(book)) == (1, ["file-renamed"])
    assert f"{name} is in truth a workbook (.xlsx)" in str(book.problems[0])


def test_a_renamed_text_file_is_read_and_said(tmp_path: Path) -> None:
    """The other way round."""
    (tmp_path / "e.xlsx").write_text("Name,Cloth,Fibre content\nBlue,denim,100% cotton\n")
    assert codes(workbook.read(tmp_path / "e.xlsx")) == ["file-renamed"]


def test_ods_is_read_with_what_its_values_do_not_show(tmp_path: Path) -> None:
    """Percents, errors, dates, merged cells, repeats, hidden rows and comments of an open-document workbook."""
    note = "<office:annotation><text:p>a comment</text:p></office:annotation>"
    cells = [
        f'<table:table-cell office:value-type="string">{note}<text:p>Red</text:p><text:p>coat</text:p></table:table-cell>',
        '<table:table-cell office:value-type="string" table:number-rows-spanned="2"><text:p>denim</text:p></table:table-cell>',
        '<table:table-cell office:value-type="percentage" office:value="1"><text:p>100%</text:p></table:table-cell>',
    ]
    hidden = ods_row([text_cell("Pink"), "<table:covered-table-cell/>", text_cell("100% cotton")])
    hidden = hidden.replace("<table:table-row", '<table:table-row table:visibility="collapse"', 1)
    book = workbook.read(ods(tmp_path / "b.ods", ods_row(cells) + hidden + ods_row([text_cell(w) for w in FABRIC], 3)))
    assert book.fabrics["name"].tolist() == ["Blue", "Red coat", "Pink", "Blue", "Blue", "Blue"]
    assert book.fabrics["cloth"].tolist() == ["denim"] * 6
    assert book.fabrics["fibre_content"].iloc[1] == "100%"
    assert codes(book) == ["rows-hidden", "cells-merged", "name-twice"]


def test_ods_errors_formulas_and_dates(tmp_path: Path) -> None:
    """An error and a formula without a result are told; a date in a text column too."""
    cells = [
        '<table:table-cell office:value-type="date" office:date-value="2026-05-03"><text:p>3 May</text:p></table:table-cell>',
        '<table:table-cell table:formula="of:=[.A1]"/>',
        '<table:table-cell calcext:value-type="error" office:value-type="string"><text:p>#N/A</text:p></table:table-cell>',
    ]
    book = workbook.read(ods(tmp_path / "b.ods", ods_row(cells)))
    assert codes(book) == ["text-became-date", "cell-uncalculated", "cell-error"]


def test_xls_is_read_with_its_error_cells(tmp_path: Path) -> None:
    """An old workbook, record by record ([MS-XLS]): texts, and a cell that holds #N/A."""
    error = record(0x0205, bytes([2, 0, 0, 0, 0, 0, 42, 1]))
    cells = lines([HEADINGS, FABRIC]) + error + lines([[], [], ["", "denim", "100% cotton"]])
    (tmp_path / "old.xls").write_bytes(old_book(cells))
    book = workbook.read(tmp_path / "old.xls")
    assert (len(book.fabrics), [(found.code, found.cells) for found in book.problems]) == (
        2,
        [("cell-error", ("Fabrics!A3",))],
    )


def stopped(path: Path) -> str:
    """The one finding that stops, by code; its sentence names the file."""
    book = workbook.read(path)
    assert ([found.severity for found in book.problems], len(book.fabrics)) == (["stop"], 0)
    assert path.name in str(book.problems[0])
    return book.problems[0].code


def test_files_that_are_not_there_empty_or_a_folder(tmp_path: Path) -> None:
    """Each has its own sentence."""
    (tmp_path / "empty.xlsx").write_bytes(b"")
    (tmp_path / "folder.xlsx").mkdir()
    assert stopped(tmp_path / "none.xlsx") == "file-missing"
    assert stopped(tmp_path / "empty.xlsx") == "file-empty"
    assert stopped(tmp_path / "folder.xlsx") == "file-folder"


def test_an_encrypted_workbook_has_its_own_sentence(tmp_path: Path) -> None:
    """A new workbook with a password is an old container with an encrypted package; old and open ones say it themselves."""
    (tmp_path / "new.xlsx").write_bytes(container({"EncryptionInfo": b"x", "EncryptedPackage": b"y"}))
    (tmp_path / "old.xls").write_bytes(old_book(lines([HEADINGS]), record(FILEPASS, b"\1\0")))
    locked = {
        "mimetype": ODS_TYPE.encode(),
        "content.xml": b"\x8f",
        "META-INF/manifest.xml": b"<x><m:encryption-data/></x>",
    }
    (tmp_path / "open.ods").write_bytes(packed(locked))
    for name in ("new.xlsx", "old.xls", "open.ods"):
        assert stopped(tmp_path / name) == "file-encrypted"


def test_damaged_workbooks_have_their_own_sentence(tmp_path: Path) -> None:
    """Cut short, or with a broken part."""
    source = plain(tmp_path)
    data = source.read_bytes()
    for number, cut in enumerate((30, len(data) // 2, len(data) - 30)):
        (tmp_path / f"cut{number}.xlsx").write_bytes(data[:cut])
        assert stopped(tmp_path / f"cut{number}.xlsx") == "file-damaged"
    for part in ("xl/workbook.xml", "xl/worksheets/sheet1.xml", "xl/styles.xml", "xl/_rels/workbook.xml.rels"):
        broken = with_parts(source, tmp_path / "broken.xlsx", {part: lambda xml: xml[: len(xml) // 2]})
        assert stopped(broken) == "file-damaged", part
    (tmp_path / "broken.ods").write_bytes(packed({"mimetype": ODS_TYPE.encode(), "content.xml": ODS[:300].encode()}))
    assert stopped(tmp_path / "broken.ods") == "file-damaged"
    (tmp_path / "broken.xls").write_bytes(old_book(lines([HEADINGS]))[:1400])
    assert stopped(tmp_path / "broken.xls") == "file-damaged"


def test_not_a_workbook_says_what_it_is(tmp_path: Path) -> None:
    """A picture, a PDF, a letter, slides, a web page, a program: the sentence says what it is."""
    found = {
        "a.xlsx": (b"%PDF-1.7 ...", "file-not-a-workbook"),
        "b.xlsx": (b"\x89PNG\r\n\x1a\n...", "file-not-a-workbook"),
        "c.xlsx": (packed({"word/document.xml": b"<x/>", "[Content_Types].xml": b""}), "file-not-a-workbook"),
        "d.xlsx": (packed({"ppt/presentation.xml": b"<x/>"}), "file-not-a-workbook"),
        "e.xls": (b"<html><table><tr><td>Name</td></tr></table>", "file-web-page"),
        "f.xls": (b'\xef\xbb\xbf<?xml version="1.0"?><Workbook/>', "file-web-page"),
        "g.xls": (container({"WordDocument": b"x"}), "file-not-a-workbook"),
        "h.xlsx": (packed({"xl/workbook.bin": b"x"}), "file-other-kind"),
        "i.xlsx": (packed({"Index/Document.iwa": b"x"}), "file-other-kind"),
        "j.csv": (bytes(range(32)) * 50, "file-not-a-workbook"),
        "k.zip": (packed({"x.txt": b"x"}), "file-not-a-workbook"),
    }
    for name, (data, code) in found.items():
        (tmp_path / name).write_bytes(data)
        assert stopped(tmp_path / name) == code, name


def test_encrypted_damaged_renamed_and_no_workbook_each_have_their_own_sentence(tmp_path: Path) -> None:
    """Four files, four sentences, none of which is said of another."""
    sources = {
        "locked.xlsx": container({"EncryptionInfo": b"x", "EncryptedPackage": b"y"}),
        "cut.xlsx": plain(tmp_path).read_bytes()[:-40],
        "was.csv": plain(tmp_path).read_bytes(),
        "picture.xlsx": b"\x89PNG\r\n\x1a\n...",
    }
    said = {}
    for name, data in sources.items():
        (tmp_path / name).write_bytes(data)
        (said[name],) = workbook.read(tmp_path / name).problems
    wanted = ("locked with a password", "is damaged", "in truth a workbook", "is not a workbook but a picture")
    assert [[words in str(found) for words in wanted] for found in said.values()] == [
        [words == mine for words in wanted] for mine in wanted
    ]


def test_a_csv_that_is_a_letter_has_no_list(tmp_path: Path) -> None:
    """A text without headings stops with the sentence about headings."""
    (tmp_path / "letter.csv").write_text("Dear Ann,\nthank you, truly, for the cloth.\n")
    assert stopped(tmp_path / "letter.csv") == "fabrics-missing"


def test_the_old_container_is_read_like_the_standard_says() -> None:
    """Our builder and the reader agree with the published signature and record numbers ([MS-CFB] 2.2, [MS-XLS] 2.4.21)."""
    data = old_book(lines([HEADINGS]))
    assert data[:8].hex() == "d0cf11e0a1b11ae1"
    assert (BOF, NUMBER) == (0x0809, 0x0203)


def test_utf16_marks_are_the_standards() -> None:
    """The marks that the csv reader looks for are Python's own."""
    assert (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE) == (b"\xff\xfe", b"\xfe\xff")


def test_a_workbook_with_its_pictures_and_parts_in_another_case_is_read(tmp_path: Path) -> None:
    """Part names are compared without case, as the standard says (ECMA-376 part 2, 6.2.2)."""
    source = plain(tmp_path)
    with zipfile.ZipFile(source) as old, zipfile.ZipFile(tmp_path / "b.xlsx", "w") as new:
        for name in old.namelist():
            new.writestr(name.replace("sheet1.xml", "Sheet1.xml"), old.read(name))
    assert len(workbook.read(tmp_path / "b.xlsx").fabrics) == 1
