"""Every page that is handed out says who decides in the end: makers, codes, the venue, licensed people."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial

import pytest

from handouts import knowledge, pages, pipeline
from handouts.pages import beyond
from handouts.planning import plan
from handouts.records import Fact, Workshop
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


def test_the_comparison_says_the_usual_cautions_that_its_fabrics_call_for() -> None:
    """Irons, needles, blades and heat on plastics beside the machines; no word about vinyl where there is none."""
    made = workshop(twelve())
    text = with_plan(pages.comparison, made)
    said = {record["id"]: record["card"] in text for record in BASE.tables["cautions"]["caution"] if record["card"]}
    assert [id for id in ("iron", "needle", "blade") if not said[id]] == []
    assert not said["pvc"]
    vinyl = replace(made.fabrics[0], facts={**made.fabrics[0].facts, "coating": Fact("PVC", "typed", "A2")})
    assert "PVC" in with_plan(pages.comparison, workshop((vinyl, *made.fabrics[1:])))


def named_by(cloth: str, **cells: str) -> list[str]:
    """The usual cautions on the card of a cloth, by id."""
    row = {"name": cloth, "cloth": cloth, "fibre_content": "100% polyester", **cells}
    (fabric,) = pipeline.advise_fabrics([row])
    foot = beyond.cautions(fabric, BASE)
    return [one["id"] for one in BASE.tables["cautions"]["caution"] if one["card"] and one["card"] in foot]


@pytest.mark.parametrize(
    ("caution", "cloth", "cells"),
    [
        ("knife", "faux fur", {}),  # cut with a craft knife
        ("glue", "soft leather", {"fibre_content": "100% leather"}),  # the hem is glued
        ("glue", "coated ripstop", {}),  # the seams are sealed
        ("dust", "hessian", {"fibre_content": "100% jute"}),  # sheds dust, though it is no pile
        ("eyes", "satin", {"trim": "rhinestones"}),
        ("eyes", "satin", {"trim": "studs"}),
        ("pvc", "vinyl", {"fibre_content": "100% PVC"}),
    ],
)
def test_whatever_a_card_tells_to_take_in_hand_has_its_caution(caution: str, cloth: str, cells: dict[str, str]) -> None:
    """A tool, glue or trim that can hurt: the caution stands at the foot of that card, and not on a plain cotton's."""
    assert caution in named_by(cloth, **cells)
    assert caution not in named_by("medium linen", fibre_content="100% linen")
