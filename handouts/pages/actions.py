"""What to do, in the order of work: the lines of each block of a card, with reason, mark and caution, as plain dicts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from handouts.model import Value
from handouts.pages.care import bolt_says, care_lines
from handouts.pages.lines import (
    Line,
    bought,
    caution,
    in_order,
    is_a_foot,
    line,
    mark_of,
    marks,
    named,
    names_a_foot,
    once,
    own_words,
    reasoned,
)
from handouts.pages.retold import retold
from handouts.pages.sentences import Sentences, pattern
from handouts.pages.words import vocabulary
from handouts.records import Decision, Fabric, Spoke


@dataclass
class Actions:
    """Writes one fabric's lines. detail: how much is told (words.toml). reasons: each reason met, with how odd its line is."""

    say: Sentences
    detail: Mapping[str, Any]
    reasons: dict[str, int] = field(default_factory=dict)

    @property
    def fabric(self) -> Fabric:
        """The fabric the lines are about."""
        return self.say.fabric

    def before(self) -> list[Line]:
        """Before cutting: buy, wash, steam, allow for shrinkage; what was measured needs no published reason."""
        wash = self.lines("pretreat")
        shrinks = self.one("shrink_pct", self.say.shrink_pct)
        if self.say.measured_shrinkage():
            shrinks = [one | {"because": "", "mark": ""} for one in shrinks]
        buy = [one for one in (*wash, *self.layout) if bought(one)]
        return [*buy, *in_order([one for one in wash if not bought(one)]), *shrinks]

    @cached_property
    def layout(self) -> list[Line]:
        """How to lay out, with what is bought for it."""
        return self.lines("layout")

    def lay_out(self) -> list[Line]:
        """Lay out, cut, hold, mark, interface."""
        cut = self.together(("cut_layers", "cut_tool"), self.say.cut)
        held = self.one("hold", self.say.hold)
        laid = in_order([one for one in self.layout if not bought(one)])
        return [*laid, *cut, *held, *self.lines("mark"), *self.lines("interfacing")]

    def sew(self) -> list[Line]:
        """Needle, thread, stitch, foot, overlock."""
        needle = self.one("needle_nm", self.say.needle_nm, "needle_point")
        overlock = named("serger", self.one("serger", self.say.serger))
        return [*needle, *self.one("thread", self.say.thread), *self.stitch(), *self.foot(), *overlock]

    def stitch(self) -> list[Line]:
        """The stitch and its lengths, then how it is sewn: narrow, held taut, without backstitch."""
        lengths, how = self.one("stitch_mm", self.say.stitch_mm, "stitch"), self.one("stitch", lambda kind: "")
        if not lengths or not how:
            return [*lengths, *how]
        words = f"{lengths[0]['words'].rstrip('.')}; {how[0]['words'][:1].lower()}{how[0]['words'][1:]}"
        return [{**lengths[0], "words": words, "because": lengths[0]["because"] or how[0]["because"], "strip": ""}]

    def foot(self) -> list[Line]:
        """The foot and how to set it; where the class names a foot of its own, no other is named beside it."""
        found = self.lines("foot")
        own = any(one["mark"] and names_a_foot(one["words"]) for one in found)
        return [one for one in found if one["mark"] or not is_a_foot(one["words"])] if own else found

    def seams(self) -> list[Line]:
        """How to finish the edges and how wide the allowance is."""
        return [
            *self.one("seam_finish", self.say.seam_finish),
            *self.one("seam_allowance_mm", self.say.seam_allowance_mm),
        ]

    def hem(self) -> list[Line]:
        """How to hem."""
        return self.lines("hem")

    def press(self) -> list[Line]:
        """What the bolt says of it first; heat, steam, side, cloth, direction; without an iron only what is left to say."""
        heat = self.one("press_dots", self.say.iron, "iron_word", "steam")
        if self.say.value("press_dots") == 0:
            return [
                *heat,
                *(self.one("press_direction", self.plain("press_direction")) if self.finger_pressed() else ()),
            ]
        return [*self.bolt(), *heat, *self.together(("press_side", "press_cloth", "press_direction"), self.say.around)]

    def bolt(self) -> list[Line]:
        """The supplier's own word on ironing, which comes before any advice."""
        says = bolt_says(self.fabric)
        return [line(pattern("bolt").format(says))] if says else []

    def finger_pressed(self) -> bool:
        """Whether the seams are pressed with the finger, so that there is something to do without an iron."""
        return bool(self.say.value("press_direction") == "finger")

    def care(self) -> list[Line]:
        """Care lines of the label, else the supplier's words, else that nobody stated any. Pressing guidance stands in Press."""
        label, supplier = self.fabric.label, self.fabric.fact("supplier_care")
        if label and label.care:
            return [line(words) for words in care_lines(label.care, self.detail["care_in_brief"], self.in_units)]
        return [line(pattern("supplier").format(supplier) if supplier else pattern("no_care"))]

    def lasting(self) -> list[Line]:
        """What cannot be undone."""
        return self.lines("watch_out", lambda spoke: spoke.lasting)

    def watch(self) -> list[Line]:
        """What else to watch out for."""
        return self.lines("watch_out", lambda spoke: not spoke.lasting)

    def lines(self, topic: str, wanted: Callable[[Spoke], bool] = lambda spoke: True) -> list[Line]:
        """The lines of a topic that combines all, each once, the reason under the last line of its rule."""
        decision = self.fabric.advice.get(topic)
        if decision is None:
            return []
        special = any(spoke.tier != "usual" for spoke in decision.won)
        quiet = not self.detail["usual_lines"] and (special or topic in self.detail["in_strip"])
        spokes = [spoke for spoke in decision.won if wanted(spoke) and not (quiet and spoke.tier == "usual")]
        return named(topic, [one for spoke, mine in once(decision, spokes) for one in self.told(topic, spoke, mine)])

    def told(self, topic: str, spoke: Spoke, mine: Sequence[str]) -> Iterator[Line]:
        """The lines of one rule."""
        for words in mine:
            reason = self.because(topic, spoke) if words == mine[-1] else ""
            alone = is_a_foot(words) and not any(other.startswith("Or ") for other in mine)
            yield line(self.in_units(words, spoke.tier), reason, mark_of(spoke.tier), strip=topic if alone else "")

    def in_units(self, words: str, tier: str = "") -> str:
        """A sentence of the trade's rules in the class's units; the class's own words stay as they were typed."""
        return words if mark_of(tier) else retold(words, self.say.words.measures)

    def one(self, topic: str, say: Callable[[Value], str], *beside: str) -> list[Line]:
        """The line of a topic with one value; `beside` are topics told in the same line. No words, no line."""
        decision = self.fabric.advice.get(topic)
        if decision is None or decision.value is None:
            return []
        told = [decision, *(self.fabric.advice[other] for other in beside if other in self.fabric.advice)]
        own = own_words(decision)
        words = self.in_units(own, decision.choice) or say(decision.value)
        if not words:
            return []
        reason = self.because(topic, decision.won[0]) if decision.won else ""
        strip = "" if own else self.said_above(topic, decision)
        return [line(words, reason, marks(told), self.caution(told), strip=strip)]

    def said_above(self, topic: str, decision: Decision) -> str:
        """The topic, when the strip says all of this decision: not that there is no iron, nor a choice of points or overlock."""
        more = {"press_dots": decision.value == 0, "needle_nm": len(self.say.value("needle_point") or ()) > 1}
        more["stitch_mm"] = not str(self.say.value("stitch")).startswith("301")
        more["serger"] = any(spoke.tier != "usual" for spoke in decision.won) or decision.value == {"use": "yes"}
        return "" if more.get(topic) else topic

    def together(self, topics: Sequence[str], say: Callable[[Mapping[str, Value]], str]) -> list[Line]:
        """Topics that go in one sentence, but for those whose rule brings its own."""
        decisions = {topic: self.fabric.advice[topic] for topic in topics if topic in self.fabric.advice}
        own = [topic for topic, decision in decisions.items() if own_words(decision)]
        rest = {
            topic: decision for topic, decision in decisions.items() if topic not in own and decision.value is not None
        }
        words = say({topic: decision.value for topic, decision in rest.items()})
        apart = [one for topic in own for one in self.one(topic, self.plain(topic))]
        if not words:
            return apart
        reasons = [self.because(topic, decision.won[0]) for topic, decision in rest.items() if decision.won]
        told = list(rest.values())
        return [line(words, next(filter(None, reasons), ""), marks(told), self.caution(told)), *apart]

    def caution(self, told: Sequence[Decision]) -> str:
        """Why the class's own choice is risky, in its units."""
        return self.in_units(caution(told, self.detail["cautions"]))

    def plain(self, topic: str) -> Callable[[Value], str]:
        """What says a topic whose sentences stand in words.toml by value."""
        return lambda value: self.say.plain(topic, value)

    def because(self, topic: str, spoke: Spoke) -> str:
        """The reason that may be printed: none for what is usual, and none twice."""
        limits, because = vocabulary()["reasons"], self.in_units(spoke.because, spoke.tier)
        tier = limits["as"].get(topic, spoke.tier) if spoke.tier not in limits["never"] else spoke.tier
        if tier not in limits["tiers"] or not because or because in self.reasons:
            return ""
        self.reasons[because] = -1 if spoke.lasting or spoke.safety else limits["tiers"].index(tier)
        return because

    def quietened(self, blocks: Mapping[str, list[Line]]) -> dict[str, list[Line]]:
        """The blocks with the oddest reasons only, as many as the page has room for, and without what the strip says anyway."""
        short = [reason for reason in self.reasons if len(reason) <= self.detail["reason_letters"]]
        odd = sorted(short, key=self.reasons.__getitem__)[: self.detail["reasons"]]
        return {
            name: [one for one in map(reasoned(odd), lines) if not self.repeats(one)] for name, lines in blocks.items()
        }

    def repeats(self, one: Line) -> bool:
        """Whether a line only says again what stands in the strip."""
        return one["strip"] in self.detail["in_strip"] and not one["because"] and not one["caution"]
