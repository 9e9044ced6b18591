"""Reads .xls, the workbook of before 2007: the values through calamine, the rest and the sizes from its records."""

from __future__ import annotations

from pathlib import Path

from handouts.workbook.calamine import sheets_of, source_of
from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.limits import SHEET
from handouts.workbook.ole import OleFile
from handouts.workbook.xls_records import Records

ENCRYPTED = ("EncryptedPackage", "EncryptionInfo")
OTHERS = {"WordDocument": "a text document", "PowerPoint Document": "a set of slides"}


def read_xls(path: Path) -> list[Grid]:
    """The sheets of an old workbook. Raises Unreadable, also for a newer workbook locked with a password."""
    try:
        file = OleFile(path.read_bytes())
        names = set(file.streams)
    except Exception as error:  # a damaged file fails in many ways, each of them the file's fault
        raise Unreadable("file-damaged", name=path.name) from error
    if names & set(ENCRYPTED):
        raise Unreadable("file-encrypted", name=path.name)
    what = next((words for name, words in OTHERS.items() if name in names), "")
    if what:
        raise Unreadable("file-not-a-workbook", name=path.name, what=what)
    stream = next((name for name in ("Workbook", "Book", "WORKBOOK", "BOOK") if name in names), "")
    if not stream:
        raise Unreadable("file-not-a-workbook", name=path.name, what="a file of another program")
    return _read(path, file, stream)


def _read(path: Path, file: OleFile, stream: str) -> list[Grid]:
    try:
        records = Records(file.read(stream))
    except Exception as error:
        raise Unreadable("file-damaged", name=path.name) from error
    if records.encrypted:
        raise Unreadable("file-encrypted", name=path.name)
    if sum(sheet.rows * sheet.columns for sheet in records.sheets) > SHEET["most_area_old"]:
        raise Unreadable("file-too-big", name=path.name)
    return sheets_of(path, source_of(path, ".xls"), {sheet.title: sheet.look() for sheet in records.sheets})
