"""Which cloth a teacher means: by name, synonym, plural or the words inside a longer name."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import product

from handouts.advice.near import Near
from handouts.advice.spelling import plain, singular
from handouts.advice.spoken_weight import without_figure
from handouts.model import Cloth, Construction, Knowledge
from handouts.records import Content

NO_CONTENT = Content("", ())


@dataclass(frozen=True)
class Found:
    """The cloth read from a cell. `sure` is False when it was read out of a longer or misspelt name."""

    item: Cloth | Construction | None
    sure: bool
    proposals: tuple[str, ...] = ()


@cache
def index(knowledge: Knowledge) -> Mapping[str, str]:
    """Every word for a cloth or a construction → its id, in plain spelling."""
    found: dict[str, str] = {}
    for item in knowledge.items:
        for word in (item.name, item.id, *item.spoken):
            found.setdefault(plain(word), item.id)
            found.setdefault(singular(plain(word)), item.id)
    return found


def item_of(id: str, knowledge: Knowledge) -> Cloth | Construction:
    """The cloth or construction with this id."""
    return knowledge.cloths.get(id) or knowledge.constructions[id]


def find_cloth(text: str, knowledge: Knowledge, content: Content = NO_CONTENT) -> Found:
    """The cloth that `text` names, or the nearest names when none is recognised.

    A word that several cloths share is told apart by what the cloth is made of: flannel of wool is wool flannel.
    """
    words = index(knowledge)
    said = plain(text)
    bare = plain(without_figure(text))
    whole = next((spelling for spelling in (said, singular(said), bare, singular(bare)) if spelling in words), "")
    word = whole or longest_inside(said, words, knowledge)
    meant = misspelt(said, knowledge) if word in fibre_words(knowledge) and not whole else ""
    if meant:
        return Found(None, sure=False, proposals=(item_of(words[meant], knowledge).name,))
    if word:
        narrow = next((name for name in narrower(word, content, words, knowledge) if name in words), word)
        return Found(item_of(words[narrow], knowledge), sure=bool(whole))
    near = near_names(knowledge).closest(said, most=3, cutoff=0.75)
    names = tuple(dict.fromkeys(item_of(words[word], knowledge).name for word in near))
    return Found(None, sure=False, proposals=names)


def misspelt(said: str, knowledge: Knowledge) -> str:
    """The name that `said` holds once a slip of the keyboard is mended: `blue cotton voille` → `cotton voile`; else nothing.

    Asked where only a fibre was recognised, which is no cloth.
    """
    parts, words = said.split(), index(knowledge)
    for at, part in enumerate(parts):
        near = near_parts(knowledge).closest(part, most=1, cutoff=SLIP) if len(part) > 3 else []
        if near and near[0] != part and abs(len(near[0]) - len(part)) < 2:
            mended = [*parts[:at], near[0], *parts[at + 1 :]]
            spans = (" ".join(mended[i:j]) for i in range(at + 1) for j in range(len(mended), at, -1))
            return next((span for span in spans if span in words), "")
    return ""


SLIP = 0.83
"""How alike a word must be to one of ours to be taken for a slip, by difflib's ratio: velvit and velvet are."""


@cache
def near_names(knowledge: Knowledge) -> Near:
    """Every word for a cloth or a construction, to hold a text against."""
    return Near(index(knowledge))


@cache
def near_parts(knowledge: Knowledge) -> Near:
    """Every single word of the names of cloths and constructions, longer than three letters."""
    return Near(dict.fromkeys(part for name in index(knowledge) for part in name.split() if len(part) > 3))


def narrower(word: str, content: Content, words: Mapping[str, str], knowledge: Knowledge) -> Iterator[str]:
    """Names that say more than `word`: what it is made of before it, and stretch when elastane is in it."""
    item = item_of(words[word], knowledge)
    bare = plain(item.name).split()
    bases = dict.fromkeys((word, " ".join(bare[1:] if bare[0] in fibre_words(knowledge) else bare)))
    pairs, singles = blend_words(content, knowledge)
    if made_as(item, knowledge) == "skin" and singles and not content.skin:
        yield from (f"faux {base}" for base in bases)
    if content.skin:
        yield f"real {word}"
    if (content.fibres().get("elastane") or 0) >= knowledge.number("stretch_from"):
        yield from (f"{blend} stretch {base}" for blend in (*pairs, *singles) for base in bases)
        if made_as(item, knowledge) != "knit" or word.split()[0] in fibre_words(knowledge):
            yield f"stretch {word}"
    if word.split()[-1] in MIXTURE:
        yield from pairs
    yield from (f"{pair} {base}" for pair in pairs for base in bases)
    if not set(singles) & set(plain(getattr(item, "usual_content", "")).split()):
        yield from (f"{fibre} {base}" for fibre in singles for base in bases)


MIXTURE = ("blend", "mix", "union")
"""Last words of a name that leave the second fibre to the content: a linen blend with viscose is linen and viscose."""


def made_as(item: Cloth | Construction, knowledge: Knowledge) -> str:
    """The structure of a cloth or a construction: woven, knit, skin …"""
    return knowledge.constructions[getattr(item, "construction", item.id)].structure


def blend_words(content: Content, knowledge: Knowledge) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """What a shop calls a content before the cloth: its two main fibres, `polyester cotton`, and its main one; never elastane."""
    shares = {id: pct or 0 for id, pct in content.fibres().items() if id not in ("elastane", "unknown")}
    main = [knowledge.fibres[id] for id in sorted(shares, key=lambda id: (-shares[id], id))[:2]]
    named = [tuple(dict.fromkeys(plain(name) for name in (fibre.id, fibre.eu, fibre.us))) for fibre in main]
    pairs = tuple(" ".join(pair) for pair in product(*named)) if len(named) > 1 else ()
    return pairs, named[0] if named else ()


@cache
def fibre_words(knowledge: Knowledge) -> frozenset[str]:
    """Every word that names a fibre, in plain spelling."""
    return frozenset(singular(plain(name)) for f in knowledge.fibres.values() for name in (f.id, f.us, f.eu))


def longest_inside(said: str, words: Mapping[str, str], knowledge: Knowledge) -> str:
    """The longest known name that stands as whole words inside `said`; of two alike the later: the noun comes last.

    A word for a coat or a trim outranks the noun, for it decides the harm: waxed canvas is waxed first. A bare fibre is the
    last resort: eyelet cotton is an eyelet.
    """
    parts = [singular(w) for w in said.split()]
    spans = [(j - i, i, " ".join(parts[i:j])) for i in range(len(parts)) for j in range(i + 1, len(parts) + 1)]
    fibres = fibre_words(knowledge)
    known = [
        (delicate(item_of(words[span[2]], knowledge)), span[2] not in fibres, span)
        for span in spans
        if span[2] in words
    ]
    return max(known)[2][2] if known else ""


def delicate(item: Cloth | Construction) -> bool:
    """Whether a cloth is usually coated or trimmed with what heat and needles spoil. Skins are not: suede is often a look."""
    trims = set(item.usual.get("trim", ())) - {"embroidery"}
    return bool(trims) or item.usual.get("coating", "none") not in ("none", "water repellent")
