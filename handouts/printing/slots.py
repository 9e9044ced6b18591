"""Sheets that are cut up: several small cards on a side, their backs in mirrored slots, marks to cut by."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from handouts.printing.face import face, rungs
from handouts.printing.grid import Grid, grid, length
from handouts.printing.ink import Ink
from handouts.printing.look import PT_PER_MM, Page
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, nothing, paragraph
from handouts.printing.sides import Placed, Side

FRONT, BACK = 0, 1
Faces = tuple[Piece, Piece]
"""A card's front and back, measured to the inside of a slot."""


class Sheets(list[Side]):
    """The sides of all sheets, and the keys of the cards that go on none because 7 pt is too large for them."""

    refused: tuple[str, ...] = ()


def lay_out(sheet: Element, page: Page) -> Sheets:
    """Every sheet's front and, when there are backs, the back behind it. A card is printed as often as its `copies` says."""
    one = grid(page, sheet.get("card").replace("\u00a0", " "), sheet.get("mode"))
    sides = (FRONT, BACK) if sheet.flag("backs") else (FRONT,)
    made, copies, refused = Sheets(), [], []
    for card in sheet.all("card"):
        faces = measured(card, one, sides)
        if faces:
            copies += [faces] * int(card.number("copies"))
        else:
            refused.append(card.get("key"))
    for start in range(0, len(copies), one.count):
        made += [filled(copies[start : start + one.count], one, which, sheet) for which in sides]
    made.refused = tuple(refused)
    return made


def measured(card: Element, one: Grid, sides: Sequence[int]) -> Faces | None:
    """The faces of a card at the largest type that goes into the narrowest slot; None when one of them does not go."""
    width, height = one.card
    found = [nothing(), nothing()]
    for which in sides:
        top, right, bottom, left = margins(one, which)
        piece = face(card.first(("front", "back")[which]), width - left - right, height - top - bottom)
        if piece is None:
            return None
        found[which] = piece
    return found[FRONT], found[BACK]


def margins(one: Grid, which: int) -> tuple[float, float, float, float]:
    """Points free inside a slot (top, right, bottom, left) with the card held upright: the most that any slot needs.

    A turned front has its top at the sheet's right and its back at the left, so that both keep one edge as their top.
    """
    insets = [one.slot(number, which == BACK).inset for number in range(one.count)]
    top, right, bottom, left = (max(inset[edge] for inset in insets) for edge in range(4))
    if not one.turned:
        return top, right, bottom, left
    return (left, top, right, bottom) if which == BACK else (right, bottom, left, top)


def filled(copies: Sequence[Faces], one: Grid, which: int, sheet: Element) -> Side:
    """One side of a sheet: the cards, and on the front the marks and the bar that shows whether it printed at true size."""
    cards = [in_slot(faces[which], one, number, which) for number, faces in enumerate(copies)]
    extras = [marks(one), *check_bar(sheet, one)] if which == FRONT else []
    return tuple(Placed(piece, 0.0, 0.0) for piece in (*cards, *extras))


def in_slot(made: Piece, one: Grid, number: int, which: int) -> Piece:
    """A measured face in slot `number`, on its side when the grid is turned."""
    slot = one.slot(number, which == BACK)
    top, _, _, left = margins(one, which)

    def draw(ink: Ink, x: float, y: float) -> None:
        if one.turned:
            ink.turned(slot.x, slot.top, one.width, one.height, which == BACK, lambda own: made.draw(own, left, top))
        else:
            made.draw(ink, slot.x + left, slot.top + top)

    return Piece(0.0, draw)


def marks(one: Grid) -> Piece:
    """The cut marks, fine and black."""

    def draw(ink: Ink, x: float, top: float) -> None:
        for cut in one.marks():
            ink.rule(*cut, "fine")

    return Piece(0.0, draw)


def check_bar(sheet: Element, one: Grid) -> Iterator[Piece]:
    """A bar of 50 mm or 2 in under the first column, its words under the next or beside it, clear of the marks."""
    if one.tiled or not sheet.get("check"):
        return
    long = length("check_in" if sheet.get("unit") == "in" else "check")
    left, y = one.left + (one.width - long) / 2, one.page.height - length("edge")
    beside = (one.left + one.width if one.columns > 1 else left + long) + 2 * PT_PER_MM
    words = paragraph(sheet.get("check"), rungs()[-1].style("small"), one.page.width - length("edge") - beside)

    def draw(ink: Ink, x: float, top: float) -> None:
        ink.rule(left, y, left + long, y, "hair")
        for end in (left, left + long):
            ink.rule(end, y - PT_PER_MM, end, y + 0.25, "hair")
        words.draw(ink, beside, y - words.height + 1)

    yield Piece(0.0, draw)
