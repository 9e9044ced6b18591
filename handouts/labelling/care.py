"""The care lines of a label: the supplier's words where he gave them, else guidance that says it is not his. Never silent."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any

from handouts.labelling.guidance import OPERATIONS, Care, care_of, unseen, wording
from handouts.labelling.names import capital
from handouts.labelling.supplier import Stated, degrees_c, iron_dots, stated
from handouts.labelling.words import Lexicon
from handouts.problems import Problem, problem
from handouts.records import Content

WIDTH = 75
"""Characters of a care line: what fits 80 mm of 7 pt type."""
MOST = 6
"""Care lines on a label; longer supplier texts are packed closer."""
DRY = {"bleach": "do not bleach", "drying": "do not tumble dry"}
"""What is said of bleach and drying where nothing is washed."""
NOT_STATED = "not stated by supplier"


def care_lines(
    content: Content, market: str, lexicon: Lexicon, supplier_care: str, facts: Mapping[str, Any], cell: tuple[str, ...]
) -> tuple[tuple[str, ...], tuple[Problem, ...]]:
    """Up to six care lines in the order wash, bleach, dry, iron, clean, and where the supplier contradicts the fibres."""
    care = care_of(content, facts, lexicon)
    said = stated(supplier_care, market, lexicon)
    guidance = wording(unseen(care, facts, lexicon), market, lexicon)
    parts = [*spoken(said), *silent(said, guidance, lexicon)]
    parts.sort(key=lambda part: OPERATIONS.index(part[0]))
    lines = [text for _, text in parts] + [f"Also: {words} (supplier)" for words in said.besides]
    against = conflicts(said, care, market, lexicon, cell) if content.sections else ()
    return packed(tuple(lines), bool(said.covered)), tuple(against)


def spoken(said: Stated) -> Iterator[tuple[str, str]]:
    """The supplier's clauses as lines under the operations they are about."""
    merged: dict[tuple[str, ...], list[str]] = {}
    for operations, words in said.said:
        merged.setdefault(operations, []).append(words)
    for operations, clauses in merged.items():
        head = "Care" if len(operations) == len(OPERATIONS) else capital(", ".join(operations))
        yield operations[0], f"{head}: {' '.join(clauses).rstrip(' ,;.')} (supplier)"


def silent(said: Stated, words: Mapping[str, str], lexicon: Lexicon) -> Iterator[tuple[str, str]]:
    """A line for each operation that the supplier left out. Where he only gave cleaning, no washing is suggested."""
    only_clean = lexicon.knowledge.tables["care"]["words"]["only_clean"]
    if never_washed(said, words["washing"]):
        words = {**words, **DRY}
    for operation in OPERATIONS:
        if operation in said.covered:
            continue
        only = next((words for words in only_clean if words in said.words("cleaning").casefold()), "")
        if operation == "washing" and only:
            yield operation, f"Washing: do not wash (supplier: {only})"
        elif operation == "washing" and "cleaning" in said.covered:
            yield operation, f"Washing: {NOT_STATED}; ask before you wash it"
        else:
            yield operation, f"{capital(operation)}: {words[operation]} ({NOT_STATED})"


def never_washed(said: Stated, guidance: str) -> bool:
    """Whether washing is forbidden by the supplier or, where he is silent, by our guidance or by giving cleaning alone."""
    if "washing" in said.covered:
        return said.words("washing").casefold().startswith("do not wash")
    return "cleaning" in said.covered or guidance == "do not wash"


@lru_cache(maxsize=4096)
def packed(lines: tuple[str, ...], has_words: bool) -> tuple[str, ...]:
    """Lines of at most WIDTH characters, at most MOST of them: too many are run together, the end points to the bolt."""
    wrapped = [piece for line in lines for piece in textwrap.wrap(line, WIDTH) or [""]]
    if len(wrapped) > MOST:
        wrapped = textwrap.wrap("; ".join(line.replace(f" ({NOT_STATED})", f", {NOT_STATED}") for line in lines), WIDTH)
    if len(wrapped) > MOST:
        return squeezed(lines)
    if len(wrapped) < MOST and not has_words:
        wrapped.append("Guidance from fibres and finish: test a piece first; the bolt end decides.")
    return tuple(wrapped)


def squeezed(lines: Sequence[str]) -> tuple[str, ...]:
    """The supplier's words cut to the room there is; what he did not state stays whole."""
    ours = [line for line in lines if NOT_STATED in line]
    own = textwrap.wrap("; ".join(line for line in lines if line not in ours), WIDTH)
    room = MOST - len(ours)
    if len(own) > room:
        own = own[:room]
        own[-1] = own[-1][: WIDTH - 20].rstrip(" ,;.") + " … see the bolt end"
    return (*own, *ours)


def conflicts(said: Stated, care: Care, market: str, lexicon: Lexicon, cell: tuple[str, ...]) -> Iterator[Problem]:
    """Where the supplier's words are hotter than the cloth's fibres and surface usually bear."""
    table = lexicon.knowledge.tables["care"]
    wash, iron = said.words("washing"), said.words("ironing")
    if (wash_from(wash, market, table) or 0) > care.c:
        found = wash[:60] + ("" if wash_from(wash, "", table) else SILENT)
        yield problem("care-conflict", *cell, found=found, fibre="this cloth", limit=f"{care.c} °C")
    if dots_said(iron.casefold(), market, lexicon) > care.dots:
        limit = ("no iron", "a cool iron", "a warm iron", "a hot iron")[care.dots]
        found = iron[:60] + ("" if dots_said(iron.casefold(), "", lexicon) else SILENT)
        yield problem("care-conflict", *cell, found=found, fibre="this cloth", limit=limit)


SILENT = " (no heat named, so hot)"
"""What United States rules take words without a heat for (16 CFR 423.6(b))."""


def wash_from(words: str, market: str, table: Mapping[str, Any]) -> int | None:
    """The °C that washing words allow: their figure, or the least of hot and warm; in the United States no word means hot."""
    degrees, least = degrees_c(words), table["temperature"]["wash_from"]
    if degrees:
        return max(degrees)
    lower = words.casefold()
    if any(word in lower for word in table["words"]["no"]):
        return None
    named = [word for word in (*least, *table["temperature"]["wash"]) if re.search(rf"\b{word}\b(?! iron)", lower)]
    silent = market == "US" and not named and re.search(r"\b(?:machine|hand) wash\b", lower)
    return int(least["hot"]) if silent else max((int(least.get(word, 0)) for word in named), default=None)


def dots_said(lower: str, market: str, lexicon: Lexicon) -> int:
    """The dots that ironing words allow; 0 where they forbid or say nothing. In the United States a bare “iron” is a hot one."""
    if not lower or (
        "no steam" not in lower and any(word in lower for word in lexicon.knowledge.tables["care"]["words"]["no"])
    ):
        return 0
    hottest = 3 if market == "US" and re.search(r"\biron\b", lower) else 0
    return iron_dots(lower, lexicon.knowledge) or hottest
