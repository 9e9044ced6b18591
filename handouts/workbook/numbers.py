"""Numbers as people write them: 1.250,5 · 12,50 · 1½ · 5/8 · about 120 · 114 cm."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass

from handouts.workbook.limits import LIST
from handouts.workbook.words import spoken

FIGURES = re.compile(r"[+\-−]?\s*(?:\d+[\s-]+\d+/\d+|\d+/\d+|\d[\d.,' ]*|[.,]\d+)")
FRACTION = re.compile(r"^(?:(\d+)[\s-]+)?(\d{1,3})/(\d{1,3})$")
GROUPED = re.compile(r"^\d{1,3}(?:[.,' ]\d{3})+$")
RANGE = re.compile(r"^\s*([\d.,]+)\s*[\"″”]?\s*(?:-|–|—|/|to|bis|à)\s*([\d.,]+)\s*(.*)$", re.I)
LETTERS_FOR_FIGURES = str.maketrans(
    {"o": "0", "O": "0", "l": "1", "I": "1", "i": "1", "S": "5", "B": "8", "Z": "2", "|": "1"}
)


@dataclass(frozen=True)
class Typed:
    """A number read from a text. readings: more than one when 1,250 could be two numbers. rest: the words after it."""

    readings: tuple[float, ...]
    rest: str = ""
    about: bool = False


def read_number(text: str) -> Typed | None:
    """The number a text begins with, None when it holds none or more than one."""
    text, about = _without_about(_fractions_apart(text).lstrip("'’"))
    found = FIGURES.match(text)
    if not found:
        return None
    readings = _readings(found[0])
    rest = text[found.end() :].strip()
    if not readings or re.search(r"\d", re.sub(r"[a-z]\s?[²2]", "", rest, flags=re.I)):
        return None
    return Typed(readings, rest, about)


def read_range(text: str) -> Typed | None:
    """The two ends of `140–160`, `44/45"` or `58-60 in`, the lower first; None when it is none."""
    found = RANGE.match(text)
    low, high = (_readings(found[1]), _readings(found[2])) if found else ((), ())
    return Typed((low[0], high[0]), found[3]) if found and low and high and low[0] < high[0] else None


def proposed_number(text: str) -> float | None:
    """The number that was probably meant: `12o` → 120, `140–160` → 150."""
    spread = read_range(text)
    if spread:
        return (spread.readings[0] + spread.readings[1]) / 2
    head = re.match(r"^\s*[\doOlIiSBZ|.,]+", text)
    if not head or not re.search(r"\d", head[0]):
        return None
    readings = _readings(head[0].translate(LETTERS_FOR_FIGURES).strip(" .,"))
    return readings[0] if readings else None


def _fractions_apart(text: str) -> str:
    """`1½` as `1 1/2`."""
    spelt = (
        f" {unicodedata.normalize('NFKC', s)}" if unicodedata.decomposition(s).startswith("<fraction>") else s
        for s in text
    )
    return "".join(spelt).replace("⁄", "/").strip()


def _without_about(text: str) -> tuple[str, bool]:
    for word in spoken("about")["words"]:
        if text.lower().startswith(word):
            return text[len(word) :].strip(), True
    return text, False


def _readings(figures: str) -> tuple[float, ...]:
    """The numbers that the figures may stand for."""
    text = figures.replace("−", "-").strip(" '")
    sign = -1.0 if text.startswith("-") else 1.0
    text = text.lstrip("+- ")
    fraction = FRACTION.match(text)
    if fraction:
        whole, over, under = (int(part or 0) for part in fraction.groups())
        return (sign * (whole + over / under),) if under in LIST["parts"] else ()
    return tuple(sign * value for value in _decimals(text))


def _decimals(text: str) -> tuple[float, ...]:
    marks = [mark for mark in text if mark in ".,"]
    if len(set(marks)) == 2:  # 1.250,5: the last mark is the decimal one
        last = marks[-1]
        whole, _, part = text.rpartition(last)
        return _whole(whole, part) if marks.count(last) == 1 else ()
    if len(marks) > 1 or " " in text or "'" in text:
        head, _, part = text.partition(marks[0]) if len(marks) == 1 else (text, "", "")
        return _whole(head, part)
    if len(marks) == 1 and GROUPED.match(text) and not text.startswith("0"):
        return _float(text.replace(",", ".")) + _float(text.replace(marks[0], ""))
    return _float(text.replace(",", "."))


def _whole(whole: str, part: str) -> tuple[float, ...]:
    """A number whose whole part is written in groups of three."""
    if not (GROUPED.match(whole) or whole.isdigit()):
        return ()
    return _float(re.sub(r"[.,' ]", "", whole) + "." + (part or "0"))


def _float(text: str) -> tuple[float, ...]:
    try:
        value = float(text)
    except ValueError:
        return ()
    return (value,) if abs(value) < 1e15 else ()
