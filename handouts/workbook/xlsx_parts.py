"""Which part of an .xlsx holds which sheet, and which of its cell styles show percents."""

from __future__ import annotations

import posixpath
import re
import zipfile
from collections.abc import Mapping

from handouts.workbook.markup import Element, elements

PERCENTS_BUILT_IN = frozenset({"9", "10"})  # ECMA-376 part 1, 18.8.30: 0% and 0.00%
LITERAL = re.compile(r'"[^"]*"|\\.|\[[^\]]*\]')


def parts_of(book: zipfile.ZipFile) -> dict[str, str]:
    """Sheet title → name of the part that holds it, in the workbook's own order. Raises ValueError when two share one."""
    home = _home(book)
    targets = {link.get("Id"): link.get("Target", "") for link in _links(book, _links_of(home))}
    names = {name.casefold(): name for name in book.namelist()}
    found: dict[str, str] = {}
    for sheet in _read(book, home, "sheet"):
        link = next((value for key, value in sheet.about.items() if key.rpartition(":")[2] == "id"), "")
        part = names.get(_resolve(home, targets.get(link, "")).casefold(), "")
        if part and "chartsheet" not in part:
            if part in found.values():
                raise ValueError("two sheets in one part")
            found[sheet.about.get("name", "")] = part
    return found


def percent_styles(book: zipfile.ZipFile) -> frozenset[int]:
    """Indexes of the cell styles whose number format shows a percent."""
    part = _resolve(_home(book), "styles.xml")
    if part not in book.namelist():
        return frozenset()
    found = _read(book, part, "numFmt", "xf")
    own = {one.about.get("numFmtId"): one.about.get("formatCode", "") for one in found if one.name == "numFmt"}
    percents = {number for number, code in own.items() if "%" in LITERAL.sub("", code)}
    percents |= PERCENTS_BUILT_IN - own.keys()
    formats = [one.about.get("numFmtId") for one in found if one.name == "xf" and one.parent == "cellXfs"]
    return frozenset(index for index, number in enumerate(formats) if number in percents)


def _home(book: zipfile.ZipFile) -> str:
    """The part that lists the sheets, as the package's own links say."""
    links = _links(book, "_rels/.rels")
    home = next((link.get("Target", "") for link in links if link.get("Type", "").endswith("/officeDocument")), "")
    return home.lstrip("/") or "xl/workbook.xml"


def _links(book: zipfile.ZipFile, part: str) -> list[Mapping[str, str]]:
    return [one.about for one in _read(book, part, "Relationship")] if part in book.namelist() else []


def _links_of(part: str) -> str:
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", name + ".rels")


def _resolve(home: str, target: str) -> str:
    return (
        target.lstrip("/")
        if target.startswith("/")
        else posixpath.normpath(posixpath.join(posixpath.dirname(home), target))
    )


def _read(book: zipfile.ZipFile, part: str, *names: str) -> list[Element]:
    with book.open(part) as file:
        return elements(file, names)
