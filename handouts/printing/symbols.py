"""Care symbols drawn from the standard's words in our own proportions. Printed only where the shop says it holds the right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import pi, sin

from handouts.printing.grid import length
from handouts.printing.ink import Ink
from handouts.printing.look import PT_PER_MM, Style, weight
from handouts.printing.pieces import Piece
from handouts.printing.text import Span, line_width

Point = tuple[float, float]
"""A place in a symbol: 0 to 1 from its left and from its top; below 1 are the bars."""
WAVES, STEPS = 2, 24
HAND = (
    (0.5, 0.0),
    (0.45, 0.36),
    (0.26, 0.48),
    (0.31, 0.59),
    (0.45, 0.53),
    (0.45, 0.74),
    (0.57, 0.84),
    (0.69, 0.74),
    (0.69, 0.0),
)
"""A hand in a mitten's outline, reaching into the tub from above; fingers would clot at print size."""


class Pen:
    """Draws in units of one symbol's width, from its top left corner."""

    def __init__(self, ink: Ink, x: float, top: float, size: float) -> None:
        self.ink, self.x, self.top, self.size = ink, x, top, size

    def path(self, points: Sequence[Point], closed: bool = True) -> None:
        """A line through the points."""
        canvas = self.ink.canvas
        canvas.setStrokeGray(0)
        canvas.setLineWidth(weight("symbol"))
        path = canvas.beginPath()
        for number, (x, y) in enumerate(points):
            place = self.x + x * self.size, self.ink.height - self.top - y * self.size
            (path.lineTo if number else path.moveTo)(*place)
        if closed:
            path.close()
        canvas.drawPath(path, stroke=1, fill=0)

    def circle(self, x: float, y: float, radius: float, filled: bool = False) -> None:
        """A circle around a point."""
        canvas = self.ink.canvas
        canvas.setStrokeGray(0)
        canvas.setFillGray(0)
        canvas.setLineWidth(weight("symbol"))
        place = self.x + x * self.size, self.ink.height - self.top - y * self.size
        canvas.circle(*place, radius * self.size, stroke=int(not filled), fill=int(filled))

    def dots(self, count: int, x: float, y: float) -> None:
        """A row of dots around a point."""
        for number in range(count):
            self.circle(x + (number - (count - 1) / 2) * 0.2, y, 0.06, filled=True)

    def words(self, text: str, x: float, y: float, size: float) -> None:
        """A number or letter, its middle at a point."""
        line = (Span(text, Style(size * self.size, size * self.size, bold=True)),)
        left = self.x + x * self.size - line_width(line) / 2
        self.ink.line(line, left, self.top + (y + size * 0.36) * self.size)

    def cross(self) -> None:
        """Do not: two diagonals over the whole symbol."""
        self.path([(0.04, 0.1), (0.96, 0.96)], closed=False)
        self.path([(0.96, 0.1), (0.04, 0.96)], closed=False)

    def bars(self, count: int) -> None:
        """Mild: a bar under the symbol; very mild: two."""
        for number in range(count):
            self.path([(0.1, 1.1 + number * 0.12), (0.9, 1.1 + number * 0.12)], closed=False)


def tub(pen: Pen, rest: Sequence[str]) -> None:
    """A tub with water, the highest °C or a hand in it."""
    wave = [(0.02 + 0.96 * n / STEPS, 0.28 - 0.05 * sin(2 * pi * WAVES * n / STEPS)) for n in range(STEPS + 1)]
    pen.path([(0.0, 0.16), (0.16, 0.96), (0.84, 0.96), (1.0, 0.16)], closed=False)
    pen.path(wave, closed=False)
    if rest[0] == "hand":
        pen.path(HAND, closed=False)
    elif rest[0] == "no":
        pen.cross()
    else:
        pen.words(rest[0], 0.5, 0.62, 0.4)
    pen.bars({"mild": 1, "very": 2}.get(rest[1] if len(rest) > 1 else "", 0))


def triangle(pen: Pen, rest: Sequence[str]) -> None:
    """A triangle; two slanted lines in it for oxygen bleach only."""
    pen.path([(0.5, 0.08), (1.0, 0.96), (0.0, 0.96)])
    if rest[0] == "oxygen":
        pen.path([(0.36, 0.96), (0.6, 0.27)], closed=False)
        pen.path([(0.6, 0.96), (0.74, 0.52)], closed=False)
    elif rest[0] == "no":
        pen.cross()


def square(pen: Pen, rest: Sequence[str] = ()) -> None:
    """The square of every drying symbol; a slanted line in its upper left corner for shade."""
    pen.path([(0.04, 0.06), (0.96, 0.06), (0.96, 0.96), (0.04, 0.96)])
    if "shade" in rest:
        pen.path([(0.04, 0.36), (0.34, 0.06)], closed=False)


def tumble(pen: Pen, rest: Sequence[str]) -> None:
    """A circle in the square with one or two dots."""
    square(pen)
    pen.circle(0.5, 0.51, 0.45)
    if rest[0] == "no":
        pen.cross()
    else:
        pen.dots(int(rest[0]), 0.5, 0.51)


def line(pen: Pen, rest: Sequence[str]) -> None:
    """One upright line: on the line."""
    square(pen, rest)
    pen.path([(0.5, 0.2), (0.5, 0.82)], closed=False)


def drip(pen: Pen, rest: Sequence[str]) -> None:
    """Two upright lines: dripping wet on the line."""
    square(pen, rest)
    for x in (0.38, 0.62):
        pen.path([(x, 0.2), (x, 0.82)], closed=False)


def flat(pen: Pen, rest: Sequence[str]) -> None:
    """One level line: lying flat; two: dripping wet."""
    square(pen, rest)
    for y in (0.42, 0.62) if "drip" in rest else (0.51,):
        pen.path([(0.2, y), (0.8, y)], closed=False)


def iron(pen: Pen, rest: Sequence[str]) -> None:
    """A hand iron with one to three dots."""
    pen.path([(0.0, 0.9), (0.22, 0.46), (0.8, 0.46), (0.72, 0.2), (0.3, 0.2)], closed=False)
    pen.path([(0.8, 0.46), (0.94, 0.9), (0.0, 0.9)], closed=False)
    if rest[0] == "no":
        pen.cross()
    else:
        pen.dots(int(rest[0]), 0.52, 0.7)


def clean(pen: Pen, rest: Sequence[str]) -> None:
    """A circle with the letter for the cleaner."""
    pen.circle(0.5, 0.52, 0.45)
    if rest[0] == "no":
        pen.cross()
    else:
        pen.words(rest[0].upper(), 0.5, 0.52, 0.5)


SHAPES: dict[str, Callable[[Pen, Sequence[str]], None]] = {
    "wash": tub,
    "bleach": triangle,
    "tumble": tumble,
    "line": line,
    "drip": drip,
    "flat": flat,
    "iron": iron,
    "clean": clean,
}
"""First word of a symbol's name → what draws it; the words after it say how hot, how mild, or not at all."""


def row(names: Sequence[str]) -> Piece:
    """Symbols of one height side by side."""
    size, gap = length("symbol"), length("symbol_gap")

    def draw(ink: Ink, x: float, top: float) -> None:
        for number, name in enumerate(names):
            kind, *rest = name.split("-")
            SHAPES[kind](Pen(ink, x + number * (size + gap), top, size), rest or [""])

    return Piece(size * 1.28 + 0.5 * PT_PER_MM, draw)
