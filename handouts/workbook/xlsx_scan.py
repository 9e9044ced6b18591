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
from handouts.workbook.packed import SheetTooBig, pieces

ROW_ENDS = (b"row>", b"/>")
FILLED = re.compile(rb"<(?:\w+:)?(?:v|is|f)\b")
CELL = re.compile(rb'<(?:\w+:)?c\s(?:[^>]*?\s)??r="([A-Z]{1,3})([1-9]\d{0,6})"[^>/]*(/?)>')
ANY_CELL = re.compile(rb"<(?:\w+:)?c[\s/>]")
SPOT = re.compile(rb'\br="([A-Z]{1,3})([1-9]\d{0,6})"')
ANY_ROW = re.compile(rb"<(?:\w+:)?row[\s/>]")
GOOD_ROW = re.compile(rb'<(?:\w+:)?row\s(?:[^>]*?\s)?r="[1-9]\d{0,6}"')
ROW = re.compile(rb"<(?:\w+:)?row\b([^>]*)>")
COLUMN = re.compile(rb"<(?:\w+:)?col\b([^>]*)>")
ERROR = re.compile(rb'<(?:\w+:)?c\s([^>]*\bt="e"[^>]*)>(.*?)</(?:\w+:)?c>', re.S)
FORMULA = re.compile(
    rb"<(?:\w+:)?c(\s[^>]*)?(?<!/)>\s*<(?:\w+:)?f\b(?:[^>]*/>|[^>]*>[^<]*</(?:\w+:)?f>)\s*"
    rb"(?:<(?:\w+:)?v\s*/>|<(?:\w+:)?v>\s*</(?:\w+:)?v>)?\s*</(?:\w+:)?c>"
)
ERRORS = frozenset(
    {"#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"}
)  # the reader knows no newer kinds
VALUE = re.compile(rb"<(?:\w+:)?v>([^<]*)<")
MERGE = re.compile(rb'<(?:\w+:)?mergeCell\s[^>]*\bref="([A-Z]{1,3})(\d{1,7}):([A-Z]{1,3})(\d{1,7})"')
HIDDEN = re.compile(rb'\bhidden="(?:1|true|on)"')
NUMBER = {name: re.compile(rb"\b" + name + rb'="(\d{1,9})"') for name in (b"r", b"min", b"max")}


@dataclass
class Scan:
    """What was seen of one sheet. first_in_row, first_in_column: the first filled cell there, as the text spells it.

    regular: every row and cell says where it stands, the way nearly all programs write it.
    """

    title: str
    regular: bool = True
    first_in_row: dict[bytes, bytes] = field(default_factory=dict)
    first_in_column: dict[bytes, bytes] = field(default_factory=dict)
    cells: int = 0
    hidden_rows: set[int] = field(default_factory=set)
    hidden_spans: list[tuple[int, int]] = field(default_factory=list)
    merged: list[Block] = field(default_factory=list)
    errors: dict[Spot, str] = field(default_factory=dict)
    stale: set[Spot] = field(default_factory=set)
    percent: set[Spot] = field(default_factory=set)
    lost: list[Spot] = field(default_factory=list)

    @cached_property
    def rows(self) -> dict[int, int]:
        """Rows that hold something, each with the column of its first filled cell."""
        return {int(row): column_number(column.decode()) for row, column in self.first_in_row.items()}

    @cached_property
    def columns(self) -> dict[int, int]:
        """Columns that hold something, each with the row of its first filled cell."""
        return {column_number(column.decode()): int(row) for column, row in self.first_in_column.items()}

    def bounds(self) -> Spot:
        """The last row and column that are read: all, unless strays make the block too large."""
        last = max(self.rows, default=0), max(self.columns, default=0)
        if last[0] * last[1] <= SHEET["most_area"]:
            return last
        return blank_after(self.rows, SHEET["gap_rows"]), blank_after(self.columns, SHEET["gap_columns"])

    def area(self) -> int:
        """Cells in the block that is read."""
        last_row, last_column = self.bounds()
        return last_row * last_column

    def strays(self) -> tuple[Spot, ...]:
        """The filled cells outside the block, the first of each row or column."""
        last_row, last_column = self.bounds()
        rows = {(row, column) for row, column in self.rows.items() if row > last_row}
        return tuple(sorted(rows | {(row, column) for column, row in self.columns.items() if column > last_column}))

    def look(self) -> Look:
        """The same, as a Grid carries it."""
        hidden = {column for column in self.columns if any(low <= column <= high for low, high in self.hidden_spans)}
        return Look(
            frozenset(self.hidden_rows & self.rows.keys()),
            frozenset(hidden),
            tuple(self.merged),
            dict(self.errors),
            frozenset(self.stale),
            frozenset(self.percent),
            (*self.strays(), *self.lost),
        )


def scan_sheet(source: zipfile.ZipFile | bytes, part: str, title: str, percents: frozenset[int]) -> Scan:
    """What the text of one sheet says. `percents` are the styles that show a percent. Raises SheetTooBig."""
    scan = Scan(title)
    percent = _percent_pattern(percents)
    for number, piece in enumerate(pieces(source, part, ROW_ENDS)):
        if number == 0 and b"<" not in piece[:1]:
            scan.regular = piece.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<")
        if b"\0" in piece or not scan.regular:
            scan.regular = False
            break
        _scan_frame(scan, piece)
        if FILLED.search(piece):
            _scan_cells(scan, piece, percent)
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
        spans = [
            (_number(b"min", column), _number(b"max", column))
            for column in COLUMN.findall(piece)
            if HIDDEN.search(column)
        ]
        scan.hidden_spans += spans[: SHEET["most_spans"]]
    if b"mergeCell" in piece:
        for left, top, right, bottom in MERGE.findall(piece)[: SHEET["most_spans"]]:
            block = (int(top), column_number(left.decode()), int(bottom), column_number(right.decode()))
            scan.merged.append(block)


def _number(name: bytes, text: bytes) -> int:
    found = NUMBER[name].search(text)
    return int(found[1]) if found else 0


def _scan_cells(scan: Scan, piece: bytes, percent: re.Pattern[bytes] | None) -> None:
    found = CELL.findall(piece)
    rows = len(GOOD_ROW.findall(piece))
    if len(found) != len(ANY_CELL.findall(piece)) or rows != len(ANY_ROW.findall(piece)):
        scan.regular = False
    for column, row, blank in found:
        if not blank:
            scan.cells += 1
            scan.first_in_row.setdefault(row, column)
            scan.first_in_column.setdefault(column, row)
    if scan.cells > SHEET["most_cells"]:
        raise SheetTooBig
    if b'"e"' in piece:
        scan.errors |= {_spot(cell): _text(inside) for cell, inside in ERROR.findall(piece)}
        scan.regular = scan.regular and ERRORS.issuperset(scan.errors.values())
    if b"<f" in piece or b":f" in piece:
        scan.stale |= {_spot(cell) for cell in FORMULA.findall(piece) if b't="str"' not in cell}
    if percent:
        scan.percent |= {_spot(cell) for cell in percent.findall(piece)}


def _spot(cell: bytes) -> Spot:
    found = SPOT.search(cell)
    return (int(found[2]), column_number(found[1].decode())) if found else (0, 0)


def _text(inside: bytes) -> str:
    found = VALUE.search(inside)
    return found[1].decode("utf-8", "replace")[:20] if found else ""
