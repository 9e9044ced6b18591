"""Parts of a cloth that are stated apart: pile or face and back, warp and weft."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from handouts.labelling.names import capital
from handouts.labelling.shares import figure
from handouts.records import Content, Section

FRONTS, BACKS = ("pile", "face"), ("back", "ground")


def face_and_back(content: Content) -> tuple[Section, ...]:
    """The pile (or face) and the back (or ground) of a cloth, in the order typed; empty when it has no such pair."""
    pair = tuple(section for section in content.sections if section.part in (*FRONTS, *BACKS))
    return pair if len(pair) == 2 and {pair[0].part in FRONTS, pair[1].part in FRONTS} == {True, False} else ()


def one_cloth(content: Content) -> bool:
    """Whether a full statement of the whole cloth stands beside that of its parts."""
    return any(section.part == "" and section.shares for section in content.sections)


def with_ratio(content: Content) -> Content:
    """The same content, with the share of the second of two parts worked out from the first (100 less it)."""
    for pair in (face_and_back(content), warp_and_weft(content)):
        given = [section.pct for section in pair if section.pct is not None]
        if len(pair) == 2 and len(given) == 1 and 0 < given[0] < 100:
            rest = round(100 - given[0], 6)
            full = {id(section): replace(section, pct=rest) for section in pair if section.pct is None}
            content = replace(content, sections=tuple(full.get(id(section), section) for section in content.sections))
    return content


def ratio_line(pair: tuple[Section, ...], typed: str) -> str:
    """`(Back constitutes 60% of fabric and pile 40%)`, the greater part first; a face typed as pile there is called so (300.26)."""
    first, second = sorted(pair, key=lambda section: -(section.pct or 0))
    one, other = (
        "pile" if s.part == "face" and re.search(r"\bpile\b", typed, re.I) else s.part for s in (first, second)
    )
    return f"({capital(one)} constitutes {figure(first.pct or 0)}% of fabric and {other} {figure(second.pct or 0)}%)"


def film_line(content: Content, same: Mapping[str, str]) -> str:
    """The coating as a line of its own, `PVC`; empty when there is none or a share or part already names it.

    same: coating → the fibre of the same stuff.
    """
    named = any(
        (section.part in ("coating", "membrane") and section.shares)
        or any(
            s.words.casefold() == content.coating.casefold() or s.fibre == same.get(content.coating, "none")
            for s in section.shares
        )
        for section in content.sections
    )
    film = content.coating
    return "" if named or not content.sections else film


def warp_and_weft(content: Content) -> tuple[Section, ...]:
    """The warp and the weft, or nothing."""
    pair = tuple(section for section in content.sections if section.part in ("warp", "weft"))
    return pair if len(pair) == 2 else ()


def pure(section: Section, fibre: str) -> bool:
    """Whether a part is wholly one fibre."""
    return len(section.shares) == 1 and section.shares[0].fibre == fibre


def whole_of_yarns(content: Content) -> Content:
    """Warp and weft of known weight as one statement of the whole cloth: each share times its part."""
    pair = warp_and_weft(content)
    if not pair or any(section.pct is None or any(s.pct is None for s in section.shares) for section in pair):
        return content
    shares = tuple(
        replace(share, pct=round((share.pct or 0) * (section.pct or 0) / 100, 4))
        for section in pair
        for share in section.shares
    )
    rest = tuple(section for section in content.sections if section not in pair)
    return replace(content, sections=(Section("", shares), *rest))
