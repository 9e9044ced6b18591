"""The edges of sums and comparisons: each was once changed on purpose and no other test noticed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from handouts import knowledge, labelling, pipeline, telling, units
from handouts.advice import odd_measures
from handouts.conditions import condition_words, passes
from handouts.pages.glance import what_it_is_like
from handouts.pages.words import vocabulary, words_of
from handouts.planning import needles, power
from handouts.records import Fabric
from handouts.workbook.needles import read_needle
from handouts.workbook.numbers import read_number, read_range
from handouts.workbook.unit_words import Measure
from tests.class_by_hand import settings

BASE = knowledge.load()


def advised(cloth: str, content: str, **cells: Any) -> Fabric:
    """One fabric, advised."""
    return pipeline.advise_fabrics([{"name": "A", "cloth": cloth, "fibre_content": content, **cells}])[0]


def test_water_boils_at_the_same_heat_on_both_scales() -> None:
    """212 °F is 100 °C and 32 °F is 0 °C, by definition of the scales."""
    assert (units.celsius(212), units.celsius(32)) == (100, 0)


def test_all_of_a_set_means_each_of_them() -> None:
    """`all`: the fabric has these families and perhaps more; one of two is not enough."""
    both = passes({"all": ["brocade", "metallic"]})
    assert both(frozenset({"brocade", "metallic", "satin"})) and not both(frozenset({"brocade"}))


def test_a_fibre_in_two_parts_counts_with_its_greater_share() -> None:
    """A back of half nylon under a pile of nothing else: the cloth can be as much nylon as its pile."""
    content = labelling.read_content("pile 100% nylon; back 50% nylon, 50% cotton", BASE)
    assert content.fibres() == {"polyamide": 100, "cotton": 50}


def test_every_elastic_fibre_stretches_the_cloth() -> None:
    """Elastodiene is rubber: its share counts as elastane's does."""
    assert advised("jersey", "95% cotton, 5% elastodiene").fact("elastane_pct") == 5


def test_a_cloth_that_does_not_give_is_no_slip_of_the_pen() -> None:
    """Stretched as long as relaxed: no stretch, no finding; a centimetre less is one."""
    found = [list(odd_measures({"relaxed_cm": 10, "stretched_across_cm": long}, str, BASE)) for long in (10, 9)]
    assert [len(one) for one in found] == [0, 1]


@pytest.mark.parametrize(
    ("content", "proposal"),
    [
        ("97% cotton, elastane", "3% elastane"),
        ("60% cotton, 30% linen", "10 is missing"),
        ("60% cotton, 50% linen", "10 too much"),
    ],
)
def test_shares_that_do_not_add_up_say_by_how_much(content: str, proposal: str) -> None:
    """The proposal does the sum."""
    said = " ".join(str(found) for _, found in labelling.read_content(content, BASE).findings)
    assert proposal in said


def test_an_iron_as_hot_as_advised_needs_no_caution() -> None:
    """The teacher types what the rules say: her choice, and nothing beyond it; a step hotter is cautioned."""
    own = advised("medium linen", "100% polyester")
    same, hotter = (
        advised("medium linen", "100% polyester", iron=word) for word in (own.advised("iron_word"), "linen")
    )
    assert (same.advice["iron_word"].choice, same.advice["iron_word"].cautions) == ("typed", ())
    assert hotter.advice["iron_word"].cautions


@pytest.mark.parametrize(("cloth", "content"), [("medium linen", "100% linen"), ("boiled wool", "100% wool")])
def test_advice_changes_at_the_very_weight_the_card_names(cloth: str, content: str) -> None:
    """A gram past it is the new advice, a gram before it is not; nothing is told of weights out of reach."""
    here = advised(cloth, content)
    reach, weight = BASE.number("weight_reach"), here.fact("weight_gsm")
    assert {change.below for change in here.changes} == {True, False}
    assert all(weight / reach <= change.at <= weight * reach for change in here.changes)
    for change in here.changes:
        past, before = (
            advised(cloth, content, weight_gsm=change.at + step).advised(change.topic)
            for step in ((-1, 1) if change.below else (1, -1))
        )
        assert past == change.value != before, change


def test_the_cloth_most_alike_stands_first() -> None:
    """Fewest differences first; among equals the one that shares most families."""
    fabrics = [advised(cloth.name, cloth.usual_content) for cloth in list(BASE.cloths.values())[::40]]
    told = 0
    for fabric in fabrics:
        families = fabric.fact("families")
        theirs = [{*BASE.constructions[c.construction].families, *c.families} for c in map(cloth_of, fabric.likes)]
        ranks = [(len(like.differs), -len(families & own)) for like, own in zip(fabric.likes, theirs, strict=True)]
        assert ranks == sorted(ranks), fabric.cloth
        told += len(set(ranks)) > 1
    assert told > 2, "some fabric must have likes of different ranks"


