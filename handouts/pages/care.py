"""The care lines of a label as a card tells them: what the supplier stated in his words, what nobody stated behind one remark."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from handouts.pages.measures import FIX
from handouts.pages.words import capital, vocabulary
from handouts.records import Fabric


def care_lines(care: Sequence[str], brief: bool, in_units: Callable[[str], str]) -> list[str]:
    """A label's lines: run together where there is little room, else a line an operation; our own in the class's units."""
    stated, ours = parted(clauses(care))
    return (in_brief if brief else in_full)([small(words) for words in stated], [in_units(words) for words in ours])


def small(words: str) -> str:
    """The supplier's words after our heading, with a small letter: `Washing: wash 40 (supplier)`."""
    head, colon, rest = words.partition(": ")
    return f"{head}{colon}{rest[:1].lower()}{rest[1:]}"


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


def in_brief(stated: Sequence[str], ours: Sequence[str]) -> list[str]:
    """Clauses run together: what the supplier stated, then all that nobody stated behind one remark instead of four."""
    guide = f"{FIX}· ".join(words.partition(": ")[2] for words in ours)
    remark = vocabulary()["care"]["rest" if stated else "unstated"]
    return [*stated, *([remark.format(guide)] if ours else [])]


def in_full(stated: Sequence[str], ours: Sequence[str]) -> list[str]:
    """A clause a line, the remark that nobody stated them once above those that nobody did."""
    remark = vocabulary()["care"]["guide_rest" if stated else "guide"]
    return [*stated, *([remark, *(f"{capital(words)}." for words in ours)] if ours else [])]


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
