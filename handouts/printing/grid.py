"""Where cards go on a sheet that is cut up: how many, where each slot is, where its back is, where to cut. In points."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import floor

from handouts.errors import TemplateError
from handouts.printing.look import PT_PER_MM, Page, page_type, part

Cut = tuple[float, float, float, float]
"""A line to cut along: x1, y1, x2, y2 from the sheet's top left corner."""


@dataclass(frozen=True)
class Slot:
    """One card's place: its top left corner on the sheet, in points, and its inner margins (top, right, bottom, left)."""

    x: float
    top: float
    inset: tuple[float, float, float, float]


@dataclass(frozen=True)
class Grid:
    """Columns and rows of equal slots. width, height: of a slot as it lies on the sheet; turned: its card lies on its side."""

    page: Page
    columns: int
    rows: int
    width: float
    height: float
    turned: bool
    tiled: bool

    @property
    def count(self) -> int:
        """Cards on a sheet."""
        return self.columns * self.rows

    @property
    def card(self) -> tuple[float, float]:
        """Width and height of a card held upright."""
        return (self.height, self.width) if self.turned else (self.width, self.height)

    @property
    def left(self) -> float:
        """Points from the sheet's left edge to the first slot: the block of slots stands in the middle."""
        return (self.page.width - self.columns * self.width) / 2

    @property
    def top(self) -> float:
        """Points from the sheet's top edge to the first slot."""
        return (self.page.height - self.rows * self.height) / 2

    def slot(self, number: int, back: bool = False) -> Slot:
        """The place of card `number` (from 0, row by row); on a back the columns are mirrored: the sheet turns on its long edge."""
        row, column = divmod(number, self.columns)
        column = self.columns - 1 - column if back else column
        return Slot(self.left + column * self.width, self.top + row * self.height, self.inset(row, column))

    def inset(self, row: int, column: int) -> tuple[float, float, float, float]:
        """Points kept free inside a slot: more where it shares the sheet's own edge, which no printer reaches."""
        inner, edge = length("inset"), length("edge") if self.tiled else length("inset")
        return (
            edge if row == 0 else inner,
            edge if column == self.columns - 1 else inner,
            edge if row == self.rows - 1 else inner,
            edge if column == 0 else inner,
        )

    def cuts(self) -> tuple[list[float], list[float]]:
        """Every x and every y to cut at; a tiled sheet is only cut inside."""
        xs = [self.left + n * self.width for n in range(self.columns + 1)]
        ys = [self.top + n * self.height for n in range(self.rows + 1)]
        return (xs[1:-1], ys[1:-1]) if self.tiled else (xs, ys)

    def marks(self) -> Iterator[Cut]:
        """The lines that show where to cut: outside the block, or at the edges and crossings of a tiled sheet."""
        return tile_marks(self) if self.tiled else crop_marks(self)


def length(name: str) -> float:
    """A length of the table `slot` of look.toml, in points."""
    return float(part("slot")[f"{name}_mm"]) * PT_PER_MM


def grid(page: Page, card: str, mode: str) -> Grid:
    """The grid for cards of a named size on a page. Raises TemplateError for a size look.toml lacks."""
    sizes = part("slot_card")
    if card not in sizes:
        raise TemplateError(f"look.toml: no slot card “{card}”: it has {', '.join(sorted(sizes))}")
    size = sizes[card]["width_mm"] * PT_PER_MM, sizes[card]["height_mm"] * PT_PER_MM
    near = nearest(page, size)
    if mode == "tile" and near_enough(near, size):
        return near
    best = max((spaced(page, *lying(size, turned), turned) for turned in (False, True)), key=lambda one: one.count)
    if not best.count:
        raise TemplateError(f"look.toml: a card “{card}” is larger than the page “{page.name}”")
    return best


def off(one: Grid, size: tuple[float, float]) -> float:
    """How far a tiled card is from the size asked for, as a share of it: the larger of width and height."""
    return max(abs(made / asked - 1) for made, asked in zip(one.card, size, strict=True))


def lying(size: tuple[float, float], turned: bool) -> tuple[float, float]:
    """A card's width and height as it lies on the sheet."""
    return (size[1], size[0]) if turned else size


def spaced(page: Page, width: float, height: float, turned: bool) -> Grid:
    """As many cards of true size as go inside the margin that crop marks need."""
    outer = length("outer")
    columns, rows = (
        floor((whole - 2 * outer) / one + 1e-6) for whole, one in ((page.width, width), (page.height, height))
    )
    return Grid(page, max(columns, 0), max(rows, 0), width, height, turned, False)


def nearest(page: Page, size: tuple[float, float]) -> Grid:
    """The cards nearest to a size that share the sheet's edges and fill it."""
    either = (tile(page, *lying(size, turned), turned) for turned in (False, True))
    return min(either, key=lambda one: (one.count < 2, round(off(one, size), 2), -one.count))


def near_enough(one: Grid, size: tuple[float, float]) -> bool:
    """Whether tiled cards come out near enough to the size asked for."""
    return one.count > 1 and off(one, size) <= 1 - part("slot")["tile_least_share"]


def tile(page: Page, width: float, height: float, turned: bool) -> Grid:
    """As many cards as fill the sheet when each is about this size."""
    columns, rows = (max(1, round(whole / one)) for whole, one in ((page.width, width), (page.height, height)))
    return Grid(page, columns, rows, page.width / columns, page.height / rows, turned, True)


def untiled(page_name: str, card: str) -> tuple[float, float] | None:
    """Width and height in mm of the nearest cards that fill a sheet, where those are too far from a size to be tiled."""
    page, size = (
        page_type(page_name),
        tuple(part("slot_card")[card][f"{side}_mm"] * PT_PER_MM for side in ("width", "height")),
    )
    one = nearest(page, (size[0], size[1]))
    return None if near_enough(one, (size[0], size[1])) else (one.card[0] / PT_PER_MM, one.card[1] / PT_PER_MM)


def crop_marks(one: Grid) -> Iterator[Cut]:
    """Marks in the outer margin only, a gap away from the block."""
    gap, long = length("mark_gap"), length("mark")
    xs, ys = one.cuts()
    low, right = one.top + one.rows * one.height, one.left + one.columns * one.width
    for x in xs:
        yield x, one.top - gap - long, x, one.top - gap
        yield x, low + gap, x, low + gap + long
    for y in ys:
        yield one.left - gap - long, y, one.left - gap, y
        yield right + gap, y, right + gap + long, y


def tile_marks(one: Grid) -> Iterator[Cut]:
    """Ticks where a cut leaves the sheet and small crosses where two cuts meet; all inside the cards' free margin."""
    start, long, half = length("tile_tick_from"), length("mark"), length("tile_cross") / 2
    width, height = one.page.width, one.page.height
    xs, ys = one.cuts()
    for x in xs:
        yield x, start, x, start + long
        yield x, height - start - long, x, height - start
        for y in ys:
            yield x, y - half, x, y + half
            yield x - half, y, x + half, y
    for y in ys:
        yield start, y, start + long, y
        yield width - start - long, y, width - start, y
