"""The class's own word: choices in a row, the House rules sheet, and what the test seam showed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from handouts import advice, knowledge, labelling, pipeline
from handouts.advice import HouseRow, house_rules
from handouts.records import Fabric

KNOWN = knowledge.load()


def fabric(**cells: Any) -> Fabric:
    """One fabric from its typed cells."""
    return pipeline.advise_fabrics([{"name": "Cloth", **cells}])[0]


def test_a_typed_needle_wins_and_keeps_its_cell() -> None:
    """Typed `jeans 100`: printed as the teacher's, and the trace names the cell."""
    found = fabric(cloth="quilting cotton", fibre_content="100% cotton", needle="jeans 100")
    assert found.advice["needle_point"].value == ("jeans",)
    assert found.advice["needle_nm"].value == {"low": 100, "high": 100, "start": 100}
    assert found.advice["needle_nm"].won[0].cells == ("Fabrics!needle",)
    assert found.advice["needle_nm"].choice == "typed"


def test_an_iron_typed_too_hot_prints_with_its_caution() -> None:
    """Cotton setting typed for acetate: her choice stands, the fibre's reason stands beside it."""
    found = fabric(cloth="acetate lining", fibre_content="100% acetate", iron="cotton")
    assert (found.advice["press_dots"].value, found.advice["press_dots"].choice) == (3, "typed")
    assert any("acetate" in spoke.rule for spoke in found.advice["press_dots"].cautions)


def test_a_cooler_iron_needs_no_caution() -> None:
    """Wool setting typed for cotton: cooler than the cloth stands."""
    found = fabric(cloth="quilting cotton", fibre_content="100% cotton", iron="wool")
    assert (found.advice["press_dots"].value, found.advice["press_dots"].cautions) == (2, ())
    assert found.advice["press_c"].value == 150


@pytest.mark.parametrize(
    ("cells", "expected"),
    [
        ({"shrink_length_pct": 4, "shrink_width_pct": 3}, {"length": 4, "width": 3}),
        ({"shrink_length_pct": -2, "shrink_width_pct": 1}, {"length": 0, "width": 1}),
        ({"shrink_width_pct": 2}, {"length": 20, "width": 2}),
        ({}, {"length": 20, "width": 20}),
    ],
)
def test_measured_shrinkage_is_what_the_card_expects(cells: dict[str, Any], expected: dict[str, float]) -> None:
    """Typed shrinkage wins; the direction that nobody measured stays as usual for boiled wool; growth is not counted on."""
    found = fabric(cloth="boiled wool", fibre_content="100% wool", **cells)
    assert found.advice["shrink_pct"].value == expected


def rules_from(*rows: dict[str, str]) -> tuple[list[Any], list[Any]]:
    """House rules and findings from rows of cells, the first in row 2."""
    numbered = [HouseRow(number, row) for number, row in enumerate(rows, start=2)]
    return house_rules(numbered, lambda key, number: f"House rules!{key}{number}", KNOWN)


@pytest.mark.parametrize(
    ("when", "said", "expected"),
    [
        ("Weight (g/m²)", "over 300", {"weight_gsm": {"above": 300.0}}),
        ("weight", "under 90", {"weight_gsm": {"below": 90.0}}),
        ("Weight", "90 to 200", {"weight_gsm": {"min": 90.0, "max": 200.0}}),
        ("Slippery (0-3)", "2", {"slippery": {"min": 2.0, "max": 2.0}}),
        ("Sheer", "yes", {"sheer": True}),
        ("Cloth", "rayon challis", {"cloth": ["viscose-challis"]}),
        ("Fibre", "spandex, Seide", {"fibres": ["elastane", "silk"]}),
        ("Nap", "short, deep", {"nap": ["short", "deep"]}),
        ("Coating", "pvc", {"coating": ["PVC"]}),
        ("Fibre content", "not wool", {"fibres": {"none": ["wool"]}}),
        ("Elastane", "over 5 %", {"elastane_pct": {"above": 5.0}}),
        ("Family", "velvet", {"families": ["velvet"]}),
        ("Weight (oz/yd²)", "over 10", {"weight_gsm": {"above": pytest.approx(339.06, abs=0.01)}}),  # 33.9057 each
        ("Weight", "up to 4 oz", {"weight_gsm": {"max": pytest.approx(135.62, abs=0.01)}}),
        ("Width", "under 40 in", {"width_cm": {"below": pytest.approx(101.6)}}),
    ],
)
def test_conditions_are_read_in_the_teachers_words(when: str, said: str, expected: dict[str, Any]) -> None:
    """Headings with or without unit, ranges in words, cloths and fibres by any name."""
    rules, problems = rules_from({"when": when, "is": said, "topic": "Foot", "advice": "Walking foot."})
    assert (problems, [rule.when for rule in rules]) == ([], [expected])


