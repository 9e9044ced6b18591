"""Which cloth a teacher means: by name, synonym, plural or the words inside a longer name."""

from __future__ import annotations

import difflib
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from handouts.model import Cloth, Construction, Knowledge


@dataclass(frozen=True)
class Found:
    """The cloth read from a cell. `sure` is False when it was read out of a longer or misspelt name."""

    item: Cloth | Construction | None
    sure: bool
    proposals: tuple[str, ...] = ()


def plain(text: str) -> str:
    """Lower case, no accents, hyphens and slashes as spaces: `Crêpe-de-Chine` → `crepe de chine`."""
    bare = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    return " ".join(re.sub(r"[^\w%]+", " ", bare).split())


def singular(text: str) -> str:
    """The last word without a plural s: `corduroys` → `corduroy`."""
    return text[:-1] if text.endswith("s") and not text.endswith("ss") else text


@cache
def _index(words: tuple[tuple[str, str], ...]) -> Mapping[str, str]:
    index: dict[str, str] = {}
    for word, id in words:
        index.setdefault(plain(word), id)
        index.setdefault(singular(plain(word)), id)
    return index


def index(knowledge: Knowledge) -> Mapping[str, str]:
    """Every word for a cloth or a construction → its id, in plain spelling."""
    return _index(tuple((word, item.id) for item in knowledge.items for word in (item.name, item.id, *item.spoken)))


def item_of(id: str, knowledge: Knowledge) -> Cloth | Construction:
    """The cloth or construction with this id."""
    return knowledge.cloths.get(id) or knowledge.constructions[id]


def find_cloth(text: str, knowledge: Knowledge) -> Found:
    """The cloth that `text` names, or the nearest names when none is recognised."""
    words = index(knowledge)
    said = plain(text)
    for spelling in (said, singular(said)):
        if spelling in words:
            return Found(item_of(words[spelling], knowledge), sure=True)
    inside = longest_inside(said, words)
    if inside:
        return Found(item_of(words[inside], knowledge), sure=False)
    near = difflib.get_close_matches(said, words, n=3, cutoff=0.75)
    names = tuple(dict.fromkeys(item_of(words[word], knowledge).name for word in near))
    return Found(None, sure=False, proposals=names)


def longest_inside(said: str, words: Mapping[str, str]) -> str:
    """The longest known name that stands as whole words inside `said`; of two alike the later: the noun comes last."""
    parts = [singular(w) for w in said.split()]
    spans = [(j - i, i, " ".join(parts[i:j])) for i in range(len(parts)) for j in range(i + 1, len(parts) + 1)]
    known = [span for span in spans if span[2] in words]
    return max(known)[2] if known else ""
