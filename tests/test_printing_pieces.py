"""Measured things: columns that keep a heading with its block, level columns, one side or the fewest."""

from __future__ import annotations

import itertools
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handouts.printing.look import ladder, page_type
from handouts.printing.pieces import (
    Piece,
    at_least_one,
    balanced,
    first_that_fit,
    going_on,
    nothing,
    stack,
    stacked_height,
)

LINE, HEADING = nothing(10), replace(nothing(12), glued=True, opens=True, before=6)
pieces = st.lists(
    st.builds(
        lambda height, before, glued: replace(nothing(height), before=before, glued=glued),
        st.floats(1, 40),
        st.floats(0, 9),
        st.booleans(),
    ),
    max_size=12,
)


def test_a_heading_is_not_left_at_the_foot_of_a_column() -> None:
    """Room for the heading but not for its first line: it goes on with the line."""
    rows = [LINE, LINE, HEADING, LINE, LINE]
    assert first_that_fit(rows, 10 + 10 + 6 + 12 + 5) == 2
    assert first_that_fit(rows, 10 + 10 + 6 + 12 + 10) == 4


def test_glue_gives_way_before_words_are_lost() -> None:
    """Rows glued together and higher than a page are parted; on an empty page one goes whatever its height."""
    tall = [replace(LINE, glued=True)] * 9
    assert first_that_fit(tall, 35) == 0 and at_least_one(tall, 35) == 3 and at_least_one([nothing(99)], 35) == 1


@given(pieces, st.floats(0, 200))
def test_what_fits_fits(rows: list[Piece], room: float) -> None:
    """Never more than the room, never parting what is glued."""
    count = first_that_fit(rows, room)
    assert stacked_height(rows[:count]) <= room + 1e-6
    assert not count or count == len(rows) or not rows[count - 1].glued


@given(pieces)
def test_two_columns_are_no_higher_than_one(rows: list[Piece]) -> None:
    """And no lower than half of it would be."""
    both = balanced(rows, 100, 10).height
    assert both <= stack(rows).height + 1e-6
    assert both >= max((row.height for row in rows), default=0.0) - 1e-6


def test_columns_break_between_blocks_when_that_costs_little() -> None:
    """Three lines and a block of three: the block starts the second column."""
    block = [HEADING, LINE, LINE, LINE]
    assert balanced([*block, *block], 100, 10).height == pytest.approx(42)


def test_a_block_that_goes_on_in_the_next_column_has_its_title_again() -> None:
    """One long block has to be parted: what stands first at the right is its title, and the columns count it."""
    drawn: list[tuple[str, float]] = []
    title = replace(HEADING, draw=lambda ink, x, top: drawn.append(("again", x)))
    line = replace(LINE, repeat=title)
    both = balanced([HEADING, *[line] * 9], 100, 10, loath=1)
    both.draw(None, 0, 0)  # type: ignore[arg-type]
    assert drawn == [("again", 110)] and both.height == pytest.approx(12 + 5 * 10)


def test_one_item_alone_is_parted_from_its_block_only_at_a_price() -> None:
    """Free, the last line of a block may start the second column; at a price the block stays whole."""
    tall = [HEADING, *[LINE] * 4]
    assert balanced([*tall, HEADING, LINE, LINE], 100, 10, loath=0).height == pytest.approx(48)
    assert balanced([*tall, HEADING, LINE, LINE], 100, 10, loath=3).height == pytest.approx(52)
    assert going_on([LINE, LINE]) == [LINE, LINE]


def test_the_ladder_only_ever_gets_tighter() -> None:
    """Spacing first, then 9, 8.5, 8 pt, and the scale of a full page down to that of a card; body text never under 8 pt."""
    for name in ("card-a5", "card-half-letter", "binder-a4", "binder-letter"):
        fits = ladder(page_type(name))
        sizes = [fit.style("body").size for fit in fits]
        assert sizes == sorted(sizes, reverse=True) and min(sizes) == 8 and fits[-1].scale == 1
        assert all(a.gap >= b.gap or a.body > b.body or a.scale > b.scale for a, b in itertools.pairwise(fits))
