"""Words of a Fibre content cell and what they mean: fibre names, trade words, codes, parts, coatings, material nobody knows."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from handouts.model import Fibre, Knowledge


@dataclass(frozen=True)
class Meaning:
    """What a phrase names: a fibre id, and how surely: name, hair, trade, loose or code."""

    fibre: str
    kind: str
    us: str = ""
    eu: str = ""


@dataclass(frozen=True)
class Match:
    """A phrase found in a list of words: from `start` up to `stop`."""

    start: int
    stop: int
    meaning: Meaning


def plain(text: str) -> str:
    """Text to compare by: no capitals, accents, hyphens or signs; single spaces."""
    bare = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    return re.sub(r"[\W_]+", " ", bare).strip()


class Lexicon:
    """Every word the reader knows, made once from the knowledge base."""

    def __init__(self, knowledge: Knowledge) -> None:
        self.knowledge = knowledge
        self.table: Mapping[str, Any] = knowledge.tables["labelling"]
        self.read: Mapping[str, Any] = self.table["read"]
        self.phrases = fibre_phrases(knowledge, self.table)
        self.names = sorted(p for p, m in self.phrases.items() if m.kind in ("name", "hair") and len(p) > 3)
        self.slashed = [word for record in self.table["name"] for word in record["words"] if "/" in word]
        self.parts = phrases(self.table["part"])
        self.coatings = phrases(self.table["coating"])
        self.skins = phrases(self.table["skin"])
        self.leftovers = phrases({kind: record["words"] for kind, record in self.table["leftover"].items()})
        self.groups = {key: {plain(w) for w in words} for key, words in self.read.items() if isinstance(words, list)}

    def fibre(self, id: str) -> Fibre:
        """The record of a fibre."""
        return self.knowledge.fibres[id]

    def find(self, words: list[str]) -> list[Match]:
        """Fibre phrases in a list of plain words, longest first from the left, none overlapping."""
        return [Match(start, stop, self.phrases[key]) for start, stop, key in scan(words, self.phrases)]

    def has(self, group: str, words: Iterable[str]) -> bool:
        """Whether one of the words, or two or three in a row, belongs to a word group of labelling.toml."""
        return bool(scan(list(words), self.groups[group]))

    def proposal(self, id: str) -> str:
        """The name to write for a fibre: `polyamide (nylon)`."""
        fibre = self.fibre(id)
        return fibre.eu if fibre.us == fibre.eu else f"{fibre.eu} ({fibre.us})"


def phrases(table: Mapping[str, Iterable[str]]) -> dict[str, str]:
    """Every spoken phrase of a word table → its canonical word."""
    return {plain(word): key for key, words in table.items() for word in (key, *words)}


def scan(words: list[str], known: Iterable[str], longest: int = 4) -> list[tuple[int, int, str]]:
    """Known phrases in a list of words as (start, stop, phrase), the longest at each place, left to right."""
    found = []
    at = 0
    while at < len(words):
        for size in range(min(longest, len(words) - at), 0, -1):
            phrase = " ".join(words[at : at + size])
            if phrase in known:
                found.append((at, at + size, phrase))
                at += size - 1
                break
        at += 1
    return found


def fibre_phrases(knowledge: Knowledge, table: Mapping[str, Any]) -> dict[str, Meaning]:
    """Every phrase that names a fibre. A sure word beats a loose one when both are spelt alike."""
    found: dict[str, Meaning] = {}
    for record in table["hair"]:
        for word in record["words"]:
            for tail in ("", " hair", " fiber", " fibre", " blend"):
                found.setdefault(plain(word) + tail, Meaning(record["like"], "hair", record["us"], record["eu"]))
    for record in table["name"]:
        for word in record["words"]:
            found.setdefault(plain(word), Meaning(record["like"], "name", record["us"], record["eu"]))
    for id in (*table["rules"]["us_wool"], *table["rules"]["us_fur"]):
        add(found, f"{knowledge.fibres[id].us} hair", Meaning(id, "name"))
    stand_ins = table["rules"]["eu_other"]
    for kind in ("name", "trade", "code"):
        for fibre in knowledge.fibres.values():
            for word in words_of(fibre, kind):
                if word not in stand_ins or fibre.id == "other":
                    add(found, word, Meaning(fibre.id, kind))
    for word, id in table["read"]["loose"].items():
        add(found, word, Meaning(id, "loose"))
    return found


def words_of(fibre: Fibre, kind: str) -> tuple[str, ...]:
    """The words of one kind for a fibre."""
    return {"name": (fibre.us, fibre.eu, *fibre.spoken), "trade": fibre.trade, "code": fibre.codes}[kind]


def add(found: dict[str, Meaning], word: str, meaning: Meaning) -> None:
    """Adds a phrase unless it is taken, or too short without its accents to be told from an article (lã, la)."""
    bare = plain(word)
    if bare and (len(bare) > 2 or bare == word.casefold()):
        found.setdefault(bare, meaning)


@cache
def lexicon(knowledge: Knowledge) -> Lexicon:
    """The lexicon of a knowledge base, made once for each."""
    return Lexicon(knowledge)
