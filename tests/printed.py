"""Printed pages looked at by another program (pdfplumber): words, boxes, lines, fonts."""

from __future__ import annotations

from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber

from handouts import pages, printing
from tests.fabric_parts import knowledge
from tests.fabrics_by_hand import workshop

MM = 72 / 25.4
SHEETS = [("both", "A4"), ("imperial", "Letter"), ("metric", "A4")]


@cache
def printed(kind: str, units: str, paper: str, two_sided: bool = False) -> printing.Printed:
    """The by-hand class as cards or binder pages."""
    return printing.print_pages(markup(kind, units, paper, two_sided))


@cache
def markup(kind: str, units: str, paper: str, two_sided: bool = False) -> str:
    """Its page markup."""
    made = workshop(units=units, paper=paper)
    return pages.cards(made, knowledge()) if kind == "cards" else pages.binder(made, knowledge(), two_sided)


@cache
def seen(pdf: bytes) -> list[dict[str, Any]]:
    """Per page: width, height, words (with size and font), lines, rects."""
    found = []
    with pdfplumber.open(BytesIO(pdf)) as book:
        for page in book.pages:
            words = page.extract_words(extra_attrs=["size", "fontname"], keep_blank_chars=False, x_tolerance=1)
            plain = page.extract_words(x_tolerance=1)
            found.append(
                {
                    "width": page.width,
                    "height": page.height,
                    "words": words,
                    "plain": plain,
                    "lines": page.lines,
                    "rects": page.rects,
                    "curves": page.curves,
                }
            )
    return found


def text_of(page: dict[str, Any]) -> str:
    """The words of a page, line by line."""
    return " ".join(word["text"] for word in page["plain"])
