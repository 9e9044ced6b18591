"""Builds containers of before 2007 for the tests: an old workbook record by record, a locked new one."""

from __future__ import annotations

import struct
from collections.abc import Mapping, Sequence

SECTOR, FREE, END, TABLE = 512, 0xFFFFFFFF, 0xFFFFFFFE, 0xFFFFFFFD
BOF, EOF, BOUNDSHEET, LABEL, NUMBER, FILEPASS = 0x0809, 0x000A, 0x0085, 0x0204, 0x0203, 0x002F


def container(streams: Mapping[str, bytes]) -> bytes:
    """An office container that holds these streams ([MS-CFB]): header, sector table, directory, streams."""
    bodies = [data.ljust(4096, b"\0") for data in streams.values()]
    counts = [-(-len(body) // SECTOR) for body in bodies]
    directory = -(-(len(streams) + 1) * 128 // SECTOR)
    tables = 1
    while tables * SECTOR // 4 < tables + directory + sum(counts):
        tables += 1
    chains, firsts = _chains(tables, directory, counts)
    table = struct.pack(f"<{len(chains)}I", *chains).ljust(tables * SECTOR, b"\xff")
    entries = _entry("Root Entry", 5, END, 0) + b"".join(
        _entry(name, 2, first, len(body)) for name, first, body in zip(streams, firsts, bodies, strict=True)
    )
    padded = [body.ljust(count * SECTOR, b"\0") for body, count in zip(bodies, counts, strict=True)]
    return _header(tables) + table + entries.ljust(directory * SECTOR, b"\0") + b"".join(padded)


def _chains(tables: int, directory: int, counts: Sequence[int]) -> tuple[list[int], list[int]]:
    """The sector table and the first sector of each stream."""
    chains = [TABLE] * tables + [*range(tables + 1, tables + directory), END]
    firsts = []
    for count in counts:
        firsts.append(len(chains))
        chains += [*range(len(chains) + 1, len(chains) + count), END]
    return chains, firsts


def _header(tables: int) -> bytes:
    head = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(16) + struct.pack("<5H", 0x3E, 3, 0xFFFE, 9, 6)
    head += bytes(6) + struct.pack("<9I", 0, tables, tables, 0, 4096, END, 0, END, 0)
    places = [*range(tables), *[FREE] * (109 - tables)]
    return head + struct.pack("<109I", *places)


def _entry(name: str, kind: int, first: int, size: int) -> bytes:
    wide = (name + "\0").encode("utf-16-le")
    body = wide.ljust(64, b"\0") + struct.pack("<HBB3I", len(wide), kind, 1, FREE, FREE, 1 if kind == 5 else FREE)
    return body + bytes(36) + struct.pack("<3I", first, size, 0)


def record(kind: int, body: bytes) -> bytes:
    """One record of an old workbook."""
    return struct.pack("<HH", kind, len(body)) + body


def label(row: int, column: int, text: str) -> bytes:
    """A text cell; row and column from 0."""
    return record(LABEL, struct.pack("<3HHB", row, column, 0, len(text), 0) + text.encode("latin-1"))


def old_book(cells: bytes, extra: bytes = b"", title: str = "Fabrics") -> bytes:
    """An .xls with one sheet of these cell records ([MS-XLS]); `extra` are further records of the workbook itself."""
    start = record(BOF, struct.pack("<4H2I", 0x0600, 5, 0, 0, 0, 0)) + extra
    sheet = struct.pack("<IBBBB", 0, 0, 0, len(title), 0) + title.encode("latin-1")
    at = len(start) + len(record(BOUNDSHEET, sheet)) + len(record(EOF, b""))
    named = record(BOUNDSHEET, struct.pack("<I", at) + sheet[4:])
    body = record(BOF, struct.pack("<4H2I", 0x0600, 0x10, 0, 0, 0, 0)) + cells + record(EOF, b"")
    return container({"Workbook": start + named + record(EOF, b"") + body})


def lines(rows: Sequence[Sequence[str]]) -> bytes:
    """Cell records of these texts."""
    return b"".join(label(row, column, text) for row, line in enumerate(rows) for column, text in enumerate(line))
