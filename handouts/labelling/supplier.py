"""The supplier's own care words, sorted by what they are about: washing, bleach, drying, ironing, cleaning. Words are kept."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from handouts.labelling.guidance import OPERATIONS, Care, ironing, washing
from handouts.labelling.names import capital
from handouts.labelling.words import Lexicon
from handouts.model import Knowledge
from handouts.units import celsius

CLAUSE = re.compile(r"(.+?)((?<!\d)[.;,](?!\d)|[.;](?=\s|$)|,(?=\s)|--|•(?=\s)|$)")
STEAM = re.compile(r"(?:no|do not|don't|steam only|only)?\s*steam(?: only)?", re.I)
DEGREES = re.compile(r"(\d{2,3})\s*(?:(?:°|deg\w*|grad\w*|degrés?)\s*([cf]\b)?|([cf])\b)", re.I)
LONGEST = 400
"""Characters of a supplier's care text that are printed; judgement: the longest bolt end we know is under 250."""
SETTING = re.compile(r"^\s*((?:wash|bleach|dry|iron|clean)(?:ing)?|dry ?clean|steam)\s*[:=]\s*(.+)$", re.I | re.S)
KEYS = {
    "wash": "washing",
    "bleach": "bleach",
    "dry": "drying",
    "iron": "ironing",
    "clean": "cleaning",
    "steam": "steam",
}


@dataclass
class Stated:
    """What the supplier said: (operations it is about, words) pairs in his order, and words about none of them."""

    said: list[tuple[tuple[str, ...], str]] = field(default_factory=list)
    besides: list[str] = field(default_factory=list)
    covered: set[str] = field(default_factory=set)

    def add(self, operations: tuple[str, ...], words: str) -> None:
        """Notes a clause."""
        self.said.append((operations, words))
        self.covered.update(operations)

    def words(self, operation: str) -> str:
        """Everything said about one operation."""
        return " ".join(words for operations, words in self.said if operation in operations)


@lru_cache(maxsize=4096)
def stated(text: str, market: str, lexicon: Lexicon) -> Stated:
    """The supplier's care text, sorted. Five settings typed as `wash: …; bleach: …` become sentences of the market.

    Kept, because long lists say the same of many rows.
    """
    flat = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    if len(flat) > LONGEST:
        flat = flat[: flat.rfind(" ", 0, LONGEST)] + " … see the bolt end"
    chosen = settings(text)
    return from_settings(chosen, market, lexicon) if len(chosen) > 1 else from_sentences(flat, lexicon)


def settings(text: str) -> dict[str, str]:
    """The settings of a text typed as settings: operation → value."""
    found = [SETTING.match(part) for part in re.split(r"[;\n]", text)]
    return {key_of(match[1]): " ".join(match[2].split()) for match in found if match}


def key_of(word: str) -> str:
    """The operation a setting's key means."""
    bare = word.casefold().replace(" ", "")
    if bare == "dryclean":
        return "cleaning"
    return next(operation for key, operation in KEYS.items() if bare.startswith(key))


def from_settings(chosen: Mapping[str, str], market: str, lexicon: Lexicon) -> Stated:
    """Settings as the sentences that 16 CFR 423.6 and Appendix A use."""
    found = Stated()
    values = {key: value.casefold().strip(" .") for key, value in chosen.items()}
    if all(is_any(values.get(operation, "")) for operation in OPERATIONS):
        found.add(OPERATIONS, "Wash or dry clean, any normal method")
        return found
    if is_no(values.get("washing", "")) and is_no(values.get("cleaning", "")):
        found.add(("washing", "cleaning"), "Do not wash--do not dryclean")
    for operation in OPERATIONS:
        if operation in chosen and operation not in found.covered:
            found.add((operation,), sentence(operation, chosen[operation], values.get("steam", ""), market, lexicon))
    return found


def is_no(value: str) -> bool:
    """Whether a setting forbids."""
    return value in ("no", "none", "never", "not", "do not", "x", "0")


def is_any(value: str) -> bool:
    """Whether a setting allows everything."""
    return value in ("any", "all", "yes", "normal", "any normal method")


def sentence(operation: str, typed: str, steam: str, market: str, lexicon: Lexicon) -> str:
    """One setting in words; a value we do not know is printed as typed."""
    value = typed.casefold().strip(" .")
    made = {
        "washing": wash_words,
        "bleach": bleach_words,
        "drying": dry_words,
        "ironing": iron_words,
        "cleaning": clean_words,
    }
    words = made[operation](value, market, lexicon) or typed
    if operation == "cleaning" and is_no(steam) and not is_no(value):
        words = f"{words}. No steam"
    if operation == "ironing" and is_no(steam) and "steam" not in words:
        words = f"{words}, no steam"
    return capital(words)


