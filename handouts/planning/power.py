"""Irons against circuits: arithmetic, and the one published limit where it was published."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from handouts.model import Knowledge
from handouts.plans import Power


def capacity_w(volts: float, amps: float) -> float:
    """Watts that a circuit's rating comes to: V × A."""
    return volts * amps


def limit_w(volts: float, amps: float, knowledge: Knowledge) -> float | None:
    """Watts that the published 80 % figure leaves on a circuit; None where it was not published: elsewhere, other ratings.

    NEC 210.23(A)(1) as reported: one cord-and-plug appliance on a 15 or 20 A circuit of a US supply, 12 and 16 A.
    """
    power = knowledge.tables["planning"]["power"]
    american = power["us_volts_low"] <= volts <= power["us_volts_high"]
    return power["us_share"] * capacity_w(volts, amps) if american and amps in power["us_amps"] else None


def check(settings: Mapping[str, Any], knowledge: Knowledge) -> Power | None:
    """The class's irons shared out over its circuits; None without irons. Ask the building, and an electrician."""
    irons, watts = int(settings.get("irons") or 0), float(settings.get("iron_watts") or 0)
    if not irons or not watts:
        return None
    circuits = max(1, int(settings.get("circuits") or 1))
    volts, amps = float(settings.get("circuit_volts") or 0), float(settings.get("circuit_amps") or 0)
    capacity, limit = capacity_w(volts, amps), limit_w(volts, amps, knowledge)
    most = limit if limit is not None else capacity
    fullest = -(-irons // circuits)
    return Power(
        irons=irons,
        iron_watts=watts,
        circuits=circuits,
        volts=volts,
        amps=amps,
        capacity_w=capacity,
        limit_w=limit,
        busiest_irons=fullest,
        busiest_w=fullest * watts,
        irons_that_fit=int(most // watts) * circuits,
        verdict="unknown" if not capacity else "fits" if fullest * watts <= most else "over",
    )
