"""Opens a file by what it is, not by what it is called, and hands back its sheets."""

from __future__ import annotations

import zipfile
from pathlib import Path

from handouts.problems import Problem, problem
from handouts.workbook.grid import Grid, Unreadable
from handouts.workbook.limits import FILE
from handouts.workbook.words import shown

OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
OTHERS = {
    b"%PDF": "a PDF",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"GIF8": "a picture",
    b"RIFF": "a picture or a sound",
    b"{\\rtf": "a text document",
    b"\x1f\x8b": "a packed archive",
    b"Rar!": "a packed archive",
    b"7z\xbc\xaf": "a packed archive",
    b"\x7fELF": "a program",
    b"MZ": "a program",
    b"SQLite format 3": "a database",
}
SUFFIXES = {
    "xlsx": (".xlsx", ".xlsm", ".xltx", ".xltm"),
    "ods": (".ods", ".ots"),
    "xls": (".xls", ".xlt"),
    "csv": (".csv", ".txt", ".tsv", ".tab"),
}
MARKUP = (b"<!doctype", b"<html", b"<table", b"<?xml", b"<meta", b"<head", b"mime-version:")
OTHER_TEXTS = {
    b"-com:office:spreadsheet": "a workbook in an old form, one long text",
    b"<office:document ": "a workbook as one long text (.fods)",
    b'"doc_id"': "only a link to a sheet on the web",
    b"[internetshortcut]": "only a link to a page on the web",
}


def open_grids(path: Path) -> tuple[list[Grid], list[Problem]]:
    """The sheets of a file in its own order and what is worth saying about the file. Raises Unreadable with its reason."""
    head = _head(path)
    kind = _kind(path, head)
    readers = {"xlsx": _xlsx, "ods": _ods, "xls": _xls, "csv": _csv}
    grids = readers[kind](path)
    return grids, _renamed(path, kind)


def _head(path: Path) -> bytes:
    if not path.exists():
        raise Unreadable("file-missing", name=path.name)
    if path.is_dir():
        raise Unreadable("file-folder", name=path.resolve().name)
    try:
        size = path.stat().st_size
        with path.open("rb") as file:
            head = file.read(4096)
    except OSError as error:
        raise Unreadable("file-closed", name=path.name) from error
    if not head.strip(b"\0 \t\r\n"):
        raise Unreadable("file-empty", name=path.name)
    if size > FILE["most_bytes"]:
        raise Unreadable("file-too-big", name=path.name)
    return head


def _kind(path: Path, head: bytes) -> str:
    """xlsx, ods, xls or csv."""
    if head.startswith(b"PK"):
        return _kind_of_zip(path)
    if head.startswith(OLE):
        return "xls"
    for start, what in OTHERS.items():
        if head.startswith(start):
            raise Unreadable("file-not-a-workbook", name=path.name, what=what)
    _refuse_markup(path, head)
    return "csv"


def _refuse_markup(path: Path, head: bytes) -> None:
    start = head.replace(b"\0", b"").lstrip(b"\xef\xbb\xbf\xff\xfe \t\r\n").lower()
    what = next((words for sign, words in OTHER_TEXTS.items() if sign in start), "")
    if what and start[:1] in b"<{[":
        raise Unreadable("file-other-kind", name=path.name, what=what)
    if start.startswith(MARKUP):
        raise Unreadable("file-web-page", name=path.name)


def _kind_of_zip(path: Path) -> str:
    try:
        with zipfile.ZipFile(path) as book:
            names = set(book.namelist())
            mime = book.open("mimetype").read(200) if "mimetype" in names else b""
    except Exception as error:  # a damaged archive fails in many ways, each of them the file's fault
        raise Unreadable("file-damaged", name=path.name) from error
    if b"opendocument.spreadsheet" in mime:
        return "ods"
    if "xl/workbook.bin" in names:
        raise Unreadable("file-other-kind", name=path.name, what="a binary workbook (.xlsb)")
    if any(name.startswith("Index/") or name == "Index.zip" for name in names):
        raise Unreadable("file-other-kind", name=path.name, what="a workbook of a program that keeps its own format")
    if any(name.startswith("xl/") for name in names):
        return "xlsx"
    raise Unreadable("file-not-a-workbook", name=path.name, what=_what_zip(names, mime))


def _what_zip(names: set[str], mime: bytes) -> str:
    if any(name.startswith("word/") for name in names) or b"opendocument.text" in mime:
        return "a text document"
    if any(name.startswith("ppt/") for name in names) or b"opendocument.presentation" in mime:
        return "a set of slides"
    return "a packed archive"


def _renamed(path: Path, kind: str) -> list[Problem]:
    if path.suffix.lower() in SUFFIXES[kind]:
        return []
    what = {
        "xlsx": "a workbook (.xlsx)",
        "ods": "a workbook (.ods)",
        "xls": "an old workbook (.xls)",
        "csv": "a text file (.csv)",
    }
    return [problem("file-renamed", name=shown(path.name), what=what[kind])]


def _xlsx(path: Path) -> list[Grid]:
    from handouts.workbook.xlsx import read_xlsx

    return read_xlsx(path)


def _ods(path: Path) -> list[Grid]:
    from handouts.workbook.ods import read_ods

    return read_ods(path)


def _xls(path: Path) -> list[Grid]:
    from handouts.workbook.xls import read_xls

    return read_xls(path)


def _csv(path: Path) -> list[Grid]:
    from handouts.workbook.csvs import read_csv

    return read_csv(path)
