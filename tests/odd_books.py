"""Books as they arrive: phones, web sheets, other writers of .xlsx, shop exports. Name → a function that makes it in a folder."""

from __future__ import annotations

import datetime
import zipfile
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.chart import BarChart, Reference
from openpyxl.comments import Comment
from openpyxl.utils.datetime import CALENDAR_MAC_1904
from openpyxl.workbook.protection import WorkbookProtection

from tests.books import FABRIC, HEADINGS, SHEET, content, make, plain, with_parts

Maker = Callable[[Path], Path]
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
LINKS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
STRICT = "http://purl.oclc.org/ooxml/spreadsheetml/main"  # ISO/IEC 29500-1, the strict names of the same things
STRICT_LINKS = "http://purl.oclc.org/ooxml/officeDocument/relationships"
SST = f'<sst xmlns="{MAIN}"><si><r><t>B</t></r><r><rPr><b/></rPr><t>lue</t></r><rPh sb="0" eb="1"><t>x</t></rPh></si></sst>'
PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships"
WEIGHED = [[*HEADINGS, "Weight (g/m²)"], [*FABRIC, 350]]


def sheets(lines: Mapping[str, Any], after: Callable[[Any], None] | None = None) -> Maker:
    """A maker of a workbook with these sheets."""
    return lambda folder: make(folder / "b.xlsx", lines, after)


def loaded(change: Callable[[Any], None]) -> Maker:
    """A maker of the weighed fabric, opened and changed with openpyxl."""

    def maker(folder: Path) -> Path:
        book = openpyxl.load_workbook(make(folder / "b.xlsx", {"Fabrics": WEIGHED}))
        change(book)
        book.save(folder / "b.xlsx")
        return folder / "b.xlsx"

    return maker


def cell(place: str, value: Any, prefix: str = "") -> str:
    """A cell as other writers spell it: texts inline; a text that begins with < is the cell's own markup."""
    if isinstance(value, int | float):
        return f'<{prefix}c r="{place}"><{prefix}v>{value}</{prefix}v></{prefix}c>'
    if value.startswith("<"):
        return str(value).replace("@", place)
    return f'<{prefix}c r="{place}" t="inlineStr"><{prefix}is><{prefix}t>{value}</{prefix}t></{prefix}is></{prefix}c>'


def bare(
    lines: Sequence[Sequence[Any]],
    prefix: str = "",
    main: str = MAIN,
    links: str = LINKS,
    about: str = "",
    body: str = "",
) -> Maker:
    """A maker of the least that is a workbook: no styles, no shared texts, no dimension, the prefix and names of one's choice."""
    p, xmlns = prefix, f"xmlns:{prefix[:-1]}" if prefix else "xmlns"
    rows = "".join(
        f'<{p}row r="{n}">{"".join(cell("ABCDEFG"[at] + str(n), value, p) for at, value in enumerate(line))}</{p}row>'
        for n, line in enumerate(lines, 1)
    )
    sheet = body or f'<{p}worksheet {xmlns}="{main}"><{p}sheetData>{rows}</{p}sheetData></{p}worksheet>'
    link = '<Relationships xmlns="{}"><Relationship Id="r1" Type="{}/{}" Target="{}"/></Relationships>'
    parts = {
        "_rels/.rels": link.format(PACKAGE, links, "officeDocument", "xl/workbook.xml"),
        "xl/workbook.xml": f'<{p}workbook {xmlns}="{main}" xmlns:r="{links}">{about}<{p}sheets>'
        f'<{p}sheet name="Fabrics" sheetId="1" r:id="r1"/></{p}sheets></{p}workbook>',
        "xl/_rels/workbook.xml.rels": link.format(PACKAGE, links, "worksheet", "worksheets/sheet1.xml"),
        SHEET: sheet,
    }
    return lambda folder: packed_as(folder / "b.xlsx", parts)


def packed_as(path: Path, parts: Mapping[str, str | bytes]) -> Path:
    """An archive with these parts."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as book:
        for name, data in parts.items():
            book.writestr(name, data)
    return path


def with_part(**parts: str) -> Maker:
    """A maker of the plain workbook with further parts: `xl__x` is xl/x.xml."""
    change = {f"{name.replace('__', '/')}.xml": (lambda _, text=text: text.encode()) for name, text in parts.items()}
    return lambda folder: with_parts(plain(folder, "a.xlsx"), folder / "b.xlsx", change)


def text(name: str, data: bytes | str) -> Maker:
    """A maker of a file with this text."""

    def maker(folder: Path) -> Path:
        (folder / name).write_bytes(data.encode() if isinstance(data, str) else data)
        return folder / name

    return maker


def shared(folder: Path) -> Path:
    """A workbook whose third row takes its name from the shared texts."""
    path = bare([HEADINGS, FABRIC, ['<c r="@" t="s"><v>0</v></c>', *FABRIC[1:]]])(folder)
    return with_parts(path, folder / "c.xlsx", {"xl/sharedStrings.xml": lambda _: SST.encode()})


def mac_archive(folder: Path) -> Path:
    """Packed by a program that adds folders and notes of its own."""
    parts = content(bare(WEIGHED)(folder))
    return packed_as(folder / "c.xlsx", {"__MACOSX/._b": b"\0\5", "xl/": b"", **parts})


def dated_1904(folder: Path) -> Path:
    """Days counted from 1904, as some older programs do."""
    book = openpyxl.Workbook()
    book.epoch = CALENDAR_MAC_1904
    book.worksheets[0].append([*HEADINGS, "Tested on"])
    book.worksheets[0].append([*FABRIC, datetime.date(2026, 5, 8)])
    book.save(folder / "b.xlsx")
    return folder / "b.xlsx"


def filtered(pages: Any) -> None:
    """A filter that hides a row, and a frozen heading."""
    page = pages["Fabrics"]
    page.auto_filter.ref, page.freeze_panes = "A1:C3", "A2"
    page.auto_filter.add_filter_column(1, ["denim"])
    page.row_dimensions[3].hidden = True


def guarded(book: Any) -> None:
    """Sheet and workbook locked against changes."""
    book["Fabrics"].protection.password = "x"
    book["Fabrics"].protection.sheet = True
    book.security = WorkbookProtection(workbookPassword="x", lockStructure=True)


def charted(book: Any) -> None:
    """A chart beside the list, and one on a sheet of its own in front."""
    for place in (book["Fabrics"], book.create_chartsheet("Chart", 0)):
        chart = BarChart()
        chart.add_data(Reference(book["Fabrics"], min_col=4, min_row=1, max_row=2), titles_from_data=True)
        place.add_chart(chart)


def commented(book: Any) -> None:
    """A comment, a link, and a name in two type faces."""
    page = book["Fabrics"]
    page["B2"].comment, page["B2"].hyperlink = Comment("Is it?", "Ann"), "https://example.org"
    page["A2"] = CellRichText("B", TextBlock(InlineFont(b=True), "lu"), "e")


def grouped(pages: Any) -> None:
    """Titles of groups across the list."""
    pages["Fabrics"].merge_cells("A2:C2")
    pages["Fabrics"].merge_cells("A4:C4")
