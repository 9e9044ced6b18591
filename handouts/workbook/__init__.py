"""Reads, checks, marks up and writes workbooks. The only place that knows spreadsheets."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from handouts.problems import Problem
    from handouts.records import Book, Table

Words = Mapping[str, tuple[str, ...]]
Records = Sequence[Mapping[str, Any]]


def read(path: Path, words: Words | None = None) -> Book:
    """What a workbook holds (.xlsx .xlsm .xls .ods .csv), in metric units, and every finding. Never raises for its content.

    words: the drop-downs that the knowledge fills: needles (`universal 80/12`), finishes, topics, cloths.
    """
    from handouts.workbook.reading import read_book

    return read_book(Path(path), words or {})


def write_starter(
    path: Path,
    words: Words,
    imperial: bool = False,
    rows: Records | None = None,
    settings: Mapping[str, Any] | None = None,
    house: Records | None = None,
    supplies: Records | None = None,
) -> None:
    """Writes a workbook to fill, or filled: records and settings by Column.key, in metric units. Same content, same bytes."""
    from handouts.workbook.saving import save
    from handouts.workbook.starter import starter

    save(starter(words, imperial, rows, settings, house, supplies), Path(path))


def write_marked(path: Path, copy: Path, problems: Sequence[Problem]) -> None:
    """Writes a copy (.xlsx) with each finding coloured and told in its cell. Raises HandoutsError for the book's own path."""
    from handouts.workbook.marked import write_marked as write

    write(Path(path), Path(copy), problems)


def table_bytes(table: Table, letter: bool = False) -> bytes:
    """A table as the bytes of an .xlsx workbook, ready to print on A4 or Letter. Same table, same bytes."""
    from handouts.workbook.saving import book_bytes
    from handouts.workbook.table import table_book

    return book_bytes(table_book(table, letter))


def write_example(path: Path, words: Words, imperial: bool = False) -> None:
    """Writes the example class (outerwear and its linings, twelve cloths)."""
    from handouts.workbook.examples import outerwear
    from handouts.workbook.saving import save

    save(outerwear(words, imperial), Path(path))


def example_books(words: Words) -> dict[str, bytes]:
    """Every workbook that comes with the project, as bytes by file name: what the folder workbooks/ should hold."""
    from handouts.workbook.examples import examples

    return examples(words)
