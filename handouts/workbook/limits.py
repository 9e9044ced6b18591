"""How much of a file is read: the figures of limits.toml, by group."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

with Path(__file__).with_name("limits.toml").open("rb") as _file:
    _limits: dict[str, Any] = tomllib.load(_file)

FILE: dict[str, int] = _limits["file"]
SHEET: dict[str, int] = _limits["sheet"]
CELL: dict[str, int] = _limits["cell"]
NEEDLE: dict[str, int] = _limits["needle"]
ALIKE: float = _limits["words"]["alike"]
BELIEF: dict[str, float] = _limits["belief"]
DOUBT: dict[str, list[float]] = _limits["doubt"]
SHEER: dict[str, float] = _limits["sheer"]
LIST: dict[str, Any] = _limits["list"]
MARKED: dict[str, int] = _limits["marked"]
