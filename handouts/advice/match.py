"""Which rules hold for which fabrics: yes, no or unknown, a column at a time in pandas (Kleene logic of its `boolean` type)."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import pandas as pd

from handouts.records import Fact
from handouts.sheets import fact_kinds

Holds = pd.Series
"""One `boolean` per fabric; <NA> where a fact is unknown."""

DTYPES = {"number": "Float64", "yes_no": "boolean", "choice": "object", "set": "object"}


def fact_frame(fabrics: Sequence[Mapping[str, Fact]]) -> pd.DataFrame:
    """Facts as columns, one row per fabric, nullable. Sets stand as frozensets, an unknown fact as <NA> or None."""
    kinds = {**fact_kinds(), "cloth": "choice"}
    columns = {}
    for name, kind in kinds.items():
        values = [facts[name].value if name in facts else None for facts in fabrics]
        columns[name] = pd.Series(values, dtype=DTYPES.get(kind, "object"))
    return pd.DataFrame(columns)


def holds(when: Mapping[str, Any], frame: pd.DataFrame) -> Holds:
    """Whether every condition of `when` holds, per row."""
    result = pd.Series(True, index=frame.index, dtype="boolean")
    for fact, test in when.items():
        result = result & (any_of(test, frame) if fact == "any" else one(frame[fact], test))
    return result


def any_of(groups: Sequence[Mapping[str, Any]], frame: pd.DataFrame) -> Holds:
    """Whether at least one group of conditions holds."""
    result = pd.Series(False, index=frame.index, dtype="boolean")
    for group in groups:
        result = result | holds(group, frame)
    return result


def one(column: pd.Series, test: Any) -> Holds:
    """Whether one fact passes its test."""
    if isinstance(test, Mapping) and set(test) <= set(COMPARE):
        numbers = column.astype("Float64")
        result = pd.Series(True, index=column.index, dtype="boolean")
        for word, limit in test.items():
            result = result & COMPARE[word](numbers, limit)
        return result
    how, words = next(iter(test.items())) if isinstance(test, Mapping) else ("has", test)
    wanted = frozenset(words) if isinstance(words, (list, tuple)) else frozenset([words])
    return by_value(
        column, lambda value: ASK[how](value if isinstance(value, frozenset) else frozenset([value]), wanted)
    )


def by_value(column: pd.Series, ask: Callable[[Any], bool]) -> Holds:
    """`ask` of every known value, unknown where there is none. Asks once per different value."""
    answers: dict[Any, bool] = {}
    found: list[bool | None] = []
    for value in column.tolist():
        if value is None or value is pd.NA or value != value:
            found.append(None)
            continue
        if value not in answers:
            answers[value] = ask(value)
        found.append(answers[value])
    return pd.Series(found, index=column.index, dtype="boolean")


COMPARE: Mapping[str, Callable[[pd.Series, float], pd.Series]] = {
    "min": lambda numbers, limit: numbers >= limit,
    "max": lambda numbers, limit: numbers <= limit,
    "above": lambda numbers, limit: numbers > limit,
    "below": lambda numbers, limit: numbers < limit,
}

ASK: Mapping[str, Callable[[frozenset[Any], frozenset[Any]], bool]] = {
    "has": lambda held, wanted: bool(held & wanted),
    "none": lambda held, wanted: not held & wanted,
    "only": lambda held, wanted: held <= wanted,
    "all": lambda held, wanted: held >= wanted,
}
