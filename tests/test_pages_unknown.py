"""What nobody knows: on the card each fact with its threshold and what changes there, in full on the binder page."""

from __future__ import annotations

import re

import pytest

from handouts import knowledge
from handouts.pages.unknown import condition, unknown
from handouts.pages.words import vocabulary, words_of
from handouts.pipeline import advise_fabrics
from handouts.records import Fabric

BASE = knowledge.load()
CARD, PAGE = (vocabulary()["detail"][kind] for kind in ("card", "page"))


def told(fabric: Fabric, detail: dict[str, int], units: str = "metric") -> list[str]:
    """The lines as they read."""
    lines = unknown(fabric, words_of(units, BASE), detail)
    return [f"{one['when']} {one['words']}".replace("\u00a0", " ") for one in lines]


@pytest.fixture(scope="module")
def linen() -> Fabric:
    """Linen of which only the fibre is known."""
    return advise_fabrics([{"name": "Linen", "cloth": "linen", "fibre_content": "100% linen"}])[0]


def test_every_fact_that_could_change_something_is_named_with_its_threshold(linen: Fabric) -> None:
    """All thresholds that the trace holds stand on the card and on the binder page, none says only that something might change."""
    tests = {spoke.test for decision in linen.advice.values() for spoke in decision.might}
    assert len(tests) > 3
    for detail in (CARD, PAGE):
        text = " ".join(told(linen, detail)).lower()
        assert [test for test in tests if condition(test, words_of("metric", BASE)).lower() not in text] == []
        assert "might change" not in text


def test_a_setting_that_would_change_is_told_in_words(linen: Fabric) -> None:
    """Dark linen is pressed through a cloth (shine: common practice, no source); the card says so, however little room."""
    for detail in (CARD, PAGE, {"might_letters": 0}):
        assert any(line.startswith("If dark: press cloth") for line in told(linen, detail))


def test_no_condition_tests_what_is_already_decided(linen: Fabric) -> None:
    """`colour dark and iron, dots 1 or more` is only `if dark`: the iron is decided."""
    words = " ".join(told(linen, PAGE))
    assert "dots" not in words and not re.search(r"\band iron\b", words)


def test_the_full_page_says_what_to_do_and_the_card_at_least_where(linen: Fabric) -> None:
    """A wide repeat: buy a repeat more; where there is little room, only that it is worth finding out."""
    assert any(line.startswith("Pattern repeat from 15 cm: buy one full repeat more") for line in told(linen, PAGE))
    short = told(linen, {"might_letters": 0})
    assert short[-1].startswith("Also find out:") and "pattern repeat from 15 cm" in short[-1]


def test_a_card_of_unknown_fibres_does_not_list_every_fibre() -> None:
    """A remnant without a label: the card asks for the fibres once, the binder page says what each would change."""
    remnant = advise_fabrics([{"name": "Remnant", "cloth": "plain weave", "fibre_content": "unknown"}])[0]
    card, page = " ".join(told(remnant, CARD)), " ".join(told(remnant, PAGE))
    assert "Also find out: fibres and their shares;" in card and "lastane" not in card
    assert len(card) <= 330 and re.search(r"[Ee]lastane from", page)


def test_thresholds_stand_in_the_classes_units(linen: Fabric) -> None:
    """15 cm is 6 in to the half inch."""
    assert any("repeat from 6 in" in line.lower() for line in told(linen, PAGE, "imperial"))


def test_a_plain_cloth_is_not_asked_for_its_repeat() -> None:
    """Typed dark it has no pattern; typed as a print, or not typed, it may have."""
    row = {"name": "Linen", "cloth": "medium linen", "fibre_content": "100% linen"}
    plain, printed, either = advise_fabrics([{**row, "colour": "dark"}, {**row, "colour": "print"}, row])
    asked = ["repeat" in " ".join(told(fabric, PAGE)) for fabric in (plain, printed, either)]
    assert asked == [False, True, True]
