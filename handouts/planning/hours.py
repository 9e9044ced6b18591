"""Minutes that the class takes: the students' own sewing, and the places they queue for."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from handouts.model import Knowledge
from handouts.planning.order import uses_overlock
from handouts.plans import Hours, StationTime
from handouts.records import Fabric


def wanted(place: str, fabrics: Sequence[Fabric]) -> int:
    """How many of the fabrics need this place."""
    if place == "overlock":
        return sum(uses_overlock(f) for f in fabrics)
    if place == "iron":
        return sum(bool(f.advised("press_dots")) for f in fabrics)
    return len(fabrics)


def place_time(
    id: str, fabrics: Sequence[Fabric], settings: Mapping[str, Any], knowledge: Knowledge
) -> StationTime | None:
    """How long each machine, overlock or iron is busy: students × samples × minutes × its share, over their number."""
    record = knowledge.tables["planning"]["place"][id]
    count, students = int(settings.get(record["setting"]) or 0), int(settings["students"])
    samples = wanted(id, fabrics) * settings["samples_per_student"] * students
    if not count or not samples:
        return None
    busy = samples * settings["minutes_per_sample"] * record["share"] / min(count, students)
    return StationTime(id, count, busy, students / count, record["most"])


def of_class(
    fabrics: Sequence[Fabric], changes: Mapping[str, int], settings: Mapping[str, Any], knowledge: Knowledge
) -> Hours:
    """The class's minutes: the slowest of one student's own work and the busiest place, showing each cloth, and changes.

    Sittings: how many it takes when none is longer, and none has more fabrics, than is usual.
    """
    table = knowledge.tables["planning"]
    each = len(fabrics) * settings["samples_per_student"] * settings["minutes_per_sample"]
    places = [place_time(id, fabrics, settings, knowledge) for id in table["place"]]
    busy = tuple(place for place in places if place is not None)
    slowest = max(busy, key=lambda place: place.minutes, default=None)
    held = slowest is not None and slowest.minutes > each
    showing = len(fabrics) * table["number"]["showing_minutes"]["value"]
    changing = sum(times * table["station"][station]["minutes"] for station, times in changes.items())
    number = {key: record["value"] for key, record in table["number"].items()}
    total = (slowest.minutes if slowest and held else each) + showing + changing
    return Hours(
        each=each,
        stations=busy,
        slowest=slowest.station if slowest and held else "",
        showing=showing,
        changing=changing,
        total=total,
        sittings=math.ceil(max(len(fabrics) / number["sitting_fabrics"], total / number["sitting_minutes"])),
    )
