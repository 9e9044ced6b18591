"""How people write: the tables of spoken.toml, and a text brought to one spelling for comparing."""

from __future__ import annotations

import difflib
import re
import tomllib
import unicodedata
from collections.abc import Iterable, Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

from handouts.workbook.limits import ALIKE, CELL

SPELLINGS = (
    ("fiber", "fibre"),
    ("color", "colour"),
    ("meter", "metre"),
    ("grey", "gray"),
    ("mercerized", "mercerised"),
)


@cache
def spoken(table: str) -> Mapping[str, Any]:
    """One table of spoken.toml."""
    with Path(__file__).with_name("spoken.toml").open("rb") as file:
        found: Mapping[str, Any] = tomllib.load(file)[table]
    return found


@lru_cache(100_000)
def plain(text: str) -> str:
    """A text for comparing: one case, one kind of space, British spelling, no dots, dashes or underscores between words."""
    text = unicodedata.normalize("NFKC", text).casefold()
    text = re.sub(r"[\s_:*.\-–/]+", " ", text.replace("’", "'")).strip()
    for american, british in SPELLINGS:
        text = text.replace(american, british)
    return text


def closest(text: str, words: Iterable[str]) -> str:
    """The word that is most like `text`, or nothing when none is."""
    by_plain = {plain(word): word for word in reversed(list(words))}
    found = difflib.get_close_matches(plain(text), list(by_plain), n=1, cutoff=ALIKE)
    return by_plain[found[0]] if found else ""


def shown(value: object) -> str:
    """What was found, for a message: at most a line's worth, nothing in it that moves the cursor."""
    text = f"{value:g}" if isinstance(value, float) else str(value)
    text = "".join(sign for sign in text if unicodedata.category(sign)[0] != "C")
    most = CELL["shown_characters"]
    return text if len(text) <= most else text[: most - 1] + "…"


def did_you_mean(word: str) -> str:
    """The start of a mend: a question, or nothing."""
    return f"Did you mean {word}? " if word else ""
