"""Random fabrics for the properties: any cloth, any fibres, any cells typed or empty; drawn from a fixed seed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st

from handouts import knowledge, sheets
from handouts.advice import facts_of
from handouts.records import Content, Fact, Section, Share

KNOWN = knowledge.load()
ITEMS = [*KNOWN.cloths.values(), *KNOWN.constructions.values()]
FIBRES = sorted(KNOWN.fibres)
SEED = 20261125
BATCH, BATCHES = 50, 40
HEAT_WORDS = KNOWN.topics["iron_word"].order
STEAMS = KNOWN.topics["steam"].order

TRIED: list[int] = []
"""How many fabrics each batch of the running test held."""
run = settings(max_examples=BATCHES, deadline=None, database=None, suppress_health_check=list(HealthCheck))


@st.composite
def contents(draw: st.DrawFn) -> Content:
    """One to four fibres in random shares that add up to 100."""
    fibres = draw(st.lists(st.sampled_from(FIBRES), min_size=1, max_size=4, unique=True))
    parts = [draw(st.integers(1, 60)) for _ in fibres]
    whole = sum(parts)
    return Content("", (Section("", tuple(Share(f, 100 * p / whole, f) for f, p in zip(fibres, parts, strict=True))),))


def maybe(values: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """A value or an empty cell."""
    return st.one_of(st.none(), values)


TYPED = st.fixed_dictionaries(
    {
        "weight_gsm": maybe(st.integers(15, 800)),
        "sheer": maybe(st.booleans()),
        "slippery": maybe(st.integers(0, 3)),
        "frays": maybe(st.integers(0, 3)),
        "curls": maybe(st.booleans()),
        "stretch_across_pct": maybe(st.integers(0, 150)),
        "nap": maybe(st.sampled_from(sheets.NAPS)),
        "check": maybe(st.sampled_from(sheets.CHECKS)),
        "texture": maybe(st.sampled_from(sheets.TEXTURES)),
        "coating": maybe(st.sampled_from(sheets.COATINGS)),
        "trim": maybe(st.sampled_from(sheets.TRIMS)),
        "finish": maybe(st.sampled_from(sheets.FINISHES)),
        "colour": maybe(st.sampled_from(sheets.COLOURS)),
        "one_way": maybe(st.booleans()),
    }
)


@st.composite
def fabrics(draw: st.DrawFn) -> dict[str, Fact]:
    """The facts of one random fabric."""
    typed = {key: value for key, value in draw(TYPED).items() if value is not None}
    return facts_of(typed, lambda key: key, draw(st.sampled_from(ITEMS)), draw(contents()), KNOWN)


def counted(batch: list[dict[str, Fact]]) -> list[dict[str, Fact]]:
    """The same batch, counted."""
    TRIED.append(len(batch))
    return batch


batches = st.lists(fabrics(), min_size=BATCH, max_size=BATCH).map(counted)


def told(facts: Mapping[str, Fact]) -> str:
    """A fabric in one line, for a failing test's message."""
    return ", ".join(f"{name}={fact.value}" for name, fact in facts.items() if name != "families")
