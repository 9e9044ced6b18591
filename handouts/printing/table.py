"""The table: columns as wide as their words need, headings repeated on every page, groups with a cell that spans them.

<table plain="yes|no">
  <column label="Fabric" share="2"/> …            share: parts of the width; without any share, widths follow the words
  <group> <span column="1">…</span> <row> <cell>…</cell> … </row> </group>      or <row> straight in the table
A cell: words, then <note>words</note> under them; strong="yes"; mark="triangle"; tick="yes"; <dots n="2"/>; <gauge mm="2.5"/>.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from handouts.printing.cells import Cell, cell
from handouts.printing.ink import Ink
from handouts.printing.look import Fit
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, stack

WHOLE = 8
"""A group of up to this many rows is kept on one page (judgement)."""


@dataclass(frozen=True)
class Frame:
    """How a table is set: its whole width and each column's, in points; whether rules are drawn."""

    width: float
    widths: tuple[float, ...]
    plain: bool
    fit: Fit

    @property
    def lefts(self) -> tuple[float, ...]:
        """Where each column starts, in points."""
        return tuple(sum(self.widths[:number]) for number in range(len(self.widths)))

    def inner(self, number: int) -> float:
        """Points for words in a column."""
        return self.widths[number] - self.pad

    @property
    def pad(self) -> float:
        """Points kept free at the right of every column."""
        return self.fit.space("cell_x") * 2


def table(element: Element, width: float, fit: Fit) -> list[Piece]:
    """The rows of a table, the headings first; every row knows the headings to repeat above it."""
    columns = list(element.all("column"))
    parts = [child for child in element.children if child.tag in ("group", "row")]
    groups = [part if part.tag == "group" else Element("group", {}, "", (part,)) for part in parts]
    if not groups:
        return []
    frame = Frame(width, column_widths(columns, groups, width, fit), element.flag("plain"), fit)
    top = _headings(columns, frame)
    rows = [row for group in groups for row in _group(group, frame, top)]
    start = (
        [replace(top, before=fit.space("part"), glued=True)] if top else [replace(rows[0], before=fit.space("heading"))]
    )
    return [*start, *(rows if top else rows[1:])]


def column_widths(columns: Sequence[Element], groups: Sequence[Element], width: float, fit: Fit) -> tuple[float, ...]:
    """The width of each column in points, together `width`: by share, else between the longest word and the whole words."""
    if any(column.get("share") for column in columns):
        shares = [column.number("share") for column in columns]
        return tuple(width * share / sum(shares) for share in shares)
    pad = 2 * fit.space("cell_x")
    wants = [_wants(number, column, groups, fit) for number, column in enumerate(columns)]
    least, most = [low + pad for low, _, _ in wants], [high + pad for _, high, _ in wants]
    if sum(most) <= width:
        return _widened(most, [figure for _, _, figure in wants], width)
    if sum(least) >= width:
        return tuple(width * m / sum(least) for m in least)
    spare = (width - sum(least)) / (sum(most) - sum(least))
    return tuple(low + (high - low) * spare for low, high in zip(least, most, strict=True))


def _widened(most: list[float], figures: list[bool], width: float) -> tuple[float, ...]:
    """The widths, the spare given to columns of words alone so that a figure stays beside its words."""
    takers = sum(m for m, figure in zip(most, figures, strict=True) if not figure)
    spare = width - sum(most)
    if not takers:
        return tuple(m + spare * m / sum(most) for m in most)
    return tuple(m if figure else m + spare * m / takers for m, figure in zip(most, figures, strict=True))


def _wants(number: int, column: Element, groups: Sequence[Element], fit: Fit) -> tuple[float, float, bool]:
    """The least and the wished-for inner width of a column, in points, and whether anything is drawn in it."""
    label = cell(Element("cell", {"look": "small"}, column.get("label")), fit)
    cells = [cell(e, fit) for group in groups for e in _column_cells(group, number)]
    return max(c.least for c in (label, *cells)), max(c.most for c in (label, *cells)), any(c.drawn for c in cells)


