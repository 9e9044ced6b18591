"""Every page that is handed out says who decides in the end: makers, codes, the venue, licensed people."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import pytest

from handouts import knowledge, pages
from handouts.planning import plan
from handouts.records import Workshop
from tests.class_by_hand import workshop
from tests.classes_by_hand import twelve

BASE = knowledge.load()
MUST = (
    "General information",
    "equipment",
    "local codes",
    "venue's rules",
    "licensed electrician",
    "fire officer",
    "doctor",
)
"""What the deferral names (../shared/reference/safety.md, the paragraph before section 1)."""


def with_plan(make: Callable[..., str], made: Workshop) -> str:
    """A page that needs the class's plan."""
    return make(made, plan(made, BASE), BASE)


@pytest.mark.parametrize(
    "page",
    [
        lambda made: pages.cards(made, BASE),
        lambda made: pages.binder(made, BASE),
        partial(with_plan, pages.comparison),
        partial(with_plan, pages.plan),
        partial(with_plan, pages.class_page),
    ],
    ids=["cards", "binder", "comparison", "plan", "class page"],
)
def test_the_deferral_is_whole(page: Callable[[Workshop], str]) -> None:
    """All of it, and on cards and binder pages once for every fabric."""
    made = workshop(twelve())
    text = page(made).replace("&#39;", "'")
    sheets = text.count("<sheet ") or 1
    assert [words for words in MUST if text.count(words) < sheets] == []


def test_the_care_cards_of_a_shop_defer_too() -> None:
    """On the back, in as many words as a small card holds."""
    text = pages.shop_cards(workshop(twelve()), BASE)
    assert text.count("General information") == 12 and text.count("local codes") == 12
