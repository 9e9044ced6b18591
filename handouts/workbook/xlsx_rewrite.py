"""A sheet's text written again, regular: every cell says where it stands, within the sheet, and nothing else is in it.

For sheets whose text is unusual (other quotes, other encodings, cells that do not say where they stand, places that no
sheet has). The fast patterns and calamine then see the same thing.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Mapping
from xml.sax.saxutils import escape, quoteattr

from handouts.workbook.grid import Spot, column_number, letters
from handouts.workbook.limits import SHEET
from handouts.workbook.markup import parse, parser
from handouts.workbook.packed import SheetTooBig
from handouts.workbook.xlsx_scan import ERRORS

PLACE = re.compile(r"^([A-Za-z]{1,9})(\d{1,18})$")
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"


def rewritten(book: zipfile.ZipFile, part: str) -> tuple[bytes, list[Spot]]:
    """The text of a sheet, regular, and the first cells that stood where no sheet has any. Raises SheetTooBig."""
    sheet = _Sheet()
    made = parser(sheet.start, sheet.end)
    made.CharacterDataHandler = sheet.text
    with book.open(part) as file:
        parse(made, file)
    return sheet.bytes(), sheet.lost


class _Sheet:
    """Collects the sheet while it is being read."""

    def __init__(self) -> None:
        self.columns: list[str] = []
        self.lines: list[str] = []
        self.merged: list[str] = []
        self.lost: list[Spot] = []
        self.row, self.column, self.cells = 0, 0, 0
        self.about: Mapping[str, str] = {}
        self.value: list[str] = []
        self.formula = False
        self.open = ""

    def start(self, name: str, about: dict[str, str]) -> None:
        bare = name.rpartition(":")[2]
        if bare == "row":
            self._row(about)
        elif bare == "c":
            self._place(about)
        elif bare == "f":
            self.formula = True
        elif bare in ("v", "t"):
            self.open = self.open or bare
        elif bare == "rPh":  # how a word is spoken, not the word
            self.open = "rPh"
        elif bare == "col" and len(self.columns) < SHEET["most_spans"]:
            self.columns.append(f"<col{_attributes(about, ('min', 'max', 'hidden'))}/>")
        elif bare == "mergeCell" and len(self.merged) < SHEET["most_spans"]:
            self.merged.append(f"<mergeCell{_attributes(about, ('ref',))}/>")

    def text(self, text: str) -> None:
        if self.open in ("v", "t"):
            self.value.append(text)

    def end(self, name: str) -> None:
        bare = name.rpartition(":")[2]
        if bare == self.open:
            self.open = ""
        elif bare == "c":
            self._cell()
        elif bare == "row":
            self.lines.append("</row>")

    def bytes(self) -> bytes:
        """The whole sheet."""
        parts = (*self._head(), *self.lines, "</sheetData>", *self._tail(), "</worksheet>")
        return "".join(parts).encode()

    def _head(self) -> tuple[str, ...]:
        columns = ("<cols>", *self.columns, "</cols>") if self.columns else ()
        return (f'<worksheet xmlns="{MAIN}">', *columns, "<sheetData>")

    def _tail(self) -> tuple[str, ...]:
        return ("<mergeCells>", *self.merged, "</mergeCells>") if self.merged else ()

    def _row(self, about: Mapping[str, str]) -> None:
        said = about.get("r", "").strip()
        self.row = int(said) if said.isdigit() and len(said) < 19 else self.row + 1
        self.column = 0
        hidden = _attributes(about, ("hidden",))
        self.lines.append(f'<row r="{min(self.row, SHEET["most_rows"])}"{hidden}>')

    def _place(self, about: Mapping[str, str]) -> None:
        said = PLACE.match(about.get("r", "").strip())
        self.row = int(said[2]) if said else max(1, self.row)
        self.column = column_number(said[1].upper()) if said else self.column + 1
        self.about, self.value, self.formula = about, [], False

    def _cell(self) -> None:
        if not self.value and not self.formula:
            return
        if self.row > SHEET["most_rows"] or self.column > SHEET["most_columns"] or self.row < 1:
            self.lost = self.lost or [(self.row, self.column)]
            return
        self.cells += 1
        if self.cells > SHEET["most_cells"]:
            raise SheetTooBig
        place = f' r="{letters(self.column)}{self.row}"' + _attributes(self.about, ("s", "t"))
        formula = "<f></f>" if self.formula else ""
        value = escape("".join(self.value))
        if self.about.get("t") == "e" and value not in ERRORS:
            value = "#N/A"  # newer kinds, like #SPILL!
        inside = f"<is><t>{value}</t></is>" if self.about.get("t") == "inlineStr" else f"<v>{value}</v>"
        self.lines.append(f"<c{place}>{formula}{inside}</c>")


def _attributes(about: Mapping[str, str], names: tuple[str, ...]) -> str:
    return "".join(f" {name}={_quoted(about[name])}" for name in names if name in about)


def _quoted(text: str) -> str:
    """In double quotes, whatever is in it."""
    quoted = quoteattr(text.replace('"', ""))
    return quoted if quoted.startswith('"') else '""'
