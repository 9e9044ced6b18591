"""What a sheet's own text says that its values do not: hidden rows, percent formats, errors, formulas without a result.

Works on bytes with patterns, a piece at a time: a sheet of a million blank formatted rows takes about a second.
"""

from __future__ import annotations

import re
import zipfile
from dataclasses import dataclass, field
from functools import cached_property

from handouts.workbook.grid import Block, Look, Spot, blank_after, column_number
from handouts.workbook.limits import SHEET
from handouts.workbook.packed import pieces

ROW_ENDS = (b"row>", b"/>")
CELL = re.compile(rb'<(?:\w+:)?c\s(?:[^>]*?\s)?r="([A-Z]{1,4})(\d{1,9})"[^>]*(?<!/)>')
SPOT = re.compile(rb'\br="([A-Z]{1,4})(\d{1,9})"')
BARE = re.compile(rb"<(?:\w+:)?c(?:\s(?![^>]*\br=)[^>]*)?>")
ROW = re.compile(rb"<(?:\w+:)?row\b([^>]*)>")
COLUMN = re.compile(rb"<(?:\w+:)?col\b([^>]*)>")
ERROR = re.compile(rb'<(?:\w+:)?c\s([^>]*\bt="e"[^>]*)>(.*?)</(?:\w+:)?c>', re.S)
FORMULA = re.compile(
    rb"<(?:\w+:)?c(\s[^>]*)?(?<!/)>\s*<(?:\w+:)?f\b(?:[^>]*/>|[^>]*>[^<]*</(?:\w+:)?f>)\s*"
    rb"(?:<(?:\w+:)?v\s*/>|<(?:\w+:)?v>\s*</(?:\w+:)?v>)?\s*</(?:\w+:)?c>"
)
VALUE = re.compile(rb"<(?:\w+:)?v>([^<]*)<")
MERGE = re.compile(rb'<(?:\w+:)?mergeCell\s[^>]*\bref="([A-Z]{1,3})(\d{1,7}):([A-Z]{1,3})(\d{1,7})"')
HIDDEN = re.compile(rb'\bhidden="(?:1|true|on)"')
NUMBER = {name: re.compile(rb"\b" + name + rb'="(\d{1,9})"') for name in (b"r", b"min", b"max")}


@dataclass
class Scan:
    """What was seen of one sheet. first_in_row, first_in_column: the first filled cell there, as the text spells it."""

    title: str
    first_in_row: dict[bytes, bytes] = field(default_factory=dict)
    first_in_column: dict[bytes, bytes] = field(default_factory=dict)
    cells: int = 0
    widest_bare: int = 0
    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    merged: list[Block] = field(default_factory=list)
    errors: dict[Spot, str] = field(default_factory=dict)
    stale: set[Spot] = field(default_factory=set)
    percent: set[Spot] = field(default_factory=set)

    @cached_property
    def rows(self) -> dict[int, int]:
        """Rows that hold something, each with the column of its first filled cell."""
        return {int(row): column_number(column.decode()) for row, column in self.first_in_row.items()}

    @cached_property
    def columns(self) -> dict[int, int]:
        """Columns that hold something, each with the row of its first filled cell."""
        return {column_number(column.decode()): int(row) for column, row in self.first_in_column.items()}

    def bounds(self) -> Spot:
        """The last row and column of the block of filled cells, strays left out."""
        return blank_after(self.rows, SHEET["gap_rows"]), blank_after(self.columns, SHEET["gap_columns"])

    def whole_area(self) -> int:
        """Cells in the block that holds every filled cell."""
        return max(self.rows, default=0) * max(self.widest_bare, *self.columns, 0)

    @property
    def far(self) -> tuple[Spot, ...]:
        """The strays that make the block too large to read, the first of each row or column; none when it is not."""
        if self.whole_area() <= SHEET["most_area"]:
            return ()
        last_row, last_column = self.bounds()
        strays = {(row, column) for row, column in self.rows.items() if row > last_row}
        return tuple(sorted(strays | {(row, column) for column, row in self.columns.items() if column > last_column}))

    def too_big(self) -> bool:
        """Whether there is more than can be read even without the strays."""
        last_row, last_column = self.bounds()
        block = last_row * max(last_column, self.widest_bare)
        return self.cells > SHEET["most_cells"] or block > SHEET["most_area"]

    def look(self) -> Look:
        """The same, as a Grid carries it."""
        return Look(
            frozenset(self.hidden_rows & self.rows.keys()),
            frozenset(self.hidden_columns),
            tuple(self.merged),
            dict(self.errors),
            frozenset(self.stale),
            frozenset(self.percent),
            self.far,
        )


