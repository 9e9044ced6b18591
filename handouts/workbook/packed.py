"""Workbooks are packed archives: refuses the ones that would unpack to something enormous, before anything is unpacked."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from pathlib import Path

from handouts.workbook.grid import Unreadable
from handouts.workbook.limits import FILE

TEXTS = (".xml", ".rels", ".vml", ".bin")


def open_packed(path: Path) -> zipfile.ZipFile:
    """The archive, its declared sizes checked. Raises Unreadable."""
    try:
        book = zipfile.ZipFile(path)
    except Exception as error:  # a damaged archive fails in many ways, each of them the file's fault
        raise Unreadable("file-damaged", name=path.name) from error
    parts = [part for part in book.infolist() if part.filename.lower().endswith(TEXTS)]
    unpacked = sum(part.file_size for part in parts)
    packed = sum(part.compress_size for part in parts) or 1
    shared = max((part.file_size for part in parts if "sharedstrings" in part.filename.lower()), default=0)
    bomb = unpacked > FILE["bomb_bytes"] and unpacked / packed > FILE["bomb_ratio"]
    too_big = unpacked > FILE["most_unpacked_bytes"] or shared > FILE["most_shared_bytes"]
    if bomb or too_big or len(book.infolist()) > FILE["most_parts"]:
        book.close()
        raise Unreadable("file-too-big", name=path.name)
    if any(part.flag_bits & 1 for part in book.infolist()):
        book.close()
        raise Unreadable("file-encrypted", name=path.name)
    return book


def pieces(book: zipfile.ZipFile, part: str, ends: tuple[bytes, ...]) -> Iterator[bytes]:
    """The bytes of a part, a piece at a time, each cut after the last of the first of `ends` that it holds."""
    rest = b""
    with book.open(part) as file:
        while block := file.read(FILE["piece_bytes"]):
            rest += block
            cut = next((rest.rfind(end) + len(end) for end in ends if end in rest), 0)
            if cut:
                yield rest[:cut]
                rest = rest[cut:]
            elif len(rest) > FILE["most_piece_bytes"]:
                raise ValueError("a row without an end")
    yield rest
