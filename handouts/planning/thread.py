"""Thread that the samples take, by stitch."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from handouts.model import Knowledge
from handouts.planning.order import uses_overlock
from handouts.plans import ThreadUse
from handouts.records import Fabric


def per_seam(record: Mapping[str, Any], stitch_mm: float, seam_mm: float | None, bight_mm: float) -> tuple[float, str]:
    """Thread for one length of seam, and how it was found: `formula` where the thickness is known, else `ratio`.

    C = base + t·T·S + b·W·S, with T the thickness at the needle, W the width of the stitch, S stitches a length
    (textilecalculations.com for 301, 401, 504; the 401 form also in the A&E bulletin of 2008).
    """
    formula = record.get("formula")
    if formula is None or not seam_mm or not stitch_mm:
        return float(record["ratio"]), "ratio"
    return formula["base"] + (formula["thickness"] * seam_mm + formula["bight"] * bight_mm) / stitch_mm, "formula"


def needed(seam_m: float, ratio: float, waste_pct: float) -> float:
    """Metres of thread for metres of seam: length × ratio, and the waste on top."""
    return seam_m * ratio * (1 + waste_pct / 100)


def stitch_record(stitch: str, threads: int, knowledge: Knowledge) -> tuple[str, Mapping[str, Any]]:
    """The ISO 4915 number and its record, for `301 straight`, or for `overlock` with so many threads."""
    table = knowledge.tables["thread_use"]
    number = stitch.split()[0]
    if number == "overlock":
        number = table["overlock"].get(str(threads), "504")
    return number, table["stitch"].get(number, table["stitch"]["301"])


def rows(fabric: Fabric, knowledge: Knowledge) -> list[tuple[str, int]]:
    """Rows of stitching that one seam takes: (stitch, how many), the seam itself first, then its finish."""
    finish = (fabric.advised("seam_finish") or ("none",))[0]
    record = knowledge.tables["thread_use"]["finish"].get(finish, {"stitch": "301", "open": 0, "side": 0})
    seam = str(fabric.advised("stitch") or "301 straight")
    many = record["open" if fabric.advised("press_direction") == "open" else "side"]
    if "overlock" in seam and record["stitch"] == "overlock":
        many = 0  # the overlocked seam is its own finish
    return [(seam, 1)] + ([(record["stitch"], many)] if many else [])


def use(fabric: Fabric, samples: int, settings: Mapping[str, Any], knowledge: Knowledge) -> ThreadUse:
    """Metres of thread for all samples of one fabric, at the machine and at the overlock, ends and waste included."""
    number = {key: record["value"] for key, record in knowledge.tables["thread_use"]["number"].items()}
    seam_m = samples * (settings["seam_per_sample_cm"] + 2 * number["end_cm"]) / 100
    threads = (fabric.advised("serger") or {}).get("threads") or 3
    thickness = fabric.fact("thickness_mm")
    seam_mm = thickness * number["plies"] if thickness else None
    stitch_mm = float(fabric.advised("stitch_mm")["start"])
    metres, found = {False: 0.0, True: 0.0}, []
    for stitch, many in rows(fabric, knowledge):
        no, record = stitch_record(stitch, threads, knowledge)
        ratio, basis = per_seam(record, stitch_mm, seam_mm, number["overlock_width_mm"])
        found.append((no, ratio, basis))
        at_overlock = bool(record.get("overlock")) and uses_overlock(fabric)
        metres[at_overlock] += needed(seam_m * many, ratio, number["waste_pct"])
    no, ratio, basis = found[0]
    return ThreadUse(
        fabric.code, str(fabric.advised("thread") or ""), no, seam_m, ratio, basis, metres[False], metres[True]
    )
