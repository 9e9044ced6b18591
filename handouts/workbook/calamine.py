"""The one place that calls calamine, the reader of cell values."""

from __future__ import annotations

import io
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from handouts.workbook.grid import Grid, Look, Unreadable, filled_rows


def sheets_of(path: Path, source: Path | io.BytesIO, looks: Mapping[str, Look]) -> list[Grid]:
    """The sheets in `source` (the file at `path`, or a mended copy of it in memory), with their looks by title."""
    from python_calamine import PasswordError

    try:
        with _silent():
            return _grids(source, looks)
    except PasswordError as error:
        raise Unreadable("file-encrypted", name=path.name) from error
    except BaseException as error:
        if isinstance(error, Exception) or type(error).__name__ == "PanicException":
            raise Unreadable("file-damaged", name=path.name) from error
        raise


@contextmanager
def _silent() -> Iterator[None]:
    """Keeps calamine's own last words off the screen: its panics print a trace before they become an exception."""
    try:
        screen, nowhere = os.dup(2), os.open(os.devnull, os.O_WRONLY)
    except OSError:  # no screen, as under pythonw
        yield
        return
    try:
        os.dup2(nowhere, 2)
        yield
    finally:
        os.dup2(screen, 2)
        os.close(screen)
        os.close(nowhere)


def _grids(source: Path | io.BytesIO, looks: Mapping[str, Look]) -> list[Grid]:
    from python_calamine import CalamineWorkbook, SheetTypeEnum

    book = CalamineWorkbook.from_object(source)
    sheets = [about for about in book.sheets_metadata if about.typ == SheetTypeEnum.WorkSheet]
    return [_grid(book, about, looks) for about in sheets]


def source_of(path: Path, *endings: str) -> Path | io.BytesIO:
    """The file itself where its name says what it is (calamine goes by the name), else its bytes."""
    return path if path.suffix.lower() in endings else io.BytesIO(path.read_bytes())


def _grid(book: Any, about: Any, looks: Mapping[str, Look]) -> Grid:
    from python_calamine import SheetVisibleEnum

    sheet = book.get_sheet_by_name(about.name)
    hidden = about.visible != SheetVisibleEnum.Visible
    return Grid(about.name, filled_rows(sheet.iter_rows()), hidden, looks.get(about.name, Look()))
