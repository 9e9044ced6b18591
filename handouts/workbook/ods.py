"""Reads .ods: the sheets in one pass over their text, repeated cells counted before they are made."""

from __future__ import annotations

import zipfile
from collections.abc import Mapping
from pathlib import Path
from xml.parsers import expat

from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.limits import FILE, SHEET
from handouts.workbook.ods_sheet import SheetTooBig, SpreadSheet
from handouts.workbook.packed import open_packed

CONTENT, MANIFEST = "content.xml", "META-INF/manifest.xml"


def read_ods(path: Path) -> list[Grid]:
    """The sheets of a workbook in its own order. Raises Unreadable."""
    with open_packed(path) as book:
        _refuse_encrypted(path, book)
        reader = _Reader()
        try:
            with book.open(CONTENT) as content:
                while piece := content.read(FILE["piece_bytes"]):
                    reader.parser.Parse(piece, False)
            reader.parser.Parse(b"", True)
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
        self.parser = expat.ParserCreate()
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self.start
        self.parser.EndElementHandler = self.end
        self.parser.CharacterDataHandler = self.text
        self.parser.StartDoctypeDeclHandler = self.refuse

    def refuse(self, *_: object) -> None:
        """A document type can hold entities that unfold without end; no spreadsheet program writes one."""
        raise ValueError("document type")

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
