"""One face of a small card: its texts at the largest size that goes, a code to scan, a place for a swatch. In points."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from handouts.printing.grid import length
from handouts.printing.ink import Ink
from handouts.printing.look import PT_PER_MM, Style, look, part
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, baseline, beside, lines_piece, nothing, paragraph, stack
from handouts.printing.qr import code
from handouts.printing.symbols import row
from handouts.printing.text import Span, line_height, line_width, wrap


@dataclass(frozen=True)
class Rung:
    """One step of the ladder of a small card: body size in points, and what gaps are multiplied by."""

    body: float
    gap: float

    def style(self, name: str) -> Style:
        """A text style of the table `slot_text`, never below its floor."""
        record = part("slot_text")[name]
        size = max(self.body + record.get("plus_pt", 0), part("slot_text")["floor_pt"])
        return Style(size, size * record["leading"], record.get("bold", False), record.get("grey", 0.0))

    def space(self, name: str) -> float:
        """A gap of the table `slot_gap`, in points."""
        return float(part("slot_gap")[f"{name}_pt"]) * self.gap


def rungs() -> list[Rung]:
    """The ladder of small cards, roomiest first."""
    return [Rung(record["body_pt"], record["gap"]) for record in look()["slot_ladder"]]


def face(element: Element | None, width: float, height: float) -> Piece | None:
    """A face of `width` × `height` points at the largest fit; an empty one when there is none; None when 7 pt is too large."""
    if element is None:
        return nothing(height)
    return next((piece for rung in rungs() if (piece := at(element, width, height, rung))), None)


def at(element: Element, width: float, height: float, rung: Rung) -> Piece | None:
    """The face at one fit, or None."""
    body = stack([piece for child in element.children for piece in pieces(child, width, rung)])
    bottom = below(element, width, rung)
    room = height - body.height - bottom.height - (rung.space("foot") if bottom.height else 0.0)
    if room < -1e-6 or too_wide(element, width, rung):
        return None
    swatch = swatch_box(element.first("swatch"), width, room - rung.space("block"), rung)

    def draw(ink: Ink, x: float, top: float) -> None:
        body.draw(ink, x, top)
        swatch.draw(ink, x, top + body.height + rung.space("block"))
        bottom.draw(ink, x, top + height - bottom.height)

    return Piece(height, draw)


def too_wide(element: Element, width: float, rung: Rung) -> bool:
    """Whether the title would be broken inside a word."""
    head = element.first("top")
    words = head.get("title").split() if head else []
    return any(Span(word, rung.style("title")).width > width for word in words) and rung.body > rungs()[-1].body


def pieces(element: Element, width: float, rung: Rung) -> Iterator[Piece]:
    """The pieces of one component, each with its gap above."""
    makers = {"top": top, "text": text, "item": item, "rule": rule, "symbols": symbols}
    maker = makers.get(element.tag)
    if maker:
        yield maker(element, width, rung)


def top(element: Element, width: float, rung: Rung) -> Piece:
    """The title, and at its right in small type where it comes from."""
    side = wrap([Span(element.get("side"), rung.style("small"))], width * 0.36)
    taken = max((line_width(line) for line in side), default=0.0)
    title = paragraph(
        element.get("title"), rung.style("title"), width - (taken + rung.space("column") if side else 0.0)
    )

    def draw(ink: Ink, x: float, y: float) -> None:
        title.draw(ink, x, y)
        for line in side:
            ink.line(line, x + width - line_width(line), y + baseline(line))
            y += line_height(line)

    return Piece(max(title.height, sum(map(line_height, side))), draw)


def text(element: Element, width: float, rung: Rung) -> Piece:
    """A paragraph; `look` names its style, `opens` sets it off from what stands above."""
    look = element.get("look", "body")
    gap = rung.space("block" if element.flag("opens") else "line")
    return replace(paragraph(element.words, rung.style(look), width), before=gap)


def item(element: Element, width: float, rung: Rung) -> Piece:
    """Bold words, then the rest of the line behind them."""
    spans = [Span(element.get("when") + "  ", rung.style("strong")), Span(element.words, rung.style("body"))]
    return replace(lines_piece(wrap(spans, width)), before=rung.space("block" if element.flag("opens") else "item"))


def symbols(element: Element, width: float, rung: Rung) -> Piece:
    """Care symbols in a row, named in the words of the element."""
    return replace(row(element.words.split()), before=rung.space("block"))


def rule(element: Element, width: float, rung: Rung) -> Piece:
    """A hairline over the whole width."""
    gap = rung.space("rule")
    return Piece(gap, lambda ink, x, y: ink.rule(x, y, x + width, y), before=gap)


def below(element: Element, width: float, rung: Rung) -> Piece:
    """What stands at the bottom: the foot, and at its right the code to scan."""
    scan = element.first("qr")
    square = code(scan.words) if scan and scan.words else nothing()
    side = square.height
    room = width - (side + rung.space("column") if side else 0.0)
    foot = element.first("foot")
    words = paragraph(foot.words, rung.style("foot"), room) if foot else nothing()
    height = max(side, words.height)
    dropped = Piece(height, lambda ink, x, y: words.draw(ink, x, y + height - words.height))
    return beside([(0.0, dropped), (width - side, square)])


def swatch_box(element: Element | None, width: float, room: float, rung: Rung) -> Piece:
    """A dashed box for a piece of the cloth in the room that is left, when that is high enough to be of use."""
    if element is None or room < length("swatch_least"):
        return nothing()
    high = min(room, length("swatch_most"))
    label = paragraph(element.words, rung.style("small"), width - 4 * PT_PER_MM)

    def draw(ink: Ink, x: float, y: float) -> None:
        ink.box(x, y, width, high, "hair", dashed=True)
        label.draw(ink, x + 2 * PT_PER_MM, y + PT_PER_MM)

    return Piece(high, draw)
