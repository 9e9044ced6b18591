"""What a fibre is called on a statement: by market, with the truthful words that may stand before its name."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from handouts.labelling.shares import leftover, spelt
from handouts.labelling.words import Lexicon, Match, plain, scan
from handouts.model import Knowledge
from handouts.records import Content, Share


@dataclass(frozen=True)
class Name:
    """A fibre's name with the words before it, both in lower case; `left_off` were typed but may not be printed."""

    name: str
    before: tuple[str, ...] = ()
    left_off: tuple[str, ...] = ()

    def text(self) -> str:
        """Words and name."""
        return " ".join((*self.before, self.name))


VIRGIN = ("virgin", "fleece")
"""Words for wool that was never made up before, as a statement prints them (Annex III)."""


def limit(knowledge: Knowledge, id: str) -> float:
    """A limit of labelling.toml, in the unit written there."""
    return float(knowledge.tables["labelling"]["limit"][id]["value"])


def phrase(knowledge: Knowledge, id: str) -> str:
    """A sentence that the law prints."""
    return str(knowledge.tables["labelling"]["phrase"][id])


def rule_list(knowledge: Knowledge, id: str) -> Any:
    """A list of fibre ids or words of labelling.toml, by name."""
    return knowledge.tables["labelling"]["rules"][id]


def matched(share: Share, lexicon: Lexicon) -> tuple[list[str], Match | None]:
    """The plain words of a share, and the phrase in them that names its fibre."""
    words = spelt(share.words.split())
    found = [m for m in lexicon.find(words) if m.meaning.fibre == share.fibre]
    return words, max(found, key=lambda m: (m.meaning.kind in ("name", "hair"), m.stop - m.start), default=None)


def us_name(share: Share, lexicon: Lexicon) -> Name:
    """The generic name of 16 CFR 303.7, an animal's name with its word, recycled before wool (300.3, 300.8, 303.6)."""
    words, match = matched(share, lexicon)
    if lexicon.has("bicomponent", words):
        return Name(share.words.lower())
    fibre = lexicon.fibre(share.fibre or "unknown")
    name = match.meaning.us if match and match.meaning.us else fibre.us
    if match and match.meaning.kind == "hair":
        name = hair_name(match.meaning.us, words[match.stop - 1], lexicon)
    elif fibre.id in rule_list(lexicon.knowledge, "us_fur"):
        name = rule_list(lexicon.knowledge, "us_fur")[fibre.id]
    type_number = "".join(word.rstrip(".,") for word in share.words.split()[1:2] if word[0].isdigit())
    before, left = describing(words, match, lexicon)
    if fibre.id not in rule_list(lexicon.knowledge, "eu_virgin"):
        before = tuple(word for word in before if word not in VIRGIN)
    return Name(f"{name} {type_number}".strip(), before, left)


def hair_name(name: str, last: str, lexicon: Lexicon) -> str:
    """An animal's name with the word typed behind it, where that is one the rule allows: `mink fiber`, else `mink hair`."""
    allowed = rule_list(lexicon.knowledge, "us_hair_words")
    if last not in allowed or name.endswith(" fiber"):
        return name
    return f"{name.removesuffix(' hair')} {allowed[last]}"


def with_hair(content: Content, lexicon: Lexicon) -> Content:
    """The same content; without wool in it an animal's bare name gets “hair” behind it: `angora rabbit hair` (303.6(b))."""
    allowed = rule_list(lexicon.knowledge, "us_hair_words")
    if any(is_wool(share, lexicon.knowledge) for share in all_shares(content)):
        return content

    def haired(share: Share) -> Share:
        words, match = matched(share, lexicon)
        bare = match and match.meaning.kind == "hair" and words[match.stop - 1] not in allowed
        return replace(share, words=f"{' '.join(words[: match.stop])} hair") if match and bare else share

    sections = tuple(replace(section, shares=tuple(map(haired, section.shares))) for section in content.sections)
    return replace(content, sections=sections)


