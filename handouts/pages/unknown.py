"""What nobody knows of a fabric: fact, threshold, what would change from there. Plain dicts and texts."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from handouts.pages.lines import Line, line
from handouts.pages.retold import retold
from handouts.pages.words import Words, capital, vocabulary
from handouts.records import Fabric, Spoke

FROM = re.compile(r"(\d+(?:\.\d+)?(?: ?[%a-z/²]+)?) or more")
"""A threshold as the advice words it: `repeat 15 cm or more`."""


def unknown(fabric: Fabric, words: Words, detail: Mapping[str, int]) -> list[Line]:
    """A line a threshold with what would be done there; in brief when that takes too many letters."""
    full = told(grouped(fabric, words))
    return full if letters(full) <= detail["might_letters"] else in_brief(fabric, words)


def letters(lines: Sequence[Line]) -> int:
    """How long the lines are, run together."""
    return sum(len(one["when"]) + len(one["words"]) + 2 for one in lines)


Groups = dict[str, list[tuple[str, str]]]
"""Threshold → (topic, what would be done there) pairs."""


def told(groups: Groups) -> list[Line]:
    """A line a threshold, settings first and then the shortest."""
    return [line(spoken(found), when=f"{capital(test)}:") for test, found in groups.items()]


def in_brief(fabric: Fabric, words: Words) -> list[Line]:
    """Only what would be set otherwise at the machine, the iron or the table; the rest by its threshold alone."""
    says = vocabulary()["when"]
    fibres = grouped(fabric, words, fibres=True)
    groups = grouped(fabric, words, fibres=False)
    settings = {test: [pair for pair in found if is_setting(pair[0])] for test, found in groups.items()}
    rest = [*([says["fibres"]] if fibres else []), *(test for test in groups if not settings[test])]
    more = [line(f"{'; '.join(rest)}.", when=says["more"])] if rest else []
    return [*told({test: found for test, found in settings.items() if found}), *more]


def grouped(fabric: Fabric, words: Words, fibres: bool | None = None) -> Groups:
    """What would be done by threshold: all, or only what does (or does not) hang on the fibres. What reads the same is left out."""
    found: Groups = {}
    for topic, spoke in mights(fabric):
        text = retold(might_words(topic, spoke, words), words.measures)
        wanted = fibres is None or fibres is about_fibres(spoke)
        if wanted and text != words.case(topic, fabric.advice[topic].value):
            for test in apart(spoke.test):
                found.setdefault(condition(test, words), []).append((topic, text))
    return found


def about_fibres(spoke: Spoke) -> bool:
    """Whether a rule waits for what the cloth is made of."""
    return bool(set(spoke.unknown) & set(vocabulary()["when"]["fibre_facts"]))


def apart(test: str) -> list[str]:
    """A condition that names several choices of one fact, one by one: `colour dark, unfast dye` is two."""
    first, *others = test.split(", ")
    fact = first.partition(" ")[0]
    plain = not re.search(r"\d| or | and ", test)
    return [first, *(f"{fact} {other}" for other in others)] if plain else [test]


def mights(fabric: Fabric) -> list[tuple[str, Spoke]]:
    """Every rule that might have spoken with its topic: what can hurt first, then the settings of machine, iron and table."""
    every = ((topic, spoke) for topic, decision in fabric.advice.items() for spoke in decision.might)
    found = [(topic, spoke) for topic, spoke in every if not (is_plain(fabric) and spoke.unknown == ("repeat_cm",))]
    return sorted(found, key=lambda pair: (not (pair[1].safety or pair[1].lasting), not is_setting(pair[0])))


def is_plain(fabric: Fabric) -> bool:
    """Whether the cloth has one colour and no check: then nobody has to find out how large its pattern is."""
    says = vocabulary()["when"]
    return fabric.fact("colour") in says["plain_colours"] and fabric.fact("check") in (None, "none")


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


def spoken(found: Sequence[tuple[str, str]]) -> str:
    """`Low steam; press cloth; wash it alone.`"""
    ordered = sorted(found, key=lambda pair: (not is_setting(pair[0]), len(pair[1])))
    return f"{'; '.join(dict.fromkeys(text[:1].lower() + text[1:] for _, text in ordered))}."