def _column_cells(group: Element, number: int) -> list[Element]:
    spans = [e for e in group.all("span") if int(e.get("column", "0")) == number]
    rows = [list(row.all("cell")) for row in group.all("row")]
    return spans + [row[number] for row in rows if number < len(row)]


def _headings(columns: Sequence[Element], frame: Frame) -> Piece | None:
    """The row of labels over a rule; None when no column has one."""
    if not any(column.get("label") for column in columns):
        return None
    labels = [cell(Element("cell", {"look": "small"}, column.get("label")), frame.fit) for column in columns]
    row = _row(labels, frame)
    rule = frame.fit.space("cell_y") / 4

    def draw(ink: Ink, x: float, top: float) -> None:
        row.draw(ink, x, top)
        ink.rule(x, top + row.height + rule, x + frame.width, top + row.height + rule, "group")

    return Piece(row.height + rule, draw)


def _row(cells: Sequence[Cell | None], frame: Frame) -> Piece:
    """One row: cells side by side with air above and below; None leaves its column free."""
    pad = frame.fit.space("cell_y") * (0.3 if frame.plain else 1.0)
    pieces = [None if one is None else one.set(frame.inner(number)) for number, one in enumerate(cells)]
    height = max((piece.height for piece in pieces if piece), default=0.0) + 2 * pad

    def draw(ink: Ink, x: float, top: float) -> None:
        for left, piece in zip(frame.lefts, pieces, strict=False):
            if piece:
                piece.draw(ink, x + left, top + pad)

    return Piece(height, draw)


def _group(group: Element, frame: Frame, top: Piece | None) -> list[Piece]:
    """The rows of a group. Its spans stand in the first row and again, under the headings, where a page starts inside it."""
    spans = {int(span.number("column")): cell(span, frame.fit) for span in group.all("span")}
    rows = [_row(_open_cells(row, spans, frame), frame) for row in group.all("row")]
    overlay = _row([spans.get(number) for number in range(len(frame.widths))], frame) if spans else Piece(0.0, _no_ink)
    rows = _high_enough(rows, overlay.height)
    last = len(rows) - 1
    made = [_ruled(row, frame, () if number == last else tuple(spans)) for number, row in enumerate(rows)]
    shown = stack([p for p in (top, replace(overlay, height=0.0)) if p])
    made = [
        replace(row, glued=_glued(number, last), repeat=shown if number else top) for number, row in enumerate(made)
    ]
    first = made[0]
    return [replace(stack([replace(overlay, height=0.0), first]), glued=first.glued, repeat=first.repeat), *made[1:]]


def _no_ink(ink: Ink, x: float, top: float) -> None:
    return None


def _open_cells(row: Element, spans: dict[int, Cell], frame: Frame) -> list[Cell | None]:
    cells: list[Cell | None] = [cell(one, frame.fit) for one in row.all("cell")]
    cells += [None] * (len(frame.widths) - len(cells))
    return [None if number in spans else one for number, one in enumerate(cells)]


def _high_enough(rows: list[Piece], needed: float) -> list[Piece]:
    """The rows, the last one made higher if the span needs more than all of them."""
    short = needed - sum(row.height for row in rows)
    return rows if short <= 0 else [*rows[:-1], replace(rows[-1], height=rows[-1].height + short)]


def _glued(number: int, last: int) -> bool:
    """Short groups stay whole; of long ones the first three and the last two rows stay together."""
    return number < last and (last < WHOLE or number < 2 or number == last - 1)


def _ruled(row: Piece, frame: Frame, free: Sequence[int]) -> Piece:
    """The row with a rule under it, heavier at the end of a group, left open under the columns `free`."""
    if frame.plain:
        return row

    def draw(ink: Ink, x: float, top: float) -> None:
        row.draw(ink, x, top)
        y = top + row.height
        for number, (left, width) in enumerate(zip(frame.lefts, frame.widths, strict=True)):
            if number not in free:
                ink.rule(x + left, y, x + left + width, y, "hair" if free else "group")

    return replace(row, draw=draw)
