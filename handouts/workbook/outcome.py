"""What one cell gave: a value, and findings about it that have no cell yet."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any


@dataclass(frozen=True)
class Finding:
    """A problem code and what fills its sentences; the reader adds the cell."""

    code: str
    found: Mapping[str, object] = field(default_factory=dict)


@dataclass(frozen=True)
class Outcome:
    """The value of one cell (None: nothing that can be used) and its findings."""

    value: Any = None
    findings: tuple[Finding, ...] = ()


BLANK = Outcome()


def outcome(value: Any, code: str = "", **found: object) -> Outcome:
    """An Outcome with at most one finding."""
    return Outcome(value, (Finding(code, found),) if code else ())
