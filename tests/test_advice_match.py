"""Conditions: every form of test, and unknown is not no."""

from __future__ import annotations

from typing import Any

import pandas as pd
import pytest

from handouts.advice.match import FactTable
from handouts.records import Fact


def truth(when: dict[str, Any], **facts: Any) -> Any:
    """What one condition says of one fabric: True, False or None for unknown."""
    table = FactTable([{name: Fact(value, "typed", "A1") for name, value in facts.items()}])
    value = table.holds(when)[0]
    return None if value is pd.NA else bool(value)


@pytest.mark.parametrize(
    ("when", "facts", "expected"),
    [
        ({}, {}, True),
        ({"weight_gsm": {"min": 100, "below": 200}}, {"weight_gsm": 100}, True),
        ({"weight_gsm": {"min": 100, "below": 200}}, {"weight_gsm": 200.0}, False),
        ({"weight_gsm": {"above": 100, "max": 200}}, {"weight_gsm": 200}, True),
        ({"weight_gsm": {"above": 100}}, {}, None),
        ({"structure": "woven"}, {"structure": "woven"}, True),
        ({"structure": ["net", "knit"]}, {"structure": "woven"}, False),
        ({"structure": {"none": ["knit"]}}, {"structure": "woven"}, True),
        ({"structure": {"none": ["knit"]}}, {}, None),
        ({"fibres": ["silk", "wool"]}, {"fibres": frozenset({"silk", "cotton"})}, True),
        ({"fibres": {"only": ["cotton", "linen"]}}, {"fibres": frozenset({"cotton"})}, True),
        ({"fibres": {"only": ["cotton"]}}, {"fibres": frozenset({"cotton", "linen"})}, False),
        ({"fibres": {"all": ["cotton", "linen"]}}, {"fibres": frozenset({"cotton", "linen"})}, True),
        ({"fibres": {"none": ["wool"]}}, {"fibres": frozenset({"wool"})}, False),
        ({"sheer": True}, {"sheer": True}, True),
        ({"sheer": False}, {"sheer": True}, False),
        ({"sheer": True}, {}, None),
        ({"slippery": {"min": 2}}, {"slippery": 2.0}, True),
        ({"any": [{"sheer": True}, {"slippery": {"min": 2}}]}, {"sheer": True}, True),
        ({"any": [{"sheer": True}, {"slippery": {"min": 2}}]}, {"sheer": False}, None),
        ({"sheer": True, "slippery": {"min": 2}}, {"sheer": False}, False),
    ],
)
def test_every_form_of_condition(when: dict[str, Any], facts: dict[str, Any], expected: Any) -> None:
    """Ranges, words, sets and groups, with facts known and unknown (Kleene's three values)."""
    assert truth(when, **facts) == expected


def test_rows_are_judged_apart() -> None:
    """A frame of several fabrics gives one answer each."""
    facts = [{"weight_gsm": Fact(w, "typed", "A1")} if w else {} for w in (90, 210, None)]
    assert FactTable(facts).holds({"weight_gsm": {"below": 100}}).tolist() == [True, False, pd.NA]
