"""Words for the values of every topic, from templates/words.toml: short for strips and tables, whole lines for cards."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from handouts.model import Knowledge
from handouts.pages.measures import FIX, Measures, percent
from handouts.pages.templates import word_file
from handouts.units import number_words

Value = Any


def vocabulary() -> Mapping[str, Any]:
    """The words of cards: words.toml."""
    return word_file("words")


def listed(words: Sequence[str], last: str = "or") -> str:
    """`a`, `a or b`, `a, b or c`."""
    return f" {last} ".join(part for part in (", ".join(words[:-1]), words[-1]) if part) if words else ""


def capital(text: str) -> str:
    """The text with its first letter large."""
    return text[:1].upper() + text[1:]


def day(text: str) -> str:
    """A date of the workbook as one says it: `4 March 2026`; anything else as it stands."""
    months = vocabulary()["months"]
    found = re.fullmatch(r"(\d{4})-(\d\d)-(\d\d)", text)
    if not found or not 1 <= int(found[2]) <= len(months):
        return text
    return f"{int(found[3])}{FIX}{months[int(found[2]) - 1]}{FIX}{found[1]}"


@dataclass(frozen=True)
class Words:
    """How values are said on the pages of one class."""

    measures: Measures
    us_sizes: Mapping[int, int]

    @property
    def single(self) -> Words:
        """The same with one system of units only: metric where both are printed."""
        return Words(self.measures.single, self.us_sizes)

    def needle_size(self, nm: float) -> str:
        """Both numbers of a needle: `80/12`; the second is looked up, and left out where none is known."""
        number = self.us_sizes.get(int(nm))
        return f"{int(nm)}/{number}" if number else f"{int(nm)}"

    def short(self, topic: str, value: Value) -> str:
        """A value in as few words as it takes, by its topic: `80/12`, `overlock or French`, `15 mm, trim to 6 mm`."""
        if value is None:
            return "–"
        special = getattr(self, f"_{topic}", None)
        if special:
            return str(special(value))
        if isinstance(value, (tuple, list)):
            return listed([self.short(topic, word) for word in value])
        return str(vocabulary()["short"].get(topic, {}).get(str(value), value))

    def case(self, topic: str, value: Value) -> str:
        """A value with its topic's name, where only a difference is told: `needle 80/12`."""
        pattern = vocabulary()["case"].get(topic, "{}")
        return pattern.format(self.short(topic, value))

    def _needle_nm(self, value: Value) -> str:
        return self.needle_size(value["start"])

    def _stitch_mm(self, value: Value) -> str:
        return self.measures.stitch(value["start"])

    def _press_c(self, value: Value) -> str:
        return self.measures.heat(value)

    def _seam_allowance_mm(self, value: Value) -> str:
        sew, trim = self.measures.length(value["sew"]), self.measures.length(value["trim"])
        return sew if value["trim"] >= value["sew"] else f"{sew}, trim to {trim}"

    def _shrink_pct(self, value: Value) -> str:
        return f"{percent(value['length'])} along, {percent(value['width'])} across"

    def _serger(self, value: Value) -> str:
        if value["use"] == "no":
            return "not used"
        low, high = (number_words(value["differential"][end], 1) for end in ("low", "high"))
        threads = f"{int(value['threads'])}{FIX}threads"
        return (
            threads if low == high == "1" else f"{threads}, differential {low if low == high else f'{low} to {high}'}"
        )


def words_of(units: str, knowledge: Knowledge) -> Words:
    """The words of a class with these units."""
    return Words(Measures(units or "both"), knowledge.needles.us_size)
