"""`handouts explain` in words: value, reason, facts with their cells, sources by title, and what would change the advice."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from handouts import conditions, knowledge, pipeline
from handouts.cli import main
from handouts.reasons import asked_of

TOP = Path(__file__).parent.parent
KNOWN = knowledge.load()
HEADINGS = "Name;Cloth;Fibre content;Weight (g/m²);Colour;Iron;Shrinkage length (%)\n"


def told(folder: Path, row: str, topic: str = "") -> str:
    """What is said of one fabric, as one text without line breaks."""
    book = folder / "class.csv"
    book.write_text(HEADINGS + row + "\n", encoding="utf-8")
    return " ".join(" ".join(pipeline.explain(pipeline.load_workshop(book), "F1", topic)).split())


def test_a_setting_is_told_with_its_reason_the_facts_it_goes_by_and_its_source(tmp_path: Path) -> None:
    """The needle of a medium linen: both numbers, why, the typed weight with its cell, a source by its title."""
    text = told(tmp_path, "A;medium linen;100% linen;180;;;", "needle_nm")
    assert "Needle size: start with 80/12" in text
    assert "Because: " in text and "weight 180 g/m² (5.3 oz/yd²) (class!D2)" in text
    rule = next(r for r in KNOWN.rules if f"Because: {r.because}" in text and r.topic == "needle_nm")
    assert all(KNOWN.sources[id].title in text for id in rule.sources)


def test_what_is_known_says_where_from(tmp_path: Path) -> None:
    """Typed with its cell, read from a cell, usual for the cloth, and what nobody has said."""
    text = told(tmp_path, "A;medium linen;100% linen;180;;;")
    assert "Typed by you: weight 180 g/m² (5.3 oz/yd²) (class!D2)." in text
    assert "Read from class!C2: fibre linen" in text and "Usual for plain weave, as your cell is empty: " in text
    assert (
        "Not said yet, and it would matter: " in text and "colour" in text.split("it would matter: ")[1].split(".")[0]
    )


def test_what_would_change_it_is_told(tmp_path: Path) -> None:
    """Weights at which the needle changes, and an unknown colour that would change the marking."""
    needle = told(tmp_path, "A;medium linen;100% linen;180;;;", "needle_nm")
    assert "From " in needle and "Under " in needle and "g/m²" in needle
    assert "If colour dark" in told(tmp_path, "A;medium linen;100% linen;180;;;", "mark")
    assert "If colour" not in told(tmp_path, "A;medium linen;100% linen;180;pale;;", "mark")


def test_the_teachers_own_word_is_said_to_be_hers_with_the_caution(tmp_path: Path) -> None:
    """Cotton setting typed for acetate: hers, where it stands, and the fibre's reason as a caution."""
    text = told(tmp_path, "A;acetate lining;100% acetate;;;cotton;", "press_dots")
    assert "Iron, dots: 3 dots (your own word)" in text and "Stands in: class!F2." in text
    reason = KNOWN.fibres["acetate"].because
    assert "93 °C" in reason and f"Caution: {reason.partition('93 °C')[0]}93 °C (195 °F)" in text
    assert "(your own word)" in told(tmp_path, "A;boiled wool;100% wool;;;;4", "shrink_pct")


def test_an_imperial_class_is_told_its_own_units() -> None:
    """Weights and widths of the imperial copy in oz/yd² and inches, and its tested seam with the day."""
    book = pipeline.load_workshop(TOP / "workbooks" / "outerwear-imperial.xlsx")
    text = " ".join(" ".join(pipeline.explain(book, "W1")).split())
    assert "weight 11.2 oz/yd² (Fabrics!F2)" in text  # 380 g/m² / 33.9057
    assert "width 55 in (Fabrics!G2)" in text and "g/m²" not in text
    assert "Your test seam on 2026-11-12: universal 90" in text
    whole = " ".join(pipeline.explain(book))
    assert not re.search(r"\d (cm|g/m²|°C)", whole)


def test_a_topic_may_be_asked_by_its_title(tmp_path: Path) -> None:
    """`Press seams` and `press_direction` are the same question; an unknown one names what there is."""
    row = "A;medium linen;100% linen;180;;;"
    assert told(tmp_path, row, "press SEAMS") == told(tmp_path, row, "press_direction")
    assert main(["explain", str(tmp_path / "class.csv"), "F1", "seam colour"]) == 1


def test_no_line_is_longer_than_a_terminal_and_no_id_is_told() -> None:
    """The whole example class: lines of at most 100 letters, no id of a fact with an underscore, no rule id."""
    lines = list(pipeline.explain(pipeline.load_workshop(TOP / "workbooks" / "outerwear.xlsx")))
    assert len(lines) > 1000
    assert [line for line in lines if len(line) > 100] == []
    assert [line for line in lines if any(word in line for word in ("_pct", "_gsm", "_mm", "press_"))] == []


@pytest.mark.parametrize(
    ("when", "known", "expected"),
    [
        ({"weight_gsm": {"min": 90}, "frays": {"max": 1}}, {"weight_gsm": 100, "frays": 0}, ["weight_gsm", "frays"]),
        ({"any": [{"nap": "short"}, {"colour": "dark"}]}, {"nap": "none", "colour": "dark"}, ["colour"]),
        ({"coating": {"none": ["wax"]}, "sheer": True}, {"coating": "PU", "sheer": True}, ["sheer"]),
    ],
)
def test_a_rule_goes_by_the_facts_that_made_it_hold(when: dict, known: dict, expected: list[str]) -> None:
    """Of alternatives the one that holds; what a rule only rules out is not told."""
    assert list(conditions.met(when, known)) == expected


def test_reading_only_the_first_lines_is_no_bug_of_ours() -> None:
    """`handouts explain BOOK | head -1` ends quietly."""
    command = f"{sys.executable} -m handouts explain workbooks/outerwear.xlsx | head -1"
    done = subprocess.run(["bash", "-c", command], cwd=TOP, capture_output=True, text=True)
    assert done.stdout.startswith("W1") and "broken" not in done.stderr


def test_only_what_is_news_is_told(tmp_path: Path) -> None:
    """No shares that are nought, no counting of fibres, nothing that gave way to the same words."""
    text = told(tmp_path, "A;medium linen;100% linen;180;;;")
    assert (
        "fibre linen" in text and "elastane" not in text.partition("Iron, dots")[0] and "number of fibres" not in text
    )
    iron = told(tmp_path, "A;boiled wool;100% wool;;;;", "press_dots")
    won = re.search(r"Iron, dots: (\d dots?)", iron)
    assert won and "Gave way: " in iron and f"Gave way: {won[1]}." not in iron


def test_of_a_set_only_the_words_are_told_that_the_rule_names() -> None:
    """A rule about wool in a blend goes by the wool, not by all that is in it; one that names none goes by all."""
    blend = frozenset({"wool", "polyester"})
    assert asked_of({"fibres": ["wool", "cashmere"]}, "fibres", blend) == {"wool"}
    assert asked_of({"fibres": {"none": ["silk"]}}, "fibres", blend) == blend