def wash_words(value: str, market: str, lexicon: Lexicon) -> str:
    """`hand 30`, `40 gentle`, `warm`, `no`, `any`."""
    if is_no(value) or is_any(value):
        return "do not wash" if is_no(value) else "machine wash, any temperature"
    warm = lexicon.knowledge.tables["care"]["temperature"]["wash"]
    number = re.search(r"\d{2,3}", value)
    named = (c for word, c in warm.items() if re.search(rf"\b{word}\b", value))
    unsaid = lexicon.knowledge.tables["care"]["unknown"]["c"] if "hand" in value else None
    celsius = next(iter(degrees_c(value)), int(number.group())) if number else next(named, unsaid)
    if celsius is None:
        return ""
    gentle = any(word in value for word in ("gentle", "mild", "delicate"))
    words = washing(Care(by="hand" if "hand" in value else "machine", c=celsius, gentle=gentle), market, lexicon)
    return words.replace("gentle", "very gentle") if "very" in value else words


def bleach_words(value: str, market: str, lexicon: Lexicon) -> str:
    """`no`, `oxygen`, `non-chlorine`, `any`."""
    if is_no(value):
        return "do not bleach"
    if "oxygen" in value or "non" in value:
        return "only non-chlorine bleach, when needed"
    return "any bleach, when needed" if is_any(value) else ""


def dry_words(value: str, market: str, lexicon: Lexicon) -> str:
    """`no tumble`, `low`, `line`, `drip flat`, `line, shade`, `any`."""
    if is_no(value) or "no tumble" in value:
        return "do not tumble dry"
    heat = next((word for word in ("low", "medium", "high") if word in value), "")
    if heat or "tumble" in value:
        return f"tumble dry {heat}".strip()
    way = {
        "line": "line dry",
        "flat": "drip dry flat" if "drip" in value else "dry flat",
        "drip": "drip dry",
        "shade": "dry",
    }
    words = next((words for key, words in way.items() if key in value), "tumble dry, any heat" if is_any(value) else "")
    return f"{words} in the shade" if "shade" in value else words


def iron_words(value: str, market: str, lexicon: Lexicon) -> str:
    """`no`, `low`, `2`, `••`, `150`, `any`."""
    if is_no(value) or is_any(value):
        return "do not iron" if is_no(value) else "iron"
    dots = iron_dots(value, lexicon.knowledge)
    steam = "none" if "no steam" in value else "high"
    return ironing(Care(dots=dots, steam=steam), market, lexicon) if dots else ""


def iron_dots(value: str, knowledge: Knowledge) -> int:
    """Dots of an iron instruction, 0 when it names none: •• is 2, 150 °C and 300 °F are 2, warm is 2."""
    most = {int(row["dots"]): row["most_c"] for row in knowledge.tables["heat"]["dots"]}
    if "•" in value:
        return min(value.count("•"), max(most))
    number = re.search(r"\d+", value)
    if number:
        figure = next(iter(degrees_c(value)), int(number.group()))
        return figure if 1 <= figure <= max(most) else next((dots for dots in most if figure <= most[dots]), max(most))
    words = knowledge.tables["care"]["temperature"]["iron"]
    return next((int(dots) for word, dots in words.items() if re.search(rf"\b{word}\b", value)), 0)


def degrees_c(text: str) -> list[int]:
    """Every temperature of a text in whole °C: 40 °C and 104 F are both 40."""
    found = DEGREES.findall(text)
    return [round(celsius(int(n))) if "f" in f"{a}{b}".casefold() else int(n) for n, a, b in found]


def clean_words(value: str, market: str, lexicon: Lexicon) -> str:
    """`no`, `any`, `petroleum`, `P`, `F`."""
    if is_no(value):
        return "do not dryclean"
    if is_any(value):
        return "professionally dryclean"
    solvent = {
        "petroleum": "petroleum solvent",
        "f": "petroleum solvent",
        "p": "perchlorethylene or petroleum solvent",
    }.get(value)
    return f"professionally dryclean, {solvent}" if solvent else ""


def from_sentences(flat: str, lexicon: Lexicon) -> Stated:
    """Sentences sorted clause by clause; a clause that names no operation goes on with the one before it."""
    table = lexicon.knowledge.tables["care"]["words"]
    found = Stated()
    lower = flat.casefold()
    if any(words in lower for words in (*table["everything"], *table["nothing"])):
        found.add(OPERATIONS, flat)
        return found
    for clause, stop in CLAUSE.findall(flat):
        if clause.strip():
            place(clause.strip(), stop, found, table)
    return found


def place(clause: str, stop: str, found: Stated, table: Mapping[str, Any]) -> None:
    """Puts one clause where it belongs; `stop` is the sign that ended it."""
    operations = about(clause.casefold(), table)
    last = found.said[-1][0] if found.said else ()
    steam_of_cleaning = "cleaning" in last and operations == ("ironing",) and STEAM.fullmatch(clause)
    words = clause + stop.strip().replace("--", "")
    if operations and not steam_of_cleaning:
        found.add(operations, words)
    elif found.said:
        found.said[-1] = (last, f"{found.said[-1][1]} {words}")
    else:
        found.besides.append(clause)


def about(lower: str, table: Mapping[str, Any]) -> tuple[str, ...]:
    """The operations that a clause is about, in the order of printing."""
    hits = set()
    for operation in ("bleach", "cleaning", "drying", "ironing", "washing"):
        for words in table[operation]:
            if words in lower:
                hits.add(operation)
                lower = lower.replace(words, " ")
    if not hits and degrees_c(lower):
        hits.add("washing")
    return tuple(operation for operation in OPERATIONS if operation in hits)
