"""Which part of an .xlsx holds which sheet, and which of its cell styles show percents."""

from __future__ import annotations

import posixpath
import re
import zipfile
from collections.abc import Iterator
from xml.etree.ElementTree import Element

PERCENTS_BUILT_IN = frozenset({9, 10})  # ECMA-376 part 1, 18.8.30: 0% and 0.00%
REL = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
STRICT_REL = "{http://purl.oclc.org/ooxml/officeDocument/relationships}id"
LITERAL = re.compile(r'"[^"]*"|\\.|\[[^\]]*\]')


def parts_of(book: zipfile.ZipFile) -> dict[str, str]:
    """Sheet title → name of the part that holds it, in the workbook's own order."""
    home = _home(book)
    targets = {link.get("Id"): link.get("Target", "") for link in _read(book, _links_of(home)).iter()}
    found = {}
    for sheet in _every(_read(book, home), "sheet"):
        target = targets.get(sheet.get(REL) or sheet.get(STRICT_REL), "")
        part = _resolve(home, target)
        if part in book.namelist() and "chartsheet" not in part:
            found[sheet.get("name", "")] = part
    return found


def percent_styles(book: zipfile.ZipFile) -> frozenset[int]:
    """Indexes of the cell styles whose number format shows a percent."""
    part = _resolve(_home(book), "styles.xml")
    if part not in book.namelist():
        return frozenset()
    styles = _read(book, part)
    own = {f.get("numFmtId"): f.get("formatCode", "") for f in _every(styles, "numFmt")}
    percents = {number for number, code in own.items() if "%" in LITERAL.sub("", code)}
    percents |= {str(number) for number in PERCENTS_BUILT_IN if str(number) not in own}
    formats = [xf.get("numFmtId") for block in _every(styles, "cellXfs") for xf in block]
    return frozenset(index for index, number in enumerate(formats) if number in percents)


def _home(book: zipfile.ZipFile) -> str:
    """The part that lists the sheets, as the package's own links say."""
    if "_rels/.rels" in book.namelist():
        for link in _read(book, "_rels/.rels").iter():
            if link.get("Type", "").endswith("/officeDocument"):
                return link.get("Target", "").lstrip("/")
    return "xl/workbook.xml"


def _links_of(part: str) -> str:
    folder, name = posixpath.split(part)
    return posixpath.join(folder, "_rels", name + ".rels")


def _resolve(home: str, target: str) -> str:
    return target.lstrip("/") if target.startswith("/") else posixpath.normpath(posixpath.join(posixpath.dirname(home), target))


def _read(book: zipfile.ZipFile, part: str) -> Element:
    from defusedxml.ElementTree import fromstring

    root: Element = fromstring(book.read(part))
    return root


def _every(root: Element, name: str) -> Iterator[Element]:
    return (element for element in root.iter() if element.tag.rpartition("}")[2] == name)
