"""The needle cell: `80`, `80/12`, `10/70`, `universal 80`, `90/14 jeans` → `universal 80`, `jeans 90` (NM, 1/100 mm)."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from handouts.workbook.limits import NEEDLE
from handouts.workbook.words import closest, plain, spoken

PAIR = re.compile(r"(\d{1,3})\s*[/\\|]\s*(\d{1,3})")
SIZE = re.compile(r"(?<![\d.])(\d{1,3})(?![\d.])")
LEAST_NM, MOST_NM = NEEDLE["least_nm"], NEEDLE["most_nm"]
PLAIN_POINT = "universal"


@dataclass(frozen=True)
class Needle:
    """A needle cell read. us: the size typed beside NM; fault: a problem code; found: what its sentence needs."""

    text: str = ""
    fault: str = ""
    found: Mapping[str, object] = field(default_factory=dict)


def read_needle(typed: str, known: Sequence[str]) -> Needle:
    """The needle in one spelling. `known`: the words of the drop-down (`universal 80/12`); empty means anything goes."""
    sizes, points = _known_sizes(known), _known_points(known)
    nm, fault, found = _size(typed, sizes)
    point, strange = _point(typed, points)
    if nm is None:
        return Needle(fault=fault or "needle-unreadable", found=found)
    if strange:
        near = closest(strange, points)
        return Needle(fault="needle-point-unknown", found={"point": strange, "near": near, "points": ", ".join(points)})
    return Needle(f"{point or PLAIN_POINT} {nm}", fault, {**found, "read": f"{point or PLAIN_POINT} {nm}"})


def _known_sizes(known: Sequence[str]) -> dict[int, int]:
    """NM → US size, read off the drop-down words."""
    pairs = (PAIR.search(word) for word in known)
    return {int(pair[1]): int(pair[2]) for pair in pairs if pair}


def _known_points(known: Sequence[str]) -> list[str]:
    """The points of the drop-down words, in their order."""
    bare = (re.sub(r"[\d/.\s]+$", "", word).strip() for word in known)
    return list(dict.fromkeys(word for word in bare if word))


def _size(typed: str, sizes: Mapping[int, int]) -> tuple[int | None, str, dict[str, object]]:
    """NM, a problem code (or nothing) and what its sentence needs."""
    pair = PAIR.search(typed)
    if pair:
        return _from_pair(int(pair[1]), int(pair[2]), sizes)
    found = SIZE.findall(typed)
    if len(found) != 1:
        return None, "needle-unreadable", {}
    size = int(found[0])
    if LEAST_NM <= size <= MOST_NM:
        return size, "", {}
    nm = {us: nm for nm, us in sorted(sizes.items(), reverse=True)}.get(size)
    return (nm, "needle-us", {"size": size}) if nm else (None, "needle-unreadable", {})


def _from_pair(first: int, second: int, sizes: Mapping[int, int]) -> tuple[int | None, str, dict[str, object]]:
    nm, us = max(first, second), min(first, second)
    if not LEAST_NM <= nm <= MOST_NM or us >= LEAST_NM:
        return None, "needle-unreadable", {}
    if (nm in sizes or us in sizes.values()) and sizes.get(nm) != us:
        likely = [f"{n}/{u}" for n, u in sizes.items() if n == nm or u == us]
        return None, "needle-pair", {"pairs": " or ".join(likely)}
    return nm, "needle-turned" if first < second else "", {"pair": f"{nm}/{us}"}


def _point(typed: str, points: Sequence[str]) -> tuple[str, str]:
    """The point named, and words that name none."""
    words = plain(re.sub(r"\d+\s*[/\\|]\s*\d+|\d+", " ", typed))
    words = re.sub(r"\b(needles?|size|nm|no|us|point|tip|with|a)\b", " ", words)
    words = " ".join(re.sub(r"[(),;.]", " ", words).split())
    if not words:
        return "", ""
    by_plain = {plain(point): point for point in points} | {
        word: point for word, point in spoken("needle_points").items() if not points or point in points
    }
    known = by_plain.get(words)
    if known or not points:
        return known or words, ""
    return "", words
