"""Copies of sheets and archives in memory, without the strays that would blow a sheet up to billions of blank cells."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator, Mapping

from handouts.workbook.grid import column_number
from handouts.workbook.packed import pieces
from handouts.workbook.xlsx_scan import ROW_ENDS, Scan

ROW = re.compile(rb'<(?:\w+:)?row\b[^>]*?\br="(\d{1,9})"[^>]*?(?:/>|>.*?</(?:\w+:)?row>)', re.S)
CELL = re.compile(rb'<(?:\w+:)?c\s(?:[^>]*?\s)?r="([A-Z]{1,4})\d{1,9}"[^>]*?(?:/>|>.*?</(?:\w+:)?c>)', re.S)
PICTURES = ("xl/media/", "xl/drawings/", "docProps/thumbnail")


def trimmed(source: zipfile.ZipFile | bytes, part: str, scan: Scan) -> bytes:
    """The text of a regular sheet without the cells outside its block."""
    return b"".join(_cut(source, part, scan))


def copied(book: zipfile.ZipFile, mended: Mapping[str, bytes]) -> io.BytesIO:
    """The archive again in memory, with the mended parts and without pictures."""
    copy = io.BytesIO()
    with zipfile.ZipFile(copy, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as new:
        for part in book.namelist():
            if not part.startswith(PICTURES):
                new.writestr(part, mended[part] if part in mended else book.read(part))
    copy.seek(0)
    return copy


def _cut(source: zipfile.ZipFile | bytes, part: str, scan: Scan) -> Iterator[bytes]:
    last_row, last_column = scan.bounds()

    def cell(found: re.Match[bytes]) -> bytes:
        return found[0] if column_number(found[1].decode()) <= last_column else b""

    def row(found: re.Match[bytes]) -> bytes:
        return CELL.sub(cell, found[0]) if int(found[1]) <= last_row else b""

    return (ROW.sub(row, piece) for piece in pieces(source, part, ROW_ENDS))
