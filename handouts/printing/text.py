"""Paragraphs: spans of styled text broken into lines that fit a width. Measured with the fonts that print them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from handouts.printing.fonts import clean, width
from handouts.printing.look import Style


@dataclass(frozen=True)
class Span:
    """Text in one style."""

    text: str
    style: Style

    @property
    def width(self) -> float:
        """Printed width in points."""
        return width(self.text, self.style.bold, self.style.size)


Line = tuple[Span, ...]


def line_width(line: Line) -> float:
    """Printed width of a line in points."""
    return sum(span.width for span in line)


def line_height(line: Line) -> float:
    """Line distance in points: the largest of its spans."""
    return max((span.style.leading for span in line), default=0.0)


def wrap(spans: Iterable[Span], most: float) -> list[Line]:
    """Lines no wider than `most` points. Breaks at spaces; inside a word only when the word alone is wider."""
    return list(_wrapped(tuple(spans), most))


@lru_cache(maxsize=1 << 16)
def _wrapped(spans: tuple[Span, ...], most: float) -> tuple[Line, ...]:
    lines: list[list[Span]] = []
    room = 0.0
    for word, joined in _words(spans):
        for piece, joins in _pieces(word, joined, most):
            space = 0.0 if joins or not lines or not lines[-1] else width(" ", piece.style.bold, piece.style.size)
            if not lines or room < space + piece.width - 1e-6:
                lines.append([])
                room, space = most, 0.0
            lines[-1].append(Span(" " + piece.text, piece.style) if space else piece)
            room -= space + piece.width
    return tuple(_merge(line) for line in lines)


def _words(spans: Iterable[Span]) -> list[tuple[Span, bool]]:
    """Every word with whether it follows the one before without a space."""
    words: list[tuple[Span, bool]] = []
    glued = False
    for span in spans:
        text = clean(span.text)
        for number, word in enumerate(text.split(" ")):
            if word:
                words.append((Span(word, span.style), glued and number == 0))
        glued = bool(text) and not text.endswith(" ")
    return words


def _pieces(word: Span, joined: bool, most: float) -> list[tuple[Span, bool]]:
    """The word, cut where it is wider than a whole line, after a hyphen if it has one; what is cut off joins what stands before."""
    if word.width <= most:
        return [(word, joined)]
    found: list[str] = []
    for part in breakable(word.text):
        start = 0
        for end in range(1, len(part) + 1):
            if end > start + 1 and width(part[start:end], word.style.bold, word.style.size) > most:
                found.append(part[start : end - 1])
                start = end - 1
        found.append(part[start:])
    return [(Span(text, word.style), joined if number == 0 else True) for number, text in enumerate(found)]


def breakable(word: str) -> list[str]:
    """The parts of a word that may go on lines of their own: it breaks after a hyphen or a slash."""
    return [part for part in re.split(r"(?<=[-/])", word) if part]


def _merge(line: list[Span]) -> Line:
    """Neighbours of one style as one span."""
    merged: list[Span] = []
    for span in line:
        if merged and merged[-1].style == span.style:
            merged[-1] = Span(merged[-1].text + span.text, span.style)
        else:
            merged.append(span)
    return tuple(merged)


def shrink(text: str, style: Style, least: float, most: float, lines: int = 1) -> Style:
    """The style at the largest size, in half points down to `least`, at which `text` takes `lines` lines and breaks no word."""
    size = style.size
    while size > least and not _fits(text, style, size, most, lines):
        size -= 0.5
    size = max(size, min(least, style.size))
    return Style(size, style.leading * size / style.size, style.bold, style.grey)


def _fits(text: str, style: Style, size: float, most: float, lines: int) -> bool:
    trial = Style(size, size, style.bold, style.grey)
    parts = [part for word in clean(text).split(" ") for part in breakable(word)]
    whole = all(width(part, style.bold, size) <= most for part in parts)
    return whole and len(wrap([Span(text, trial)], most)) <= lines
