"""The edges of drawing: each was once changed on purpose and no other test noticed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from handouts.printing.grid import grid
from handouts.printing.ink import Ink
from handouts.printing.look import PT_PER_MM, page_type
from handouts.printing.pieces import balanced, nothing


class Pen:
    """A canvas that only remembers: circles as filled or not, lines as their ends."""

    def __init__(self) -> None:
        self.circles: list[int] = []
        self.lines: list[tuple[float, float]] = []

    def circle(self, x: float, y: float, radius: float, stroke: int, fill: int) -> None:
        """Remembers whether it is filled."""
        self.circles.append(fill)

    def line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """Remembers from where to where it goes across."""
        self.lines.append((x1, x2))

    def __getattr__(self, name: str) -> Any:
        return lambda *_: None


@pytest.mark.parametrize("dots", [0, 1, 2, 3])
def test_as_many_dots_are_filled_as_the_iron_has(dots: int) -> None:
    """One dot is one black dot and two rings."""
    pen: Any = Pen()
    Ink(pen, 100).dots(dots, 3, 0, 50, 5, 2)
    assert pen.circles == [1] * dots + [0] * (3 - dots)


def test_a_drawn_stitch_stands_in_the_middle_of_its_step() -> None:
    """Half the gap before it, half behind, so that dashes and gaps together are the stitch length."""
    pen: Any = Pen()
    Ink(pen, 100).gauge(2.5, 0, 50, 40)
    step = 2.5 * PT_PER_MM
    before_and_behind = [(x1 - n * step, (n + 1) * step - x2) for n, (x1, x2) in enumerate(pen.lines)]
    assert before_and_behind and all(before == pytest.approx(behind) for before, behind in before_and_behind)


@pytest.mark.parametrize("size", ["85 x 55 mm", "A7", "A6"])
def test_crop_marks_stay_off_the_cards(size: str) -> None:
    """Every mark lies in the margin around the block, none reaches into it."""
    one = grid(page_type("slots-a4"), size, "crop marks")
    right, low = one.left + one.columns * one.width, one.top + one.rows * one.height
    marks = list(one.marks())
    assert len(marks) == 2 * (one.columns + 1 + one.rows + 1)
    outside = [
        max(x1, x2) < one.left or min(x1, x2) > right or max(y1, y2) < one.top or min(y1, y2) > low
        for x1, y1, x2, y2 in marks
    ]
    assert all(outside)


def test_an_item_is_not_left_alone_for_a_little_levelness() -> None:
    """A heading and four lines: two and two, though one and three would be two points more level."""
    heading, line = replace(nothing(12), glued=True, opens=True), nothing(10)
    assert balanced([heading, line, line, line, line], 100, 10, loath=0.5).height == 12 + 10 + 10
