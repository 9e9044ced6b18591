"""What to lay ready at the table, read off the advice: tools, feet, cloths, and the fabrics that want them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from handouts.model import Knowledge
from handouts.planning.usual import foot
from handouts.plans import Listed
from handouts.records import Fabric

CUTTERS = {"rotary": ("rotary cutter and mat",), "shears": ("shears",), "either": ("shears",)}


def ready(fabrics: Sequence[Fabric], knowledge: Knowledge) -> tuple[Listed, ...]:
    """Things to lay ready and the codes they are for, in the order in which the work first wants them."""
    found: dict[str, list[str]] = {}
    for fabric in fabrics:
        for thing in things(fabric, knowledge):
            found.setdefault(thing, []).append(fabric.code)
    return tuple(Listed(title, tuple(codes)) for title, codes in found.items())


def things(fabric: Fabric, knowledge: Knowledge) -> list[str]:
    """What one fabric wants: cutter, what holds it, foot, press cloth."""
    hold: Mapping[str, str] = {"tape": "basting tape"}
    cloth = ["press cloth"] if fabric.advised("press_dots") and fabric.advised("press_cloth") == "always" else []
    held = [hold.get(word, word) for word in (fabric.advised("hold") or ())[:2]]
    shoe = foot(fabric.advised("foot") or (), knowledge)
    ordinary = (knowledge.tables["planning"]["foot"]["usual"], "all-purpose", "zigzag")
    feet = [f"{shoe} foot"] if shoe not in ordinary else []
    return [*CUTTERS.get(str(fabric.advised("cut_tool")), ()), *held, *feet, *cloth]
