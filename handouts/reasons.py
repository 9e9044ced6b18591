"""Why, told at a terminal: what is known of a fabric, what is advised, why, who says so, and what would change it."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from handouts.conditions import column_of, fact_name, fact_words, met, scalar, tests_of
from handouts.model import Knowledge, Rule, Topic, Value
from handouts.records import Change, Decision, Fabric, Fact, Spoke, Tested

LINE = 100
"""Letters in a line of a terminal."""
OWN_WORD = {"rules": "", "house": "   (a rule of this class)", "typed": "   (your own word)"}
ORIGINS = ("typed", "derived", "assumed")
USE = {"no": "no", "yes": "yes, {}", "optional": "if you like, {}"}

PLAIN = ("press_cloth", "press_direction")
"""Topics whose own words say it after their title: `Press cloth: always`."""
MEASURES = {"weight_gsm": "weight", "width_cm": "across", "repeat_cm": "across", "thickness_mm": "length"}
"""Facts that are told in the units of the class, by the kind of measure."""
MEASURED = {"growth_pct": "recovered_across_cm", "recovery_pct": "recovered_across_cm"}
"""Facts that are worked out of a measured column."""


class Says(Protocol):
    """The words in which the pages of a class say values, in its units."""

    @property
    def measures(self) -> Any:
        """Numbers with their units."""

    def short(self, topic: str, value: Value) -> str:
        """A value in few words."""


@dataclass(frozen=True)
class Teller:
    """Tells the advice of one class."""

    knowledge: Knowledge
    says: Says
    retold: Callable[[str], str]
    rules: Mapping[str, Rule]

    def fabric(self, fabric: Fabric, topic: str = "") -> Iterator[str]:
        """One fabric on every topic, or on one; what is known of it only with the whole."""
        yield f"{fabric.code}  {fabric.name} ({fabric.cloth_name})"
        if not topic:
            yield from self.known(fabric)
        for id, decision in fabric.advice.items():
            if not topic or id == topic:
                yield ""
                yield from self.topic(self.knowledge.topics[id], decision, fabric)
        yield ""

    def known(self, fabric: Fabric) -> Iterator[str]:
        """What is known, by where it comes from, and what nobody has said."""
        groups: dict[str, list[str]] = {}
        for name, fact in sorted(fabric.facts.items(), key=lambda item: ORIGINS.index(item[1].origin)):
            if worth_telling(name, fact):
                groups.setdefault(self.origin(fact), []).append(self.fact(name, fact, fact.value))
        yield from (row for head, said in groups.items() for row in lines(2, f"{head}: {', '.join(said)}."))
        unknown = [fact for decision in fabric.advice.values() for spoke in decision.might for fact in spoke.unknown]
        if unknown:
            names = dict.fromkeys(asked(fact, self.knowledge) for fact in unknown)
            yield from lines(2, f"Not said yet, and it would matter: {', '.join(names)}.")
        yield from self.tested(fabric.tested)

    def tested(self, tested: Tested) -> list[str]:
        """What the test seam showed, and when."""
        stitch = self.says.short("stitch_mm", {"start": tested.stitch_mm}) if tested.stitch_mm else ""
        showed = [words for words in (tested.needle, stitch, tested.iron and f"iron {tested.iron}") if words]
        day = f" on {tested.on}" if tested.on else ""
        return lines(2, f"Your test seam{day}: {', '.join(showed)}.") if showed else []

    def fact(self, name: str, fact: Fact, value: Value) -> str:
        """A fact, or a part of its value, in words and the units of the class, with its cell when it was typed."""
        measure = getattr(self.says.measures, MEASURES[name]) if name in MEASURES else None
        said = (
            f"{fact_name(name, self.knowledge)} {measure(value)}"
            if measure
            else fact_words(name, value, self.knowledge)
        )
        return f"{said} ({fact.where})" if fact.origin == "typed" else said

    def origin(self, fact: Fact) -> str:
        """Where a fact comes from, as the head of a list: a cell, the cloth, or nothing said."""
        if fact.origin == "typed":
            return "Typed by you"
        if fact.origin == "derived":
            return f"Read from {fact.where}"
        item = self.knowledge.cloths.get(fact.where) or self.knowledge.constructions.get(fact.where)
        return f"Usual for {item.name}, as your cell is empty" if item else "Usual where nothing else is said"

    def topic(self, topic: Topic, decision: Decision, fabric: Fabric) -> Iterator[str]:
        """One topic: what is advised and why, what it gave way to, and what would change it."""
        if topic.shape == "lines":
            yield f"  {topic.title}"
            for spoke in decision.won:
                yield from lines(4, self.value(topic, spoke.value))
                yield from self.reason(spoke, fabric)
        else:
            yield from lines(2, f"{topic.title}: {self.value(topic, decision.value)}{OWN_WORD[decision.choice]}")
            for spoke in decision.won:
                yield from lines(4, self.retold(spoke.say)) if spoke.say else ()
                yield from self.reason(spoke, fabric)
        for spoke in decision.cautions:
            yield from lines(4, f"Caution: {self.retold(spoke.because)}")
        yield from self.otherwise(topic, decision, fabric)

    def reason(self, spoke: Spoke, fabric: Fabric) -> Iterator[str]:
        """Why one rule speaks: its reason, the facts it goes by with their cells, and who says so."""
        yield from lines(6, f"Because: {self.retold(spoke.because)}")
        facts = list(self.goes_by(spoke, fabric))
        if facts:
            yield from lines(6, f"Goes by: {', '.join(facts)}.")
        if spoke.cells:
            yield from lines(6, f"Stands in: {', '.join(spoke.cells)}.")
        titles = [self.knowledge.sources[id].title for id in spoke.sources if id in self.knowledge.sources]
        if titles:
            yield from lines(6, f"Says who: {'; '.join(titles)}.")

    def goes_by(self, spoke: Spoke, fabric: Fabric) -> Iterator[str]:
        """The facts and earlier advice that a rule goes by, as they are for this fabric."""
        when = self.rules[spoke.rule].when if spoke.rule in self.rules else {}
        known = {name: fact.value for name, fact in fabric.facts.items()}
        known |= {id: scalar(self.knowledge.topics[id], decision.value) for id, decision in fabric.advice.items()}
        for name in dict.fromkeys(met(when, known)):
            if name in fabric.facts:
                fact = fabric.facts[name]
                yield self.fact(name, fact, asked_of(when, name, fact.value))
            else:
                yield f"{fact_name(name, self.knowledge)} {self.says.short(name, fabric.advised(name))}"

    def otherwise(self, topic: Topic, decision: Decision, fabric: Fabric) -> Iterator[str]:
        """What would change the advice, and what gave way to it."""
        for spoke in decision.might:
            yield from lines(
                4, f"If {self.retold(spoke.test)}: {self.other(topic, spoke)} {self.retold(spoke.because)}"
            )
        for change in fabric.changes:
            if change.topic == topic.id:
                yield from lines(4, self.change(topic, change))
        for spoke in decision.lost:
            if spoke.value != decision.value:
                yield from lines(4, f"Gave way: {self.other(topic, spoke)} {self.retold(spoke.because)}")

    def change(self, topic: Topic, change: Change) -> str:
        """`From 450 g/m²: 100/16.`"""
        weight = self.says.measures.weight(change.at)
        return f"{'Under' if change.below else 'From'} {weight}: {self.value(topic, change.value)}."

    def other(self, topic: Topic, spoke: Spoke) -> str:
        """What a rule says that did not win, or what it rules out."""
        if spoke.value is None:
            return f"not {' or '.join(self.says.short(topic.id, word) for word in spoke.never)}." if spoke.never else ""
        return f"{self.value(topic, spoke.value).rstrip('.')}."

    def value(self, topic: Topic, value: Value) -> str:
        """A value in words: ranges with their start, lists with commas, lines one after the other."""
        if topic.shape == "lines" and value:
            return self.retold((" " if value[0].endswith(".") else ", ").join(value))
        if topic.shape == "range" and value:
            low, start, high = (self.says.short(topic.id, {"start": value[end]}) for end in ("low", "start", "high"))
            return start if low == high else f"start with {start}; {low} to {high} will do"
        if topic.id == "serger" and value:
            return USE[value["use"]].format(self.says.short(topic.id, value))
        return str(value) if topic.id in PLAIN else self.says.short(topic.id, value)


def explain(
    fabrics: Sequence[Fabric], knowledge: Knowledge, says: Says, retold: Callable[[str], str], topic: str = ""
) -> Iterator[str]:
    """Lines that say, per fabric and topic, what is advised, why, who says so, and what would change it.

    says, retold: values and sentences in the units of the class, as its pages have them.
    """
    teller = Teller(knowledge, says, retold, {rule.id: rule for rule in knowledge.rules})
    for fabric in fabrics:
        yield from teller.fabric(fabric, topic)


def worth_telling(name: str, fact: Fact) -> bool:
    """Whether a fact is news: not the shares that are nought, nor what a bolt end that says nothing allows."""
    if fact.origin == "derived":
        return bool(fact.value) and name != "fibre_count"
    return not (fact.origin == "assumed" and name.startswith("supplier_"))


def asked_of(when: Mapping[str, Any], fact: str, value: Value) -> Value:
    """Of a set of words, those that a rule's conditions name; all of them when it names none."""
    if not isinstance(value, frozenset):
        return value
    named = frozenset(word for test in tests_of(when, fact) for word in words_of(test))
    return value & named or value


def words_of(test: Any) -> Iterator[str]:
    """The words that a test names."""
    given = [word for words in test.values() for word in words] if isinstance(test, Mapping) else test
    yield from given if isinstance(given, (list, tuple)) else [given]


def asked(fact: str, knowledge: Knowledge) -> str:
    """An unknown fact, with the column to type it in where that has another name: `growth (column Recovered across)`."""
    name, column = fact_name(fact, knowledge), column_of(MEASURED.get(fact, fact))
    heading = column.heading.split("(")[0].strip() if column else name
    return name if heading.lower() == name else f"{name} (column {heading})"


def lines(indent: int, text: str) -> list[str]:
    """A text in lines that fit a terminal, the later ones a little further in."""
    spaces = " " * indent
    return textwrap.wrap(text, LINE, initial_indent=spaces, subsequent_indent=spaces + "  ", break_on_hyphens=False)
