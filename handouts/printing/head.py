"""The top and bottom of a page: title, where it belongs, what the fabric is; the running head of further pages; the foot."""

from __future__ import annotations

from collections.abc import Sequence

from handouts.printing.ink import Ink
from handouts.printing.look import Fit, Style, part
from handouts.printing.markup import Element
from handouts.printing.pieces import Draw, Piece, baseline, lines_piece, paragraph, stack
from handouts.printing.text import Line, Span, line_height, line_width, shrink, wrap

SIDE_SHARE = 0.36
"""The most that the words at the right of a head take of its width (judgement)."""


def head(element: Element, width: float, fit: Fit) -> Piece:
    """Title, at its right where the page belongs, under it the `line`s, then a thick rule."""
    side = [
        line
        for aside in element.all("aside")
        for line in wrap([Span(aside.words, fit.style("lead"))], width * SIDE_SHARE)
    ]
    taken = max((line_width(line) for line in side), default=0.0)
    room = width - (taken + fit.space("column") if side else 0.0)
    title = lines_piece(wrap([Span(element.get("title"), _title_style(element.get("title"), room, fit))], room))
    lines = [paragraph(line.words, fit.style("lead"), width) for line in element.all("line")]
    top = Piece(max(title.height, sum(map(line_height, side))), _with_side(title, side, width))
    return stack([top, *lines, _thick_rule(width, fit)])


def _title_style(words: str, room: float, fit: Fit) -> Style:
    record, style = part("text")["title"], fit.style("title")
    style = shrink(words, style, record["least_pt"], room, record["lines"])
    return shrink(words, style, fit.style("heading").size, room, record["lines"] + 1)


def _with_side(title: Piece, side: Sequence[Line], width: float) -> Draw:
    def draw(ink: Ink, x: float, top: float) -> None:
        title.draw(ink, x, top)
        for line in side:
            ink.line(line, x + width - line_width(line), top + baseline(line))
            top += line_height(line)

    return draw


def _thick_rule(width: float, fit: Fit) -> Piece:
    above = fit.space("head_line")
    return Piece(above + 0.75, lambda ink, x, top: ink.rule(x, top + above, x + width, top + above, "head"))


def running_head(element: Element, words: str, width: float, fit: Fit) -> Piece:
    """The head of a further side or page: the title small, `words` at the right, a thick rule."""
    style, right = fit.style("heading"), [Span(words, fit.style("small"))]
    side = wrap(right, width * SIDE_SHARE)
    taken = max((line_width(line) for line in side), default=0.0)
    title = paragraph(element.get("title"), style, width - taken - fit.space("column"))
    top = Piece(max(title.height, sum(map(line_height, side))), _with_side(title, side, width))
    return stack([top, _thick_rule(width, fit)])


def foot(element: Element | None, words: str, width: float, fit: Fit) -> Piece:
    """The cautions at the bottom of a page, `words` (turn over, page 2 of 3) in bold before them."""
    spans = [Span(words + " ", fit.style("small-strong"))] if words else []
    spans += [Span(element.words, fit.style("foot"))] if element else []
    return lines_piece(wrap(spans, width))
