"""What an old workbook's records say that its values do not. Record numbers: the published binary format, [MS-XLS] 2.3."""

from __future__ import annotations

import struct
from collections.abc import Iterator
from dataclasses import dataclass, field

from handouts.workbook.grid import Block, Look, Spot

BOF, EOF, FILEPASS, BOUNDSHEET = 0x0809, 0x000A, 0x002F, 0x0085
FORMAT, XF, ROW, COLINFO, MERGECELLS = 0x041E, 0x00E0, 0x0208, 0x007D, 0x00E5
NUMBER, RK, MULRK, LABEL, LABELSST, BOOLERR, FORMULA = 0x0203, 0x027E, 0x00BD, 0x0204, 0x00FD, 0x0205, 0x0006
CELLS = (NUMBER, RK, MULRK, LABEL, LABELSST, BOOLERR, FORMULA)
PERCENTS_BUILT_IN = (9, 10)
ERRORS = {0: "#NULL!", 7: "#DIV/0!", 15: "#VALUE!", 23: "#REF!", 29: "#NAME?", 36: "#NUM!", 42: "#N/A"}


@dataclass
class OldSheet:
    """One sheet: the extent of its filled cells and what is special about some."""

    title: str
    start: int
    rows: int = 0
    columns: int = 0
    hidden_rows: set[int] = field(default_factory=set)
    hidden_columns: set[int] = field(default_factory=set)
    merged: list[Block] = field(default_factory=list)
    errors: dict[Spot, str] = field(default_factory=dict)
    percent: set[Spot] = field(default_factory=set)

    def look(self) -> Look:
        """The same, as a Grid carries it."""
        hidden = frozenset(self.hidden_rows), frozenset(self.hidden_columns)
        return Look(*hidden, tuple(self.merged), self.errors, frozenset(), frozenset(self.percent))


class Records:
    """Walks the stream once. Raises struct.error or ValueError for a broken one."""

    def __init__(self, stream: bytes) -> None:
        self.stream = stream
        self.encrypted = False
        self.formats: dict[int, str] = {}
        self.styles: list[int] = []
        self.sheets: list[OldSheet] = []
        for _, kind, body in self._records(0):
            self._global(kind, body)
            if kind == EOF:
                break
        percents = {n for n, code in self.formats.items() if "%" in code} | set(PERCENTS_BUILT_IN)
        self.percents = {index for index, number in enumerate(self.styles) if number in percents}
        for sheet in self.sheets:
            self._sheet(sheet)

    def _records(self, at: int) -> Iterator[tuple[int, int, bytes]]:
        while at + 4 <= len(self.stream):
            kind, length = struct.unpack_from("<HH", self.stream, at)
            yield at, kind, self.stream[at + 4 : at + 4 + length]
            at += 4 + length

    def _global(self, kind: int, body: bytes) -> None:
        if kind == FILEPASS:
            self.encrypted = True
        elif kind == BOUNDSHEET:
            start, _, _, length, wide = struct.unpack_from("<IBBBB", body)
            raw = body[8 : 8 + length * (1 + (wide & 1))]
            if start + 4 > len(self.stream):
                raise ValueError("a sheet beyond the end")
            self.sheets.append(OldSheet(raw.decode("utf-16-le" if wide & 1 else "latin-1", "replace"), start))
        elif kind == FORMAT:
            self.formats[struct.unpack_from("<H", body)[0]] = body[5:].decode("latin-1").replace("\0", "")
        elif kind == XF:
            self.styles.append(struct.unpack_from("<H", body, 2)[0])

    def _sheet(self, sheet: OldSheet) -> None:
        depth = 0
        for _, kind, body in self._records(sheet.start):
            depth += (kind == BOF) - (kind == EOF)
            if depth == 0:
                break
            if kind in CELLS:
                self._cell(sheet, kind, body)
            elif kind == ROW and struct.unpack_from("<H", body, 12)[0] & 0x20:
                sheet.hidden_rows.add(struct.unpack_from("<H", body)[0] + 1)
            elif kind == COLINFO and struct.unpack_from("<H", body, 8)[0] & 1:
                first, last = struct.unpack_from("<2H", body)
                sheet.hidden_columns |= set(range(first + 1, min(last, 255) + 2))
            elif kind == MERGECELLS:
                self._merged(sheet, body)

    def _cell(self, sheet: OldSheet, kind: int, body: bytes) -> None:
        row, column, style = struct.unpack_from("<3H", body)
        last = struct.unpack_from("<H", body, len(body) - 2)[0] if kind == MULRK else column
        sheet.rows, sheet.columns = max(sheet.rows, row + 1), max(sheet.columns, last + 1)
        spot = (row + 1, column + 1)
        if kind == BOOLERR and body[7]:
            sheet.errors[spot] = ERRORS.get(body[6], "#ERROR")
        elif kind == FORMULA and body[12:14] == b"\xff\xff" and body[6] == 2:
            sheet.errors[spot] = ERRORS.get(body[8], "#ERROR")
        if kind == MULRK:
            styles = [struct.unpack_from("<H", body, 4 + 6 * n)[0] for n in range((len(body) - 6) // 6)]
            sheet.percent |= {(row + 1, column + n + 1) for n, one in enumerate(styles) if one in self.percents}
        elif style in self.percents:
            sheet.percent.add(spot)

    def _merged(self, sheet: OldSheet, body: bytes) -> None:
        count = min(struct.unpack_from("<H", body)[0], (len(body) - 2) // 8)
        for top, bottom, left, right in struct.iter_unpack("<4H", body[2 : 2 + count * 8]):
            sheet.merged.append((top + 1, left + 1, bottom + 1, right + 1))
