"""The whole way: what a workbook says arrives on the fabrics, and what cannot be printed or understood is said."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

from handouts import pipeline
from handouts.records import Workshop

TOP = Path(__file__).parent.parent


def workshop(folder: Path, rows: str, headings: str = "Name;Cloth;Fibre content") -> Workshop:
    """A class from a small text workbook."""
    book = folder / "class.csv"
    book.write_text(f"{headings}\n{rows}\n", encoding="utf-8")
    return pipeline.load_workshop(book)


def test_a_character_no_font_has_is_a_note_with_its_cell(tmp_path: Path) -> None:
    """A Chinese name: named with its cell, never a black box."""
    found = [
        p for p in workshop(tmp_path, "布 linen;medium linen;100% linen").problems if p.code == "character-missing"
    ]
    assert [(p.cells[0].split("!")[1], "布" in p.message) for p in found] == [("A2", True)]


def test_a_cloth_inside_a_longer_name_is_read_and_said(tmp_path: Path) -> None:
    """`printed rayon challis remnants`: read as challis, with a note; a misspelt one gets a proposal and waits."""
    read = workshop(tmp_path, "A;printed rayon challis;100% viscose")
    assert (read.fabrics[0].cloth, [p.code for p in read.problems]) == ("viscose-challis", ["cloth-read-as"])
    missed = workshop(tmp_path, "A;corderoy;100% cotton")
    assert [(p.code, p.severity) for p in missed.problems] == [("cloth-unknown", "mend")]
    assert "corduroy" in missed.problems[0].mend


def test_one_mistake_hides_no_other(tmp_path: Path) -> None:
    """Three bad cells in one row and one in another: all four are found."""
    found = workshop(
        tmp_path, ";xyzzy;90% cotton;12o\nB;denim;100% cotton;-3", "Name;Cloth;Fibre content;Weight (g/m²)"
    ).problems
    assert {p.cells[0].split("!")[1] for p in found if p.severity == "mend"} >= {"A2", "B2", "C2", "D2", "D3"}


def test_a_list_without_settings_is_built_under_its_own_name(tmp_path: Path) -> None:
    """Two price lists do not overwrite each other; a class has the name that was typed."""
    assert workshop(tmp_path, "A;denim;100% cotton").slug == "class"
    assert pipeline.load_workshop(TOP / "workbooks" / "outerwear.xlsx").slug != "outerwear"


def test_an_assumed_fact_never_replaces_a_typed_one(tmp_path: Path) -> None:
    """Typed weight stays typed; the cloth's usual traits say that they are only usual."""
    fabric = workshop(tmp_path, "A;denim;100% cotton;500", "Name;Cloth;Fibre content;Weight (g/m²)").fabrics[0]
    assert (fabric.facts["weight_gsm"].value, fabric.facts["weight_gsm"].origin) == (500, "typed")
    assert fabric.facts["frays"].origin == "assumed"
    assert fabric.facts["fibres"].origin == "derived"


def test_weight_steps_on_the_card_are_what_a_typed_weight_would_get(tmp_path: Path) -> None:
    """“From n g/m²: …” is the advice of the same cloth with that weight typed."""
    fabric = workshop(tmp_path, "A;medium linen;100% linen").fabrics[0]
    heavier = [change for change in fabric.changes if not change.below]
    assert heavier, "medium linen must change somewhere above its weight"
    for change in heavier:
        row = f"A;medium linen;100% linen;{change.at + 0.5:g}"
        typed = workshop(tmp_path, row, "Name;Cloth;Fibre content;Weight (g/m²)").fabrics[0]
        last = [c for c in heavier if c.topic == change.topic and c.at <= change.at][-1]
        assert typed.advice[change.topic].value == last.value


ELSEWHERE = {"TZ": "Pacific/Kiritimati", "LC_ALL": "tr_TR.UTF-8", "PYTHONOPTIMIZE": "2"}
"""What another computer may have set: another day, another alphabet, code without its asserts."""


def test_the_same_workbook_gives_the_same_bytes(tmp_path: Path) -> None:
    """Two builds in two processes, as on two computers, under another file name: every file the same to the byte."""
    sums = []
    for seed, environment in (("1", {"TZ": "UTC", "LC_ALL": "C"}), ("2", ELSEWHERE)):
        book, out = tmp_path / f"book {seed}.xlsx", tmp_path / seed
        shutil.copy(TOP / "workbooks" / "outerwear.xlsx", book)
        command = [sys.executable, "-m", "handouts", "build", str(book), "--out", str(out)]
        around = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(TOP), **environment}
        subprocess.run(command, check=True, capture_output=True, cwd=tmp_path, env=around)
        files = sorted(path for path in out.rglob("*") if path.is_file())
        sums.append({path.relative_to(out): hashlib.sha256(path.read_bytes()).hexdigest() for path in files})
    assert len(sums[0]) >= 15 and sums[0] == sums[1]


def test_hostile_names_stay_inside_the_folder(tmp_path: Path) -> None:
    """Codes that are paths become plain file names; codes that would collide get their row."""
    rows = (
        "../../etc;A;denim;100% cotton\nCON;B;denim;100% cotton\nLinen;C;denim;100% cotton\nlinen;D;denim;100% cotton"
    )
    built = pipeline.build(workshop(tmp_path, rows, "Code;Name;Cloth;Fibre content"), tmp_path / "out", kinds=["cards"])
    names = sorted(path.name for path in built.files)
    assert names == ["_con.pdf", "cards.pdf", "etc.pdf", "linen-5.pdf", "linen.pdf"]
    assert all(built.folder in path.parents for path in built.files)


def test_the_bolt_ends_iron_caps_the_advice(tmp_path: Path) -> None:
    """Linen whose bolt says warm iron: two dots, 150 °C, and the cell named; never hotter than the supplier allows."""
    found = workshop(
        tmp_path, "A;medium linen;100% linen;Warm iron, no steam", "Name;Cloth;Fibre content;Supplier care"
    )
    advice = found.fabrics[0].advice
    assert [advice[topic].value for topic in ("press_dots", "press_c", "iron_word", "steam")] == [
        2,
        150,
        "wool",
        "none",
    ]
    assert found.fabrics[0].facts["supplier_dots"].where.endswith("D2")


def test_a_cloth_that_must_not_be_wetted_gets_no_washing_advice(tmp_path: Path) -> None:
    """Acetate satin: the card says do not wet it, so the care line says do not wash; an acetate of another make may be washed."""
    fabrics = workshop(tmp_path, "A;acetate satin;100% acetate\nB;quilting cotton;100% cotton").fabrics
    assert any("wet" in line for line in fabrics[0].advice["pretreat"].value)
    assert [fabric.label.care[0].startswith("Washing: do not wash") for fabric in fabrics if fabric.label] == [
        True,
        False,
    ]
