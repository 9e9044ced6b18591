"""Text cells: cleaned of what nobody typed on purpose, and cut when endless."""

from __future__ import annotations

import datetime
import re
import unicodedata
from typing import Any

from handouts.workbook.limits import CELL, LIST
from handouts.workbook.outcome import Finding, Outcome, outcome
from handouts.workbook.words import shown

SPACES = re.compile(r"[\s\u00a0\u202f\u2007\u200b\ufeff]+")
QUIET = frozenset("\u200b\u200c\u200d\ufeff\u00ad\u2060\t\n\r\x0b\x0c\x1c\x1d\x1e\x1f\x85\u2028\u2029")
SPRING = ("January", "February", "March", "April", "May", "June")
MONTHS = (*SPRING, "July", "August", "September", "October", "November", "December")

DAY_0 = datetime.date(1899, 12, 30)  # ECMA-376 part 1, 18.17.4.1: a day is the number of days since
MIDNIGHT = re.compile(r"(?<=\d)T00:00:00(?:\.0+)?Z?$")


def clean(text: str) -> tuple[str, tuple[Finding, ...]]:
    """The text with single spaces, in one Unicode form, without characters that cannot be seen; said when they were many."""
    if text.isascii() and text.isprintable() and "  " not in text and len(text) <= CELL["most_characters"]:
        return text.strip(), ()
    findings: tuple[Finding, ...] = ()
    length, text = len(text), text[: 2 * 32_767]
    whole = SPACES.sub(" ", text.replace("_x000D_", " "))
    kept = "".join(s for s in whole if unicodedata.category(s) not in ("Cc", "Cf", "Cs", "Cn"))
    if any(s not in QUIET and unicodedata.category(s) in ("Cc", "Cf", "Cs", "Cn") for s in whole):
        findings += (Finding("text-cleaned"),)
    kept = " ".join(unicodedata.normalize("NFC", kept).split())
    if len(kept) > CELL["most_characters"]:
        findings += (Finding("text-cut", {"length": max(length, len(kept)), "most": CELL["most_characters"]}),)
        kept = kept[: CELL["most_characters"]]
    return kept, findings


def as_text(value: Any) -> str:
    """A cell's value as a person would type it: 150.0 → 150, a date → 2026-05-08."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, datetime.datetime):
        return value.date().isoformat() if value.time() == datetime.time() else value.isoformat(" ", "minutes")
    return str(value)


def read_text(value: Any) -> Outcome:
    """A text cell. A date in it was probably typed as 3-5 or 5/8 and turned by the spreadsheet: said, and left out."""
    if isinstance(value, datetime.date):
        return outcome(None, "text-became-date", **became(value))
    text, findings = clean(as_text(value))
    return Outcome(text or None, findings)


def read_date(value: Any, heading: str) -> Outcome:
    """A day as 2026-05-08; words (“Tuesdays in March”) stay as they are. A day that lost its format is a number: said."""
    if isinstance(value, datetime.date):
        return Outcome(as_text(value))
    if isinstance(value, float | int) and LIST["days"][0] < value < LIST["days"][1]:
        day = as_text(DAY_0 + datetime.timedelta(days=int(value)))
        return outcome(day, "read-as", heading=heading, found=shown(value), read=day)
    text, findings = clean(as_text(value))
    return Outcome(MIDNIGHT.sub("", text) or None, findings)


def became(value: datetime.date) -> dict[str, object]:
    """What a message says of a date that was typed as something else: the day in words, and the two likely originals."""
    day, month = value.day, value.month
    low, high = sorted((day, month))
    return {"found": f"{day} {MONTHS[month - 1]} {value.year}", "one": f"{low}/{high}", "other": f"{low}-{high}"}
