"""What to do, in the order of work: the lines of each block of a card, with reason, mark and caution, as plain dicts."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from handouts.model import Knowledge, Value
from handouts.pages.measures import FIX, percent
from handouts.pages.words import Words, capital, listed, vocabulary
from handouts.records import Decision, Fabric, Spoke
from handouts.units import number_words

Line = dict[str, str]
"""One action: when (bold, before it), words, mark (whose choice), caution, because (grey)."""


def line(words: str, because: str = "", mark: str = "", caution: str = "", when: str = "") -> Line:
    """One action."""
    return {"when": when, "words": words, "mark": mark, "caution": caution, "because": because}


@dataclass
class Actions:
    """Writes one fabric's lines. A reason is given once on a card, however many lines it explains."""

    fabric: Fabric
    words: Words
    knowledge: Knowledge
    told: set[str] = field(default_factory=set)

    def value(self, topic: str) -> Value:
        """What is advised on a topic; None when nothing is."""
        decision = self.fabric.advice.get(topic)
        return decision.value if decision else None

    def before(self) -> list[Line]:
        """Before cutting: wash, steam, allow for shrinkage."""
        return [*self.lines("pretreat"), *self.one("shrink_pct", self._shrink)]

    def lay_out(self) -> list[Line]:
        """Lay out, cut, hold, mark, interface."""
        cut = [*self.one("cut_layers", self._plain("cut_layers")), *self.one("cut_tool", self._plain("cut_tool"))]
        return [
            *self.lines("layout"),
            *cut,
            *self.one("hold", self._hold),
            *self.lines("mark"),
            *self.lines("interfacing"),
        ]

    def sew(self) -> list[Line]:
        """Needle, thread, stitch, foot, overlock."""
        needle = self.one("needle_nm", self._needle, self.fabric.advice.get("needle_point"))
        thread = self.one("thread", lambda value: _line("thread").format(value))
        stitch = self.one("stitch_mm", self._stitch, self.fabric.advice.get("stitch"))
        return [*needle, *thread, *stitch, *self.lines("foot"), *self.one("serger", self._serger)]

    def seams(self) -> list[Line]:
        """How to finish the edges and how wide the allowance is."""
        return [*self.one("seam_finish", self._finish), *self.one("seam_allowance_mm", self._allowance)]

    def hem(self) -> list[Line]:
        """How to hem."""
        return list(self.lines("hem"))

    def press(self) -> list[Line]:
        """Heat, steam, side, cloth, direction; without an iron only what is left to say."""
        heat = self.one("press_dots", self._iron, self.fabric.advice.get("iron_word"), self.fabric.advice.get("steam"))
        direction = self.one("press_direction", self._plain("press_direction"))
        if self.value("press_dots") == 0:
            return [*heat, *(direction if self.value("press_direction") == "finger" else ())]
        around = [
            *self.one("press_side", self._plain("press_side")),
            *self.one("press_cloth", self._plain("press_cloth")),
        ]
        return [*heat, *around, *direction]

    def care(self) -> list[Line]:
        """Care lines of the label, else the supplier's words, else that nobody stated any."""
        label, supplier = self.fabric.label, self.fabric.fact("supplier_care")
        if label and label.care:
            return [line(words) for words in label.care]
        return [line(_line("supplier").format(supplier) if supplier else _line("no_care"))]

    def lasting(self) -> list[Line]:
        """What cannot be undone."""
        return list(self.lines("watch_out", lambda spoke: spoke.lasting))

    def watch(self) -> list[Line]:
        """What else to watch out for."""
        return list(self.lines("watch_out", lambda spoke: not spoke.lasting))

    def lines(self, topic: str, wanted: Callable[[Spoke], bool] = lambda spoke: True) -> Iterator[Line]:
        """The lines of a topic that combines all, each once, the reason under the last line of its rule."""
        decision = self.fabric.advice.get(topic)
        left = dict.fromkeys(decision.value or ()) if decision else {}
        for spoke in decision.won if decision else ():
            mine = [words for words in as_tuple(spoke.value) if words in left]
            for words in mine:
                del left[words]
            if mine and wanted(spoke):
                yield from map(line, mine[:-1])
                yield line(mine[-1], self.because(topic, spoke), mark_of(spoke.tier))

    def one(self, topic: str, say: Callable[[Value], str], *beside: Decision | None) -> list[Line]:
        """The line of a topic with one value; `beside` are decisions told in the same line. No words, no line."""
        decision = self.fabric.advice.get(topic)
        if decision is None or decision.value is None:
            return []
        told = [decision, *(other for other in beside if other)]
        first = decision.won[0] if decision.won else None
        words = first.say if first and first.say and decision.choice != "typed" else say(decision.value)
        if not words:
            return []
        reason = self.because(topic, first) if first else ""
        return [line(words, reason, marks(told), caution(told))]

    def because(self, topic: str, spoke: Spoke) -> str:
        """The reason to print: none for what is usual, and none twice."""
        limits = vocabulary()["reasons"]
        odd = spoke.tier in limits["tiers"] or (topic in limits["always"] and spoke.tier not in limits["never"])
        if not odd or not spoke.because or spoke.because in self.told:
            return ""
        self.told.add(spoke.because)
        return spoke.because

    def _plain(self, topic: str) -> Callable[[Value], str]:
        return lambda value: str(_line(topic).get(str(value), value))

    def _shrink(self, value: Value) -> str:
        origins = [f.origin for k in ("shrink_length_pct", "shrink_width_pct") if (f := self.fabric.facts.get(k))]
        usual = "" if "typed" in origins else f" {vocabulary()['usual']}"
        length, width = percent(value["length"]), percent(value["width"])
        kind = "shrink" if length != width else "shrink_one" if value["length"] else "no_shrink"
        return str(_line(kind)).format(length=length, width=width, usual=usual)

    def _hold(self, value: Value) -> str:
        rules = {rule.id: rule for rule in self.knowledge.rules}
        lost = [rules[s.rule] for s in self.fabric.advice["hold"].lost if s.rule in rules]
        never = dict.fromkeys(word for rule in lost for word in rule.never if word not in value)
        kind = "hold_not" if never else "hold"
        return str(_line(kind)).format(self.words.short("hold", value), never=" or ".join(never))

    def _needle(self, value: Value) -> str:
        points = capital(self.words.short("needle_point", self.value("needle_point")))
        size = {end: self.words.needle_size(value[end]) for end in ("low", "high", "start")}
        kind = "needle" if value["low"] == value["high"] else "needle_range"
        return str(_line(kind)).format(point=points, size=size["start"], low=size["low"], high=size["high"])

    def _stitch(self, value: Value) -> str:
        measures = self.words.measures
        one = value["low"] == value["high"]
        length = measures.stitch(value["start"]) if one else measures.stitches(value["low"], value["high"])
        return str(_line("stitch")).format(
            stitch=capital(self.words.short("stitch", self.value("stitch"))), length=length
        )

    def _serger(self, value: Value) -> str:
        if value["use"] == "no":
            return ""
        low, high = (number_words(value["differential"][end], 1) for end in ("low", "high"))
        text = "" if low == high == "1" else _line("differential_one" if low == high else "differential")
        differential = text.format(low=low, high=high)
        return str(_line(f"serger_{value['use']}")).format(
            threads=f"{int(value['threads'])}{FIX}".strip(FIX), differential=differential
        )

    def _finish(self, value: Value) -> str:
        first = _line("seam_finish").get(value[0], value[0]).rstrip(".")
        rest = [_line("or_finish").get(word, word) for word in value[1:]]
        return ", or ".join(part for part in (first, listed(rest)) if part) + "."

    def _allowance(self, value: Value) -> str:
        sew, trim = (self.words.measures.length(value[key]) for key in ("sew", "trim"))
        kind = "allowance" if value["trim"] >= value["sew"] else "allowance_trim"
        return str(_line(kind)).format(sew=sew, trim=trim)

    def _iron(self, value: Value) -> str:
        if value == 0:
            return str(_line("no_iron"))
        steam, word = (
            self.words.short("steam", self.value("steam")),
            self.words.short("iron_word", self.value("iron_word")),
        )
        dots, heat = self.words.short("press_dots", value), self.words.measures.heat(self.value("press_c"))
        return str(_line("iron")).format(dots=capital(dots), heat=heat, word=word, steam=steam)


def _line(kind: str) -> Any:
    return vocabulary()["line"][kind]


def as_tuple(value: Value) -> tuple[str, ...]:
    """A value as a tuple of lines."""
    return tuple(value) if isinstance(value, (tuple, list)) else (str(value),) if value else ()


def mark_of(tier: str) -> str:
    """Whose word a line is, when it is not the trade's: `your choice`, `class rule`."""
    return str(vocabulary()["mark"].get(tier, ""))


def marks(decisions: list[Decision]) -> str:
    """The mark of the first decision that the class made itself."""
    return next((mark for decision in decisions if (mark := mark_of(decision.choice))), "")


def caution(decisions: list[Decision]) -> str:
    """Why the class's own choice is risky, if a rule said so."""
    reasons = dict.fromkeys(spoke.because for decision in decisions for spoke in decision.cautions)
    return f"{vocabulary()['caution']} {' '.join(reasons)}" if reasons else ""
