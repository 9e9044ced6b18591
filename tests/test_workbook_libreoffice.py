"""Round trips through a real spreadsheet program: what it saves reads and builds like what it opened.

Needs `soffice` (Debian: libreoffice-calc-nogui). Missing it is a skip here and a failure where CI=true, which installs it.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import openpyxl
import pandas.testing
import pytest

from handouts import pipeline, workbook
from handouts.records import Book
from tests.books import codes, words
from tests.renew_books import FOLDER

ALL_SHEETS_AS_CSV = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false,false,false,-1"
LIMIT_S = 240


@pytest.fixture(scope="module")
def saved(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder where the program saved the example class as .xlsx, .ods, .xls and .csv, and the starter as .xlsx."""
    program = needed("soffice", os.environ)
    folder = tmp_path_factory.mktemp("saved")
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    for kind, names in (("xlsx", ("outerwear", "starter")), ("ods", ("outerwear",)), ("xls", ("outerwear",))):
        books = [str(FOLDER / f"{name}.xlsx") for name in names]
        run(program, profile, "--convert-to", kind, "--outdir", str(folder), *books)
    run(program, profile, "--convert-to", ALL_SHEETS_AS_CSV, "--outdir", str(folder), str(FOLDER / "outerwear.xlsx"))
    return folder


def needed(program: str, environment: Mapping[str, str]) -> str:
    """Where a program is; without it the tests fail in CI and are skipped elsewhere."""
    found = shutil.which(program)
    if found is None:
        missing = f"{program} is not installed (Debian: libreoffice-calc-nogui)"
        pytest.fail(missing) if environment.get("CI") == "true" else pytest.skip(missing)
    return found


def test_a_missing_program_is_a_failure_in_ci_and_a_named_skip_elsewhere() -> None:
    """Both name the program and its package; .ci/run sets CI and installs it."""
    for environment, outcome in (({"CI": "true"}, pytest.fail.Exception), ({}, pytest.skip.Exception)):
        with pytest.raises(outcome, match=r"no-such-program is not installed \(Debian: libreoffice-calc-nogui\)"):
            needed("no-such-program", environment)
    steps = (FOLDER.parent / ".ci" / "run").read_text()
    assert "export CI=true" in steps and "need soffice libreoffice-calc-nogui" in steps


def run(program: str, *options: str) -> None:
    """One conversion."""
    subprocess.run([program, "--headless", *options], check=True, capture_output=True, timeout=LIMIT_S)


def read(path: Path) -> Book:
    """A book with the real drop-downs."""
    return workbook.read(path, words())


def advice(path: Path) -> Mapping[str, Any]:
    """What is advised for each fabric, by code and topic."""
    workshop = pipeline.load_workshop(path)
    return {fabric.code: {topic: one.value for topic, one in fabric.advice.items()} for fabric in workshop.fabrics}


@pytest.mark.parametrize("kind", ["xlsx", "ods", "xls"])
def test_saved_as_xlsx_ods_or_xls_it_reads_the_same(saved: Path, kind: str) -> None:
    """Every cell, every setting, every house rule and nothing new to say."""
    before, after = read(FOLDER / "outerwear.xlsx"), read(saved / f"outerwear.{kind}")
    for name in ("fabrics", "house", "supplies"):
        pandas.testing.assert_frame_equal(getattr(after, name), getattr(before, name))
    assert (after.settings, after.letters, codes(after)) == (before.settings, before.letters, codes(before))


@pytest.mark.parametrize("kind", ["xlsx", "ods", "xls"])
def test_saved_as_xlsx_ods_or_xls_it_builds_to_the_same_advice(saved: Path, kind: str) -> None:
    """Twelve fabrics, every topic."""
    before = advice(FOLDER / "outerwear.xlsx")
    assert len(before) == 12
    assert advice(saved / f"outerwear.{kind}") == before


def test_saved_as_csv_it_builds_to_the_same_advice(saved: Path, tmp_path: Path) -> None:
    """A text file holds one sheet: the same fabrics without settings and house rules."""
    csv = saved / "outerwear-Fabrics.csv"
    pandas.testing.assert_frame_equal(read(csv).fabrics, read(FOLDER / "outerwear.xlsx").fabrics)
    alone = openpyxl.load_workbook(FOLDER / "outerwear.xlsx")
    for title in ("Class", "House rules", "Supplies"):
        del alone[title]
    alone.save(tmp_path / "alone.xlsx")
    assert advice(csv) == advice(tmp_path / "alone.xlsx")


def test_drop_downs_and_messages_survive(saved: Path) -> None:
    """Every rule with its kind, its words by name, its message, and a warning rather than a stop."""
    before, after = (validations(path) for path in (FOLDER / "starter.xlsx", saved / "starter.xlsx"))
    assert len(before) > 60
    assert after == before


def validations(path: Path) -> dict[tuple[str, str], tuple[Any, ...]]:
    """(sheet, first cell) → what its rule says."""
    return {
        (sheet.title, str(rule.sqref).split(":")[0]): (
            rule.type or "any",
            str(rule.formula1 or "").lstrip("=") if rule.type == "list" else "",
            rule.prompt,
            rule.promptTitle,
            bool(rule.showInputMessage),
            rule.errorStyle,
        )
        for sheet in openpyxl.load_workbook(path).worksheets
        for rule in sheet.data_validations.dataValidation
    }


def test_the_lists_behind_the_drop_downs_survive(saved: Path) -> None:
    """Every name still leads to the same words."""
    before, after = (openpyxl.load_workbook(path) for path in (FOLDER / "starter.xlsx", saved / "starter.xlsx"))
    names = [name for name in before.defined_names if name.startswith("list_")]
    assert len(names) > 10
    for name in names:
        assert after.defined_names[name].attr_text.replace("'", "") == before.defined_names[name].attr_text
    assert [[c.value for c in row] for row in after["Lists"]] == [[c.value for c in row] for row in before["Lists"]]


def test_colours_survive_and_locks_and_text_formats(saved: Path) -> None:
    """Fills on headings and bands, conditional colours, locked headings, free cells, the format @ on needles."""
    before, after = (
        openpyxl.load_workbook(path)["Fabrics"] for path in (FOLDER / "starter.xlsx", saved / "starter.xlsx")
    )
    needle = next(cell.column for cell in before[1] if cell.value == "Needle")
    for row, column in ((1, 1), (1, needle), (3, 1), (3, needle), (2, 2)):
        one, other = before.cell(row, column), after.cell(row, column)
        assert other.fill.start_color.rgb[-6:] == one.fill.start_color.rgb[-6:]
        assert (other.protection.locked, other.number_format) == (one.protection.locked, one.number_format)
    assert after.protection.sheet
    assert colours(after) == colours(before)
    assert len(colours(before)) == 4


def colours(sheet: Any) -> list[str]:
    """The conditional formats as (area, formula) texts."""
    rules = ((area, rule) for area in sheet.conditional_formatting for rule in area.rules)
    return sorted(f"{str(area.sqref).split('2:')[0]} {rule.formula[0].replace(' ', '')}" for area, rule in rules)


def test_the_saved_starter_still_ignores_its_example(saved: Path) -> None:
    """The grey row is no fabric after a round trip either."""
    assert codes(read(saved / "starter.xlsx")) == ["fabrics-none"]
