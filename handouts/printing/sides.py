"""Sides of paper: placed pieces, measured from the corner of the page's inner area."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from handouts.printing.pieces import Piece


@dataclass(frozen=True)
class Placed:
    """A piece and where its top left corner goes, in points from the corner of the page's inner area."""

    piece: Piece
    x: float
    top: float


Side = tuple[Placed, ...]
Spaced = tuple[float, Piece]
"""Points above a piece, and the piece."""


def stretch(parts: Sequence[Spaced]) -> float:
    """Points from the top of the first to the bottom of the last, gaps included."""
    return sum(gap + piece.height for gap, piece in parts)


def place(parts: Sequence[Spaced]) -> list[Placed]:
    """One under the other from the top."""
    placed, y = [], 0.0
    for gap, piece in parts:
        y += gap
        placed.append(Placed(piece, 0.0, y))
        y += piece.height
    return placed
