"""The workbooks that come with the project are fresh and build. The cure for a stale one: `python -m tests.renew_books`."""

from __future__ import annotations

from pathlib import Path

import pytest

from handouts import pipeline, workbook
from handouts.records import Workshop
from tests import renew_books
from tests.books import codes, content, words

CURE = "stale: run `python -m tests.renew_books`, look at it, commit"
BOOKS = renew_books.FOLDER


@pytest.fixture(scope="module")
def fresh() -> dict[str, bytes]:
    """What the folder should hold."""
    return workbook.example_books(words())


def test_the_folder_holds_these_workbooks_and_no_other(fresh: dict[str, bytes]) -> None:
    """No workbook too many, none missing."""
    assert sorted(path.name for path in BOOKS.glob("*.xlsx")) == sorted(fresh), CURE


def test_every_workbook_is_fresh(fresh: dict[str, bytes], tmp_path: Path) -> None:
    """Part by part, since packing depends on the machine's zlib."""
    for name, data in fresh.items():
        (tmp_path / name).write_bytes(data)
        assert content(BOOKS / name) == content(tmp_path / name), f"{name}: {CURE}"


def load(name: str) -> Workshop:
    """An example, read and advised."""
    return pipeline.load_workshop(BOOKS / name)


def test_the_example_class_has_twelve_cloths_and_nothing_to_mend() -> None:
    """Wools, pile, waxed, quilted, lining and knit, in both systems, with nothing to say about them."""
    for name in ("outerwear.xlsx", "outerwear-imperial.xlsx"):
        workshop = load(name)
        assert (len(workshop.fabrics), list(workshop.problems)) == (12, [])
    families = {family for fabric in workshop.fabrics for family in fabric.fact("families") or ()}
    assert {"wool"} <= {fibre for fabric in workshop.fabrics for fibre in fabric.content.fibres()}
    assert len(families) > 5


def test_both_copies_of_the_class_hold_the_same_cloths() -> None:
    """Inches and ounces are the same cloths within a part in a thousand; words are the same."""
    metric, imperial = (workbook.read(BOOKS / name, words()) for name in ("outerwear.xlsx", "outerwear-imperial.xlsx"))
    assert metric.fabrics.shape == imperial.fabrics.shape
    for key in metric.fabrics.columns:
        one, other = metric.fabrics[key].dropna().tolist(), imperial.fabrics[key].dropna().tolist()
        numbers = [value for value in one if isinstance(value, float)]
        assert (other == pytest.approx(one, rel=1e-3)) if numbers else (other == one), key


def test_the_class_shows_what_a_workbook_can_say() -> None:
    """Typed facts, a teacher's choices, tested settings, house rules, supplies and a full Class sheet."""
    book = workbook.read(BOOKS / "outerwear.xlsx", words())
    for key in (
        "weight_gsm",
        "needle",
        "seam_finish",
        "steam",
        "tested_needle",
        "tested_on",
        "repeat_cm",
        "supplier_care",
    ):
        assert book.fabrics[key].notna().any(), key
    assert (len(book.house), len(book.supplies)) == (3, 5)
    assert book.setting_cells.keys() >= book.settings.keys() - {
        "pages",
        "business",
        "shop_card",
        "shop_sheet",
        "symbols_right",
    }


def test_the_shop_list_has_sixty_cloths_with_prices() -> None:
    """Every one with a width and a price, no two of one code, nothing to mend."""
    workshop = load("shop-list.xlsx")
    assert (len(workshop.fabrics), [p for p in workshop.problems if p.severity != "note"]) == (60, [])
    assert all(fabric.fact("width_cm") and fabric.fact("price_per_m") for fabric in workshop.fabrics)


def test_the_starters_have_nothing_but_no_fabrics_yet() -> None:
    """An untouched starter says what to do first."""
    for name in ("starter.xlsx", "starter-imperial.xlsx"):
        assert codes(workbook.read(BOOKS / name, words())) == ["fabrics-none"]


def test_new_example_writes_the_class(tmp_path: Path) -> None:
    """`handouts new --example` is the committed class."""
    workbook.write_example(tmp_path / "x.xlsx", words())
    assert content(tmp_path / "x.xlsx") == content(BOOKS / "outerwear.xlsx"), CURE
