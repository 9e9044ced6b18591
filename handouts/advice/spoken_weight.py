"""The weight that a cloth's name tells: figures (`denim 12 oz`, `boiled wool 400 g/m²`) or a word (`lightweight wool crepe`)."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from handouts.advice.spelling import plain
from handouts.model import Cloth, Construction, Knowledge
from handouts.records import Fact
from handouts.units import GSM_PER_OZ_YD2

FIGURE = re.compile(
    r"(?<![\d.,])(\d{1,4}(?:[.,]\d{1,2})?)\s*-?\s*(?:(oz|ounces?)|(momme)|(?:gsm|gr?\.?\s*/\s*m(?:²|2)|g/sqm|grammes?|grams?))"
    r"(?:\s*(?:/|per)\s*(?:sq\.?\s*)?y(?:ar)?d(?:²|2)?)?(?![a-z\d])",
    re.IGNORECASE,
)
"""A weight per square yard, in momme of silk, or per square metre."""
GSM_PER_MOMME = 4.34  # fabric_weight.md: 1 lb over 100 yd of 45 in
WORD = re.compile(r"\b(light|heavy)(?:weight)?\b")


def without_figure(text: str) -> str:
    """A cloth's name without the weight in figures: `10 oz canvas` → `canvas`."""
    return " ".join(FIGURE.sub(" ", text).split()).strip(" ,;()-")


@lru_cache(4096)
def figure_gsm(text: str) -> float | None:
    """The weight in g/m² that stands in figures in a name; None where none does."""
    found = FIGURE.search(text)
    if found is None:
        return None
    value = float(found[1].replace(",", "."))
    return round(value * (GSM_PER_OZ_YD2 if found[2] else GSM_PER_MOMME if found[3] else 1))


def told_weight(text: str, where: str, item: Cloth | Construction, knowledge: Knowledge) -> Iterator[tuple[str, Fact]]:
    """The fact of the weight, in g/m², when the name tells it: figures are taken as they stand, a word shifts what is usual."""
    figure, usual = figure_gsm(text), usual_gsm(item, knowledge)
    low, high = knowledge.number("told_least"), knowledge.number("told_most")
    if figure and low <= figure <= high:
        yield "weight_gsm", Fact(figure, "derived", where)
    elif usual and (word := weight_word(text, item)):
        yield "weight_gsm", Fact(round(usual * knowledge.number(f"told_{word}")), "assumed", item.id)


def usual_gsm(item: Cloth | Construction, knowledge: Knowledge) -> float | None:
    """The weight, in g/m², that a cloth usually has; None where nobody says."""
    construction = knowledge.constructions[getattr(item, "construction", item.id)]
    weight = item.usual.get("weight_gsm", construction.usual.get("weight_gsm"))
    return float(weight) if weight else None


def weight_word(text: str, item: Cloth | Construction) -> str:
    """`light` or `heavy`, said before the cloth and not part of its own name; else nothing. `Light blue` is a colour."""
    said = plain(text)
    found = WORD.search(said)
    if found is None or any(found[0] in plain(name) and plain(name) in said for name in (item.name, *item.spoken)):
        return ""
    follows = said[found.end() :].split()[:1]
    coloured = found[0] in ("light", "heavy") and follows and not set(follows) & own_words(item)
    return "" if coloured else found[1]


def own_words(item: Cloth | Construction) -> set[str]:
    """Every word of a cloth's names and of its usual content."""
    names = (item.name, *item.spoken, getattr(item, "usual_content", ""))
    return {word for name in names for word in plain(name).split()}
