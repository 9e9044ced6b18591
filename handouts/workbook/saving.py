"""Workbooks on disk: same content, same bytes, and there only when complete."""

from __future__ import annotations

import io
import os
import re
import tempfile
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING

from handouts.errors import HandoutsError

if TYPE_CHECKING:
    from openpyxl import Workbook

STAMP = (2000, 1, 1, 0, 0, 0)
DAY = b"2000-01-01T00:00:00Z"
DATES = re.compile(rb"(<dcterms:(?:created|modified)[^>]*>)[^<]*(<)")


def save(book: Workbook, path: Path) -> None:
    """Writes the workbook; an older file of that name is replaced in one step. Raises HandoutsError."""
    place(path, book_bytes(book))


def book_bytes(book: Workbook) -> bytes:
    """The workbook as .xlsx bytes that depend on its content only: no clock, no order of writing."""
    made = io.BytesIO()
    book.save(made)
    fixed = io.BytesIO()
    with zipfile.ZipFile(made) as old, zipfile.ZipFile(fixed, "w", zipfile.ZIP_DEFLATED) as new:
        for part in old.infolist():
            content = old.read(part)
            if part.filename == "docProps/core.xml":
                content = DATES.sub(rb"\g<1>" + DAY + rb"\2", content)
            about = zipfile.ZipInfo(part.filename, STAMP)
            about.compress_type = zipfile.ZIP_DEFLATED
            about.external_attr = 0o644 << 16
            new.writestr(about, content)
    return fixed.getvalue()


def place(path: Path, content: bytes) -> None:
    """Writes bytes aside, then moves them into place. Raises HandoutsError with the way out."""
    aside = ""
    try:
        with tempfile.NamedTemporaryFile(dir=path.parent, prefix=".being-written-", delete=False) as file:
            aside = file.name
            file.write(content)
        os.chmod(aside, 0o644)
        os.replace(aside, path)
    except OSError as error:
        if aside and os.path.exists(aside):
            os.unlink(aside)
        reason = error.strerror or "it is not allowed"
        raise HandoutsError(
            f"Cannot write {path}: {reason}. If it is open in a spreadsheet program, close it first."
        ) from error
