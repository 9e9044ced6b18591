"""Fibre statements for the European Union: Regulation 1007/2011, Art. 5 to 12. The United Kingdom keeps the same rules."""

from __future__ import annotations

from collections.abc import Iterator

from handouts.labelling.draft import ANIMAL
from handouts.labelling.names import Name, all_shares, eu_name, is_virgin, limit, phrase, rule_list
from handouts.labelling.parts import film_line, pure, warp_and_weft
from handouts.labelling.shares import figure, leftover, spelt
from handouts.labelling.words import Lexicon, plain
from handouts.records import Content, Section, Share

HARD_TO_STATE = ("mixed fibres", "mixed fibers")


def refusals(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """Why Regulation 1007/2011 allows no statement of this content."""
    knowledge = lexicon.knowledge
    if content.unknown and not content.remnants:
        yield "the fibres are unknown; if the maker could not state them, type “unspecified textile composition” (Art. 9(4))."
    others = [share for share in all_shares(content) if share.fibre == "other"]
    unnamed = [s for s in all_shares(content) if s.fibre is None and not leftover(spelt(s.words.split()), lexicon)]
    if unnamed:
        yield f"“{unnamed[0].words[:40]}” names no fibre; every fibre is named with its percentage (Art. 9(1))."
    most = limit(knowledge, "eu_other_several" if len(others) > 1 or any(map(plural, others)) else "eu_other_one")
    if sum(share.pct or 0 for share in others) > most:
        yield f"“other fibres” may be {figure(most)} % at most, and only where they are hard to state (Art. 9(2))."
    yield from section_refusals(content, lexicon)


def plural(share: Share) -> bool:
    """Whether several fibres were meant."""
    return not spelt(share.words.split())[-1:] or spelt(share.words.split())[-1] not in ("fibre", "fiber")


def section_refusals(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """Parts that cannot be stated as typed."""
    for section in content.sections:
        if section.part == "ornament":
            yield from left_out(section.pct or 0, content.exclusive_of, lexicon)
        if section.part == "except":
            yield "an added fibre must be inside the percentages; ask for those of the whole cloth (Art. 9(1))."
        if section.part == "elastic" and any(share.pct is None for share in section.shares):
            yield "the fibres of the elastic part need percentages (Art. 9(1), 11)."
        if section.part == "weft" and not is_union(content, lexicon):
            yield (
                "give the share of the weft, like “weft 45%”: a union needs 40 % flax there (Art. 9(3)); "
                "or give the percentages of the whole cloth (Art. 9(1))."
            )


def left_out(pct: float, words: str, lexicon: Lexicon) -> Iterator[str]:
    """Why decoration or fibres against static may not be left out: more than 7 % or 2 % of the weight (Art. 10)."""
    what, id = (
        ("fibres against static", "eu_antistatic_most")
        if "static" in words.lower()
        else ("decoration", "eu_decoration_most")
    )
    most = limit(lexicon.knowledge, id)
    if pct > most:
        yield f"{what} above {figure(most)} % must be inside the percentages (Art. 10)."


def is_union(content: Content, lexicon: Lexicon) -> bool:
    """Pure cotton warp, pure flax weft, flax at least 40 % of the weight (Art. 9(3))."""
    pair = warp_and_weft(content)
    if not pair:
        return False
    warp, weft = sorted(pair, key=lambda section: section.part)
    least = limit(lexicon.knowledge, "eu_union_flax_from")
    return pure(warp, "cotton") and pure(weft, "linen") and (weft.pct or 0) >= least


def statement(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """The lines of the statement, in order."""
    scraps = any(s.fibre is None and leftover(spelt(s.words.split()), lexicon) for s in all_shares(content))
    if content.unknown or scraps:
        mixed = plain(content.remnants) in HARD_TO_STATE
        yield phrase(lexicon.knowledge, "eu_mixed" if mixed else "eu_unspecified")
    elif content.skin and not content.sections:
        yield content.skin
    elif is_union(content, lexicon):
        yield phrase(lexicon.knowledge, "eu_union")
        yield phrase(lexicon.knowledge, "eu_union_yarns")
    else:
        yield from sections(content, lexicon)
    if any(section.part == ANIMAL for section in content.sections) or (content.skin and content.sections):
        yield phrase(lexicon.knowledge, "animal_parts")


def sections(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """Every section with all its fibres; ornamentation within its limit may be left out (Art. 10)."""
    for section in content.sections:
        lines = [f"{figure(pct)} % {name.text()}" for pct, name in fibres(section, lexicon)]
        if section.part in ("ornament", ANIMAL) or not lines:
            continue
        if not section.part:
            yield from lines
        elif len(lines) == 1:
            yield f"{section.part}: {lines[0]}"
        else:
            yield f"{section.part}:"
            yield from lines
    film = film_line(content, rule_list(lexicon.knowledge, "film"))
    if film:
        yield f"coating: {rule_list(lexicon.knowledge, 'film_words').get(film, film)}"


def fibres(section: Section, lexicon: Lexicon) -> list[tuple[float, Name]]:
    """Percent and name of every fibre of a section, heaviest first, ties as typed; the same name summed."""
    found: dict[str, tuple[float, Name]] = {}
    for share in section.shares:
        name = eu_name(share, lexicon)
        if name.before and not virgin_holds(share, section, lexicon):
            name = Name(name.name)
        before = found.get(name.text(), (0.0, name))[0]
        found[name.text()] = (round(before + (share.pct or 0.0), 6), name)
    return sorted(found.values(), key=lambda item: -item[0])


def virgin_holds(share: Share, section: Section, lexicon: Lexicon) -> bool:
    """Whether a wool may be called virgin: every share of it is, and it is all, or 25 % or more with one other fibre (Art. 8)."""
    if share.fibre not in rule_list(lexicon.knowledge, "eu_virgin"):
        return False
    others = {s.fibre for s in section.shares} - {share.fibre}
    if not all(is_virgin(s, lexicon) for s in section.shares if s.fibre == share.fibre):
        return False
    return not others or (len(others) == 1 and (share.pct or 0) >= limit(lexicon.knowledge, "eu_virgin_from"))
