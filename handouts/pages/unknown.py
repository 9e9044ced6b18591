"""What nobody knows of a fabric: fact, threshold, what would change from there. Plain dicts and texts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from handouts.pages.actions import Line, line
from handouts.pages.retold import retold
from handouts.pages.words import Words, capital, listed, vocabulary
from handouts.records import Fabric, Spoke

FROM = re.compile(r"(\d+(?:\.\d+)?(?: ?[%a-z/²]+)?) or more")
"""A threshold as the advice words it: `repeat 15 cm or more`."""


def unknown(fabric: Fabric, words: Words, detail: Mapping[str, int]) -> list[Line]:
    """A line a threshold with what would be done there; when that takes too many letters, with the blocks that it changes."""
    groups = grouped(fabric, words)
    full = told(groups, detail["might_letters"])
    return full if letters(full) <= detail["might_letters_in_all"] else told(groups, 0)


def letters(lines: Sequence[Line]) -> int:
    """How long the lines are, run together."""
    return sum(len(one["when"]) + len(one["words"]) + 2 for one in lines)


def told(groups: Mapping[str, Sequence[tuple[str, str]]], most: int) -> list[Line]:
    """A line a threshold, what would be done there as far as `most` letters go; settings always."""
    parts = {test: shared(found, most) for test, found in groups.items()}
    said = [line(spoken(*parts[test]), when=f"{capital(test)}:") for test in parts if parts[test][0]]
    return [*said, *by_block({test: rest for test, (texts, rest) in parts.items() if not texts})]


def grouped(fabric: Fabric, words: Words) -> dict[str, list[tuple[str, str]]]:
    """Threshold → (topic, what would be done there) pairs; what reads as it does anyway is left out."""
    found: dict[str, list[tuple[str, str]]] = {}
    for topic, spoke in mights(fabric):
        text = retold(might_words(topic, spoke, words), words.measures)
        if text != words.case(topic, fabric.advice[topic].value):
            for test in apart(spoke.test):
                found.setdefault(condition(test, words), []).append((topic, text))
    return found


def apart(test: str) -> list[str]:
    """A condition that names several choices of one fact, one by one: `colour dark, unfast dye` is two."""
    first, *others = test.split(", ")
    fact = first.partition(" ")[0]
    plain = not re.search(r"\d| or | and ", test)
    return [first, *(f"{fact} {other}" for other in others)] if plain else [test]


def mights(fabric: Fabric) -> list[tuple[str, Spoke]]:
    """Every rule that might have spoken with its topic: what can hurt first, then the settings of machine, iron and table."""
    found = [(topic, spoke) for topic, decision in fabric.advice.items() for spoke in decision.might]
    return sorted(found, key=lambda pair: (not (pair[1].safety or pair[1].lasting), not is_setting(pair[0])))


def is_setting(topic: str) -> bool:
    """Whether a topic is set at the machine, the iron or the table: these are told before the rest."""
    return topic in vocabulary()["when"]["settings"]


def might_words(topic: str, spoke: Spoke, words: Words) -> str:
    """What a rule would say: its own words, its lines, else the value with the topic's name."""
    if spoke.say or spoke.value is None:
        return (spoke.say or spoke.because).rstrip(".")
    if topic in vocabulary()["case"]:
        return words.single.case(topic, spoke.value)
    lines = spoke.value if isinstance(spoke.value, (tuple, list)) else [str(spoke.value)]
    return " ".join(map(bare, lines)).rstrip(".")


def bare(words: str) -> str:
    """A line of advice without the beginning that only says its condition again."""
    return next(
        (words.removeprefix(start) for start in vocabulary()["when"]["again"] if words.startswith(start)), words
    )


def condition(test: str, words: Words) -> str:
    """A threshold in the class's units: `if dark`, `repeat from 15 cm`, `shrinkage from 5 %`."""
    says = vocabulary()["when"]
    if test in says["said"]:
        return str(says["said"][test])
    parts = FROM.sub(r"from \1", test).split(" or ")
    for long, short in says["shorter"].items():
        parts = [part.replace(long, short) for part in parts]
    return retold(" or ".join(dict.fromkeys(parts)), words.measures)


def shared(found: Sequence[tuple[str, str]], most: int) -> tuple[list[str], list[str]]:
    """What there is room to say, settings first and then the shortest, and the blocks of the rest."""
    said: list[str] = []
    rest: list[str] = []
    for topic, text in sorted(found, key=lambda pair: (not is_setting(pair[0]), len(pair[1]))):
        fits = is_setting(topic) or len("; ".join([*said, text])) <= most
        (said if fits else rest).append(text if fits else block_of(topic))
    return list(dict.fromkeys(said)), list(dict.fromkeys(rest))


def spoken(said: Sequence[str], rest: Sequence[str]) -> str:
    """`Low steam; press cloth (also: Before cutting).`"""
    words = "; ".join(text[:1].lower() + text[1:] for text in said)
    return f"{words}{vocabulary()['when']['also'].format(', '.join(rest)) if rest else ''}."


def block_of(topic: str) -> str:
    """What a topic is called where it is only named."""
    return str(vocabulary()["when"]["block"][topic])


def by_block(groups: Mapping[str, Sequence[str]]) -> Iterator[Line]:
    """Thresholds that change the same blocks, in one line each: `Repeat from 15 cm, if pale: Lay out changes.`"""
    same: dict[tuple[str, ...], list[str]] = {}
    for test, blocks in groups.items():
        same.setdefault(tuple(blocks), []).append(test)
    for found, tests in same.items():
        change = vocabulary()["when"]["changes" if len(found) == 1 else "change"]
        yield line(change.format(listed(found, "and")), when=f"{capital(', '.join(tests))}:")
