"""Which rules hold for which fabrics: yes, no or unknown, a column at a time (Kleene logic of pandas' nullable booleans)."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np
import pandas as pd
from pandas.arrays import BooleanArray

from handouts.conditions import passes
from handouts.records import Fact
from handouts.sheets import fact_kinds

Holds = BooleanArray
"""One nullable boolean per fabric; <NA> where a fact is unknown."""


class FactTable:
    """Facts as columns of a frame, one row per fabric, with every test of a column answered once.

    A column of words or sets is kept as its different values and each row's place among them, so that a test asks each
    value once. Topics join as columns when they are decided.
    """

    def __init__(self, fabrics: Sequence[Mapping[str, Fact]]) -> None:
        self.rows = len(fabrics)
        self.columns: dict[str, tuple[list[Any], np.ndarray]] = {}
        self.answers: dict[tuple[str, str], Holds] = {}
        for name in {**fact_kinds(), "cloth": "choice"}:
            self.add(name, [facts[name].value if name in facts else None for facts in fabrics])

    def add(self, name: str, values: Sequence[Any]) -> None:
        """One more column; None where nobody knows."""
        codes, different = pd.factorize(pd.Series(values, dtype="object"))
        self.columns[name] = (list(different), codes)

    def test(self, fact: str, test: Any) -> Holds:
        """Whether each fabric's fact passes a test."""
        key = (fact, repr(test))
        if key not in self.answers:
            self.answers[key] = self.ask(fact, passes(test))
        return self.answers[key]

    def ask(self, fact: str, question: Callable[[Any], bool]) -> Holds:
        """A question put to every different value of a column."""
        different, codes = self.columns[fact]
        answers = np.array([question(value) for value in different] + [False])
        return BooleanArray(answers[codes], codes < 0)

    def every(self, truth: bool) -> Holds:
        """The same answer for every fabric."""
        return BooleanArray(np.full(self.rows, truth), np.zeros(self.rows, dtype=bool))

    def holds(self, when: Mapping[str, Any]) -> Holds:
        """Whether every condition of `when` holds, per fabric."""
        result = self.every(True)
        for fact, test in when.items():
            result = result & (self.any_of(test) if fact == "any" else self.test(fact, test))
        return result

    def any_of(self, groups: Sequence[Mapping[str, Any]]) -> Holds:
        """Whether at least one group of conditions holds."""
        result = self.every(False)
        for group in groups:
            result = result | self.holds(group)  # type: ignore[operator]  # pandas has it, its stubs do not
        return result