def describing(words: list[str], match: Match | None, lexicon: Lexicon) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Truthful words beside a fibre's name, as they go before it, and the words that are left off."""
    known = lexicon.groups["describing"] | lexicon.groups["recycled"] | lexicon.groups["virgin"]
    silent = lexicon.groups["fillers"] | lexicon.groups["all"] | lexicon.groups["blends"] | lexicon.groups["bamboo"]
    before, left = [], []
    spans = {start: (stop, text) for start, stop, text in scan(words, known)}
    inside = range(match.start, match.stop) if match else range(0)
    at = 0
    while at < len(words):
        stop, text = spans.get(at, (at + 1, ""))
        if text:
            before.append(canonical(text, lexicon))
        elif at not in inside and words[at] not in silent and not lexicon.find([words[at]]) and not words[at].isdigit():
            left.append(words[at])
        at = stop
    return tuple(dict.fromkeys(word for word in before if word)), tuple(left)


def canonical(word: str, lexicon: Lexicon) -> str:
    """An English word for recycled and virgin in any language; other words as they are."""
    if word in lexicon.groups["recycled"]:
        return "recycled"
    if word in lexicon.groups["virgin"]:
        return word if word == "fleece" else "virgin"
    return word.replace("cross linked", "cross-linked").replace("crosslinked", "cross-linked")


def eu_name(share: Share, lexicon: Lexicon) -> Name:
    """The Annex I name, or `other fibres` for a fibre that is not in it (Art. 9(5)). Words before it are virgin and fleece only."""
    words, match = matched(share, lexicon)
    fibre = lexicon.fibre(share.fibre or "unknown")
    name = match.meaning.eu if match and match.meaning.us else fibre.eu
    before, _ = describing(words, match, lexicon)
    woollen = fibre.id in rule_list(lexicon.knowledge, "eu_virgin")
    virgin = tuple(word for word in before if word in VIRGIN and woollen)
    return Name(name or "other fibres", virgin[:1])


def plain_name(share: Share, lexicon: Lexicon) -> Name:
    """The English name nearest to what was typed, with its describing words: for a class without a market."""
    words, match = matched(share, lexicon)
    if share.fibre is None:
        return Name(share.words)
    fibre = lexicon.fibre(share.fibre)
    if match and match.meaning.us:
        return Name(match.meaning.us)
    before, _ = describing(words, match, lexicon)
    return Name(fibre.us if plain(fibre.us) in " ".join(words) else fibre.eu, before)


def unknown_name(share: Share, lexicon: Lexicon) -> str:
    """What 16 CFR 303.14 and 300.28 let material be called that nobody can name; empty when its kind is not said."""
    words = spelt(share.words.split())
    kind = leftover(words, lexicon)
    if lexicon.has("reclaimed", words) or lexicon.has("recycled", words):
        return phrase(lexicon.knowledge, "us_reclaimed")
    if not kind:
        return ""
    if any(word.startswith("fib") for word in words) and not any(word.startswith("content") for word in words):
        return f"Unknown fibers--{kind}"
    return capital(str(lexicon.table["leftover"][kind]["part"]))


def title(text: str) -> str:
    """Each word with a capital, small words left alone: `recycled wool` → `Recycled Wool`, `Down and Feathers`."""
    words = text.split(" ")
    return " ".join(w if w in ("and", "of", "or") else "-".join(map(capital, w.split("-"))) for w in words)


def capital(text: str) -> str:
    """The first letter as a capital, the rest as it is."""
    return text[:1].upper() + text[1:]


def is_wool(share: Share, knowledge: Knowledge) -> bool:
    """Whether a share is wool or recycled wool in United States law: stated however little."""
    return share.fibre in rule_list(knowledge, "us_wool")


def is_virgin(share: Share, lexicon: Lexicon) -> bool:
    """Whether the words of a share say virgin, new or fleece wool."""
    return lexicon.has("virgin", spelt(share.words.split()))


def all_shares(content: Content) -> list[Share]:
    """Every share of every section but ornamentation and exceptions."""
    return [
        share for section in content.sections if section.part not in ("ornament", "except") for share in section.shares
    ]
