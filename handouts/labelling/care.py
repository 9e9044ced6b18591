"""The care lines of a label: the supplier's words where he gave them, else guidance that says it is not his. Never silent."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping
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
    return packed(lines, bool(said.covered)), tuple(conflicts(said, care, content, lexicon, cell))


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


def packed(lines: list[str], has_words: bool) -> tuple[str, ...]:
    """Lines of at most WIDTH characters, at most MOST of them: too many are run together, the end points to the bolt."""
    wrapped = [piece for line in lines for piece in textwrap.wrap(line, WIDTH) or [""]]
    if len(wrapped) > MOST:
        wrapped = textwrap.wrap("; ".join(line.replace(f" ({NOT_STATED})", f", {NOT_STATED}") for line in lines), WIDTH)
    if len(wrapped) > MOST:
        return squeezed(lines)
    if len(wrapped) < MOST and not has_words:
        wrapped.append("Guidance from fibres and finish: test a piece first; the bolt end decides.")
    return tuple(wrapped)


def squeezed(lines: list[str]) -> tuple[str, ...]:
    """The supplier's words cut to the room there is; what he did not state stays whole."""
    ours = [line for line in lines if NOT_STATED in line]
    own = textwrap.wrap("; ".join(line for line in lines if line not in ours), WIDTH)
    room = MOST - len(ours)
    if len(own) > room:
        own = own[:room]
        own[-1] = own[-1][: WIDTH - 20].rstrip(" ,;.") + " … see the bolt end"
    return (*own, *ours)


def conflicts(said: Stated, care: Care, content: Content, lexicon: Lexicon, cell: tuple[str, ...]) -> Iterator[Problem]:
    """Where the supplier's words are hotter than the cloth's fibres and surface usually bear."""
    table = lexicon.knowledge.tables["care"]
    wash = said.words("washing")
    degrees = degrees_c(wash)
    if degrees and content.sections and max(degrees) > care.c:
        yield problem("care-conflict", *cell, found=wash[:60], fibre="this cloth", limit=f"{care.c} °C")
    iron = said.words("ironing").casefold()
    forbidden = any(word in iron for word in table["words"]["no"]) and "no steam" not in iron
    dots = 0 if forbidden else iron_dots(iron, lexicon.knowledge) if iron else 0
    if content.sections and dots > care.dots:
        limit = ("no iron", "a cool iron", "a warm iron", "a hot iron")[care.dots]
        yield problem("care-conflict", *cell, found=said.words("ironing")[:60], fibre="this cloth", limit=limit)
