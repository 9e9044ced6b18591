"""A topic's value as a sentence of a card, from the patterns of templates/words.toml."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from handouts.model import Knowledge, Value
from handouts.pages.measures import percent
from handouts.pages.words import Words, capital, listed, vocabulary
from handouts.records import Fabric
from handouts.units import number_words


def pattern(name: str) -> Any:
    """A sentence pattern, or the sentences of a topic by value."""
    return vocabulary()["line"][name]


@dataclass(frozen=True)
class Sentences:
    """Says what is advised for one fabric. Every method takes the topic's value and gives a sentence, empty for nothing to say."""

    fabric: Fabric
    words: Words
    knowledge: Knowledge

    def value(self, topic: str) -> Value:
        """What is advised on a topic; None when nothing is."""
        decision = self.fabric.advice.get(topic)
        return decision.value if decision else None

    def short(self, topic: str) -> str:
        """What is advised on a topic in its short words."""
        return self.words.short(topic, self.value(topic))

    def plain(self, topic: str, value: Value) -> str:
        """The sentence that stands for this value."""
        return str(pattern(topic).get(str(value), value))

    def shrink_pct(self, value: Value) -> str:
        """How much it shrinks: what the teacher measured, else what is usual, marked so, where it is washed and shrinks at all."""
        usual = "" if self.measured_shrinkage() else f" {vocabulary()['usual']}"
        if usual and (self.never_washed() or not (value["length"] or value["width"])):
            return ""
        length, width = percent(value["length"]), percent(value["width"])
        kind = "shrink" if length != width else "shrink_one" if value["length"] else "no_shrink"
        return str(pattern(kind)).format(length=length, width=width, usual=usual)

    def never_washed(self) -> bool:
        """Whether the advice forbids water, so that a shrinkage in the wash is no help."""
        return any("wash" in spoke.never for spoke in self.fabric.advice["pretreat"].won)

    def measured_shrinkage(self) -> dict[str, float]:
        """What was typed of `length` and `width`, in percent."""
        facts = {way: self.fabric.facts.get(f"shrink_{way}_pct") for way in ("length", "width")}
        return {way: fact.value for way, fact in facts.items() if fact and fact.origin == "typed"}

    def hold(self, value: Value) -> str:
        """What holds it, and what must not."""
        rules = {rule.id: rule for rule in self.knowledge.rules}
        lost = [rules[spoke.rule] for spoke in self.fabric.advice["hold"].lost if spoke.rule in rules]
        never = dict.fromkeys(word for rule in lost for word in rule.never if word not in value)
        return str(pattern("hold_not" if never else "hold")).format(
            self.words.short("hold", value), never=" or ".join(never)
        )

    def needle_nm(self, value: Value) -> str:
        """Points that will do and the sizes to try."""
        low, high = (self.words.needle_size(value[end]) for end in ("low", "high"))
        kind = "needle" if low == high else "needle_range"
        return str(pattern(kind)).format(point=capital(self.short("needle_point")), low=low, high=high)

    def thread(self, value: Value) -> str:
        """The thread."""
        return str(pattern("thread")).format(value)

    def stitch_mm(self, value: Value) -> str:
        """The stitch and the lengths to try; the other unit stands in the strip."""
        one = value["low"] == value["high"]
        measures = self.words.measures.single
        length = measures.stitch(value["start"]) if one else measures.stitches(value["low"], value["high"])
        return str(pattern("stitch")).format(stitch=capital(self.short("stitch")), length=length)

    def serger(self, value: Value) -> str:
        """Threads and differential feed; nothing when it is not used."""
        if value["use"] == "no":
            return ""
        low, high = (number_words(value["differential"][end], 1) for end in ("low", "high"))
        text = "" if low == high == "1" else pattern("differential_one" if low == high else "differential")
        feed = text.format(low=low, high=high)
        return str(pattern(f"serger_{value['use']}")).format(threads=int(value["threads"]), differential=feed)

    def seam_finish(self, value: Value) -> str:
        """The best finish as an action, what else will do after it."""
        first = pattern("seam_finish").get(value[0], value[0]).rstrip(".")
        rest = [pattern("or_finish").get(word, word) for word in value[1:]]
        return ", or ".join(part for part in (first, listed(rest)) if part) + "."

    def seam_allowance_mm(self, value: Value) -> str:
        """How wide to sew and to trim."""
        sew, trim = (self.words.measures.length(value[key]) for key in ("sew", "trim"))
        kind = "allowance" if value["trim"] >= value["sew"] else "allowance_trim"
        return str(pattern(kind)).format(sew=sew, trim=trim)

    def iron(self, value: Value) -> str:
        """The dial, the dots it may not pass, the steam; degrees stand in the strip."""
        if value == 0:
            return str(pattern("no_iron"))
        dots = self.words.short("press_dots", value)
        return str(pattern("iron")).format(dots=dots, word=self.short("iron_word"), steam=self.short("steam"))

    def around(self, parts: Mapping[str, Value]) -> str:
        """Side, cloth and direction of pressing in one sentence."""
        said = [pattern("around").get(topic, {}).get(str(value), "") for topic, value in parts.items()]
        return capital(", ".join(part for part in said if part)) + "." if any(said) else ""

    def cut(self, parts: Mapping[str, Value]) -> str:
        """Layers and tool in one sentence."""
        said = [pattern("cut").get(topic, {}).get(str(value), "") for topic, value in parts.items()]
        return capital(", ".join(part for part in said if part)) + "." if any(said) else ""
