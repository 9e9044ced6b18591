"""Lines of a card as plain dicts, and what a decision's rules give to write them: whose word, which caution, said once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from handouts.model import Value
from handouts.pages.words import vocabulary
from handouts.records import Decision, Spoke

Line = dict[str, str]
"""One action: when (bold, before it), words, mark (whose choice), caution, because (grey), strip (its topic, if said there)."""


def line(words: str, because: str = "", mark: str = "", caution: str = "", when: str = "", strip: str = "") -> Line:
    """One action."""
    return {"when": when, "words": words, "mark": mark, "caution": caution, "because": because, "strip": strip}


def reasoned(kept: Sequence[str]) -> Callable[[Line], Line]:
    """Leaves a line its reason only when that is among the kept ones."""
    return lambda one: one | {"because": one["because"] if one["because"] in kept else ""}


def named(topic: str, lines: list[Line]) -> list[Line]:
    """The lines, the first saying what it is about where its own words do not: `Hem: turn twice.`"""
    about = vocabulary()["line"]["about"].get(topic)
    if not about or not lines or about.partition(":")[0].casefold() in lines[0]["words"].casefold():
        return lines
    words = lines[0]["words"]
    return [lines[0] | {"words": about.format(words[:1].lower() + words[1:])}, *lines[1:]]


def bought(one: Line) -> bool:
    """Whether a line is about how much to buy: that comes before all work."""
    return one["words"].startswith(tuple(vocabulary()["line"]["buy"]))


def in_order(lines: Sequence[Line]) -> list[Line]:
    """The lines, what has to be done before the others first, however general its rule."""
    first = vocabulary()["line"]["first"]

    def rank(one: Line) -> int:
        return next((number for number, start in enumerate(first) if one["words"].startswith(start)), len(first))

    return sorted(lines, key=rank)


def is_a_foot(words: str) -> bool:
    """Whether a line does no more than name a foot, or another one that will do: `Walking foot.`, `Or a roller foot.`"""
    only = words.casefold() in {f"{name} foot." for name in vocabulary()["foot"]["known"]}
    return only or (words.startswith("Or ") and names_a_foot(words))


def names_a_foot(words: str) -> bool:
    """Whether a line names a foot."""
    text = words.casefold()
    return any(f"{name} foot" in text or f"{name}-foot" in text for name in vocabulary()["foot"]["known"])


def once(decision: Decision, spokes: Sequence[Spoke]) -> Iterator[tuple[Spoke, list[str]]]:
    """Each rule with those of its lines that stand in the decision and that no earlier rule said."""
    left = dict.fromkeys(decision.value or ())
    for spoke in spokes:
        mine = [words for words in as_tuple(spoke.value) if words in left]
        for words in mine:
            del left[words]
        if mine:
            yield spoke, mine


def own_words(decision: Decision) -> str:
    """The sentence that the winning rule brings along; none for a typed choice, which is only a value."""
    return decision.won[0].say if decision.won and decision.choice != "typed" else ""


def as_tuple(value: Value) -> tuple[str, ...]:
    """A value as a tuple of lines."""
    return tuple(value) if isinstance(value, (tuple, list)) else (str(value),) if value else ()


def mark_of(tier: str) -> str:
    """Whose word a line is, when it is not the trade's: `your choice`, `class rule`."""
    return str(vocabulary()["mark"].get(tier, ""))


def marks(decisions: Sequence[Decision]) -> str:
    """The mark of the first decision that the class made itself."""
    return next((mark for decision in decisions if (mark := mark_of(decision.choice))), "")


def caution(decisions: Sequence[Decision], most: int) -> str:
    """Why the class's own choice is risky, if a rule said so: at most so many reasons."""
    found = dict.fromkeys(spoke.because for decision in decisions for spoke in decision.cautions)
    reasons = list(found)[:most]
    return f"{vocabulary()['caution']} {' '.join(reasons)}" if reasons else ""
