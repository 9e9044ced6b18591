"""Measured things: a height and a way to draw it. Layouts place pieces; nothing is drawn before everything is measured."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from handouts.printing.ink import Ink
from handouts.printing.look import Style
from handouts.printing.text import Line, Span, line_height, wrap

Draw = Callable[[Ink, float, float], None]


@dataclass(frozen=True)
class Piece:
    """Something measured. draw(ink, x, top) puts its top left corner there.

    height: points. before: points of space above it, dropped at the top of a column.
    glued: may not be parted from what follows (a heading, the first lines of an item).
    opens: starts a block, the best place to go on in the next column.
    repeat: what stands above it again when it comes first in a column or on a page (a block's title, a table's headings).
    """

    height: float
    draw: Draw
    before: float = 0.0
    glued: bool = False
    opens: bool = False
    repeat: Piece | None = None


def nothing(height: float = 0.0) -> Piece:
    """Empty space."""
    return Piece(height, lambda ink, x, top: None)


def lines_piece(lines: Sequence[Line], indent: float = 0.0) -> Piece:
    """Set lines, left aligned, `indent` points in."""
    height = sum(line_height(line) for line in lines)

    def draw(ink: Ink, x: float, top: float) -> None:
        for line in lines:
            lead = line_height(line)
            ink.line(line, x + indent, top + baseline(line))
            top += lead

    return Piece(height, draw)


def baseline(line: Line) -> float:
    """Points from the top of a line to what its letters stand on: half the spare leading plus the height of an ascender."""
    size = max(span.style.size for span in line)
    return (line_height(line) - size) / 2 + size * 0.8


def paragraph(text: str, style: Style, width: float, indent: float = 0.0) -> Piece:
    """Text wrapped to `width` points."""
    return lines_piece(wrap([Span(text, style)], width - indent), indent)


def stack(pieces: Iterable[Piece]) -> Piece:
    """One under the other; the space above the first is dropped."""
    parts = list(pieces)
    if not parts:
        return nothing()
    tops, y = [], -parts[0].before
    for part in parts:
        y += part.before
        tops.append(y)
        y += part.height

    def draw(ink: Ink, x: float, top: float) -> None:
        for offset, part in zip(tops, parts, strict=True):
            part.draw(ink, x, top + offset)

    return Piece(y, draw)


def beside(parts: Sequence[tuple[float, Piece]]) -> Piece:
    """Side by side, tops level: (points from the left, piece)."""

    def draw(ink: Ink, x: float, top: float) -> None:
        for offset, part in parts:
            part.draw(ink, x + offset, top)

    return Piece(max((part.height for _, part in parts), default=0.0), draw)


def stacked_height(pieces: Sequence[Piece]) -> float:
    """The height of the pieces as a column, in points."""
    return sum(p.height for p in pieces) + sum(p.before for p in pieces[1:])


def first_that_fit(pieces: Sequence[Piece], room: float) -> int:
    """How many of the pieces go into `room` points without parting what is glued; none if not even the first group does."""
    used, best = 0.0, 0
    for number, piece in enumerate(pieces):
        used += piece.height + (piece.before if number else 0.0)
        if used > room + 1e-6:
            break
        if not piece.glued or number == len(pieces) - 1:
            best = number + 1
    return best


def at_least_one(pieces: Sequence[Piece], room: float) -> int:
    """As first_that_fit, but on an empty page something always goes: glue gives way before words are lost."""
    fitting = first_that_fit(pieces, room)
    if fitting or not pieces:
        return fitting
    loose = [replace(piece, glued=False) for piece in pieces]
    return max(1, first_that_fit(loose, room))


def balanced(rows: Sequence[Piece], width: float, gap: float, loath: float = 6) -> Piece:
    """The rows in two columns of `width` points, `gap` apart, as level as may be.

    Parting a block counts `loath` lines more, leaving one item of it alone twice that.
    """
    right = _best_split(rows, loath)
    return beside([(0, stack(rows[:right])), (width + gap, stack(going_on(rows[right:])))])


def going_on(rows: Sequence[Piece]) -> list[Piece]:
    """The rows at the top of a column: the title of a block that goes on there stands above them again."""
    if not rows or rows[0].opens or rows[0].repeat is None:
        return list(rows)
    return [replace(rows[0].repeat, glued=True), *rows]


def _best_split(rows: Sequence[Piece], loath: float) -> int:
    """Where the second column starts: the lowest pair of columns, a block parted in the middle counting as more."""
    penalty = loath * min((row.height for row in rows if row.height), default=0.0)
    best, lowest = len(rows), stacked_height(rows)
    for split in range(1, len(rows)):
        if rows[split - 1].glued:
            continue
        height = max(stacked_height(rows[:split]), stacked_height(going_on(rows[split:])))
        height += 0.0 if rows[split].opens else penalty * (2 if _lonely(rows, split) else 1)
        if height < lowest - 1e-6:
            best, lowest = split, height
    return best


def _lonely(rows: Sequence[Piece], split: int) -> bool:
    """Whether only one item of the block that is parted here stands before, or after, the split."""
    start = max(n for n in range(split) if rows[n].opens or n == 0)
    end = next((n for n in range(split, len(rows)) if rows[n].opens), len(rows))
    before, after = (sum(not row.glued for row in part) for part in (rows[start:split], rows[split:end]))
    return min(before, after) < 2
