"""Reads, checks, marks up and writes workbooks. The only place that knows spreadsheets."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from handouts.records import Book

Words = Mapping[str, tuple[str, ...]]


def read(path: Path, words: Words | None = None) -> Book:
    """What a workbook holds (.xlsx .xlsm .xls .ods .csv), in metric units, and every finding. Never raises for its content.

    words: the drop-downs that the knowledge fills: needles (`universal 80/12`), finishes, topics, cloths.
    """
    from handouts.workbook.reading import read_book

    return read_book(Path(path), words or {})
