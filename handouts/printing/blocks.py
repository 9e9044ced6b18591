"""Blocks of reading: a heading over actions, each with its reason in grey; paragraphs; the drawn seam allowance."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from handouts.printing.ink import Ink
from handouts.printing.look import PT_PER_MM, Fit, drawing
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, lines_piece, paragraph
from handouts.printing.text import Line, Span, line_height, wrap

WHOLE = 5
"""An item of up to this many lines is never parted; of a longer one the first and last two stay together (judgement)."""


def block(element: Element, width: float, fit: Fit) -> list[Piece]:
    """A titled block as rows. Without anything under its title it prints nothing at all."""
    rows = [row for child in element.children for row in contents(child, width, fit)]
    if not rows:
        return []
    if not element.get("title"):
        return [replace(rows[0], before=fit.space("block"), opens=True), *rows[1:]]
    title = paragraph(element.get("title"), fit.style("heading"), width)
    first = replace(rows[0], before=fit.space("heading"))
    return [replace(title, before=fit.space("block"), glued=True, opens=True), first, *rows[1:]]


def contents(element: Element, width: float, fit: Fit) -> list[Piece]:
    """The rows of what may stand in a block: item, case, text, allowance."""
    makers = {"item": item, "case": item, "text": text, "allowance": allowance}
    maker = makers.get(element.tag)
    return maker(element, width, fit) if maker else []


def text(element: Element, width: float, fit: Fit) -> list[Piece]:
    """A paragraph in body size; `look` names another style."""
    lines = wrap([Span(element.words, fit.style(element.get("look", "body")))], width)
    return _rows(lines, 0.0, fit.space("item"))


def item(element: Element, width: float, fit: Fit) -> list[Piece]:
    """One action behind a dash (or a box to tick): `when` before it in bold, `mark` after it, `caution` and `because` under it."""
    indent = fit.space("dash")
    lines = wrap(_item_spans(element, fit), width - indent)
    under = [Span(element.get("caution"), fit.style("small"))], [Span(element.get("because"), fit.style("reason"))]
    lines += [line for spans in under for line in wrap(spans, width - indent)]
    rows = _rows(lines, indent, fit.space("item"))
    return [_led(rows[0], element.flag("tick"), fit), *rows[1:]] if rows else []


def _item_spans(element: Element, fit: Fit) -> list[Span]:
    body, strong = fit.style("body"), fit.style("strong")
    spans = [(element.get("when"), strong), (element.words, body), (element.get("mark"), strong)]
    return [Span(words + " ", style) for words, style in spans if words]


def _rows(lines: Sequence[Line], indent: float, before: float) -> list[Piece]:
    """One row a line, glued so that an item breaks over columns only when it is long."""
    last = len(lines) - 1

    def glued(number: int) -> bool:
        return number < last and (len(lines) <= WHOLE or number == 0 or number == last - 1)

    return [
        replace(lines_piece([line], indent), before=0.0 if number else before, glued=glued(number))
        for number, line in enumerate(lines)
    ]


def _led(row: Piece, tick: bool, fit: Fit) -> Piece:
    """The row with a dash, or a box to tick, before it."""
    size = fit.style("body").size

    def draw(ink: Ink, x: float, top: float) -> None:
        row.draw(ink, x, top)
        middle = top + row.height / 2
        if tick:
            ink.tick_box(x, middle + size * 0.36, size * 0.72)
        else:
            ink.rule(x, middle + size * 0.02, x + size * 0.5, middle + size * 0.02, "dash")

    return replace(row, draw=draw)


def allowance(element: Element, width: float, fit: Fit) -> list[Piece]:
    """The seam allowance at true size: cut edge, where to trim, seam line; its words beside it, or under it when it is wide."""
    sew, trim = element.number("sew") * PT_PER_MM, element.number("trim") * PT_PER_MM
    high, indent = drawing("allowance_high"), fit.space("dash")
    lines = wrap([Span(element.words, fit.style("reason"))], width - indent - sew - indent)
    height = max(high, sum(line_height(line) for line in lines)) + 2

    def draw(ink: Ink, x: float, top: float) -> None:
        left, seam, low = x + indent, x + indent + sew, top + 1 + high
        for edge in _edges(sew, trim):
            ink.rule(left + edge, top + 1, left + edge, low, "hair")
        ink.rule(left + sew - trim, low, seam, low, "dash")
        ink.rule(left + sew - trim, top + 1, seam, top + 1, "hair")
        for y in _stitches(top - 1, low + 2):
            ink.rule(seam, y, seam, y + 2, "stitch")
        lines_piece(lines).draw(ink, seam + indent, top)

    return [Piece(height, draw, before=fit.space("item"))]


def _edges(sew: float, trim: float) -> Iterator[float]:
    """Points from the cut edge to each line across the allowance: the edge, and where it is trimmed if it is."""
    yield 0.0
    if trim < sew:
        yield sew - trim


def _stitches(top: float, bottom: float) -> Iterator[float]:
    y = top
    while y < bottom:
        yield y
        y += 3.2
