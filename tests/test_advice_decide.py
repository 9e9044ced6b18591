"""How a topic's advice combines: lowest, one tier, all lines; prohibitions; the teacher's own word."""

from __future__ import annotations

from datetime import date
from itertools import permutations
from typing import Any

from handouts.advice.decide import decide
from handouts.model import Rule, Topic

TIERS = ("usual", "fibre", "weight", "trait", "family", "construction", "cloth", "surface", "house", "typed")
DOTS = Topic("press_dots", "Dots", "choice", "lowest", (0, 1, 2, 3))
HOLD = Topic("hold", "Hold", "list", "one", ("weights", "pins", "fine pins", "clips", "tape"))
LINES = Topic("layout", "Lay out", "lines", "all")


def rule(id: str, tier: str, value: Any = None, **more: Any) -> Rule:
    """A rule of no particular topic."""
    return Rule(id, "any", tier, {}, value, f"because {id}", ("judgement",), date(2026, 1, 1), **more)


def test_heat_is_the_lowest_of_everything_present() -> None:
    """Cotton 3, polyester 2, sequins 1: one dot, and the trace keeps who lost."""
    decision = decide(
        DOTS, [rule("cotton", "fibre", 3), rule("poly", "fibre", 2), rule("sequins", "surface", 1)], TIERS
    )
    assert decision.value == 1
    assert [s.rule for s in decision.won] == ["sequins"]
    assert {s.rule for s in decision.lost} == {"cotton", "poly"}


def test_the_most_specific_tier_wins_whole() -> None:
    """Construction beats fibre."""
    decision = decide(
        HOLD, [rule("silk", "fibre", ("fine pins",)), rule("velvet", "construction", ("clips", "weights"))], TIERS
    )
    assert decision.value == ("clips", "weights")


def test_a_prohibition_takes_its_words_out_of_every_list() -> None:
    """No pins in leather, though the cloth's own rule names pins; what is left stands."""
    rules = [rule("cloth", "cloth", ("pins", "clips")), rule("skin", "family", never=("pins", "fine pins"))]
    assert decide(HOLD, rules, TIERS).value == ("clips",)


def test_when_nothing_is_left_the_next_tier_speaks() -> None:
    """A list emptied by a prohibition gives way to the tier below."""
    rules = [rule("cloth", "cloth", ("pins",)), rule("skin", "family", ("clips",), never=("pins",))]
    assert decide(HOLD, rules, TIERS).value == ("clips",)


def test_two_words_in_one_tier_are_a_clash_and_reported() -> None:
    """Two rules of one tier that disagree are named; the choice does not depend on their order."""
    rules = [rule("b", "trait", ("pins",)), rule("a", "trait", ("weights",)), rule("u", "usual", ("tape",))]
    found = {decide(HOLD, list(order), TIERS).value for order in permutations(rules)}
    assert found == {("weights",)}
    assert decide(HOLD, rules, TIERS).clash == ("a", "b")


def test_lines_stand_most_specific_first_each_once_and_replaced_ones_go() -> None:
    """A cloth's own line comes before the usual one, unless it replaces it."""
    usual = rule("usual", "usual", ("Press first.", "Fold right sides together."))
    pile = rule("pile", "family", ("One layer.", "Press first."))
    assert decide(LINES, [usual, pile], TIERS).value == ("One layer.", "Press first.", "Fold right sides together.")
    instead = rule("pile", "family", ("One layer.",), replaces=("usual",))
    assert decide(LINES, [usual, instead], TIERS).value == ("One layer.",)


def test_the_teachers_choice_wins_and_is_said_to_be_hers() -> None:
    """A typed choice beats all rules of the trade and of the class."""
    rules = [rule("trade", "cloth", ("clips",)), rule("ours", "house", ("tape",)), rule("mine", "typed", ("pins",))]
    decision = decide(HOLD, rules, TIERS)
    assert (decision.value, decision.choice, decision.cautions) == (("pins",), "typed", ())
    assert decide(HOLD, rules[:2], TIERS).choice == "house"


def test_a_choice_that_breaks_a_prohibition_carries_the_caution() -> None:
    """The teacher may pin leather; the card says beside it what that does."""
    rules = [rule("skin", "family", ("clips",), never=("pins",), safety=True), rule("mine", "typed", ("pins",))]
    decision = decide(HOLD, rules, TIERS)
    assert decision.value == ("pins",)
    assert [s.rule for s in decision.cautions] == ["skin"]


def test_a_house_rule_cannot_lift_a_safety_prohibition() -> None:
    """A rule for the whole class is not a choice for one cloth: what safety forbids stays forbidden."""
    rules = [rule("skin", "family", ("clips",), never=("pins",), safety=True), rule("ours", "house", ("pins",))]
    decision = decide(HOLD, rules, TIERS)
    assert (decision.value, decision.choice) == (("clips",), "rules")


def test_an_iron_typed_hotter_than_the_cloth_stands_carries_the_caution() -> None:
    """Typed two dots on acetate: printed as hers, with the fibre's reason; a cooler one needs none."""
    assert [s.rule for s in decide(DOTS, [rule("acetate", "fibre", 1), rule("mine", "typed", 2)], TIERS).cautions] == [
        "acetate"
    ]
    assert decide(DOTS, [rule("cotton", "fibre", 3), rule("mine", "typed", 2)], TIERS).cautions == ()
