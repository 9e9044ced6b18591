"""Care guidance from fibres, coating, trim, finish: the most careful of all that is in the cloth, in a market's words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from handouts.labelling.words import Lexicon
from handouts.model import Fibre
from handouts.records import Content

OPERATIONS = ("washing", "bleach", "drying", "ironing", "cleaning")
"""In the order in which care is printed: wash, bleach, dry, iron, clean (16 CFR 423, ISO 3758)."""
SURFACES = ("coating", "trim", "finish", "colour", "nap")


@dataclass(frozen=True)
class Care:
    """What a cloth bears. by: none, hand, machine; c in °C; dots 0 to 3. Words as in care.toml."""

    by: str = "machine"
    c: int = 60
    gentle: bool = False
    bleach: str = "any"
    tumble: str = "high"
    dots: int = 3
    steam: str = "high"
    clean: str = "allowed"


def care_of(content: Content, facts: Mapping[str, Any], lexicon: Lexicon) -> Care:
    """What the most sensitive part of the cloth bears."""
    table = lexicon.knowledge.tables["care"]
    care = Care()
    for id in sorted(content.fibres()):
        care = least(care, fibre_care(lexicon.knowledge.fibres.get(id, lexicon.fibre("unknown")), table), table)
    if content.skin:
        care = least(Care(), table["skin"][content.skin], table)
    for fact, value in surfaces(content, facts):
        care = least(care, table[fact].get(value, {}), table)
    for word in facts.get("no_wash", ()):
        care = least(care, {"by": table["forbidden"][word]}, table)
    if isinstance(facts.get("press_dots"), int):
        care = least(care, {"dots": facts["press_dots"]}, table)
    if facts.get("steam") in table["order"]["steam"]:
        care = least(care, {"steam": facts["steam"]}, table)
    return care


def unseen(care: Care, facts: Mapping[str, Any], lexicon: Lexicon) -> Care:
    """What is advised when nobody typed the colour: water and bleach as for dyed cloth. No ground to doubt a supplier's word."""
    table = lexicon.knowledge.tables["care"]
    return care if facts.get("colour") else least(care, table["colour"]["unknown"], table)


def surfaces(content: Content, facts: Mapping[str, Any]) -> Iterable[tuple[str, str]]:
    """Coatings, trims, finishes, colour and nap of the cloth, typed in the content cell or known as facts."""
    if content.coating:
        yield "coating", content.coating
    for fact in SURFACES:
        value = facts.get(fact)
        values = (
            [value]
            if isinstance(value, str)
            else sorted(value)
            if isinstance(value, (set, frozenset, tuple, list))
            else []
        )
        yield from ((fact, str(one)) for one in values)


def fibre_care(fibre: Fibre, table: Mapping[str, Any]) -> dict[str, Any]:
    """What one fibre bears; what its record does not know is taken on the careful side."""

    def known(word: str) -> str:
        return "none" if word == "not known" else word

    return {
        "c": fibre.max_wash_c or table["unknown"]["c"],
        "bleach": known(fibre.bleach),
        "tumble": known(fibre.tumble),
        "dots": fibre.dots,
        "steam": fibre.steam,
        "clean": fibre.dry_clean,
        **table["group"][fibre.group],
    }


def least(care: Care, more: Mapping[str, Any], table: Mapping[str, Any]) -> Care:
    """The more careful of what was known and what is added, setting by setting."""
    values: dict[str, Any] = {}
    for key, value in more.items():
        now = getattr(care, key)
        if key in table["order"]:
            values[key] = min(now, value, key=table["order"][key].index)
        else:
            values[key] = now or value if key == "gentle" else min(now, value)
    return replace(care, **values)


def wording(care: Care, market: str, lexicon: Lexicon) -> dict[str, str]:
    """A sentence for each of the five operations, in the market's words."""
    return {
        "washing": washing(care, market, lexicon),
        "bleach": BLEACH[care.bleach],
        "drying": "do not tumble dry; dry flat or on the line"
        if care.tumble == "none"
        else f"tumble dry {care.tumble}",
        "ironing": ironing(care, market, lexicon),
        "cleaning": CLEAN[care.clean],
    }


BLEACH = {
    "none": "do not bleach",
    "oxygen only": "only non-chlorine bleach, when needed",
    "any": "any bleach, when needed",
}
CLEAN = {
    "none": "do not dry clean",
    "not known": "ask a dry cleaner first",
    "allowed": "dry clean; let the cleaner test first",
}


def washing(care: Care, market: str, lexicon: Lexicon) -> str:
    """`machine wash warm, gentle` (US); `wash at most 40 °C, gentle`."""
    if care.by == "none":
        return "do not wash"
    gentle = ", gentle" if care.gentle and care.by == "machine" else ""
    if market == "US":
        return f"{care.by} wash {water(care.c, lexicon)}{gentle}"
    return f"wash {'by hand, ' if care.by == 'hand' else ''}at most {care.c} °C{gentle}"


def water(celsius: float, lexicon: Lexicon) -> str:
    """The United States word for water of at most this temperature in °C: cold, warm or hot."""
    table = lexicon.knowledge.tables["care"]["water"]
    return next((word for word in ("cold", "warm") if celsius <= table[word]), "hot")


def ironing(care: Care, market: str, lexicon: Lexicon) -> str:
    """`warm iron` (US); `iron at most 150 °C`; with `no steam` where steam harms."""
    if not care.dots:
        return "do not iron"
    steam = ", no steam" if care.steam == "none" else ""
    if market == "US":
        return f"{('cool', 'warm', 'hot')[care.dots - 1]} iron{steam}"
    most = next(row["most_c"] for row in lexicon.knowledge.tables["heat"]["dots"] if row["dots"] == care.dots)
    return f"iron at most {most} °C{steam}"
