"""Blocks of reading: a heading over actions, each with its reason in grey; paragraphs; the drawn seam allowance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from handouts.printing.ink import Ink
from handouts.printing.look import PT_PER_MM, Fit, drawing
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, lines_piece, paragraph
from handouts.printing.text import Line, Span, line_height, wrap

WHOLE = 5
"""An item of up to this many lines is never parted; of a longer one the first and last two stay together (judgement)."""

SEAM_BEYOND = 1.6
"""Points by which the drawn seam stands out above and below the allowance (judgement)."""


def block(element: Element, width: float, fit: Fit) -> list[Piece]:
    """A titled block as rows. Without anything under its title it prints nothing at all."""
    rows = [row for child in element.children for row in contents(child, width, fit)]
    if not rows:
        return []
    if not element.get("title"):
        return [replace(rows[0], before=fit.space("block"), opens=True), *rows[1:]]
    title = paragraph(element.get("title"), fit.style("heading"), width)
    first = replace(rows[0], before=fit.space("heading"))
    rows = again([first, *rows[1:]], element.get("again"), width, fit)
    return [replace(title, before=fit.space("block"), glued=True, opens=True), *rows]


def again(rows: list[Piece], title: str, width: float, fit: Fit) -> list[Piece]:
    """The rows, each knowing the title that stands above it where the block goes on elsewhere."""
    repeat = paragraph(title, fit.style("heading"), width) if title else None
    return [replace(row, repeat=repeat) for row in rows]


def contents(element: Element, width: float, fit: Fit) -> list[Piece]:
    """The rows of what may stand in a block: item, case, text, allowance."""
    makers = {"item": item, "case": item, "text": text, "allowance": allowance}
    maker = makers.get(element.tag)
    return maker(element, width, fit) if maker else []


def run_in(element: Element, width: float, fit: Fit) -> list[Piece]:
    """A block as one paragraph: its title in bold, then its items one after the other."""
    spans = [Span(element.get("title") + "  ", fit.style("heading"))]
    for child in element.children:
        spans.append(Span(f"{child.get('when')} {child.words}  ", fit.style("body")))
    rows = _rows(wrap(spans, width), 0.0, fit.space("block")) if element.children else []
    return [replace(rows[0], opens=True), *rows[1:]] if rows else []


def text(element: Element, width: float, fit: Fit) -> list[Piece]:
    """A paragraph in body size; `look` names another style."""
    lines = wrap([Span(element.words, fit.style(element.get("look", "body")))], width)
    return _rows(lines, 0.0, fit.space("item"))


def item(element: Element, width: float, fit: Fit) -> list[Piece]:
    """One action behind a dash (or a box to tick): `when` before it in bold, `mark` after it, `caution` and `because` under it."""
    indent = fit.space("dash")
    lines = wrap(_item_spans(element, fit), width - indent)
    under = (
        [Span(element.get("caution"), fit.style("small-strong"))],
        [Span(element.get("because"), fit.style("reason"))],
    )
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
    """The seam allowance at true size: what is trimmed in dashes, what stays, the seam, a little cloth; its words beside it."""
    sew, trim, cloth = element.number("sew") * PT_PER_MM, element.number("trim") * PT_PER_MM, drawing("allowance_cloth")
    high, indent = drawing("allowance_high"), fit.space("dash")
    left_over = width - indent - sew - cloth - indent
    lines = wrap([Span(element.words, fit.style("reason"))], left_over) if left_over > sew else []
    needed = max(high + 2 * SEAM_BEYOND + 2, sum(line_height(line) for line in lines))

    def draw(ink: Ink, x: float, top: float) -> None:
        middle = top + needed / 2
        _draw_allowance(ink, x + indent, middle - high / 2, high, (sew, trim, cloth))
        lines_piece(lines).draw(ink, x + indent + sew + cloth + indent, middle - sum(map(line_height, lines)) / 2)

    return [Piece(needed, draw, before=fit.space("item"))]


def _draw_allowance(ink: Ink, x: float, top: float, high: float, lengths: tuple[float, float, float]) -> None:
    """From the cut edge at x: the part to trim, the part that stays, the seam, the cloth."""
    sew, trim, cloth = lengths
    cut, seam, low = x + sew - trim, x + sew, top + high
    if trim < sew:
        ink.box(x, top, sew - trim, high, dashed=True)
    for y in (top, low):
        ink.rule(cut, y, seam + cloth, y)
    ink.rule(cut, top, cut, low, "dash")
    y = top - SEAM_BEYOND
    while y < low + SEAM_BEYOND:
        ink.rule(seam, y, seam, min(y + 2.2, low + SEAM_BEYOND), "stitch")
        y += 3.4
