"""Fibre statements for the United States: Textile Act rules (16 CFR 303) and, where there is wool, Wool Act rules (16 CFR 300)."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from handouts.labelling.draft import LOADING
from handouts.labelling.names import (
    Name,
    all_shares,
    capital,
    is_wool,
    limit,
    phrase,
    rule_list,
    title,
    unknown_name,
    us_name,
)  # fmt: skip
from handouts.labelling.parts import face_and_back, film_line, one_cloth, ratio_line
from handouts.labelling.shares import figure, leftover, spelt
from handouts.labelling.words import Lexicon
from handouts.records import Content, Section, Share

NAMED, UNKNOWN, OTHER = 0, 1, 2


@dataclass(frozen=True)
class Line:
    """One line of a statement: percent, name, where it goes (named, unknown, other) and its reason to be named."""

    pct: float
    name: Name
    place: int = NAMED
    reason: str = ""
    wool: bool = False
    count: int = 1

    def text(self, all_of: bool = False) -> str:
        """`97% Cotton`; `All Cotton` for a cloth that is wholly one fibre but for an exception."""
        name = title(self.name.text()) if self.place != UNKNOWN else self.name.name
        return f"{'All' if all_of else f'{figure(self.pct)}%'} {name}"


def refusals(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """Why United States rules allow no statement of this content."""
    knowledge = lexicon.knowledge
    if content.unknown and not leftover(spelt(content.remnants.split()), lexicon):
        yield "the fibres are unknown; only remnants, scraps, rags, odd lots and the like may be sold so (16 CFR 303.13, 303.14)."
    for share in all_shares(content):
        if share.fibre is None and not unknown_name(share, lexicon):
            yield f"“{share.words[:40]}” names no fibre; say which kind of material it is (scraps, rags …) (16 CFR 303.14)."
        if share.fibre == "other" and (share.pct or 0) >= limit(knowledge, "us_named_from") and not plural(share):
            yield "an “other fiber” of 5 percent or more must be named (16 CFR 303.6)."
    yield from left_out(content, lexicon)
    pair = face_and_back(content)
    if pair and any(section.pct is None for section in pair) and not one_cloth(content):
        yield f"give the shares of {pair[0].part} and {pair[1].part} (16 CFR 303.24)."
    for section in content.sections:
        if section.part in ("warp", "weft"):
            yield "give the percentages of the whole cloth, not of warp and weft (16 CFR 303.16)."


def left_out(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """Why something may not be left out of the statement: above its limit, or of no kind that the rules let off."""
    if not content.exclusive_of:
        return
    kinds = rule_list(lexicon.knowledge, "us_left_out")
    words = spelt(content.exclusive_of.split())
    named = next((limit_id for stem, limit_id in kinds.items() if any(stem in word for word in words)), None)
    if named is None and not only_fibres(content.exclusive_of, lexicon):
        yield "only ornamentation, decoration, trimming, elastic and linings may be left out (16 CFR 303.22, 303.26, 303.27)."
    pct = next((section.pct or 0 for section in content.sections if section.part == "ornament"), 0)
    most = limit(lexicon.knowledge, named or "us_ornament_most") if named != "" else 100
    if pct > most:
        what = "ornamentation" if named in (None, "us_ornament_most") else "decoration, trimming or elastic"
        section = "303.26" if what == "ornamentation" else "303.12"
        yield f"{what} above {figure(most)} percent must be inside the percentages (16 CFR {section})."


def only_fibres(words: str, lexicon: Lexicon) -> bool:
    """Whether words are fibres and figures only: `3% silk`."""
    return all(lexicon.find([word]) or re.match(r"[\d%]|percent", word) for word in spelt(words.split()))


def plural(share: Share) -> bool:
    """Whether `other fibers` was typed for several."""
    return spelt(share.words.split())[-1:] != ["fiber"] and spelt(share.words.split())[-1:] != ["fibre"]


def statement(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """The lines of the statement, in order."""
    if content.unknown:
        yield unknown_line(content, lexicon)
        return
    if content.skin and not content.sections:
        yield capital(content.skin)
        return
    lines = list(section_lines(content, lexicon))
    if content.remnants and lines:
        lines[0] = f"Remnants, {lines[0]}"
    yield from lines
    film = film_line(content, rule_list(lexicon.knowledge, "film"))
    if film:
        yield f"Coating: {title(rule_list(lexicon.knowledge, 'film_words').get(film, film))}"
    yield from endings(content, lexicon)


def unknown_line(content: Content, lexicon: Lexicon) -> str:
    """The whole of a cloth that nobody can name, in the form typed when that is one the rule allows (303.13, 303.14)."""
    words = spelt(content.remnants.replace("%", " ").split())
    record = lexicon.table["leftover"][leftover(words, lexicon)]
    kind = leftover(words, lexicon)
    opening = {"100": "100%", "all": "All", "made": "Made of"}.get(words[0], "")
    if opening and "content" not in words and any(word.startswith("fib") for word in words):
        state = "undetermined" if "undetermined" in words else "unknown"
        return f"{opening} {state} fibers--{kind}"
    if opening and kind != "secondhand materials":
        return f"{opening} {record['part']}"
    return str(record["whole"])


def section_lines(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """The sections in the order typed, pile and back with their ratio."""
    pair = face_and_back(content)
    excepted = any(section.part == "except" for section in content.sections) or said_all(content)
    for section in content.sections:
        if section.part not in ("ornament", "except") and section.shares:
            yield from one_section(section, lexicon, section in pair, excepted)
    if pair and all(section.pct is not None for section in pair):
        yield ratio_line(pair, content.typed)


def said_all(content: Content) -> bool:
    """Whether `all cotton` was typed, without a figure: the word is kept (303.27)."""
    return spelt(content.typed.split())[:1] == ["all"] and not re.search(r"\b100\b", content.typed)


def one_section(section: Section, lexicon: Lexicon, paired: bool, excepted: bool) -> list[str]:
    """The lines of a section: plain, `100% Nylon Pile`, `Elastic: Rayon, cotton`, or under a label."""
    if section.part == "elastic" and any(share.pct is None for share in section.shares):
        return ["Elastic: " + capital(", ".join(us_name(share, lexicon).text() for share in section.shares))]
    lines = lines_of(section, lexicon)
    words = [line.text(excepted and not section.part and len(lines) == 1) for line in lines]
    if not section.part:
        return words
    if paired and len(lines) == 1:
        return [f"{words[0]} {title(section.part)}"]
    return [f"{capital(section.part)}: {words[0]}"] if len(lines) == 1 else [f"{capital(section.part)}:", *words]


def lines_of(section: Section, lexicon: Lexicon) -> list[Line]:
    """The lines of one section: fibres under one name summed, small ones gathered, heaviest first, others last."""
    from_pct = limit(lexicon.knowledge, "us_named_from")
    merged = merge([line_of(share, lexicon) for share in section.shares])
    small = [line for line in merged if line.place == OTHER or (line.place == NAMED and is_small(line, from_pct))]
    kept = sorted((line for line in merged if line not in small), key=lambda line: (line.place, -line.pct))
    return [*kept, *gathered(small)]


def is_small(line: Line, from_pct: float) -> bool:
    """Whether a fibre may not be named: under the limit, no wool, no reason given."""
    return line.pct < from_pct and not line.wool and not line.reason


def line_of(share: Share, lexicon: Lexicon) -> Line:
    """One share as a line."""
    pct = share.pct or 0.0
    if share.fibre is None:
        return Line(pct, Name(unknown_name(share, lexicon)), UNKNOWN)
    if share.fibre == "other":
        return Line(pct, Name("other"), OTHER, count=2 if plural(share) else 1)
    return Line(pct, us_name(share, lexicon), NAMED, share.reason, is_wool(share, lexicon.knowledge))


def merge(lines: Sequence[Line]) -> list[Line]:
    """Lines under one generic name summed (modal and viscose are both rayon); recycled wool stays apart from wool."""
    found: dict[tuple[object, ...], Line] = {}
    for line in lines:
        key = (line.place, line.name.name, "recycled" in line.name.before) if line.place != OTHER else (id(line),)
        first = found.get(key)
        found[key] = summed(first, line) if first else line
    return list(found.values())


def summed(first: Line, line: Line) -> Line:
    """Two lines of one name as one; words before the name stay only when both have them."""
    before = tuple(word for word in first.name.before if word in line.name.before)
    reason = first.reason and line.reason
    return Line(round(first.pct + line.pct, 6), Name(first.name.name, before), first.place, reason, first.wool)


def gathered(small: Sequence[Line]) -> list[Line]:
    """The fibres that may not be named, as one line at the end: other fiber, or other fibers for several."""
    if not small:
        return []
    several = sum(line.count for line in small) > 1
    return [Line(round(sum(line.pct for line in small), 6), Name("other fibers" if several else "other fiber"), OTHER)]


def endings(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """`Except 5% Nylon added to toe and heel`, `Exclusive of 3% Silk Ornamentation`."""
    for section in content.sections:
        if section.part == LOADING:
            yield phrase(lexicon.knowledge, "us_loading").format(pct=figure(section.pct or 0))
        if section.part == "except":
            for share in section.shares:
                yield f"Except {figure(share.pct or 0)}% {title(us_name(share, lexicon).text())} {share.reason}".strip()
    if content.exclusive_of:
        yield f"Exclusive of {title(exclusive_words(content, lexicon))}"


def exclusive_words(content: Content, lexicon: Lexicon) -> str:
    """What was left out, with the fibre's name in United States words."""
    words = content.exclusive_of.replace(" percent", "%").replace(" %", "%")
    if only_fibres(words, lexicon):
        words = words if "elastic" in words else f"{words} ornamentation"
    for section in content.sections:
        for share in section.shares if section.part == "ornament" and "elastic" not in words else ():
            name = us_name(Share(share.fibre, share.pct, share.fibre or ""), lexicon).name
            typed = next((w for w in words.split() if lexicon.find(spelt([w]))), "")
            words = words.replace(typed, name) if typed else words
    return words


def small_unnamed(content: Content, lexicon: Lexicon) -> Iterator[Share]:
    """Fibres that would be named if their function were given: for the question to the person who typed them."""
    from_pct = limit(lexicon.knowledge, "us_named_from")
    for section in content.sections:
        if section.part in ("ornament", "except", "elastic"):
            continue
        sums = {line.name.name: line for line in merge([line_of(share, lexicon) for share in section.shares])}
        for share in section.shares:
            if share.fibre not in (None, "other") and is_small(sums[us_name(share, lexicon).name], from_pct):
                yield share
