"""The strip of settings a student changes at the machine: set large, with the stitch and the heat drawn."""

from __future__ import annotations

from dataclasses import replace

from handouts.printing.ink import Ink
from handouts.printing.look import Fit, Style, drawing, part
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, lines_piece, nothing, paragraph, stack
from handouts.printing.text import Span, shrink, wrap

DOTS = 3


def strip(element: Element, width: float, fit: Fit) -> Piece:
    """The settings side by side between hairlines, with a rule under them."""
    settings = list(element.all("setting"))
    if not settings:
        return nothing()
    step = width / len(settings)
    room = step - 2 * fit.space("strip_pad")
    big = _common_size(settings, room, fit)
    label = max(_label(one, room, fit).height for one in settings)
    cells = [setting(one, room, big, label, fit) for one in settings]
    pad = fit.space("strip_pad")
    height = max(cell.height for cell in cells) + 2 * pad

    def draw(ink: Ink, x: float, top: float) -> None:
        for number, cell in enumerate(cells):
            left = x + number * step
            if number:
                ink.rule(left, top + pad, left, top + height - pad)
            cell.draw(ink, left + (pad if number else 0), top + pad)
        ink.rule(x, top + height, x + width, top + height)

    return Piece(height, draw)


def _common_size(settings: list[Element], room: float, fit: Fit) -> Style:
    """One size for all five values: the largest at which the longest goes on one line, or the least and it wraps."""
    style, least = fit.style("big"), part("text")["big"]["least_pt"]
    return min((shrink(one.get("value"), style, least, room) for one in settings), key=lambda s: s.size)


def setting(element: Element, room: float, big: Style, label: float, fit: Fit) -> Piece:
    """One setting: label (`label` points high), value, notes, what is drawn, whose choice it is, what the test seam showed."""
    rows = [replace(_label(element, room, fit), height=label), paragraph(element.get("value"), big, room)]
    rows += [
        paragraph(note.words, fit.style("small" if note.flag("small") else "lead"), room)
        for note in element.all("note")
    ]
    rows += [_gauge(gauge, room, fit) for gauge in element.all("gauge")]
    if element.get("mark"):
        rows.append(paragraph(element.get("mark"), fit.style("small-strong"), room))
    if element.get("tested"):
        rows.append(paragraph(element.get("tested"), fit.style("small-strong"), room))
    return stack(rows)


def _label(element: Element, room: float, fit: Fit) -> Piece:
    """The small label; heat as dots of three at its right."""
    dots, step, radius = element.first("dots"), fit.space("dot_step"), fit.space("dot")
    taken = (DOTS - 1) * step + 3 * radius if dots else 0.0
    label = lines_piece(wrap([Span(element.get("label"), fit.style("small"))], room - taken))

    def draw(ink: Ink, x: float, top: float) -> None:
        label.draw(ink, x, top)
        if dots:
            left = x + room - (DOTS - 1) * step - 2 * radius
            ink.dots(int(dots.number("n")), DOTS, left, top + fit.style("small").leading / 2, step, radius)

    return Piece(label.height, draw)


def _gauge(element: Element, room: float, fit: Fit) -> Piece:
    """The stitch at true length."""
    height = fit.space("cell_y") * 3
    most = min(drawing("gauge_most"), room)
    mm, kind = element.number("mm"), element.get("kind", "straight")
    return Piece(height, lambda ink, x, top: ink.gauge(mm, x, top + height * 0.6, most, kind))
