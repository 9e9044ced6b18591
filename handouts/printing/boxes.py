"""What is framed or left free to write in: the box of what cannot be undone, the test seam, the swatch."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from handouts.printing.blocks import block
from handouts.printing.ink import Ink
from handouts.printing.look import Fit, drawing
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, balanced, paragraph, stack
from handouts.printing.text import Span, line_width, wrap


def boxed(rows: Sequence[Piece], width: float, fit: Fit) -> Piece:
    """Rows in the one heavy box of the card: the title over two columns when there is more than one item."""
    pad = fit.space("box_pad")
    title, rest = (rows[:1], rows[1:]) if rows[0].opens else ((), rows)
    items = sum(not row.glued for row in rest)
    column = (width - 2 * pad - fit.space("column")) / 2
    inside = stack([*title, balanced(rest, column, fit.space("column"), loath=0) if items > 1 else stack(rest)])
    height = inside.height + 2 * pad

    def draw(ink: Ink, x: float, top: float) -> None:
        ink.box(x, top, width, height, "box")
        inside.draw(ink, x + pad, top + pad)

    return Piece(height, draw)


def box_rows(element: Element | None, width: float, fit: Fit) -> list[Piece]:
    """The rows that stand in the box, measured to its columns; none when there is nothing to say."""
    if element is None:
        return []
    inside = width - 2 * fit.space("box_pad")
    return block(element, inside if len(element.children) < 2 else (inside - fit.space("column")) / 2, fit)


def trial(element: Element | None, swatch: Element | None, width: float, height: float, fit: Fit) -> Piece:
    """Room to write what the own test seam showed, the swatch at its right, `height` points high in all."""
    aside, high = swatch_size(swatch, height)
    gap = fit.space("column") if swatch else 0.0

    def room(y: float) -> float:
        """Points to write on, y points below the top: less while the swatch stands beside it."""
        return width - aside - gap if y < high + fit.space("small_gap") else width

    def draw(ink: Ink, x: float, top: float) -> None:
        if element:
            y = _fields(element, room(0), fit, ink, x, top)
            _write_lines(element.get("change"), room, y - top, height, fit, ink, x, top)
        if swatch:
            _swatch(swatch, aside, high, fit, ink, x + width - aside, top)

    return Piece(height, draw)


def swatch_size(swatch: Element | None, height: float) -> tuple[float, float]:
    """Points across the swatch box (50 mm, or 2 in) and down: as high as there is room, to a limit."""
    if swatch is None:
        return 0.0, 0.0
    return drawing("swatch_in" if swatch.get("unit") == "in" else "swatch"), min(height, drawing("swatch_most_high"))


def _fields(element: Element, room: float, fit: Fit, ink: Ink, x: float, top: float) -> float:
    """Title, and the fields side by side, each with a line; returns where the lines are."""
    title = paragraph(element.get("title"), fit.style("heading"), room)
    title.draw(ink, x, top)
    fields = [field.words for field in element.all("field")]
    gap = fit.space("strip_pad")
    y, step = top + title.height, (room + gap) / max(1, len(fields))
    line = y + fit.style("small").leading + fit.space("write_line")
    for number, words in enumerate(fields):
        left = x + number * step
        paragraph(words, fit.style("small"), step - gap).draw(ink, left, y)
        ink.rule(left, line, left + step - gap, line)
    return line


def _write_lines(
    words: str, room: Callable[[float], float], y: float, bottom: float, fit: Fit, ink: Ink, x: float, top: float
) -> None:
    """Empty lines from y down to `bottom`, the first one behind its words."""
    step = fit.space("write_line")
    label = wrap([Span(words, fit.style("small"))], room(y))
    left = line_width(label[0]) + fit.space("strip_pad") if label else 0.0
    if label and y + step <= bottom:
        ink.line(label[0], x, top + y + step)
    while y + step <= bottom + 1e-6:
        y += step
        ink.rule(x + left, top + y, x + room(y), top + y)
        left = 0.0


def _swatch(element: Element, width: float, height: float, fit: Fit, ink: Ink, x: float, top: float) -> None:
    ink.box(x, top, width, height, "hair", dashed=True)
    pad = fit.space("strip_pad")
    paragraph(element.words, fit.style("reason"), width - 2 * pad).draw(ink, x + pad, top + pad * 0.6)
    size = paragraph(element.get("size"), fit.style("reason"), width - 2 * pad)
    size.draw(ink, x + pad, top + height - size.height - pad * 0.6)
