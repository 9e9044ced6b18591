"""Workbooks made to do harm, each with what should be said of it."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from pathlib import Path

from tests.books import FABRIC, HEADINGS, ODS, SHEET, content, make, ods, ods_row, text_cell, with_parts, with_rows
from tests.old_books import label, lines, old_book

CELL = '<c r="{}"><v>1</v></c>'
BOMB = b'<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>'


def far_cell(place: str, row: str) -> Callable[[Path, Path], Path]:
    """A row with one cell at a place of its own."""
    return lambda source, target: with_rows(source, target, f'<row r="{row}">{CELL.format(place)}</row>')


def replaced(part: str, old: bytes, new: bytes) -> Callable[[Path, Path], Path]:
    """One part with some of its text replaced; the text must be there."""

    def change(text: bytes) -> bytes:
        assert old in text, f"{part} holds no {old!r}"
        return text.replace(old, new)

    return lambda source, target: with_parts(source, target, {part: change})


def bomb(source: Path, target: Path) -> Path:
    """150 MB of nothing in 150 KB."""
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as book:
        for name, data in content(source).items():
            if name != SHEET:
                book.writestr(name, data)
        with book.open(SHEET, "w", force_zip64=True) as sheet:
            for _ in range(150):
                sheet.write(b'<row r="1"/>' * 83_000)
    return target


def forged_size(source: Path, target: Path) -> Path:
    """The archive's list says that a part is small; it is not."""
    big = with_rows(source, target, "<row/>" * 200_000).read_bytes()
    place = big.rindex(SHEET.encode()) - 46
    size = int.from_bytes(big[place + 24 : place + 28], "little")
    target.write_bytes(big.replace(size.to_bytes(4, "little"), (700).to_bytes(4, "little")))
    return target


def doubled_part(source: Path, target: Path) -> Path:
    """Two parts of one name: one reader may look at the first, another at the second."""
    parts = content(source)
    with zipfile.ZipFile(target, "w") as book:
        for name, data in parts.items():
            book.writestr(name, data)
        book.writestr(SHEET.upper(), parts[SHEET])
    return target


