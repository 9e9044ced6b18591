"""Workbooks are packed archives: refuses the ones that would unpack to something enormous, before anything is unpacked."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from pathlib import Path

from handouts.workbook.grid import Unreadable
from handouts.workbook.limits import FILE

TEXTS = (".xml", ".rels", ".vml", ".bin")


class SheetTooBig(Exception):
    """A sheet holds, or says that it holds, more than can be read."""


def open_packed(path: Path) -> zipfile.ZipFile:
    """The archive, its declared sizes checked. Raises Unreadable."""
    try:
        book = zipfile.ZipFile(path)
    except Exception as error:  # a damaged archive fails in many ways, each of them the file's fault
        raise Unreadable("file-damaged", name=path.name) from error
    code = _fault(book.infolist())
    if code:
        book.close()
        raise Unreadable(code, name=path.name)
    return book


def _fault(parts: list[zipfile.ZipInfo]) -> str:
    """The code of what speaks against unpacking, or nothing."""
    texts = [part for part in parts if part.filename.lower().endswith(TEXTS)]
    unpacked = sum(part.file_size for part in texts)
    packed = sum(part.compress_size for part in texts) or 1
    shared = max((part.file_size for part in texts if "sharedstrings" in part.filename.lower()), default=0)
    bomb = unpacked > FILE["bomb_bytes"] and unpacked / packed > FILE["bomb_ratio"]
    too_big = unpacked > FILE["most_unpacked_bytes"] or shared > FILE["most_shared_bytes"]
    if bomb or too_big or len(parts) > FILE["most_parts"]:
        return "file-too-big"
    if any(part.flag_bits & 1 for part in parts):
        return "file-encrypted"
    names = {part.filename.casefold() for part in parts}
    return "" if len(names) == len(parts) else "file-damaged"  # two parts of one name: two readers may see two things


def pieces(source: zipfile.ZipFile | bytes, part: str, ends: tuple[bytes, ...]) -> Iterator[bytes]:
    """The bytes of a part (or the part's bytes), a piece at a time, each cut after the last of the first of `ends` in it."""
    rest = b""
    with io.BytesIO(source) if isinstance(source, bytes) else source.open(part) as file:
        while block := file.read(FILE["piece_bytes"]):
            rest += block
            cut = next((rest.rfind(end) + len(end) for end in ends if end in rest), 0)
            if cut:
                yield rest[:cut]
                rest = rest[cut:]
            elif len(rest) > FILE["most_piece_bytes"]:
                raise SheetTooBig
    yield rest
