"""The layout of a fabric's card and of its binder page: one side if it can be, else the fewest sides, nothing lost."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from handouts.printing.blocks import block, run_in
from handouts.printing.boxes import box_rows, boxed, trial
from handouts.printing.head import foot, head, running_head
from handouts.printing.look import Fit, Page, ladder
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, at_least_one, balanced, beside, first_that_fit, going_on, paragraph, stack
from handouts.printing.sides import Placed, Side, place, stretch
from handouts.printing.strip import strip

BOX_SHARE = 0.4
"""The most of the front that the box may take when the card needs a second side (judgement)."""

EMPTY = Element("", {})
Part = tuple[str, tuple[Piece, ...]]
"""Rows that belong together and how they are set: in two columns, or in the heavy box."""


@dataclass(frozen=True)
class Card:
    """The measured parts of a card at one fit."""

    sheet: Element
    page: Page
    fit: Fit
    top: tuple[tuple[float, Piece], ...]
    body: Part
    box: Part
    ends: Part

    def foot(self, words: str = "") -> Piece:
        """The cautions at the bottom, `words` (turn over) in bold on a line of their own above them."""
        cautions = foot(self.sheet.first("foot"), "", self.page.inner_width, self.fit)
        if not words:
            return cautions
        turn = paragraph(words, self.fit.style("strong"), self.page.inner_width)
        return stack([turn, replace(cautions, before=self.fit.space("small_gap"))])

    def gap(self, part: Part) -> float:
        """Points above a part."""
        return self.fit.space({id(self.body): "after_strip", id(self.box): "box"}.get(id(part), "part"))

    def set(self, part: Part) -> Piece:
        """A whole part as one piece."""
        kind, rows = part
        if kind == "box":
            return boxed(rows, self.page.inner_width, self.fit)
        if kind == "run in":
            return stack(rows)
        return balanced(rows, column_width(self.page, self.fit), self.fit.space("column"), self.fit.loath)


def column_width(page: Page, fit: Fit) -> float:
    """Points across one of the two columns."""
    return (page.inner_width - fit.space("column")) / 2


def lay_out(sheet: Element, page: Page) -> list[Side]:
    """The sides of one card, at the roomiest fit that needs the fewest sides; of two, the front holds all there is to do."""
    fits = ladder(page)
    for fit in fits:
        side = one_side(measure(sheet, page, fit))
        if side:
            return [side]
    for fit in fits:
        card = measure(sheet, page, fit)
        if front_is_whole(card):
            return numbered_sides(card)
    best: list[Side] = []
    for fit in fits:
        sides = numbered_sides(measure(sheet, page, fit))
        best = sides if not best or len(sides) < len(best) else best
        if len(best) == 2:
            break
    return best


def measure(sheet: Element, page: Page, fit: Fit) -> Card:
    """Every part of the card measured at one fit."""
    width, column = page.inner_width, column_width(page, fit)
    body = [row for one in sheet.all("block") for row in block(one, column, fit)]
    beyond = [one for tag in ("differs", "unknown", "likes") for one in sheet.all(tag)]
    ends = [row for one in beyond for row in (run_in(one, width, fit) if page.run_in else block(one, column, fit))]
    settings = strip(sheet.first("strip") or EMPTY, width, fit)
    top = (0.0, head(sheet.first("head") or EMPTY, width, fit)), (fit.space("after_head"), settings)
    box = box_rows(sheet.first("lasting"), width, fit)
    return Card(
        sheet,
        page,
        fit,
        top,
        ("body", tuple(body)),
        ("box", tuple(box)),
        ("run in" if page.run_in else "ends", tuple(ends)),
    )


def one_side(card: Card) -> Side | None:
    """Everything on one side, or None when it does not go."""
    parts = [(card.gap(part), card.set(part)) for part in (card.body, card.box, card.ends) if part[1]]
    return _finished(card, [*card.top, *parts], "")


def _finished(card: Card, above: Sequence[tuple[float, Piece]], words: str) -> Side | None:
    """The pieces from the top, the test seam in all that is left, the foot at the bottom; None when there is too little room."""
    element, swatch = card.sheet.first("trial"), card.sheet.first("swatch")
    bottom, gap = card.foot(words), card.fit.space("part")
    floor = card.page.inner_height - bottom.height
    room = floor - card.fit.space("foot") - stretch(above) - gap
    if room < card.fit.free:
        return None
    free = trial(element, swatch, card.page.inner_width, room, card.fit)
    return (*place([*above, (gap, free)]), Placed(bottom, 0.0, floor))


def front_is_whole(card: Card) -> bool:
    """Whether body and box go on the front, so that the back has only what if, the test seam and the swatch."""
    box = card.set(card.box).height + card.gap(card.box) if card.box[1] else 0.0
    body = card.set(card.body).height + card.gap(card.body) if card.body[1] else 0.0
    return body + box <= _room(card, card.top)


def numbered_sides(card: Card) -> list[Side]:
    """The card over several sides, each further one saying which of how many it is."""
    sides = several_sides(card, 2)
    return sides if len(sides) == 2 else several_sides(card, len(sides))


def several_sides(card: Card, of: int) -> list[Side]:
    """The card over several sides: the front keeps head, strip and box; the test seam comes last."""
    queue = [part for part in (card.body, card.box, card.ends) if part[1]]
    sides: list[Side] = []
    above, queue = _front(card, queue)
    while queue or (side := _finished(card, above, "")) is None:
        sides.append(_cut_off(card, above))
        above = [(0.0, _next_head(card, len(sides) + 1, of))]
        more, queue = _fill(card, queue, _room(card, above), force=True)
        above += more
    return [*sides, side]


def _next_head(card: Card, number: int, of: int) -> Piece:
    """The head of a further side, which says whose, which and of how many it is."""
    words = card.sheet.get("further").replace("#", str(number), 1).replace("#", str(of), 1)
    return running_head(card.sheet.first("head") or EMPTY, words, card.page.inner_width, card.fit)


def _front(card: Card, queue: list[Part]) -> tuple[list[tuple[float, Piece]], list[Part]]:
    """What stands on the first side of several, and what is left over: the box stays in front if it is not too high."""
    above = list(card.top)
    box = [(card.gap(card.box), card.set(card.box))] if card.box[1] else []
    if not box or box[0][1].height > BOX_SHARE * card.page.inner_height or not card.body[1]:
        more, queue = _fill(card, queue, _room(card, above))
        return [*above, *more], queue
    more, body = _fill(card, [card.body], _room(card, above) - stretch(box))
    above += [*more, *box]
    rest = [*body, *([card.ends] if card.ends[1] else [])]
    if body:
        return above, rest
    more, rest = _fill(card, rest, _room(card, above))
    return [*above, *more], rest


def _room(card: Card, above: Sequence[tuple[float, Piece]]) -> float:
    """Points left under the pieces, above a foot that says turn over."""
    return card.page.inner_height - stretch(above) - card.foot(card.sheet.get("over")).height - card.fit.space("foot")


def _cut_off(card: Card, above: Sequence[tuple[float, Piece]]) -> Side:
    bottom = card.foot(card.sheet.get("over"))
    return (*place(above), Placed(bottom, 0.0, card.page.inner_height - bottom.height))


def _fill(
    card: Card, queue: list[Part], room: float, force: bool = False
) -> tuple[list[tuple[float, Piece]], list[Part]]:
    """Parts for `room` points and what is left over; `force` puts at least one row on an empty side."""
    placed: list[tuple[float, Piece]] = []
    while queue:
        part, gap = queue[0], card.gap(queue[0])
        piece, left = _take(card, part, room - gap, force and not placed)
        if piece is None:
            break
        placed.append((gap, piece))
        room -= gap + piece.height
        queue = [*([(part[0], left)] if left else []), *queue[1:]]
        if left:
            break
    return placed, queue


def _take(card: Card, part: Part, room: float, force: bool) -> tuple[Piece | None, tuple[Piece, ...]]:
    """As much of a part as goes into `room` points, and the rows left over."""
    whole = card.set(part)
    if whole.height <= room:
        return whole, ()
    kind, rows = part
    fitting = at_least_one if force else first_that_fit
    if kind == "box":
        count = fitting(rows, room - 2 * card.fit.space("box_pad"))
        return (card.set((kind, rows[:count])) if count else None), rows[count:]
    if kind == "run in":
        count = fitting(rows, room)
        return (stack(rows[:count]) if count else None), rows[count:]
    left = fitting(rows, room)
    if not left:
        return None, rows
    going = going_on(rows[left:])
    right = first_that_fit(going, room)
    step = column_width(card.page, card.fit) + card.fit.space("column")
    return beside([(0, stack(rows[:left])), (step, stack(going[:right]))]), tuple(going_on(going[right:]))
