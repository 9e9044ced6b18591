"""What a cell says when somebody clicks it, and what it accepts: input messages, drop-downs, ranges. Always a warning."""

from __future__ import annotations

from collections.abc import Mapping

from openpyxl.worksheet.datavalidation import DataValidation

from handouts.sheets import Column
from handouts.workbook.offers import offered
from handouts.workbook.rows import Words

MOST_TITLE, MOST_MESSAGE = 32, 255  # the spreadsheet programs' own limits


def prompt(column: Column, imperial: bool, names: Mapping[tuple[str, ...], str], words: Words) -> DataValidation:
    """The validation of a column or setting: a new value may always be typed."""
    offer = offered(column, words)
    low, high = limits(column, imperial)
    if offer:
        rule = DataValidation(type="list", formula1=f"={names[offer]}")
    elif column.kind in ("number", "percent", "grade") and low is not None and high is not None:
        rule = DataValidation(type="decimal", operator="between", formula1=f"{low:g}", formula2=f"{high:g}")
    else:
        rule = DataValidation(type=None)
    rule.allow_blank = True
    rule.showInputMessage = rule.showErrorMessage = True
    rule.errorStyle = "warning"
    rule.promptTitle = cut(column.title(imperial), MOST_TITLE)
    rule.prompt = cut(message(column, imperial), MOST_MESSAGE)
    rule.errorTitle = cut(column.title(imperial), MOST_TITLE)
    rule.error = cut(_doubt(column, low, high, bool(offer)), MOST_MESSAGE)
    return rule


def message(column: Column, imperial: bool) -> str:
    """What belongs in the cell: needed or not, the help, the range."""
    parts = ["Needed." if column.required else "", column.help]
    low, high = limits(column, imperial)
    if low is not None and high is not None and column.kind != "grade":
        parts.append(f"{low:g} to {high:g}.")
    if column.kind == "yes_no" and not column.help:
        parts.append("yes or no.")
    if column.default not in (None, ""):
        parts.append(f"Empty: {default_words(column, imperial)}.")
    return " ".join(part for part in parts if part) or "Optional."


def default_words(column: Column, imperial: bool) -> str:
    """What an empty setting means, in the unit of its heading."""
    value = column.default
    if imperial and column.unit and isinstance(value, int | float):
        return f"{round(in_imperial(column, float(value)), 1):g}"
    return str(value)


def limits(column: Column, imperial: bool) -> tuple[float | None, float | None]:
    """The believed range in the unit of the heading, to three figures."""
    if column.low is None or column.high is None or not imperial or not column.unit:
        return column.low, column.high
    ends = sorted(in_imperial(column, end) for end in (column.low, column.high))
    return float(f"{ends[0]:.2g}"), float(f"{ends[1]:.3g}")


def in_imperial(column: Column, value: float) -> float:
    """A metric value in the column's imperial unit."""
    unit = column.unit
    if unit is None or not value:
        return value
    return unit.factor / value if unit.reciprocal else value / unit.factor


def cut(text: str, most: int) -> str:
    """At most so many characters."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


def _doubt(column: Column, low: float | None, high: float | None, listed: bool) -> str:
    if listed:
        return "That word is not in the list. Keep it only if you are sure; the check will say what it makes of it."
    if low is not None and high is not None:
        return f"Usual is {low:g} to {high:g}. Is the unit right? {column.help}"
    return "Is that right?"
