"""Amounts that only the pages of the whole class print: lengths to buy, thread, time, money."""

from __future__ import annotations

from math import ceil

from handouts.pages.measures import FIX, Measures
from handouts.units import CM_PER_INCH, EIGHTHS, M_PER_YARD, number_words

MINUTES_PER_HOUR = 60
HAIR = 1e-9


def yards(metres: float) -> str:
    """Yards to the eighth above, as shops cut: 0.5 m → `⅝ yd`."""
    whole, eighth = divmod(ceil(metres / M_PER_YARD * 8 - HAIR), 8)
    return (f"{whole}" if whole or not eighth else "") + f"{EIGHTHS[eighth]}{FIX}yd"


def bought(metres: float, measures: Measures) -> str:
    """A length to ask for in a shop: `0.5 m (⅝ yd)`."""
    return measures.pick(f"{number_words(metres, 2)}{FIX}m", yards(metres))


def cut(cm: float, measures: Measures) -> str:
    """A length or width on the cutting table, inches to the eighth above: `45 cm (17¾ in)`."""
    whole, eighth = divmod(ceil(cm / CM_PER_INCH * 8 - HAIR), 8)
    inches = (f"{whole}" if whole or not eighth else "") + EIGHTHS[eighth]
    return measures.pick(f"{number_words(cm)}{FIX}cm", f"{inches}{FIX}in")


def thread(metres: float, measures: Measures) -> str:
    """Thread, rounded up: `35 m (39 yd)`."""
    return measures.pick(f"{ceil(metres - HAIR)}{FIX}m", f"{ceil(metres / M_PER_YARD - HAIR)}{FIX}yd")


def minutes(value: float) -> str:
    """`45 min`, `1 h`, `2 h 10 min`."""
    hours, rest = divmod(round(value), MINUTES_PER_HOUR)
    parts = ([f"{hours}{FIX}h"] if hours else []) + ([f"{rest}{FIX}min"] if rest or not hours else [])
    return " ".join(parts)


def money(value: float, currency: str) -> str:
    """`€ 12.50`, or `12.50` without a currency."""
    return f"{currency}{FIX}{value:,.2f}" if currency else f"{value:,.2f}"


def times(count: int) -> str:
    """`never`, `once`, `twice`, `5 times`."""
    return {0: "never", 1: "once", 2: "twice"}.get(count, f"{count}{FIX}times")
