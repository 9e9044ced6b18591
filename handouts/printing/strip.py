"""The strip of settings a student changes at the machine: set large, with the stitch and the heat drawn."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

from handouts.printing.ink import Ink, gauge_width
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
    pad, air = fit.space("strip_pad"), fit.space("strip_air")
    lefts = _lefts(len(settings), width)
    rooms = [
        right - left - (2 if number else 1) * pad
        for number, (left, right) in enumerate(pairwise((*lefts, width + pad)))
    ]
    big = _common_size(settings, rooms, fit)
    label = max(_label(one, room, fit).height for one, room in zip(settings, rooms, strict=True))
    cells = [setting(one, room, big, label, fit) for one, room in zip(settings, rooms, strict=True)]
    height = max(cell.height for cell in cells) + 2 * air

    def draw(ink: Ink, x: float, top: float) -> None:
        for number, (left, cell) in enumerate(zip(lefts, cells, strict=True)):
            if number:
                ink.rule(x + left, top + air, x + left, top + height - air)
            cell.draw(ink, x + left + (pad if number else 0), top + air)
        ink.rule(x, top + height, x + width, top + height)

    return Piece(height, draw)


def _lefts(count: int, width: float) -> list[float]:
    """Where each setting starts, in points, by the shares of the look; equal when there are not five."""
    shares = part("strip")["shares"]
    shares = shares if len(shares) == count else [1] * count
    return [width * sum(shares[:number]) / sum(shares) for number in range(count)]


def _common_size(settings: list[Element], rooms: list[float], fit: Fit) -> Style:
    """One size for all five values: the largest at which each goes on one line, or on two if one would make it too small."""
    sizes = [_size(one.get("value"), room, fit) for one, room in zip(settings, rooms, strict=True)]
    return min(sizes, key=lambda s: s.size)


def _size(value: str, room: float, fit: Fit) -> Style:
    record, style = part("text")["big"], fit.style("big")
    on_one = shrink(value, style, record["wraps_below_pt"] * fit.scale, room)
    fits = Span(value, on_one).width <= room
    return on_one if fits else shrink(value, style, record["least_pt"], room, 2)


def setting(element: Element, room: float, big: Style, label: float, fit: Fit) -> Piece:
    """One setting: label (`label` points high), value, notes, what is drawn, whose choice it is, what the test seam showed."""
    rows = [replace(_label(element, room, fit), height=label), paragraph(element.get("value"), big, room)]
    rows += [paragraph(note.words, fit.style("note"), room) for note in element.all("note")]
    if element.get("mark"):
        rows.append(paragraph(element.get("mark"), fit.style("small-strong"), room))
    if element.get("tested"):
        rows.append(paragraph(element.get("tested"), fit.style("small-strong"), room))
    return stack(rows)


def _label(element: Element, room: float, fit: Fit) -> Piece:
    """The small label; at its right heat as dots of three, or the stitch at true length."""
    style = fit.style("small")
    figure = _figure(element, room - Span(element.get("label"), style).width - fit.space("strip_pad"), fit)
    label = lines_piece(wrap([Span(element.get("label"), style)], room - (figure[0] if figure else 0.0)))

    def draw(ink: Ink, x: float, top: float) -> None:
        label.draw(ink, x, top)
        if figure:
            figure[1](ink, x + room - figure[0], top + style.leading * 0.55)

    return Piece(label.height, draw)


def _figure(element: Element, room: float, fit: Fit) -> tuple[float, Callable[[Ink, float, float], None]] | None:
    """Points across the dots or the gauge, and what draws it from x about a middle line; None when there is neither."""
    dots, gauge = element.first("dots"), element.first("gauge")
    if dots:
        count, step, radius = int(dots.number("n")), fit.space("dot_step"), fit.space("dot")
        return (DOTS - 1) * step + 2 * radius, lambda ink, x, middle: ink.dots(count, DOTS, x, middle, step, radius)
    if gauge:
        mm, kind = gauge.number("mm"), gauge.get("kind", "straight")
        across = gauge_width(mm, min(drawing("gauge_most"), room))
        return across, lambda ink, x, middle: ink.gauge(mm, x, middle, across, kind)
    return None
