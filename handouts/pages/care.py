"""The care lines of a label as a card tells them: what the supplier stated in his words, what nobody stated behind one remark."""

from __future__ import annotations

import re
from collections.abc import Sequence

from handouts.pages.measures import FIX
from handouts.pages.words import capital, vocabulary
from handouts.records import Fabric


def care_lines(care: Sequence[str], brief: bool) -> list[str]:
    """A label's lines: run together where there is little room, else a line an operation."""
    return in_brief(clauses(care)) if brief else in_full(clauses(care))


def clauses(care: Sequence[str]) -> list[str]:
    """A label's lines as one clause an operation, but for our own guidance on ironing: the Press block knows more."""
    says = vocabulary()["care"]
    heads = "|".join(says["heads"])
    found = re.split(rf" (?=(?:{heads})(?:, [a-z]+)*: |{says['guidance']} )", " ".join(care))
    return [words for words in found if not (words.startswith(says["ironing"]) and says["not_stated"] in words)]


def parted(care: Sequence[str]) -> tuple[list[str], list[str]]:
    """Clauses as stated by the supplier, and those that nobody stated without that remark; our closing line is dropped."""
    says = vocabulary()["care"]
    mark = rf"( \({says['not_stated']}\)|, {says['not_stated']})"
    ours = [re.sub(mark, "", words).rstrip(" ;,.") for words in care if re.search(mark, words)]
    stated = [words for words in care if not re.search(mark, words) and not words.startswith(says["guidance"])]
    return stated, ours


def in_brief(care: Sequence[str]) -> list[str]:
    """Clauses run together: what the supplier stated, then all that nobody stated behind one remark instead of four."""
    stated, ours = parted(care)
    guide = f"{FIX}· ".join(words.partition(": ")[2] for words in ours)
    return [*stated, *([vocabulary()["care"]["unstated"].format(guide)] if ours else [])]


def in_full(care: Sequence[str]) -> list[str]:
    """A clause a line, the remark that nobody stated them once above those that nobody did."""
    stated, ours = parted(care)
    return [*stated, *([vocabulary()["care"]["guide"], *(f"{capital(words)}." for words in ours)] if ours else [])]


def bolt_says(fabric: Fabric) -> str:
    """What the supplier says of ironing a cloth that is ironed at all, in small letters: it comes before the advice."""
    says = pressed_by_the_bolt(fabric.label.care) if fabric.label and fabric.advised("press_dots") else ""
    return says[:1].lower() + says[1:]


def pressed_by_the_bolt(care: Sequence[str]) -> str:
    """What the supplier says of ironing, in his words; empty when he does not."""
    says = vocabulary()["care"]
    mark = f" ({says['stated']})"
    found = (words for words in clauses(care) if words.endswith(mark))
    heads = (words.removesuffix(mark).partition(": ") for words in found)
    return next(
        (words.strip(" .") for head, _, words in heads if says["ironing"].rstrip(":").lower() in head.lower()), ""
    )
