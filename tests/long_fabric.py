"""A fabric whose every cell is as long as people may type it."""

from __future__ import annotations

from handouts.records import Content, Decision, Fabric
from tests.fabric_parts import advice, facts, said

LONG = "A dress fabric from the end of the roll that nobody here could name, woven with a raised figure on a slubby ground, "


def long_winded() -> Fabric:
    """Everything as long as people may type it: a name of 300 characters, many long lines, a word wider than a column."""
    line = (
        "Lay it out on the longest table there is and walk round it before anybody touches the cutter, all the class."
    )
    many = tuple(f"{number}. {line}" for number in range(1, 8))
    lasting = said(
        tuple(f"{number}. Never again: {line}" for number in range(1, 5)), "It stays.", "surface", lasting=True
    )
    return Fabric(
        "W12",
        (LONG * 3)[:300],
        13,
        "brocade",
        "brocade",
        Content("97% " + "polyamidpolyesterpolypropylen" * 8 + ", 3% elastane", ()),
        facts(weight_gsm=333, width_cm=145, trim=frozenset({"sequins", "beads"})),
        advice(
            pretreat=many,
            layout=many,
            mark=many,
            foot=many,
            hem=many,
            interfacing=many,
            watch_out=Decision("watch_out", lasting.value, (lasting,)),
        ),
        notes=line * 8,
    )