READ: dict[str, tuple[Callable[[Path, Path], Path], list[str]]] = {
    "a dimension of seventeen billion cells": (replaced(SHEET, b"A1:C2", b"A1:XFD1048576"), []),
    "a cell in the last corner": (far_cell("XFD1048576", "1048576"), ["cells-far"]),
    "a column that no sheet has": (far_cell("ZZZZZ3", "3"), ["cells-far"]),
    "a row that no sheet has": (far_cell("A99999999999999", "99999999999999"), ["cells-far"]),
    "a corner in single quotes": (
        lambda s, t: with_rows(s, t, "<row r='1048576'><c r='XFD1048576'><v>1</v></c></row>"),
        ["cells-far"],
    ),
    "a corner with spaces": (
        lambda s, t: with_rows(s, t, '<row r = "1048576"><c r = "XFD1048576"><v>1</v></c></row>'),
        ["cells-far"],
    ),
    "a corner in another encoding": (
        lambda s, t: with_parts(
            s,
            t,
            {
                SHEET: lambda xml: (
                    xml.decode().replace(
                        "</sheetData>", f'<row r="1048576">{CELL.format("XFD1048576")}</row></sheetData>'
                    )
                ).encode("utf-16")
            },
        ),
        ["cells-far"],
    ),
    "a million columns": (
        lambda s, t: with_rows(s, t, f'<row r="3">{"<c><v>1</v></c>" * 1_000_000}</row>'),
        ["cells-far"],
    ),
    "a million merged blocks": (
        replaced(
            SHEET,
            b"</sheetData>",
            b"</sheetData><mergeCells>" + b'<mergeCell ref="A1:XFD1048576"/>' * 90_000 + b"</mergeCells>",
        ),
        [],
    ),
    "a million hidden columns": (
        replaced(
            SHEET,
            b"<sheetData>",
            b"<cols>" + b'<col min="1" max="999999999" hidden="1"/>' * 20_000 + b"</cols><sheetData>",
        ),
        ["columns-hidden"],
    ),
    "styles without end": (replaced("xl/styles.xml", b"<cellXfs", b"<x>" + b"<a/>" * 1_000_000 + b"</x><cellXfs"), []),
    "formulas and DDE calls as text": (
        lambda s, t: make(t, {"Fabrics": [HEADINGS, ["=cmd|' /C calc'!A0", *FABRIC[1:]]]}),
        [],
    ),
}
STOPPED: dict[str, tuple[Callable[[Path, Path], Path], str]] = {
    "a zip bomb": (bomb, "file-too-big"),
    "an entity bomb": (
        replaced("xl/workbook.xml", b"<workbook ", BOMB + b"<workbook "),
        "file-damaged",
    ),
    "an entity bomb in a sheet": (
        lambda s, t: with_parts(
            s, t, {SHEET: lambda xml: xml.replace(b"<worksheet ", BOMB + b"<worksheet ").replace(b"Blue", b"&b;")}
        ),
        "file-damaged",
    ),
    "a forged size": (forged_size, "file-damaged"),
    "two parts of one name": (doubled_part, "file-damaged"),
    "two thousand parts": (
        lambda s, t: with_parts(s, t, {f"x{n}.xml": lambda _: b"x" for n in range(2_001)}),
        "file-too-big",
    ),
    "one part for a hundred sheets": (
        replaced(
            "xl/workbook.xml",
            b"</sheets>",
            b"".join(b'<sheet name="S%d" sheetId="%d" r:id="rId1"/>' % (n, n + 9) for n in range(100)) + b"</sheets>",
        ),
        "file-damaged",
    ),
    "three million cells": (
        lambda s, t: with_rows(
            s, t, "".join(f'<row r="{n}">{CELL.format(f"A{n}") * 60}</row>' for n in range(3, 50_000))
        ),
        "file-too-big",
    ),
    "texts of all cells too big": (
        lambda s, t: with_parts(s, t, {"xl/sharedStrings.xml": lambda _: b"<si><t>%d</t></si>" * 3_500_000}),
        "file-too-big",
    ),
}
OTHERS: dict[str, tuple[Callable[[Path], Path], str]] = {
    "rows repeated without end": (lambda f: ods(f / "r.ods", ods_row([text_cell("x")], 1_000_000_000)), "file-too-big"),
    "cells repeated without end": (
        lambda f: ods(f / "c.ods", ods_row([text_cell("x", 16_384)], 1_000_000)),
        "file-too-big",
    ),
    "rows inside rows": (
        lambda f: ods(f / "n.ods", "<table:table-row>" * 99_999 + "</table:table-row>" * 99_999),
        "file-damaged",
    ),
    "an entity bomb in an open workbook": (
        lambda f: ods(
            f / "e.ods", "", ODS.replace("<office:document-content", BOMB.decode() + "<office:document-content", 1)
        ),
        "file-damaged",
    ),
    "an old workbook with a cell in no column": (lambda f: _old(f / "o.xls", label(200, 60_000, "x")), "file-too-big"),
    "a line of five million cells": (
        lambda f: _text(f / "w.csv", "Name,Cloth,Fibre content\n" + "," * 5_000_000),
        "file-too-big",
    ),
    "a quote that never ends": (
        lambda f: _text(f / "q.csv", 'Name,Cloth,Fibre content\n"' + "a,b\n" * 4_000_000),
        "file-damaged",
    ),
    "thirty million letters": (
        lambda f: _text(f / "l.csv", "Name,Cloth,Fibre content\n" + "a" * 30_000_000),
        "file-too-big",
    ),
}


def _old(path: Path, cells: bytes) -> Path:
    path.write_bytes(old_book(lines([HEADINGS, FABRIC]) + cells))
    return path


def _text(path: Path, text: str) -> Path:
    path.write_text(text)
    return path
