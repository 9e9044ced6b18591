"""The container of old office files: a small file system of sectors and chains inside one file."""

from __future__ import annotations

import struct
from collections.abc import Iterator

END = 0xFFFFFFFA  # from here on a sector number is a sign, not a number


class OleFile:
    """The streams of a container by name: (first sector, bytes). Raises ValueError or struct.error for a broken one."""

    def __init__(self, data: bytes) -> None:
        self.data = data
        self.size = 1 << struct.unpack_from("<H", data, 30)[0]
        if self.size not in (512, 4096):
            raise ValueError("sector size")
        first_directory, _, _, first_mini, _ = struct.unpack_from("<5I", data, 48)
        self.table = self._sector_table()
        self.mini_table = list(_numbers(self._chain(first_mini)))
        self.streams: dict[str, tuple[int, int]] = {}
        self.mini = b""
        self._directory(self._chain(first_directory))

    def read(self, name: str) -> bytes:
        """The bytes of a stream."""
        first, length = self.streams[name]
        if length >= 4096:
            return self._chain(first)[:length]
        found = [self.mini[sector * 64 : sector * 64 + 64] for sector in _walk(first, self.mini_table)]
        return b"".join(found)[:length]

    def _sector(self, number: int) -> bytes:
        start = (number + 1) * self.size
        return self.data[start : start + self.size]

    def _sector_table(self) -> list[int]:
        numbers = [number for number in struct.unpack_from("<109I", self.data, 76) if number < END]
        more, count = struct.unpack_from("<2I", self.data, 68)
        for _ in range(min(count, len(self.data) // self.size)):
            if more >= END:
                break
            *block, more = _numbers(self._sector(more))
            numbers += [number for number in block if number < END]
        return [number for sector in numbers for number in _numbers(self._sector(sector))]

    def _chain(self, first: int) -> bytes:
        return b"".join(self._sector(sector) for sector in _walk(first, self.table))

    def _directory(self, entries: bytes) -> None:
        for start in range(0, len(entries) - 127, 128):
            length, kind = struct.unpack_from("<HB", entries, start + 64)
            name = entries[start : start + max(0, min(64, length) - 2)].decode("utf-16-le", "replace")
            first, size = struct.unpack_from("<2I", entries, start + 116)
            if kind == 5:
                self.mini = self._chain(first)
            elif kind == 2:
                self.streams[name] = (first, size)


def _numbers(block: bytes) -> tuple[int, ...]:
    return struct.unpack(f"<{len(block) // 4}I", block[: len(block) // 4 * 4])


def _walk(first: int, table: list[int]) -> Iterator[int]:
    """The sectors of a chain; a chain that bites its tail is broken."""
    seen = 0
    while first < END:
        if first >= len(table) or seen > len(table):
            raise ValueError("chain")
        yield first
        first, seen = table[first], seen + 1
