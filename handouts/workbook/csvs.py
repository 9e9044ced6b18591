"""Reads .csv: finds out the encoding and the separator."""

from __future__ import annotations

import codecs
import csv
import io
from pathlib import Path

from handouts.workbook.grid import Grid, Unreadable, filled_rows
from handouts.workbook.headings import POINTS, best_fit
from handouts.workbook.limits import CELL, FILE, SHEET
from handouts.workbook.packed import SheetTooBig

SEPARATORS = (",", ";", "\t", "|")
SURE = 2 * POINTS["exact"]  # two headings
OFTEN = frozenset("éèêëàâäáåæçñöôóòøùüûúßíìîïœÉÈÀÄÖÜÅÆØÇÑ°²³½¼¾–—“”‘’„…€£×±·«»")
NEVER_IN_TEXT = frozenset(map(chr, (*range(9), 11, 12, *range(14, 32))))


def read_csv(path: Path) -> list[Grid]:
    """The one sheet of a text file, its title the file's name. Raises Unreadable."""
    data = path.read_bytes()
    if len(data) > FILE["most_text_bytes"]:
        raise Unreadable("file-too-big", name=path.name)
    text = decoded(data)
    strange = sum(text.count(sign) for sign in NEVER_IN_TEXT)
    if strange > max(8, len(text) // 500):
        raise Unreadable("file-not-a-workbook", name=path.name, what="data of some other program")
    try:
        rows = _rows(text)
    except SheetTooBig as error:
        raise Unreadable("file-too-big", name=path.name) from error
    except csv.Error as error:
        raise Unreadable("file-damaged", name=path.name) from error
    return [Grid(path.stem[:31], filled_rows(rows))]


def decoded(data: bytes) -> str:
    """The text of a file in utf-8, utf-16, utf-32, the Windows or the old Mac Western encoding."""
    if data.startswith((codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE)):
        return data.decode("utf-32", "replace")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", "replace")
    zeros = data[:4000].count(b"\0")
    if zeros > len(data[:4000]) // 4:
        return data.decode("utf-16-be" if data[:1] == b"\0" else "utf-16-le", "replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        readings = [data.decode(name, "replace") for name in ("cp1252", "mac_roman", "latin-1")]
        return max(readings, key=_likely)


def _likely(text: str) -> int:
    """Letters and signs that people write, less those that come from a wrong guess. Ties go to the first."""
    signs = [sign for sign in text if sign > "\x7f"]
    return sum(1 if sign in OFTEN else -2 if sign == "\ufffd" else -1 for sign in signs)


def one_cell_lines(grid: Grid) -> str:
    """The separator of a sheet whose every line stands in one cell, as when a text file was opened the wrong way; else nothing."""
    lines = [cells[0] for cells in grid.rows.values() if isinstance(cells[0], str)]
    if any(cell is not None for cells in grid.rows.values() for cell in cells[1:]):
        return ""
    heads = {sign: best_fit([line.split(sign) for line in lines[: SHEET["heading_rows"]]]) for sign in SEPARATORS}
    best = max(SEPARATORS, key=lambda sign: heads[sign])
    return best if heads[best] >= SURE else ""


def _rows(text: str) -> list[list[str]]:
    """The rows, split at the separator whose headings make most sense."""
    text = text.lstrip("\ufeff").replace("\0", "").rstrip("\x1a")
    named = text[:10].lower().startswith("sep=")
    if named:
        first, _, rest = text.partition("\n")
        found = _split(rest, first.strip()[4:5] or "\t", SHEET["most_fabrics"])
        return found
    best = max(SEPARATORS, key=lambda sign: _fit(text, sign))
    return _split(text, best, SHEET["most_fabrics"])


def _fit(text: str, separator: str) -> tuple[int, int]:
    start = text[: CELL["most_in_file"]]
    try:
        rows = _split(start, separator, SHEET["heading_rows"])
    except (csv.Error, SheetTooBig):
        return -1, 0
    return best_fit(rows), len(rows[0]) if rows else 0


def _lines(text: str) -> io.TextIOWrapper:
    """The lines of a text, one at a time, their ends kept: a line break inside quotes belongs to its cell."""
    return io.TextIOWrapper(io.BytesIO(text.encode("utf-8", "replace")), "utf-8", newline="")


def _split(text: str, separator: str, most: int) -> list[list[str]]:
    csv.field_size_limit(CELL["most_in_file"])
    reader = csv.reader(_lines(text), delimiter=separator, skipinitialspace=True)
    rows, cells = [], 0
    for row in reader:
        rows.append(row[: SHEET["most_columns"]])
        cells += len(row)
        if cells > SHEET["most_cells"]:
            raise SheetTooBig
        if len(rows) >= most + SHEET["heading_rows"]:
            break
    return rows
