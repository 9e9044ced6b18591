"""Cells with a drop-down: the word of the list that was meant."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence
from functools import cache

from handouts.sheets import Column
from handouts.workbook.outcome import Finding, Outcome, outcome
from handouts.workbook.words import closest, did_you_mean, plain, shown, spoken

BETWEEN = re.compile(r"\s*(?:[,;+&/]|\band\b|\bund\b)\s*")
NOTHING = "none"


def read_choice(text: str, column: Column, words: Sequence[str], heading: str) -> Outcome:
    """The word of the list; several of them joined by commas where the column allows it."""
    if not words:
        return Outcome(text)
    if not column.several:
        return _one(text, column, tuple(words), heading)
    whole = _known(text, column, tuple(words))
    parts = [text] if whole else [part for part in BETWEEN.split(text) if part]
    read = [_one(part, column, tuple(words), heading) for part in parts]
    found = list(dict.fromkeys(one.value for one in read if one.value))
    kept = [word for word in found if word != NOTHING] or found
    return Outcome(", ".join(kept) or None, tuple(finding for one in read for finding in one.findings))


def _one(text: str, column: Column, words: tuple[str, ...], heading: str) -> Outcome:
    known = _known(text, column, words)
    if known == text or known.casefold() == text.casefold():
        return Outcome(known or None)
    if known:
        return outcome(known, "read-as", heading=heading, found=shown(text), read=known)
    near = closest(text, words)
    if near or column.group != "facts":
        choices = _few(words)
        return outcome(
            None, "choice-unknown", heading=heading, found=shown(text), proposal=did_you_mean(near), choices=choices
        )
    return Outcome(None, (Finding("choice-own", {"heading": heading, "found": shown(text), "choices": _few(words)}),))


def _known(text: str, column: Column, words: tuple[str, ...]) -> str:
    """The word that the text is, in its own spelling or another; nothing when it is none."""
    table = _spellings(column.key.removeprefix("tested_"), words)
    bare = _bare(text)
    whole = table.get(bare) or table.get(bare.removesuffix("s")) or table.get(bare + "s")
    return whole or _inside(bare, table, spoken("inside").get(column.key, ()))


def _inside(bare: str, table: Mapping[str, str], best_first: Sequence[str]) -> str:
    """The choice that a word or two in a row inside a longer text name: `navy blue` is dark, for navy outweighs blue."""
    parts = bare.split()
    pairs = [" ".join(parts[at : at + 2]) for at in range(len(parts) - 1)]
    named = {table[word] for word in (*parts, *pairs) if word in table} if best_first else set()
    return next((choice for choice in best_first if choice in named), "")


@cache
def _spellings(key: str, words: tuple[str, ...]) -> Mapping[str, str]:
    others = spoken("choices").get(key, {})
    return {_bare(word): choice for word, choice in others.items() if choice in words} | {
        _bare(word): word for word in words
    }


def _bare(text: str) -> str:
    """Without case, dots, dashes and accents."""
    apart = unicodedata.normalize("NFD", plain(text))
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


def _few(words: Sequence[str]) -> str:
    """The list for a message; the start of it when it is long."""
    return ", ".join(words[:12]) + (" …" if len(words) > 12 else "")
