"""A copy of an .xlsx in memory without the strays that would blow a sheet up to billions of blank cells."""

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


def trimmed(book: zipfile.ZipFile, scans: Mapping[str, Scan]) -> io.BytesIO:
    """The archive again, every sheet in `scans` (by part) cut to its block of filled cells."""
    copy = io.BytesIO()
    with zipfile.ZipFile(copy, "w", zipfile.ZIP_DEFLATED, compresslevel=1) as new:
        for part in book.namelist():
            if part in scans and scans[part].far:
                with new.open(part, "w") as out:
                    out.writelines(_cut(book, part, scans[part]))
            elif not part.startswith(PICTURES):
                new.writestr(part, book.read(part))
    copy.seek(0)
    return copy


def _cut(book: zipfile.ZipFile, part: str, scan: Scan) -> Iterator[bytes]:
    last_row, last_column = scan.bounds()

    def cell(found: re.Match[bytes]) -> bytes:
        return found[0] if column_number(found[1].decode()) <= last_column else b""

    def row(found: re.Match[bytes]) -> bytes:
        return CELL.sub(cell, found[0]) if int(found[1]) <= last_row else b""

    return (ROW.sub(row, piece) for piece in pieces(book, part, ROW_ENDS))
