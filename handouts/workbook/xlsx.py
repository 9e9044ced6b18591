"""Reads .xlsx and .xlsm: the values through calamine, hidden rows, formats, errors and formulas from the sheet's own text."""

from __future__ import annotations

import zipfile
from pathlib import Path

from handouts.workbook.calamine import sheets_of, source_of
from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.limits import SHEET
from handouts.workbook.packed import SheetTooBig, open_packed
from handouts.workbook.xlsx_parts import parts_of, percent_styles
from handouts.workbook.xlsx_rewrite import rewritten
from handouts.workbook.xlsx_scan import Scan, scan_sheet
from handouts.workbook.xlsx_trim import copied, trimmed


def read_xlsx(path: Path) -> list[Grid]:
    """The sheets of a workbook in its own order. Raises Unreadable."""
    with open_packed(path) as book:
        try:
            scans, mended = _scans(book)
            source = copied(book, mended) if mended else source_of(path, ".xlsx", ".xlsm")
        except SheetTooBig as error:
            raise Unreadable("file-too-big", name=path.name) from error
        except Exception as error:  # broken archives and broken markup fail in many ways, each of them the file's fault
            raise Unreadable("file-damaged", name=path.name) from error
    return sheets_of(path, source, {scan.title: scan.look() for scan in scans.values()})


def _scans(book: zipfile.ZipFile) -> tuple[dict[str, Scan], dict[str, bytes]]:
    """What each part says, and the parts whose text had to be mended first: calamine trusts what a cell says of its place."""
    styles = percent_styles(book)
    scans: dict[str, Scan] = {}
    mended: dict[str, bytes] = {}
    for title, part in parts_of(book).items():
        scan = scan_sheet(book, part, title, styles)
        if not scan.regular:
            mended[part], lost = rewritten(book, part)
            said, scan = scan.errors, scan_sheet(mended[part], part, title, styles)
            scan.lost, scan.errors = lost, {**scan.errors, **said}
        if scan.strays():
            mended[part] = trimmed(mended.get(part) or book, part, scan)
        scans[part] = scan
        _refuse_too_big(scans)
    return scans, mended


def _refuse_too_big(scans: dict[str, Scan]) -> None:
    cells = sum(scan.cells for scan in scans.values())
    area = sum(scan.area() for scan in scans.values())
    if cells > SHEET["most_cells"] or area > SHEET["most_area"] or len(scans) > SHEET["most_sheets"]:
        raise SheetTooBig
