"""The fonts of the pages: what they can print, how wide it is, and which of them prints which characters."""

from __future__ import annotations

import unicodedata
from functools import cache

from handouts.printing.look import fonts_folder, part

FRACTIONS = frozenset("¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞")
MISSING = "?"


@cache
def face(kind: str) -> str:
    """The name reportlab knows the font by; registers it the first time. kind: regular, bold or spare."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    path = fonts_folder() / part("fonts")[kind]["file"]
    pdfmetrics.registerFont(TTFont(path.stem, str(path)))
    return path.stem


@cache
def coverage(kind: str) -> frozenset[int]:
    """The code points a font can print."""
    from reportlab.pdfbase import pdfmetrics

    return frozenset(pdfmetrics.getFont(face(kind)).face.charToGlyph)


@cache
def clean(text: str) -> str:
    """The text as it can be set: composed (NFC), every white space but the no-break one a space, control characters gone."""
    if text.isascii() and text.isprintable():
        return text
    spaced = "".join(" " if c.isspace() and c != "\u00a0" else c for c in unicodedata.normalize("NFC", text))
    return "".join(c for c in spaced if not unicodedata.category(c).startswith("C"))


def missing_glyphs(text: str) -> set[str]:
    """The characters of `text` that no font of ours can print; a page shows a plain question mark for each."""
    if text.isascii() and text.isprintable():  # quick for lists of thousands: every font has these
        return set()
    return {c for c in clean(text) if ord(c) not in coverage("regular") and ord(c) not in coverage("spare")}


def _kind(char: str, bold: bool) -> str:
    main = "bold" if bold else "regular"
    return main if ord(char) in coverage(main) else "spare"


@cache
def runs(text: str, bold: bool, size: float) -> tuple[tuple[str, float, str], ...]:
    """The text as (font name, size in points, characters): spare where the main font lacks a sign, fractions never too small."""
    missing = missing_glyphs(text)
    found: list[tuple[str, float, str]] = []
    for char in clean(text):
        printed = MISSING if char in missing else char
        points = max(size, part("text")["fraction_pt"]) if char in FRACTIONS else size
        font = face(_kind(printed, bold))
        if found and found[-1][:2] == (font, points):
            found[-1] = (font, points, found[-1][2] + printed)
        else:
            found.append((font, points, printed))
    return tuple(found)


@cache
def width(text: str, bold: bool, size: float) -> float:
    """How wide the text prints, in points."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    return sum(stringWidth(characters, font, points) for font, points, characters in runs(text, bold, size))