def test_a_range_without_a_unit_is_in_the_units_of_the_class() -> None:
    """`Weight | over 10` of an imperial class is 10 oz/yd²; a unit in the heading goes before."""
    for when, weight in (("Weight", 339.06), ("Weight (g/m²)", 10)):
        row = HouseRow(2, {"when": when, "is": "over 10", "topic": "Foot", "advice": "Walking foot."})
        rules, _ = house_rules([row], lambda key, number: f"{key}{number}", KNOWN, imperial=True)
        assert rules[0].when == {"weight_gsm": {"above": pytest.approx(weight, abs=0.01)}}


@pytest.mark.parametrize(
    ("topic", "said", "expected"),
    [
        ("Needle size", "80/12", {"needle_nm": {"low": 80, "high": 80, "start": 80}}),
        ("Needle size", "70/10 to 90/14", {"needle_nm": {"low": 70, "high": 90, "start": 70}}),
        ("Needle size", "14", {"needle_nm": {"low": 90, "high": 90, "start": 90}}),
        ("Stitch length", "2 to 3 mm", {"stitch_mm": {"low": 2, "high": 3, "start": 2}}),
        ("Stitch length", "10 per inch", {"stitch_mm": {"low": 2.54, "high": 2.54, "start": 2.54}}),
        ("Stitch", "zigzag", {"stitch": "304 zigzag"}),
        ("Press from", "wrong side", {"press_side": "wrong"}),
        ("Iron setting", "Wool", {"press_dots": 2, "press_c": 150, "iron_word": "wool"}),
        ("Iron, at most", "300 °F", {"press_c": 149}),
        ("Overlock", "optional, 3 threads", {"serger": {"use": "optional", "threads": 3}}),
        ("Seam allowance", "15 mm, trim to 6", {"seam_allowance_mm": {"sew": 15, "trim": 6}}),
        ("Seam allowance", "5/8 in", {"seam_allowance_mm": {"sew": 15.9, "trim": 15.9}}),
        ("Shrinkage to expect", "5, 3", {"shrink_pct": {"length": 5, "width": 3}}),
    ],
)
def test_advice_is_read_in_the_teachers_words(topic: str, said: str, expected: dict[str, Any]) -> None:
    """A setting as it is printed or spoken, in either system of units; a setting of the iron says its heat too."""
    rules, problems = rules_from({"topic": topic, "advice": said})
    assert (problems, {rule.topic: rule.value for rule in rules}) == ([], expected)


def test_a_part_of_a_record_is_enough() -> None:
    """No overlock in this class: the threads stay those of the rules, the teacher's word is told."""
    rules, _ = rules_from({"topic": "Overlock", "advice": "no"})
    knit = advised("cotton-jersey", "100% cotton", rules)["serger"]
    assert (knit.value["use"], knit.value["threads"], knit.choice) == ("no", 4, "house")


def advised(cloth: str, content: str, house: list[Any]) -> dict[str, Any]:
    """The advice on a cloth under some house rules."""
    facts = advice.facts_of({}, str, KNOWN.cloths[cloth], labelling.read_content(content, KNOWN), KNOWN)
    return advice.advise([facts], KNOWN, house=house)[0]


