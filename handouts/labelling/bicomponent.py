"""Fibres spun of two polymers, stated as 16 CFR 303.10(b) prints them: `100% Biconstituent Fiber (65% Nylon, 35% Polyester)`."""

from __future__ import annotations

from handouts.labelling.shares import figure, read_share, spelt
from handouts.labelling.tokens import Group, groups
from handouts.labelling.words import Lexicon
from handouts.records import Share


def components(group: Group, lexicon: Lexicon) -> list[Share]:
    """A share of such a fibre as a share of each polymer, all with the words of the whole; none when it is no such share."""
    if group.pct is None or not group.note or not lexicon.has("bicomponent", spelt(group.words)):
        return []
    found = [read_share(part, lexicon)[0] for part in groups(group.note, lexicon)]
    if any(share.fibre is None for share in found) or sum(share.pct or 0 for share in found) != 100:
        return []
    named = ", ".join(f"{figure(share.pct or 0)}% {lexicon.fibre(share.fibre or '').us}" for share in found)
    words = f"{group.text} ({named})"
    return [Share(share.fibre, round(group.pct * (share.pct or 0) / 100, 6), words) for share in found]
