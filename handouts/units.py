"""Conversions. Store metric, show what the class sheet asks for. Factors: NIST SP 811 (inch and pound are exact)."""

from __future__ import annotations

MM_PER_INCH = 25.4
CM_PER_INCH = 2.54
M_PER_YARD = 0.9144
GSM_PER_OZ_YD2 = 28.349523125 / M_PER_YARD**2  # 33.9057… g/m² for one ounce per square yard


def fahrenheit(celsius: float) -> float:
    """°F for °C."""
    return celsius * 9 / 5 + 32


def celsius(fahrenheit: float) -> float:
    """°C for °F."""
    return (fahrenheit - 32) * 5 / 9


def stitches_per_inch(stitch_mm: float) -> float:
    """Stitches per inch for a stitch length in mm: 25.4 / mm. The inverse is itself."""
    return MM_PER_INCH / stitch_mm


def oz_yd2(gsm: float) -> float:
    """Ounces per square yard for grams per square metre."""
    return gsm / GSM_PER_OZ_YD2


def inches(mm: float) -> float:
    """Inches for millimetres."""
    return mm / MM_PER_INCH


EIGHTHS = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")


def inch_words(mm: float) -> str:
    """Inches to the nearest eighth, as a tape shows them: 15 mm → `⅝`, 38 mm → `1½`."""
    whole, eighth = divmod(round(inches(mm) * 8), 8)
    return (str(whole) if whole or not eighth else "") + EIGHTHS[eighth]


def number_words(value: float, places: int = 1) -> str:
    """A number without trailing zeros: 2.50 → `2.5`, 3.0 → `3`."""
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
