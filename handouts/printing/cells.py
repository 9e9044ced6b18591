"""Cells of a table: words, notes under them, and what is drawn in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from handouts.printing.fonts import clean
from handouts.printing.ink import Ink
from handouts.printing.look import PT_PER_MM, Fit, Style, drawing
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, lines_piece, paragraph, stack
from handouts.printing.text import Span, wrap

DOTS = 3


@dataclass(frozen=True)
class Cell:
    """A measured cell. least: points of its longest word; most: points of its longest line unbroken."""

    least: float
    most: float
    words: str
    style: Style
    notes: tuple[str, ...]
    note_style: Style
    mark: float = 0.0  # points taken by a triangle or a tick box before the words
    tick: bool = False
    drawn: float = 0.0  # points taken by dots or a gauge at the right
    dots: int | None = None
    gauge: tuple[float, str] | None = None
    step: tuple[float, float] = (0.0, 0.0)

    def set(self, width: float) -> Piece:
        """The cell wrapped to `width` points."""
        words = _indented(self.words, self.style, width - self.drawn, self.mark)
        notes = [paragraph(note, self.note_style, width) for note in self.notes]
        whole = stack([words, *notes])
        lead = self.style.leading

        def draw(ink: Ink, x: float, top: float) -> None:
            whole.draw(ink, x, top)
            self._draw_mark(ink, x, top + lead)
            self._draw_figure(ink, x + width - self.drawn, top + lead / 2)

        return Piece(max(whole.height, lead if self.drawn or self.mark else 0.0), draw)

    def _draw_mark(self, ink: Ink, x: float, bottom: float) -> None:
        size = self.style.size
        if self.mark and self.tick:
            ink.tick_box(x, bottom - size * 0.25, size * 0.78)
        elif self.mark:
            ink.triangle(x, bottom - size * 0.3, size * 0.72)

    def _draw_figure(self, ink: Ink, x: float, middle: float) -> None:
        if self.dots is not None:
            step, radius = self.step
            ink.dots(self.dots, DOTS, x + self.drawn - (DOTS - 1) * step - 2 * radius, middle, step, radius)
        if self.gauge:
            mm, kind = self.gauge
            ink.gauge(mm, x + 4, middle, self.drawn - 4, kind)


def _indented(words: str, style: Style, width: float, indent: float) -> Piece:
    return lines_piece(wrap([Span(words, style)], width - indent), indent)


def cell(element: Element, fit: Fit) -> Cell:
    """The cell of an element, measured."""
    strong = element.flag("strong")
    style = fit.style(element.get("look") or ("cell-strong" if strong else "cell"))
    notes = tuple(note.words for note in element.all("note") if note.words)
    note_style = fit.style("small")
    tick, gauge, dots = element.flag("tick"), element.first("gauge"), element.first("dots")
    mark = style.size if tick or element.get("mark") == "triangle" else 0.0
    drawn = _drawn_width(gauge, dots, fit)
    least, most = _extent(element.words, style)
    note_extents = [_extent(note, note_style) for note in notes]
    return Cell(
        max([least + mark + drawn, *(low for low, _ in note_extents)]),
        max([most + mark + drawn, *(high for _, high in note_extents)]),
        element.words, style, notes, note_style, mark, tick, drawn,
        int(dots.number("n")) if dots else None,
        (gauge.number("mm"), gauge.get("kind", "straight")) if gauge else None,
        (fit.space("dot_step"), fit.space("dot")),
    )  # fmt: skip


def _drawn_width(gauge: Element | None, dots: Element | None, fit: Fit) -> float:
    """Points for the figure at the right of a cell: whole stitches within a cell's gauge length, or the dots."""
    if gauge:
        step = gauge.number("mm") * PT_PER_MM
        return max(step, drawing("gauge_cell")) + 8
    return (DOTS - 1) * fit.space("dot_step") + 2 * fit.space("dot") + 6 if dots else 0.0


def _extent(words: str, style: Style) -> tuple[float, float]:
    """Points of the longest word and of the whole words."""
    spans: Sequence[float] = [Span(word, style).width for word in clean(words).split(" ")]
    return max(spans, default=0.0), Span(words, style).width
