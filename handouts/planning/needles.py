"""Needles to have: of every kind, for machines and overlocks."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from handouts.model import Knowledge
from handouts.planning.order import needle, uses_overlock
from handouts.plans import NeedleNeed
from handouts.records import Fabric

MINUTES_PER_HOUR = 60


def count(machines: int, hours_each: float, life_hours: float, spare: int, each: int = 1) -> int:
    """Needles of one kind: for every machine as many as its hours wear out, at least one (of each place), and the spares."""
    return machines * each * max(1, math.ceil(hours_each / life_hours)) + spare


def needs(fabrics: Sequence[Fabric], settings: Mapping[str, Any], knowledge: Knowledge) -> tuple[NeedleNeed, ...]:
    """Every kind of needle in the order of work: machines first, then overlocks, which take two of a kind for four threads."""
    return (*at("machine", fabrics, settings, knowledge), *at("overlock", fabrics, settings, knowledge))


def at(place: str, fabrics: Sequence[Fabric], settings: Mapping[str, Any], knowledge: Knowledge) -> list[NeedleNeed]:
    """The needles of one place, the fabrics of a kind together."""
    kinds: dict[tuple[str, int], list[Fabric]] = {}
    for fabric in fabrics:
        if place == "machine" or uses_overlock(fabric):
            kinds.setdefault(needle(fabric), []).append(fabric)
    return [
        need(place, kind, own, settings, knowledge)
        for kind, own in kinds.items()
        if machines(place, settings, knowledge)
    ]


def machines(place: str, settings: Mapping[str, Any], knowledge: Knowledge) -> int:
    """How many machines (or overlocks) are used at once. No machines entered: every student brings one."""
    given = int(settings.get(knowledge.tables["planning"]["place"][place]["setting"]) or 0)
    return min(given or int(settings["students"]), int(settings["students"])) if place == "machine" else given


def need(
    place: str, kind: tuple[str, int], fabrics: Sequence[Fabric], settings: Mapping[str, Any], knowledge: Knowledge
) -> NeedleNeed:
    """One kind of needle: hours a machine sews with it, and how many that takes."""
    table = knowledge.tables["planning"]
    using = machines(place, settings, knowledge)
    samples = len(fabrics) * settings["samples_per_student"] * settings["students"]
    hours = samples * settings["minutes_per_sample"] * table["place"][place]["share"] / MINUTES_PER_HOUR / using
    threads = max((f.advised("serger") or {}).get("threads", 0) for f in fabrics) if place == "overlock" else 0
    each = overlock_needles(threads, knowledge) if place == "overlock" else 1
    life, spare = table["number"]["needle_hours"]["value"], table["number"]["needle_spare"]["value"]
    codes = tuple(f.code for f in fabrics)
    return NeedleNeed(kind[0], kind[1], place, count(using, hours, life, spare, each), each, hours, codes)


def overlock_needles(threads: int, knowledge: Knowledge) -> int:
    """Needles in an overlock stitch of so many threads: one for three, two for four."""
    table = knowledge.tables["thread_use"]
    return int(table["stitch"][table["overlock"].get(str(threads), "504")]["needles"])
