"""The Advice cell of a house rule in the shape of its topic; None where it does not fit."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from handouts.advice.facts import words
from handouts.advice.house_when import NUMBER, range_of
from handouts.model import Knowledge, Topic, Value
from handouts.sheets import FABRICS
from handouts.units import MM_PER_INCH, celsius, stitches_per_inch


def listed(text: str, topic: Topic, knowledge: Knowledge) -> Value:
    """Several words of the topic's own; None when one is not."""
    found = tuple(word.lower() for word in words(text))
    return found if found and (not topic.order or set(found) <= set(topic.order)) else None


def worded(text: str, topic: Topic, knowledge: Knowledge) -> Value:
    """One word of the topic's own: `wrong` or `wrong side`, `zigzag` or `304 zigzag`; numbers are read as numbers."""
    said = re.sub(r"\s+(side|seams?|dots?|stitch|layers?)$", "", text.lower())
    known = {re.sub(r"^\d+ ", "", str(value).lower()): value for value in topic.order}
    known |= {str(value).lower(): value for value in topic.order}
    return known.get(said)


def spanned(text: str, topic: Topic, knowledge: Knowledge) -> Value:
    """A number or `70 to 90`, starting at the lower end: needle sizes with either number, stitches in mm or per inch."""
    return SPANS[topic.id](text.lower(), knowledge)


def sizes(said: str, knowledge: Knowledge) -> Value:
    """`80`, `80/12`, `12`, `70/10 to 90/14` → NM sizes that are sold."""
    found = range_of(re.sub(r"(\d+)\s*/\s*\d+", r"\1", re.sub(r"\bnm\b", "", said)).strip())
    if found is None or set(found[0]) != {"min", "max"}:
        return None
    nm = {us: metric for metric, us in knowledge.needles.us_size.items()}
    ends = [nm.get(int(value), int(value)) for value in (found[0]["min"], found[0]["max"])]
    return span(*ends) if all(end in knowledge.needles.us_size for end in ends) else None


def stitches(said: str, knowledge: Knowledge) -> Value:
    """`2.5`, `2 to 3 mm`, `10 to 12 per inch` → mm that a machine sews."""
    per_inch = re.search(r"\s*(per inch|spi)$", said)
    found = range_of(said[: per_inch.start()] if per_inch else said)
    if found is None or set(found[0]) != {"min", "max"} or found[1] not in ("", "mm"):
        return None
    ends = [stitches_per_inch(end) if per_inch else end for end in found[0].values() if end]
    column = FABRICS.column("stitch_mm")
    fit = len(ends) == 2 and all((column.low or 0) <= end <= (column.high or end) for end in ends)
    return span(*ends) if fit else None


def span(one: float, other: float) -> dict[str, float]:
    """A range from its two ends; it starts at the lower one."""
    return {"low": min(one, other), "high": max(one, other), "start": min(one, other)}


SPANS: Mapping[str, Callable[[str, Knowledge], Value]] = {"needle_nm": sizes, "stitch_mm": stitches}


def heat(text: str, topic: Topic, knowledge: Knowledge) -> Value:
    """`150`, `150 °C`, `300 °F` → °C."""
    found = re.fullmatch(rf"{NUMBER}\s*(?:°\s*)?([cf])?", text.strip().lower())
    if not found:
        return None
    value = float(found[1].replace(",", "."))
    return round(celsius(value)) if found[2] == "f" else value


def recorded(text: str, topic: Topic, knowledge: Knowledge) -> Value:
    """Overlock, allowance and shrinkage from a few words; what they leave open the other rules fill."""
    return RECORDS[topic.id](text.lower().strip())


def overlock(said: str) -> Value:
    """`no`, `optional`, `4 threads`, `yes, 3 threads`."""
    use = next((word for word in ("no", "yes", "optional") if re.match(rf"{word}\b", said)), "")
    threads = re.search(r"(\d)\s*threads?", said)
    if not use and not threads:
        return None
    return {"use": use or "yes", **({"threads": int(threads[1])} if threads else {})}


LENGTH = r"(\d+(?:[.,]\d+)?|\d+\s*/\s*\d+)\s*(mm|cm|in|inch|inches)?"


def allowance(said: str) -> Value:
    """`15`, `15 mm, trim to 6`, `5/8 in` → mm to sew and to trim to; without a word on trimming nothing is trimmed."""
    found = re.fullmatch(rf"{LENGTH}(?:\W*(?:sew)?\W*trim(?:med)?(?: to)?\s*{LENGTH})?", said)
    if not found:
        return None
    sew = millimetres(found[1], found[2])
    trim = millimetres(found[3], found[4] or found[2]) if found[3] else sew
    return {"sew": sew, "trim": trim} if 0 < trim <= sew else None


def millimetres(number: str, unit: str | None) -> float:
    """Millimetres for `15`, `1.5` cm, `5/8` in; without a unit they are millimetres."""
    top, _, bottom = number.replace(",", ".").partition("/")
    value = float(top) / float(bottom or 1)
    return round(
        value * {"cm": 10.0, "in": MM_PER_INCH, "inch": MM_PER_INCH, "inches": MM_PER_INCH}.get(unit or "", 1.0), 1
    )


def shrinkage(said: str) -> Value:
    """`5` or `5, 3`: length and width in percent; one number is for both."""
    found = re.fullmatch(r"(\d+(?:\.\d+)?)\s*%?(?:\W+(\d+(?:\.\d+)?)\s*%?)?", said)
    return {"length": float(found[1]), "width": float(found[2] or found[1])} if found else None


RECORDS: Mapping[str, Callable[[str], Value]] = {
    "serger": overlock,
    "seam_allowance_mm": allowance,
    "shrink_pct": shrinkage,
}

SHAPES: Mapping[str, Callable[[str, Topic, Knowledge], Value]] = {
    "choice": worded,
    "list": listed,
    "lines": lambda text, topic, knowledge: (text,),
    "words": lambda text, topic, knowledge: text,
    "range": spanned,
    "number": heat,
    "record": recorded,
}
ALLOWED = {
    "needle_nm": "a size, like 80/12, or 70/10 to 90/14",
    "stitch_mm": "millimetres, like 2.5 or 2 to 3, or 10 to 12 per inch",
    "press_c": "degrees, like 150 °C or 300 °F",
    "serger": "no, yes, optional, 3 threads, 4 threads",
    "seam_allowance_mm": "15 mm; 15 mm, trim to 6 mm; 5/8 in",
    "shrink_pct": "percent of length and width, like 5, 3",
}
"""What fits a topic that has no list of words."""
