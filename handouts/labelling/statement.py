"""The label of a fabric: fibre statement and care for a market, who supplied the facts, what stands in the way."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from handouts.labelling import eu, us
from handouts.labelling.care import care_lines
from handouts.labelling.claims import cashmere_refusal, eu_virgin, us_claims
from handouts.labelling.exempt import exempted, outside, without_lining
from handouts.labelling.names import all_shares, capital, plain_name, rule_list, us_name, with_hair
from handouts.labelling.parts import film_line, whole_of_yarns, with_ratio
from handouts.labelling.shares import figure, spelt
from handouts.labelling.symbols import symbols
from handouts.labelling.words import Lexicon, lexicon
from handouts.model import Knowledge
from handouts.problems import Problem, catalogue, problem
from handouts.records import Content, Label, Share

Lines = tuple[tuple[str, ...], tuple[Problem, ...]]
EMPTY = "no fibres are given."
HARMLESS = ("content-beside", "content-part")
"""Findings that do not touch the statement."""


def label(
    content: Content,
    market: str,
    knowledge: Knowledge,
    *,
    supplier_care: str = "",
    facts: Mapping[str, Any] | None = None,
    prepared_by: str = "",
    cell: str = "",
) -> Label:
    """Statement and care lines for a market: US, EU, UK or none. `facts` by name; `cell` is where the content stands."""
    known = lexicon(knowledge)
    where = (cell,) if cell else ()
    makers = {"US": us_statement, "EU": eu_statement, "UK": eu_statement}
    values = plain_facts(facts)
    statement, problems = makers.get(market, plain_statement)(with_ratio(content), known, market, where)
    problems = exempted(statement, problems, list(outside(content, market, values, known)), where)
    care, conflicts = care_lines(content, market, known, supplier_care, values, where)
    signs = symbols(supplier_care, knowledge)
    return Label(market, statement, care, prepared_by.strip(), (*problems, *conflicts), signs)


def plain_facts(facts: Mapping[str, Any] | None) -> dict[str, Any]:
    """Facts as plain values, whether they came as Fact records or not."""
    return {name: getattr(fact, "value", fact) for name, fact in (facts or {}).items()}


def us_statement(content: Content, known: Lexicon, market: str, cell: tuple[str, ...]) -> Lines:
    """The statement for the United States."""
    content = whole_of_yarns(content)
    reasons = us_reasons(content, known)
    shell = without_lining(content, known) if reasons else None
    if shell and not us_reasons(with_ratio(shell), known):
        lines, problems = us_statement(with_ratio(shell), known, market, cell)
        return lines, (*problems, problem("label-lining", *cell, why=reasons[0]))
    if reasons:
        return refused(market, reasons, cell)
    content = with_hair(content, known)
    claims = us_claims(content, known, cell)
    lines = (*us.statement(claims.content, known), *claims.lines)
    return lines, (*claims.problems, *asked(content, known, cell), *left_off(content, known, cell))


def us_reasons(content: Content, known: Lexicon) -> list[str]:
    """Why there can be no statement for the United States."""
    return list(blocking(content, known)) or [*us.refusals(content, known), *cashmere_refusal(content, known)]


def asked(content: Content, known: Lexicon, cell: tuple[str, ...]) -> Iterator[Problem]:
    """The question for a function of each fibre that was gathered into “other fiber”."""
    for share in us.small_unnamed(content, known):
        yield problem("label-reason", *cell, pct=figure(share.pct or 0), fibre=us_name(share, known).name)


def left_off(content: Content, known: Lexicon, cell: tuple[str, ...]) -> Iterator[Problem]:
    """A note of the words that do not stand on the statement."""
    words = [
        word
        for share in all_shares(content)
        if share.fibre not in (None, "other")
        for word in us_name(share, known).left_off
    ]
    if words:
        yield problem("label-words", *cell, words=" ".join(words)[:60])


def eu_statement(content: Content, known: Lexicon, market: str, cell: tuple[str, ...]) -> Lines:
    """The statement for the European Union, and for the United Kingdom, whose own guidance was not read."""
    if not eu.is_union(content, known):
        content = whole_of_yarns(content)
    reasons = list(blocking(content, known)) or list(eu.refusals(content, known))
    if reasons:
        return refused(market, reasons, cell)
    lines = tuple(eu.statement(content, known))
    return lines, tuple(eu_virgin(content, lines, known, cell))


def plain_statement(content: Content, known: Lexicon, market: str, cell: tuple[str, ...]) -> Lines:
    """The fibres as typed, for a class without a market; no rule is applied."""
    lines = [content.remnants or "unknown"] if content.unknown else [content.skin] if content.skin else []
    for section in content.sections:
        if section.part in ("ornament", eu.ANIMAL) or not section.shares:
            continue
        shares = [plain_share(share, known) for share in section.shares]
        lines += [f"{section.part}: {', '.join(shares)}"] if section.part else shares
    film = film_line(content, rule_list(known.knowledge, "film"))
    if film:
        lines.append(f"coating: {film}")
    return tuple(line for line in lines if line), ()


def plain_share(share: Share, known: Lexicon) -> str:
    """`3% elastane`, or the name alone when no percentage was typed."""
    name = plain_name(share, known).text()
    return name if share.pct is None else f"{figure(share.pct)}% {name}"


def blocking(content: Content, known: Lexicon) -> Iterator[str]:
    """What was found wrong with the cell, as reasons against a statement; a lone fibre without its 100 %; an empty cell."""
    for code, found in content.findings:
        if code not in HARMLESS:
            yield catalogue()[code].sentence.format(**found).removeprefix("Fibre content: ")
    if not content.findings:
        yield from unclaimed(content, known)
    if not (content.sections or content.unknown or content.skin):
        yield EMPTY


def unclaimed(content: Content, known: Lexicon) -> Iterator[str]:
    """A fibre without “100%”, “all” or “except …”: the advice takes it for the whole, a statement may not (303.27, Art. 7)."""
    if any(section.part == "except" for section in content.sections):
        return
    wholes = [
        s
        for section in content.sections
        if not (content.coating and section.pct)
        for s in section.shares
        if s.pct == 100
    ]
    words = spelt(content.typed.split())
    claims = len(re.findall(r"(?<!\d)100(?!\d)", content.typed)) + sum(word in known.groups["all"] for word in words)
    if len(wholes) > claims:
        name = known.proposal(wholes[0].fibre or "unknown")
        yield f"“{wholes[0].words[:40]}” has no percentage: if nothing else is in it, write “100% {name}”."


def refused(market: str, reasons: list[str], cell: tuple[str, ...]) -> Lines:
    """No statement, and why."""
    if reasons == [EMPTY]:
        return (), ()  # an empty cell is told of as such
    told = " ".join(capital(reason) for reason in list(dict.fromkeys(reasons))[:3])
    return (), (problem("label-refused", *cell, market=market, reason=told),)