def test_a_house_rule_may_cool_the_iron_but_never_heat_it() -> None:
    """Linen setting and plenty of steam for the whole class: acetate stays at one dot without steam; wool cools cotton."""
    hot, _ = rules_from({"topic": "Iron setting", "advice": "linen"}, {"topic": "Steam", "advice": "high"})
    lining, cotton = advised("acetate-lining", "100% acetate", hot), advised("quilting-cotton", "100% cotton", hot)
    assert [lining[t].value for t in ("press_dots", "press_c", "iron_word", "steam")] == [1, 110, "synthetics", "none"]
    assert lining["press_dots"].choice == "rules" and cotton["press_dots"].value == 3
    cool, _ = rules_from({"topic": "Iron setting", "advice": "wool"})
    cooled = advised("quilting-cotton", "100% cotton", cool)
    assert [cooled[t].value for t in ("press_dots", "press_c", "iron_word")] == [2, 150, "wool"]


def test_conditions_add_up_until_a_topic() -> None:
    """Two rows, the topic in the last: both conditions hold."""
    between, _ = rules_from(
        {"when": "Weight", "is": "over 90"}, {"when": "Weight", "is": "under 200", "topic": "Foot", "advice": "x"}
    )
    assert between[0].when == {"weight_gsm": {"above": 90.0, "below": 200.0}}
    rules, problems = rules_from(
        {"when": "Weight", "is": "over 300"},
        {"when": "Frays (0-3)", "is": "3", "topic": "Stitch length", "advice": "3.5", "because": "Loose weave."},
        {"topic": "Hold with", "advice": "clips"},
    )
    assert problems == []
    assert [(set(r.when), r.topic, r.because) for r in rules] == [
        ({"weight_gsm", "frays"}, "stitch_mm", "Loose weave."),
        (set(), "hold", "A rule of this class."),
    ]


@pytest.mark.parametrize(
    ("row", "code", "cell"),
    [
        ({"when": "Wieght", "is": "over 3", "topic": "Foot", "advice": "x"}, "house-when-unknown", "House rules!when2"),
        ({"when": "Weight", "is": "rather", "topic": "Foot", "advice": "x"}, "house-is-unreadable", "House rules!is2"),
        ({"when": "Nap", "is": "fluffy", "topic": "Foot", "advice": "x"}, "house-is-unreadable", "House rules!is2"),
        (
            {"when": "Family", "is": "velvet, x", "topic": "Foot", "advice": "x"},
            "house-is-unreadable",
            "House rules!is2",
        ),
        ({"topic": "Needles", "advice": "x"}, "house-topic-unknown", "House rules!topic2"),
        ({"topic": "Needle size", "advice": "85"}, "house-advice-unfit", "House rules!advice2"),
        ({"topic": "Stitch length", "advice": "10"}, "house-advice-unfit", "House rules!advice2"),
        ({"topic": "Seam allowance", "advice": "6 mm, trim to 15"}, "house-advice-unfit", "House rules!advice2"),
        ({"when": "Nap", "is": "deep"}, "house-topic-missing", "House rules!topic2"),
        ({"topic": "Steam", "advice": "lots"}, "house-advice-unfit", "House rules!advice2"),
    ],
)
def test_what_cannot_be_read_is_a_finding_with_its_cell(row: dict[str, str], code: str, cell: str) -> None:
    """Each wrong cell of a house rule: its own finding, no rule."""
    rules, problems = rules_from(row)
    assert rules == [] and [(p.code, p.cells) for p in problems] == [(code, (cell,))]


def test_a_test_seam_outside_the_advice_is_noted(tmp_path: Path) -> None:
    """Tested needle, stitch and iron beyond the rules: a note each, with its cell."""
    book = tmp_path / "class.csv"
    book.write_text(
        "Name;Cloth;Fibre content;Tested needle;Tested stitch (mm);Tested iron\n"
        "Voile;cotton voile;100% cotton;jeans 110;4,5;cotton\nLining;acetate lining;100% acetate;;;wool\n",
        encoding="utf-8",
    )
    found = [(p.code, p.cells) for p in pipeline.load_workshop(book).problems if p.code == "tested-differs"]
    assert [cells[0].split("!")[1] for _, cells in found] == ["D2", "E2", "F3"]
