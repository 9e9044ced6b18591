"""A code to scan (ISO/IEC 18004), drawn as black rows of squares so that it stays sharp at any print size."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from handouts.printing.grid import length
from handouts.printing.ink import Ink
from handouts.printing.look import part
from handouts.printing.pieces import Piece

Run = tuple[int, int, int]
"""Row, first column, how many dark squares."""


@cache
def runs(words: str) -> tuple[int, tuple[Run, ...]]:
    """Squares along a side, quiet zone included, and every run of dark squares. Level M; the mask is fixed (any mask reads)."""
    import segno

    quiet = part("slot")["qr_quiet"]
    made = segno.make(words, error="m", boost_error=False, micro=False, mask=part("slot")["qr_mask"])
    rows = [bytes(row) for row in made.matrix]
    return len(rows) + 2 * quiet, tuple(
        run for number, row in enumerate(rows) for run in dark(row, number + quiet, quiet)
    )


def dark(row: bytes, number: int, quiet: int) -> Iterator[Run]:
    """The runs of dark squares in one row."""
    start = None
    for column, square in enumerate([*row, 0]):
        if square and start is None:
            start = column
        elif not square and start is not None:
            yield number, start + quiet, column - start
            start = None


def code(words: str) -> Piece:
    """The code as a square piece."""
    count, found = runs(words)
    step = length("qr_module")

    def draw(ink: Ink, x: float, top: float) -> None:
        for row, column, many in found:
            ink.block(x + column * step, top + row * step, many * step, step)

    return Piece(count * step, draw)
