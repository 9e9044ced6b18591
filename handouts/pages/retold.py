"""Measures inside sentences of the knowledge files, which speak metric: told again in the class's units."""

from __future__ import annotations

import re

from handouts.pages.measures import FIX, Measures, whole_fahrenheit
from handouts.pages.words import vocabulary
from handouts.units import EIGHTHS, inches, number_words

LENGTH = re.compile(r"(\d+(?:\.\d+)?)(?: (to) (\d+(?:\.\d+)?))? (mm|cm)\b(?! wide)")
"""A length; not the swing of a zigzag (“4 mm wide”), which machines show in mm everywhere."""
HEAT = re.compile(r"(\d+)(?: (to|and) (\d+))? °C")
NESTED = re.compile(r"\(([^()]*) \(([^()]*)\)\)")
"""A remark in brackets that now holds brackets."""
AN = re.compile(r"\ba(?= (?:8|11|18|⅛)(?!\d))")
"""The article before a length that now begins with a vowel: `an 8 in square`."""
WEIGHT = re.compile(r"(\d+(?:\.\d+)?) g/m²")


def retold(text: str, measures: Measures) -> str:
    """A sentence with its lengths, degrees and weights in the class's units: `Turn once, 40 mm (1½ in)`."""
    if measures.units == "metric":
        return text
    text = AN.sub("an", LENGTH.sub(lambda found: _length(found, measures), text))
    text = NESTED.sub(r"(\1, \2)", HEAT.sub(lambda found: _heat(found, measures), text))
    return WEIGHT.sub(lambda found: measures.weight(float(found[1])), text)


def _length(found: re.Match[str], measures: Measures) -> str:
    """A length or a range of lengths; decimals are stitch lengths, which stay."""
    ends = [end for end in (found[1], found[3]) if end]
    if any("." in end for end in ends):
        return found[0]
    factor = 10 if found[4] == "cm" else 1
    imperial = f" {found[2]} ".join(round_inches(float(end) * factor) for end in ends)
    return measures.pick(found[0].replace(f" {found[4]}", f"{FIX}{found[4]}"), f"{imperial}{FIX}in")


def _heat(found: re.Match[str], measures: Measures) -> str:
    """A temperature, or two."""
    ends = [end for end in (found[1], found[3]) if end]
    imperial = f" {found[2]} ".join(str(whole_fahrenheit(float(end))) for end in ends)
    return measures.pick(found[0].replace(" °C", f"{FIX}°C"), f"{imperial}{FIX}°F")


def round_inches(mm: float) -> str:
    """Inches as roughly as a round number of millimetres means them: 25 mm → `1`, 40 mm → `1½`, 20 cm → `8`."""
    parts = next(step["parts"] for step in vocabulary()["round_inches"] if mm < step["below_mm"])
    whole, eighth = divmod(round(inches(mm) * parts) * (8 // parts), 8)
    return (number_words(whole) if whole or not eighth else "") + EIGHTHS[eighth]
