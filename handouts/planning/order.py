"""The order of work that changes the stations least, and how often each station changes."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from typing import Any

from handouts.model import Knowledge
from handouts.plans import Step
from handouts.records import Fabric

STATIONS = ("iron", "needle", "overlock", "differential")


def uses_overlock(fabric: Fabric) -> bool:
    """Whether the overlock is wanted: the advice says yes, the seam or the first finish is an overlock."""
    serger = fabric.advised("serger") or {}
    if serger.get("use", "no") == "no":
        return False
    finish = (fabric.advised("seam_finish") or ("",))[0]
    return bool(serger["use"] == "yes" or finish == "overlock" or "overlock" in str(fabric.advised("stitch")))


def needle(fabric: Fabric) -> tuple[str, int]:
    """The first point and the size to start with, in NM."""
    return fabric.advised("needle_point")[0], int(fabric.advised("needle_nm")["start"])


def stations(fabric: Fabric) -> dict[str, Any]:
    """What each station must show for this fabric: dots, (point, NM), threads, differential. None: not used."""
    serger = fabric.advised("serger") if uses_overlock(fabric) else None
    feed = serger["differential"] if serger else None
    return {
        "iron": fabric.advised("press_dots") or None,
        "needle": needle(fabric),
        "overlock": serger["threads"] if serger else None,
        "differential": (feed["low"], feed["high"]) if feed else None,
    }


def litters(fabric: Fabric, knowledge: Knowledge) -> bool:
    """Whether the cloth leaves fluff or sequins in the machine."""
    litter = knowledge.tables["planning"]["litter"]
    families, trims = fabric.fact("families") or (), fabric.fact("trim") or ()
    return bool(set(families) & set(litter["families"]) or set(trims) & set(litter["trims"]))


def chain(groups: Sequence[Sequence[Any]]) -> list[list[Any]]:
    """Each group's keys reordered so that as many neighbouring groups as possible meet on the same key.

    Groups keep their places; keys are given tidily and stay so wherever that costs no change. Exact, by dynamic programming
    over the last key of each group.
    """
    best: dict[Hashable, tuple[tuple[int, int], list[list[Any]]]] = {None: ((0, 0), [])}
    for keys in groups:
        reached: dict[Hashable, tuple[tuple[int, int], list[list[Any]]]] = {}
        for first, last in ends(keys):
            middle = [key for key in keys if key not in (first, last)]
            row = [first, *middle, last] if len(keys) > 1 else [first]
            untidy = keys.index(first) + len(keys) - 1 - keys.index(last)
            score, path = min(
                (((cost[0] + (before != first), cost[1] + untidy), path) for before, (cost, path) in best.items()),
                key=lambda found: found[0],
            )
            if last not in reached or score < reached[last][0]:
                reached[last] = (score, [*path, row])
        best = reached
    return min(best.values(), key=lambda found: found[0])[1]


def ends(keys: Sequence[Any]) -> list[tuple[Any, Any]]:
    """Every pair of different keys that can stand first and last in a group."""
    return [(keys[0], keys[0])] if len(keys) == 1 else [(a, b) for a in keys for b in keys if a != b]


def split(groups: Sequence[Sequence[Fabric]], key: Any) -> list[list[Fabric]]:
    """The groups cut into smaller ones of equal key, those in the order that `chain` finds best."""
    parts: list[dict[Any, list[Fabric]]] = []
    for group in groups:
        parts.append({})
        for fabric in group:
            parts[-1].setdefault(key(fabric), []).append(fabric)
    rows = chain([sorted(part, key=tidy) for part in parts])
    return [part[k] for part, row in zip(parts, rows, strict=True) for k in row]


def tidy(key: Any) -> tuple[bool, Any]:
    """Sorting of keys that may be None: nothing first, then rising."""
    return (key is not None, key if key is not None else 0)


def order_of_work(fabrics: Sequence[Fabric], knowledge: Knowledge) -> list[Fabric]:
    """The fabrics in the order that changes stations least: iron rising, needle, overlock, then those that litter last."""
    if not fabrics:
        return []
    points = list(knowledge.topics["needle_point"].order)
    groups = [
        [f for f in fabrics if (f.advised("press_dots") or 0) == dots]
        for dots in sorted({f.advised("press_dots") or 0 for f in fabrics})
    ]
    groups = split(groups, lambda f: (points.index(needle(f)[0]), needle(f)[1]))
    groups = split(groups, lambda f: stations(f)["overlock"])
    groups = split(groups, lambda f: stations(f)["differential"])
    return [f for group in groups for f in sorted(group, key=lambda f: litters(f, knowledge))]


def steps(fabrics: Sequence[Fabric], knowledge: Knowledge) -> tuple[Step, ...]:
    """One Step per fabric, with the stations that change before it; the first setting of a station is no change."""
    standing: dict[str, Any] = {}
    made = []
    for fabric in fabrics:
        wanted = stations(fabric)
        used = {station: value for station, value in wanted.items() if value is not None}
        changed = tuple(s for s in STATIONS if s in used and s in standing and standing[s] != used[s])
        standing.update(used)
        made.append(Step(fabric.code, fabric.name, wanted, changed, litters(fabric, knowledge)))
    return tuple(made)


def changes(made: Iterable[Step]) -> Mapping[str, int]:
    """How often each station changes."""
    counted = dict.fromkeys(STATIONS, 0)
    for station in (s for step in made for s in step.changes):
        counted[station] += 1
    return counted
