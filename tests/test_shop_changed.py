"""A shop list built again: only what changed is printed, and nothing is worked out that the shop's pages do not print."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from handouts import knowledge, pages, pipeline
from handouts.cli import main
from handouts.errors import HandoutsError

SHOP = ["shop cards"]
HEAD = ["Code", "Name", "Cloth", "Fibre content", "Weight (g/m²)", "Price per metre", "Supplier care", "Origin"]
ROWS = [
    ["C01", "White voile", "cotton voile", "97% cotton, 3% elastane", 75, 10, "Machine wash 40 °C. Do not bleach.", "Portugal"],
    ["V1", "Red table vinyl", "vinyl", "PVC on 100% polyester", 340, 8, "", "Italy"],
    ["W1", "Grey flannel", "wool flannel", "100% wool", 280, 30, "Dry clean only", "Italy"],
]  # fmt: skip


def listed(folder: Path, *rows: list) -> Path:
    """A price list of these rows."""
    path = folder / "prices.csv"
    with path.open("w", encoding="utf-8", newline="") as stream:
        csv.writer(stream).writerows([HEAD, *(rows or ROWS)])
    return path


def built(book: Path, out: Path, since: Path | None = None) -> pipeline.Built:
    """Its shop pages."""
    return pipeline.build(pipeline.load_workshop(book, SHOP), out, kinds=SHOP, since=since)


def text(path: Path) -> str:
    """All words of a PDF."""
    return " ".join(re.sub(r"\s+", " ", page.extract_text()) for page in PdfReader(path).pages)


def named(path: Path) -> list[str]:
    """The rows whose names stand in a PDF."""
    return [row[0] for row in ROWS if row[1] in text(path)]


def test_one_change_prints_one_card_and_one_bolt_end(tmp_path: Path) -> None:
    """A dearer voile: its card and label; the shelf list is whole, for looking up."""
    first = built(listed(tmp_path), tmp_path / "one")
    assert {"shop-cards.pdf", "bolt-ends.pdf", "shelf-list.pdf", "shop-marks.json"} == {p.name for p in first.files}
    dearer = listed(tmp_path, [*ROWS[0][:5], 11, *ROWS[0][6:]], *ROWS[1:])
    again = built(dearer, tmp_path / "two", first.folder)
    assert [named(again.folder / f"{name}.pdf") for name in ("shop-cards", "bolt-ends")] == [["C01"], ["C01"]]
    assert (named(again.folder / "shelf-list.pdf"), again.unchanged) == (["C01", "V1", "W1"], 2)
    assert sorted(json.loads((again.folder / "shop-marks.json").read_text())) == ["C01", "V1", "W1"]


def test_no_change_prints_nothing_and_a_cloth_sold_out_only_the_list(tmp_path: Path) -> None:
    """What is gone leaves the shelf list; the others keep their cards."""
    first = built(listed(tmp_path), tmp_path / "one")
    same = built(listed(tmp_path), tmp_path / "two", first.folder)
    assert ([path.name for path in same.files], same.unchanged) == (["shop-marks.json"], 3)
    gone = built(listed(tmp_path, *ROWS[1:]), tmp_path / "three", first.folder)
    assert ([path.name for path in gone.files], gone.unchanged) == (["shelf-list.pdf", "shop-marks.json"], 2)


def test_the_screen_says_how_many_are_as_they_were(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`handouts build prices.csv --changed-since FOLDER`."""
    first = built(listed(tmp_path), tmp_path / "one")
    command = ["build", str(listed(tmp_path)), "--out", str(tmp_path / "two"), "--pages", "shop-cards"]
    assert main([*command, "--changed-since", str(first.folder)]) == 0
    assert f"3 of 3 shop cards say what they said in {first.folder}: not printed again." in capsys.readouterr().out


def test_a_folder_without_a_build_is_said_to_be_none(tmp_path: Path) -> None:
    """Also one whose marks are damaged."""
    for marks in (None, "[1]", "{"):
        if marks:
            (tmp_path / "shop-marks.json").write_text(marks)
        with pytest.raises(HandoutsError, match="holds no earlier build"):
            built(listed(tmp_path), tmp_path / "two", tmp_path)


def test_sparing_what_is_not_printed_changes_no_card(tmp_path: Path) -> None:
    """The same marks, whether likes, thresholds and “might” were worked out or not."""
    book = Path(__file__).parent.parent / "workbooks" / "shop-list.xlsx"
    spared, whole = pipeline.load_workshop(book, SHOP), pipeline.load_workshop(book)
    base = knowledge.load()
    assert pages.shop_marks(spared, base) == pages.shop_marks(whole, base)
    assert pages.shelf_list(spared, base) == pages.shelf_list(whole, base)
    assert not any(fabric.likes or fabric.changes for fabric in spared.fabrics)
    assert any(fabric.likes for fabric in whole.fabrics) and any(fabric.changes for fabric in whole.fabrics)
    assert any(fabric.likes for fabric in pipeline.load_workshop(book, [*SHOP, "cards"]).fabrics)


def test_check_and_build_say_the_same_of_care(tmp_path: Path) -> None:
    """A warm iron of the supplier on a cloth whose surface allows a cool one: known to `check` without a build."""
    rows = [
        ["A", "Foiled knit", "foiled swim knit", "82% polyamide, 18% elastane", 230, 9, "Wash 30. Warm iron.", ""],
        ["B", "Foiled knit 2", "foiled swim knit", "82% polyamide, 18% elastane", 230, 9, "Wash 30. Warm iron.", ""],
        ["C", "Plain", "cotton poplin", "100% cotton", 120, 9, "Wash 30. Warm iron.", ""],
    ]
    book = listed(tmp_path, *rows)

    def told(problems: tuple) -> list[str]:
        return sorted(str(found) for found in problems if found.code == "care-conflict")

    workshop = pipeline.load_workshop(book)
    checked, loaded = pipeline.check(book).problems, workshop.problems
    in_json = [found for fabric in workshop.fabrics if fabric.label for found in fabric.label.problems]
    assert told(tuple(in_json)) == told(loaded)
    assert told(checked) == told(loaded) and len(told(checked)) == 2
    assert {cell for found in checked if found.code == "care-conflict" for cell in found.cells} == {
        "prices!G2",
        "prices!G3",
    }