def scan_sheet(book: zipfile.ZipFile, part: str, title: str, percents: frozenset[int]) -> Scan:
    """What the text of one sheet says. `percents` are the styles that show a percent."""
    scan = Scan(title)
    percent = _percent_pattern(percents)
    for piece in pieces(book, part, ROW_ENDS):
        _scan_frame(scan, piece)
        if b"</" in piece and (b"v>" in piece or b"is>" in piece or b"<f" in piece or b":f" in piece):
            _scan_cells(scan, piece, percent)
            if scan.cells > SHEET["most_cells"]:
                break
    return scan


def _percent_pattern(styles: frozenset[int]) -> re.Pattern[bytes] | None:
    if not styles:
        return None
    any_of = "|".join(str(style) for style in sorted(styles)).encode()
    return re.compile(rb'<(?:\w+:)?c\s([^>]*\bs="(?:' + any_of + rb')"[^>]*)(?<!/)>')


def _scan_frame(scan: Scan, piece: bytes) -> None:
    """Hidden rows and columns and merged blocks."""
    if b"hidden=" in piece:
        scan.hidden_rows |= {_number(b"r", row) for row in ROW.findall(piece) if HIDDEN.search(row)}
        for column in COLUMN.findall(piece):
            if HIDDEN.search(column):
                last = min(_number(b"max", column), SHEET["most_columns"])
                scan.hidden_columns |= set(range(_number(b"min", column), last + 1))
    if b"mergeCell" in piece:
        for left, top, right, bottom in MERGE.findall(piece):
            block = (int(top), column_number(left.decode()), int(bottom), column_number(right.decode()))
            scan.merged.append(block)


def _number(name: bytes, text: bytes) -> int:
    found = NUMBER[name].search(text)
    return int(found[1]) if found else 0


def _scan_cells(scan: Scan, piece: bytes, percent: re.Pattern[bytes] | None) -> None:
    found = CELL.findall(piece)
    scan.cells += len(found)
    for column, row in found:
        scan.first_in_row.setdefault(row, column)
        scan.first_in_column.setdefault(column, row)
    _count_bare(scan, piece)
    if b'"e"' in piece:
        scan.errors |= {_spot(cell): _text(inside) for cell, inside in ERROR.findall(piece)}
    if b"<f" in piece or b":f" in piece:
        scan.stale |= {_spot(cell) for cell in FORMULA.findall(piece) if b't="str"' not in cell}
    if percent:
        scan.percent |= {_spot(cell) for cell in percent.findall(piece)}


def _count_bare(scan: Scan, piece: bytes) -> None:
    """Cells that do not say where they stand: at most as many columns as the fullest row has of them."""
    if BARE.search(piece):
        counts = [len(BARE.findall(row)) for row in piece.split(b"<row")]
        scan.widest_bare = max(scan.widest_bare, *counts)
        scan.cells += sum(counts)
        for row in ROW.findall(piece):
            scan.first_in_row.setdefault(b"%d" % _number(b"r", row), b"A")


def _spot(cell: bytes) -> Spot:
    found = SPOT.search(cell)
    return (int(found[2]), column_number(found[1].decode())) if found else (0, 0)


def _text(inside: bytes) -> str:
    found = VALUE.search(inside)
    return found[1].decode("utf-8", "replace")[:20] if found else ""
