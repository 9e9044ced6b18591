"""Goods and parts that a market's rules ask no fibre statement of: coated cloth, stiffenings, linings not there for warmth."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from handouts.labelling.clauses import clauses
from handouts.labelling.content import cleaned, read_content
from handouts.labelling.names import limit
from handouts.labelling.shares import figure, spelt
from handouts.labelling.words import Lexicon, scan
from handouts.problems import Problem, problem
from handouts.records import Content

LININGS = ("lining", "interlining", "filling", "padding")


def outside(content: Content, market: str, facts: Mapping[str, Any], known: Lexicon) -> Iterator[str]:
    """Why a market's rules ask no statement of this cloth, with the section; nothing when they do."""
    film = film_of_base(content)
    if market == "US" and film >= limit(known.knowledge, "us_coated_from"):
        yield f"coated cloth, the film {figure(film)} % of its base (16 CFR 303.45(b))"
    for record in known.table["exempt"]:
        named = facts.get("cloth") in record["cloths"] or set(record["families"]) & set(facts.get("families") or ())
        if market in record["market"] and named:
            yield f"{record['what']} ({record['section']})"


def film_of_base(content: Content) -> float:
    """The weight of a coating in percent of its base cloth; 0 when it is not given."""
    pcts = {section.part: section.pct for section in content.sections if not (section.part == "" and not section.pct)}
    base, film = pcts.get("") or 100.0, pcts.get("coating") or 0.0
    return round((film or 100 - base) / base * 100, 1) if content.coating else 0.0


def exempted(
    statement: tuple[str, ...], problems: tuple[Problem, ...], reasons: list[str], cell: tuple[str, ...]
) -> tuple[Problem, ...]:
    """The findings of a statement, told otherwise where none is asked: a refusal is no fault, a statement must be whole."""
    if not reasons:
        return problems
    rest = tuple(found for found in problems if found.code != "label-refused")
    if not statement and len(rest) == len(problems):
        return problems  # an empty cell
    then = "If you state fibres all the same, state them all." if statement else "So none is printed."
    return (*rest, problem("label-exempt", *cell, what=reasons[0], then=then))


def without_lining(content: Content, known: Lexicon) -> Content | None:
    """The same cell without linings that are not there for warmth (16 CFR 303.22); None when it has none."""
    every = clauses(cleaned(content.typed))
    kept = [clause for clause in every if not cold_lining(clause, known)]
    return read_content("; ".join(kept), known.knowledge) if kept and len(kept) < len(every) else None


def cold_lining(clause: str, known: Lexicon) -> bool:
    """Whether a clause is about a lining, and says nothing of warmth."""
    words = spelt(clause.replace(":", " ").split())
    found = scan(words, known.parts)
    about = bool(found) and found[0][0] == 0 and known.parts[found[0][2]] in LININGS
    return about and not any(word.startswith("warm") for word in words)
