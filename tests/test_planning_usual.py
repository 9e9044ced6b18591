"""What is usual in the class, who differs, and what never to do."""

from __future__ import annotations

from datetime import date

from handouts import knowledge
from handouts.planning import plan, usual
from handouts.records import Decision, Spoke
from tests.class_by_hand import fabric, workshop
from tests.classes_by_hand import twelve

BASE = knowledge.load()


def test_the_usual_setting_is_the_commonest_one() -> None:
    """Three of four: the fourth is the exception."""
    found = usual.usual_of({"F1": 2.5, "F2": 2.5, "F3": 3.0, "F4": 2.5}, 0.5)
    assert (found.value, found.share, found.exceptions) == (2.5, 0.75, ("F3",))


def test_without_a_majority_nothing_is_usual_and_nothing_an_exception() -> None:
    """A mark on most cells would mark nothing."""
    found = usual.usual_of({"F1": "a", "F2": "b", "F3": "c"}, 0.5)
    assert (found.value, found.exceptions) == (None, ())


def test_ties_go_to_the_first_in_the_order_of_work() -> None:
    """Two and two: the setting that the class meets first is the usual one, every time."""
    assert usual.usual_of({"F1": "b", "F2": "a", "F3": "a", "F4": "b"}, 0.5).value == "b"


def test_a_single_fabric_has_no_exception() -> None:
    """One fabric is its own usual."""
    assert usual.usual_of({"F1": "b"}, 0.5).exceptions == ()


def test_every_exception_differs_and_everything_else_agrees() -> None:
    """Over the invented class, column by column."""
    made = plan(workshop(twelve()), BASE)
    assert set(made.usual) == set(usual.COLUMNS)
    for column, found in made.usual.items():
        own = {code: row[column] for code, row in made.settings.items()}
        differ = (
            [] if found.value is None else [code for code, value in own.items() if value not in (None, found.value)]
        )
        assert list(found.exceptions) == differ, column


def test_never_lists_what_the_advice_forbids() -> None:
    """No iron is not also listed as no steam; napped cloth lies one way; dry-cleaned cloth is not washed."""
    made = {item.title: set(item.codes) for item in plan(workshop(twelve()), BASE).never}
    assert made["no iron"] == {"W7", "W9", "W12"}
    assert made["no steam"] == {"W2", "W8", "W11"}
    assert made["not washed"] == {"W2", "W4", "W7"}
    assert made["one direction only"] == {"W4", "W6", "W9", "W12"}
    assert made["no fusible"] == {"W7"}
    assert "no pins" not in made, "a preference for clips is not a prohibition"


def test_no_pins_needs_a_rule_that_forbids_them() -> None:
    """A rule of the knowledge base whose `never` names both kinds of pin and that spoke for this cloth."""
    rule = next(r for r in BASE.rules if {"pins", "fine pins"} <= set(r.never))
    spoke = Spoke(rule.id, rule.value, rule.because, rule.sources, rule.tier, never=rule.never)
    cloth = fabric("F1", "Skin")
    skin = type(cloth)(**{**vars(cloth), "advice": {**cloth.advice, "hold": Decision("hold", ("clips",), (spoke,))}})
    made = {item.title: item.codes for item in plan(workshop([skin, fabric("F2", "Lawn")]), BASE).never}
    assert made["no pins"] == ("F1",)


def test_a_foot_line_is_read_as_one_word() -> None:
    """The earliest foot that the lines name; the usual one when they name none."""
    assert usual.foot(("Use a walking foot.",), BASE) == "walking"
    assert usual.foot(("Lower the pressure.", "Non-stick foot, or a roller foot."), BASE) == "non-stick"
    assert usual.foot((), BASE) == "standard" == usual.foot(("Lower the pressure.",), BASE)


def test_every_figure_says_its_unit_source_and_day() -> None:
    """planning.toml, thread_use.toml and cautions.toml: nothing without a known source and a date."""
    tables = BASE.tables
    numbers = [*tables["planning"]["number"].values(), *tables["thread_use"]["number"].values()]
    others = [
        *tables["planning"]["station"].values(),
        *tables["planning"]["place"].values(),
        tables["planning"]["power"],
        tables["planning"]["power"]["uk"],
    ]
    others += [
        *tables["thread_use"]["stitch"].values(),
        *tables["cautions"]["caution"],
        tables["cautions"]["defer"],
        tables["planning"]["litter"],
    ]
    assert len(numbers) > 10 and len(others) > 15
    assert all(record["unit"] and record["why"] for record in numbers)
    assert [r for r in (*numbers, *others) if not r["sources"] or not set(r["sources"]) <= set(BASE.sources)] == []
    assert all(isinstance(record["checked"], date) for record in (*numbers, *others))
