"""Reads .ods: the sheets in one pass over their text, repeated cells counted before they are made."""

from __future__ import annotations

import zipfile
from collections.abc import Mapping
from pathlib import Path

from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.limits import SHEET
from handouts.workbook.markup import parse, parser
from handouts.workbook.ods_sheet import SpreadSheet
from handouts.workbook.packed import SheetTooBig, open_packed

CONTENT, MANIFEST = "content.xml", "META-INF/manifest.xml"


def read_ods(path: Path) -> list[Grid]:
    """The sheets of a workbook in its own order. Raises Unreadable."""
    with open_packed(path) as book:
        _refuse_encrypted(path, book)
        reader = _Reader()
        try:
            with book.open(CONTENT) as content:
                parse(reader.parser, content)
        except SheetTooBig as error:
            raise Unreadable("file-too-big", name=path.name) from error
        except Exception as error:  # broken archives and broken markup fail in many ways, each of them the file's fault
            raise Unreadable("file-damaged", name=path.name) from error
    return [sheet.grid(reader.hidden_styles) for sheet in reader.sheets]


def _refuse_encrypted(path: Path, book: zipfile.ZipFile) -> None:
    try:
        manifest = book.open(MANIFEST).read(1_000_000) if MANIFEST in book.namelist() else b""
    except Exception as error:
        raise Unreadable("file-damaged", name=path.name) from error
    if b"encryption-data" in manifest:
        raise Unreadable("file-encrypted", name=path.name)


class _Reader:
    """Hands the elements of content.xml to the sheet they belong to."""

    def __init__(self) -> None:
        self.sheets: list[SpreadSheet] = []
        self.hidden_styles: set[str] = set()
        self.style = ""
        self.parser = parser(self.start, self.end)
        self.parser.CharacterDataHandler = self.text

    def start(self, name: str, about: Mapping[str, str]) -> None:
        if name == "style:style":
            self.style = about.get("style:name", "")
        elif name == "style:table-properties" and about.get("table:display") == "false":
            self.hidden_styles.add(self.style)
        elif name == "table:table":
            if len(self.sheets) >= SHEET["most_sheets"]:
                raise SheetTooBig
            self.sheets.append(SpreadSheet(about.get("table:name", ""), about.get("table:style-name", "")))
        elif self.sheets:
            self.sheets[-1].start(name, about)

    def end(self, name: str) -> None:
        if self.sheets:
            self.sheets[-1].end(name)

    def text(self, text: str) -> None:
        if self.sheets:
            self.sheets[-1].text(text)
