"""Builds workbooks for the tests: plain ones from lists, crooked ones part by part."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import openpyxl
import pandas
from openpyxl.worksheet.worksheet import Worksheet

from handouts import workbook
from handouts.records import Book

Lines = Sequence[Sequence[Any]]
HEADINGS = ["Name", "Cloth", "Fibre content"]
FABRIC = ["Blue", "denim", "100% cotton"]
NEEDLES = (
    "universal 60/8",
    "universal 70/10",
    "universal 80/12",
    "universal 90/14",
    "jeans 90/14",
    "jeans 100/16",
    "stretch 75/11",
)
WORDS = {"needles": NEEDLES, "finishes": ("none", "overlock", "french"), "topics": ("Foot",), "cloths": ("denim",)}


def words() -> dict[str, tuple[str, ...]]:
    """The drop-down words of the real knowledge."""
    from handouts import knowledge
    from handouts.pipeline.reading import vocabularies

    return vocabularies(knowledge.load())


def make(
    path: Path, sheets: Mapping[str, Lines], after: Callable[[Mapping[str, Worksheet]], None] | None = None
) -> Path:
    """An .xlsx of these sheets; `after` gets the sheets by title, for formats and the like. Texts stay texts."""
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for title, lines in sheets.items():
        sheet = book.create_sheet(title)
        for row, line in enumerate(lines, 1):
            for column, value in enumerate(line, 1):
                cell = sheet.cell(row, column, value)
                if isinstance(value, str) and value.startswith("="):
                    cell.data_type = "s"
    if after:
        after({sheet.title: sheet for sheet in book.worksheets})
    book.save(path)
    return path


def read_lines(folder: Path, lines: Lines, after: Callable[[Mapping[str, Worksheet]], None] | None = None) -> Book:
    """The Book of a workbook with one sheet, Fabrics."""
    return workbook.read(make(folder / "book.xlsx", {"Fabrics": lines}, after), WORDS)


def read_cell(folder: Path, heading: str, value: Any, number_format: str = "General") -> tuple[Any, list[str]]:
    """What one cell under a heading gives, and the codes of what was said about it."""
    titles = [*HEADINGS, heading]

    def after(sheets: Mapping[str, Worksheet]) -> None:
        if number_format != "General":
            sheets["Fabrics"]["D2"].number_format = number_format

    book = read_lines(folder, [titles, [*FABRIC, value]], after)
    key = next(key for (sheet, key), letter in book.letters.items() if sheet == "fabrics" and letter == "D")
    found = book.fabrics[key].iloc[0]
    return (None if pandas.isna(found) else found), about(book, "D2")


def about(book: Book, cell: str) -> list[str]:
    """The codes of the findings about one cell of the sheet Fabrics."""
    return [found.code for found in book.problems if f"Fabrics!{cell}" in found.cells]


def codes(book: Book) -> list[str]:
    """The codes of all findings, worst first."""
    return [found.code for found in book.problems]


def content(path: Path) -> dict[str, bytes]:
    """The parts of an archive: what a workbook says, however it was packed."""
    with zipfile.ZipFile(path) as book:
        return {name: book.read(name) for name in book.namelist()}


def with_parts(source: Path, target: Path, change: Mapping[str, Callable[[bytes], bytes]]) -> Path:
    """A copy of an archive with some parts changed by functions; a part that is not there starts empty."""
    parts = content(source)
    for name, function in change.items():
        parts[name] = function(parts.get(name, b""))
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as book:
        for name, data in parts.items():
            book.writestr(name, data)
    return target


SHEET = "xl/worksheets/sheet1.xml"


def with_rows(source: Path, target: Path, rows: str) -> Path:
    """A copy of an .xlsx with further row elements at the end of its first sheet."""
    return with_parts(
        source, target, {SHEET: lambda xml: xml.replace(b"</sheetData>", rows.encode() + b"</sheetData>")}
    )


def plain(folder: Path, name: str = "plain.xlsx") -> Path:
    """The smallest workbook that builds."""
    return make(folder / name, {"Fabrics": [HEADINGS, FABRIC]})


ODS = """<?xml version="1.0" encoding="UTF-8"?><office:document-content
 xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:calcext="urn:org:documentfoundation:names:calc:1"
 ><office:body><office:spreadsheet><table:table table:name="Fabrics">{rows}</table:table></office:spreadsheet></office:body>
</office:document-content>"""
ODS_TYPE = "application/vnd.oasis.opendocument.spreadsheet"


def ods(path: Path, rows: str, text: str = ODS) -> Path:
    """An .ods with these row elements after the headings and one fabric."""
    lines = "".join(ods_row([text_cell(word) for word in line]) for line in (HEADINGS, FABRIC))
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as book:
        book.writestr("mimetype", ODS_TYPE)
        book.writestr("content.xml", text.replace("{rows}", lines + rows))
    return path


def ods_row(cells: Sequence[str], repeat: int = 1) -> str:
    """A row element."""
    return f'<table:table-row table:number-rows-repeated="{repeat}">{"".join(cells)}</table:table-row>'


def text_cell(word: str, repeat: int = 1) -> str:
    """A cell element with a text."""
    about = f'office:value-type="string" table:number-columns-repeated="{repeat}"'
    return f"<table:table-cell {about}><text:p>{word}</text:p></table:table-cell>"


def packed(parts: Mapping[str, bytes]) -> bytes:
    """An archive of these parts."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as book:
        for name, data in parts.items():
            book.writestr(name, data)
    return made.getvalue()
