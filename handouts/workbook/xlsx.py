"""Reads .xlsx and .xlsm: the values through calamine, hidden rows, formats, errors and formulas from the sheet's own text."""

from __future__ import annotations

import zipfile
from pathlib import Path

from handouts.workbook.calamine import sheets_of
from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.limits import SHEET
from handouts.workbook.packed import open_packed
from handouts.workbook.xlsx_parts import parts_of, percent_styles
from handouts.workbook.xlsx_scan import Scan, scan_sheet
from handouts.workbook.xlsx_trim import trimmed


def read_xlsx(path: Path) -> list[Grid]:
    """The sheets of a workbook in its own order. Raises Unreadable."""
    with open_packed(path) as book:
        scans = _scans(path, book)
        source = trimmed(book, scans) if any(scan.far for scan in scans.values()) else path
    return sheets_of(path, source, {scan.title: scan.look() for scan in scans.values()})


def _scans(path: Path, book: zipfile.ZipFile) -> dict[str, Scan]:
    try:
        parts = parts_of(book)
        styles = percent_styles(book)
        scans = {part: scan_sheet(book, part, title, styles) for title, part in parts.items()}
    except Exception as error:  # broken archives and broken markup fail in many ways, each of them the file's fault
        raise Unreadable("file-damaged", name=path.name) from error
    if len(scans) > SHEET["most_sheets"] or any(scan.too_big() for scan in scans.values()):
        raise Unreadable("file-too-big", name=path.name)
    return scans
