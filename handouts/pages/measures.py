"""Numbers as a page prints them: metric, imperial or both, as the class sheet says. A number never parts from its unit."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor

from handouts.units import EIGHTHS, M_PER_YARD, fahrenheit, inch_words, inches, number_words, oz_yd2, stitches_per_inch

FIX = "\u00a0"
"""The no-break space."""


@dataclass(frozen=True)
class Measures:
    """Words for measures in one system of units: metric, imperial or both."""

    units: str = "both"

    def pick(self, metric: str, imperial: str) -> str:
        """`metric`, `imperial`, or `metric (imperial)`."""
        return {"metric": metric, "imperial": imperial}.get(self.units, f"{metric} ({imperial})")

    @property
    def single(self) -> Measures:
        """The same with one system only: metric where both are printed."""
        return Measures("metric") if self.units == "both" else self

    def weight(self, gsm: float) -> str:
        """`350 g/m² (10.3 oz/yd²)`."""
        return self.pick(f"{number_words(gsm, 0)}{FIX}g/m²", f"{number_words(oz_yd2(gsm), 1)}{FIX}oz/yd²")

    def across(self, cm: float) -> str:
        """A width or repeat in cm or whole inches: `140 cm (55 in)`; a fine one to the eighth of an inch."""
        inch = number_words(inches(cm * 10), 0) if cm >= 30 else inch_words(cm * 10)
        return self.pick(f"{number_words(cm, 1)}{FIX}cm", f"{inch}{FIX}in")

    def length(self, mm: float) -> str:
        """A short length in mm or eighths of an inch: `15 mm (⅝ in)`."""
        return self.pick(f"{number_words(mm, 1)}{FIX}mm", f"{inch_words(mm)}{FIX}in")

    def stitch(self, mm: float) -> str:
        """A stitch length: `3.0 mm (8½ per inch)`."""
        return self.pick(f"{mm:.1f}{FIX}mm", f"{per_inch(mm)}{FIX}per{FIX}inch")

    def stitches(self, low: float, high: float) -> str:
        """A range of stitch lengths: `2.0 to 2.5 mm (10 to 12½ per inch)`."""
        return self.pick(f"{low:.1f} to {high:.1f}{FIX}mm", f"{per_inch(high)} to {per_inch(low)}{FIX}per{FIX}inch")

    def area(self, square_m: float) -> str:
        """An area of skin: `0.75 m² (8.1 sq ft)`."""
        feet = square_m * (3 / M_PER_YARD) ** 2
        return self.pick(f"{number_words(square_m, 2)}{FIX}m²", f"{number_words(feet)}{FIX}sq{FIX}ft")

    def heat(self, celsius: float) -> str:
        """At most so hot: `150 °C (300 °F)`. °F is rounded down to a five, so that it is never hotter."""
        return self.pick(f"{number_words(celsius, 0)}{FIX}°C", f"{whole_fahrenheit(celsius)}{FIX}°F")


def per_inch(mm: float) -> str:
    """Stitches per inch to the nearest half: `8½`."""
    whole, half = divmod(round(stitches_per_inch(mm) * 2), 2)
    return f"{whole}{EIGHTHS[4] if half else ''}"


def whole_fahrenheit(celsius: float) -> int:
    """°F rounded down to a multiple of five: 150 °C is 302 °F and prints as 300."""
    return floor(fahrenheit(celsius) / 5) * 5


def percent(value: float) -> str:
    """`5 %`."""
    return f"{number_words(value, 1)}{FIX}%"
