"""A Fibre content cell as written on the bolt end, read into sections and shares. Never raises, whatever the text."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import replace
from functools import lru_cache

from handouts.labelling.clauses import clauses, read_clause
from handouts.labelling.draft import Draft
from handouts.labelling.words import Lexicon, lexicon
from handouts.model import Knowledge
from handouts.records import Content

POLYMER = re.compile(
    r"\b(nylon|polyamide?|poliamida|poliammide|pa)[\s-]?(6[.,/]6|4[.,]6|66|6|11|12|610|612)(?![\d%]|\s*%)", re.I
)
SUPER = re.compile(r"\bsuper\s*['’]?\s*(\d{2,3})\s*(?:['’]?\s*s)?\b", re.I)
MICRON = re.compile(r"(\d+(?:[.,]\d+)?)\s*(?:µm|μm|um|microns?|mic)\b", re.I)


@lru_cache(maxsize=4096)
def read_content(text: str, knowledge: Knowledge) -> Content:
    """What a Fibre content cell says, with findings about what cannot stand: (problem code, its fields) pairs."""
    known = lexicon(knowledge)
    typed = str(text)
    cell = cleaned(typed)
    longest = known.read["longest"]
    content = best(cell[:longest], typed, known)
    if len(cell) > longest:
        found = ("content-long", {"length": len(cell), "most": longest})
        content = replace(content, findings=(found, *content.findings))
    return content


def cleaned(text: str) -> str:
    """Text without control characters and odd spaces; line ends kept."""
    flat = unicodedata.normalize("NFC", text).replace("\r\n", "\n").replace("％", "%").replace("⁄", "/")
    flat = re.sub(r"[\u200b-\u200f\u202a-\u202e\u2066-\u2069\ufeff]", "", flat)
    kept = "".join(c if c == "\n" or unicodedata.category(c)[0] not in "CZ" else " " for c in flat)
    return re.sub(r"[ \t]+", " ", kept).strip()


def best(cell: str, typed: str, known: Lexicon) -> Content:
    """The reading with the fewest faults, where a comma may be a decimal and `nylon 66` a fibre or a share."""
    first = reading(cell, typed, known)
    if not first.findings:
        return first
    others = [reading(other, typed, known) for other in dict.fromkeys(variants(cell)) if other != cell]
    return min((first, *others), key=lambda content: len(content.findings))


def variants(cell: str) -> list[str]:
    """Other ways to take the figures of a cell."""
    polymer = POLYMER.sub(r"\1_\2", cell)
    return [polymer, re.sub(r"(\d),(\d)", r"\1, \2", cell)]


def reading(cell: str, typed: str, known: Lexicon) -> Content:
    """One reading of a cell."""
    draft = Draft(known)
    for name in known.slashed:  # one fibre, not two
        cell = re.sub(re.escape(name), name.replace("/", " "), cell, flags=re.I)
    cell = re.sub(r"\((\s*\d+(?:[.,]\d+)?\s*%?\s*)\)", r" \1 ", cell)
    for clause in clauses(without_measures(cell, known)):
        read_clause(clause, draft)
    return draft.done(typed)


def without_measures(cell: str, known: Lexicon) -> str:
    """The cell without figures that are no shares: fineness of wool, weights, widths."""
    units = "|".join(re.escape(unit) for unit in sorted(known.read["units"], key=len, reverse=True))
    bare = MICRON.sub(" ", SUPER.sub(" ", cell))
    return re.sub(rf"\b\d+(?:[.,]\d+)?\s*(?:{units})(?![\w%])", " ", bare, flags=re.I)
