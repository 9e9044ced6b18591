"""What is framed or left free to write in: the box of what cannot be undone, the test seam, the swatch."""

from __future__ import annotations

from collections.abc import Sequence

from handouts.printing.blocks import block
from handouts.printing.ink import Ink
from handouts.printing.look import Fit, drawing
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, paragraph, stack
from handouts.printing.text import Span, line_width, wrap


def boxed(rows: Sequence[Piece], width: float, fit: Fit) -> Piece:
    """Rows in the one heavy box of the card."""
    pad = fit.space("box_pad")
    inside = stack(rows)
    height = inside.height + 2 * pad

    def draw(ink: Ink, x: float, top: float) -> None:
        ink.box(x, top, width, height, "box")
        inside.draw(ink, x + pad, top + pad)

    return Piece(height, draw)


def box_rows(element: Element | None, width: float, fit: Fit) -> list[Piece]:
    """The rows that stand in the box, measured to its inner width; none when there is nothing to say."""
    return block(element, width - 2 * fit.space("box_pad"), fit) if element else []


def least_trial_height(swatch: Element | None, fit: Fit) -> float:
    """Points that the test seam and the swatch need at least."""
    return drawing("swatch_least_high") * (1 if swatch is None else max(1.0, fit.scale))


def trial(element: Element | None, swatch: Element | None, width: float, height: float, fit: Fit) -> Piece:
    """Room to write what the own test seam showed, and the swatch at its right, `height` points high."""
    aside = swatch_width(swatch)
    room = width - (aside + fit.space("column") if aside else 0.0)

    def draw(ink: Ink, x: float, top: float) -> None:
        if element:
            _fields(element, room, height, fit, ink, x, top)
        if swatch:
            _swatch(swatch, aside, height, fit, ink, x + width - aside, top)

    return Piece(height, draw)


def swatch_width(swatch: Element | None) -> float:
    """Points across the swatch box: 50 mm, or 2 in."""
    if swatch is None:
        return 0.0
    return drawing("swatch_in" if swatch.get("unit") == "in" else "swatch")


def _fields(element: Element, room: float, height: float, fit: Fit, ink: Ink, x: float, top: float) -> None:
    title = paragraph(element.get("title"), fit.style("heading"), room)
    title.draw(ink, x, top)
    fields = [field.words for field in element.all("field")]
    label, line = fit.style("small"), fit.space("write_line")
    y, step, gap = top + title.height, room / max(1, len(fields)), fit.space("strip_pad")
    for number, words in enumerate(fields):
        left = x + number * step
        paragraph(words, label, step - gap).draw(ink, left, y)
        ink.rule(left, y + label.leading + line, left + step - gap, y + label.leading + line)
    _write_lines(element.get("change"), room - gap, y + label.leading + line, top + height, fit, ink, x)


def _write_lines(words: str, room: float, y: float, bottom: float, fit: Fit, ink: Ink, x: float) -> None:
    """Empty lines down to `bottom`, the first behind its words, which it leaves room for."""
    line = fit.space("write_line")
    spans = wrap([Span(words, fit.style("small"))], room)
    left = line_width(spans[-1]) + fit.space("strip_pad") if spans else 0.0
    if y + line <= bottom and spans:
        label = paragraph(words, fit.style("small"), room)
        label.draw(ink, x, y + line - label.height + fit.style("small").leading * 0.25)
    while y + line <= bottom + 1e-6:
        y += line
        ink.rule(x + left, y, x + room, y)
        left = 0.0


def _swatch(element: Element, width: float, height: float, fit: Fit, ink: Ink, x: float, top: float) -> None:
    ink.box(x, top, width, height, "hair", dashed=True)
    pad = fit.space("strip_pad")
    paragraph(element.words, fit.style("reason"), width - 2 * pad).draw(ink, x + pad, top + pad * 0.6)
    size = paragraph(element.get("size"), fit.style("reason"), width - 2 * pad)
    size.draw(ink, x + pad, top + height - size.height - pad * 0.6)
