"""Where a cloth comes from, as typed: what United States rules ask of those words (16 CFR 303.33)."""

from __future__ import annotations

import re
from collections.abc import Iterator

from handouts.labelling.words import Lexicon, lexicon, plain
from handouts.model import Knowledge
from handouts.problems import Problem, problem


def origin_problems(typed: str, market: str, knowledge: Knowledge, cell: str = "") -> Iterator[Problem]:
    """The finding when an origin for the United States names no country by its English name."""
    if market == "US" and typed.strip():
        why = faulty(typed, lexicon(knowledge))
        if why:
            yield problem("label-origin", *([cell] if cell else []), found=typed.strip()[:60], why=why)


def faulty(typed: str, known: Lexicon) -> str:
    """What is wrong with an origin: a code, another language, no country; empty when a country is named."""
    table, bare = known.table["origin"], plain(typed)
    if any(re.search(rf"\b{plain(name)}\b", bare) for name in (*table["countries"], *table["short"])):
        return ""
    for country, words in table["spoken"].items():
        if bare_of_making(bare, table["making"]) in map(plain, words):
            return f"the label says the country’s English name: write “{country}”."
    if any(re.search(rf"\b{plain(name)}\b", bare) for name in table["wide"]):
        return "it is no country; name the country, or the process done in each."
    return "no country that we know stands in it; write the country’s English name in full."


def bare_of_making(bare: str, making: list[str]) -> str:
    """The words without `made in`, `woven in` and the like."""
    return " ".join(word for word in bare.split() if word not in making)