def cloth_of(like: Any) -> Any:
    """The record of a cloth that a fabric is like."""
    return BASE.cloths[like.cloth]


def test_a_little_give_is_not_worth_a_word() -> None:
    """Stretch is told from the percentage of words.toml on, not below."""
    least = vocabulary()["trait_least"]["stretch_across_pct"]
    said = [
        what_it_is_like(advised("denim", "100% cotton", stretch_across_pct=n), words_of("", BASE))
        for n in (least, least - 1)
    ]
    assert ["across" in text for text in said] == [True, False]


def test_json_holds_whole_numbers_as_whole_numbers_and_sets_in_order() -> None:
    """3.0 is 3 and 2.5 stays; a set is the same list every time."""
    held = telling.plain({"mm": 3.0, "half": 2.5, "trim": frozenset({"studs", "beads"}), "yes": True})
    assert str(held) == "{'mm': 3, 'half': 2.5, 'trim': ['beads', 'studs'], 'yes': True}"


def test_a_share_is_told_in_per_cent() -> None:
    """`elastane over 3 %`, `weight under 90 g/m²`, `frays 2 or more`."""
    tests = {"elastane_pct": {"above": 3}, "weight_gsm": {"below": 90}, "frays": {"min": 2}}
    said = [condition_words({fact: test}, BASE) for fact, test in tests.items()]
    assert said == ["elastane over 3 %", "weight under 90 g/m²", "frays 2 or more"]


def test_a_shrinkage_is_typed_or_only_usual() -> None:
    """advice.json says whether somebody measured it; and what gave way stands apart from what won."""
    rows = [advised("boiled wool", "100% wool"), advised("boiled wool", "100% wool", shrink_length_pct=4)]
    told = [telling.fabric_json(fabric)["advice"]["shrink_pct"] for fabric in rows]
    assert [one["value"]["origin"] for one in told] == ["assumed", "typed"]
    for one in told:
        assert not {spoke["rule"] for spoke in one["won"]} & {spoke["rule"] for spoke in one["lost"]}
    assert any(one["lost"] for one in told)


def test_nobody_sews_without_a_needle() -> None:
    """No sewing time at all still takes one needle a machine and the spares."""
    assert needles.count(machines=3, hours_each=0, life_hours=8, spare=2) == 5


def test_irons_are_shared_out_and_the_fullest_circuit_counts() -> None:
    """Three irons on two circuits: one carries two. 2 × 1,840 W is just what 16 A at 230 V come to; a watt more is over."""
    circuits = {"circuits": 2, "circuit_volts": 230, "circuit_amps": 16}
    full, over = (power.check(settings(irons=3, iron_watts=w, **circuits), BASE) for w in (1840, 1841))
    assert full is not None and (full.busiest_irons, full.verdict) == (2, "fits")
    assert over is not None and over.verdict == "over"


def test_both_lists_of_feet_are_one() -> None:
    """The plan and the cards find a foot by the same words."""
    planned = BASE.tables["planning"]["foot"]
    assert (planned["known"], planned["usual"]) == (vocabulary()["foot"]["known"], vocabulary()["foot"]["usual"])


def test_two_decimal_marks_are_no_number() -> None:
    """1.250,125,5 has two commas: nobody can say which is the decimal one."""
    assert read_number("1.250,125,5") is None
    assert read_number("1.250,5").readings == (1250.5,)  # type: ignore[union-attr]


def test_a_range_runs_upward() -> None:
    """140–160 are its two ends; 160–140 is none, and nobody guesses."""
    assert read_range("140–160").readings == (140, 160)  # type: ignore[union-attr]
    assert read_range("160–140") is None


def test_a_file_of_another_program_is_no_list(tmp_path: Path) -> None:
    """A thousand lines with a control sign in every tenth are no text that somebody typed; three of them may be a slip."""
    book = tmp_path / "book.csv"
    for strange, refused in ((100, True), (3, False)):
        lines = [f"Linen {n},linen,100% linen" + ("\x01" if n <= strange else "") for n in range(1, 1001)]
        book.write_text("\n".join(["Name,Cloth,Fibre content", *lines]), encoding="utf-8")
        assert ([p.code for p in pipeline.check(book).problems][:1] == ["file-not-a-workbook"]) is refused


def test_stitches_to_the_inch_are_told_as_they_were_typed() -> None:
    """2.54 mm were typed as 10 to the inch; 5.08 cm as 2 in."""
    assert Measure("per inch", 25.4, reciprocal=True).typed(2.54) == pytest.approx(10)
    assert Measure("in", 2.54).typed(5.08) == pytest.approx(2)


@pytest.mark.parametrize("typed", ["80/90", "universal 240", "7"])
def test_what_is_no_needle_size_is_no_needle(typed: str) -> None:
    """Two sizes of one scale, a size beyond every needle, a size below: unreadable."""
    assert (read_needle(typed, ()).text, read_needle(typed, ()).fault) == ("", "needle-unreadable")
