"""The catalogue of findings: every sentence in one golden, every one of them shown by the troubled workbook.

To write the golden again after a change of sentences: UPDATE_GOLDENS=1 python -m pytest tests/test_workbook_problems.py
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path

import openpyxl
import pytest

from handouts import pipeline
from handouts.cli import main
from handouts.problems import SEVERITIES, Problem, catalogue
from tests.troubled_files import BUILT, CHECKED, drawn_by_build, drawn_by_check

GOLDEN = Path(__file__).parent / "goldens" / "problems.txt"
TROUBLED = Path(__file__).parent.parent / "workbooks" / "troubled.xlsx"
CURE = "read the sentences aloud, then: UPDATE_GOLDENS=1 python -m pytest tests/test_workbook_problems.py"

OTHERS = "Other messages"


@pytest.fixture(scope="module")
def found() -> tuple[Problem, ...]:
    """What the troubled workbook draws."""
    return pipeline.check(TROUBLED).problems


def written_out() -> dict[str, tuple[str, str, str]]:
    """Title → sentence, mend and what draws it, as the troubled workbook's last sheet has them."""
    sheet = openpyxl.load_workbook(TROUBLED).worksheets[-1]
    assert sheet.title == OTHERS
    return {title: tuple(rest) for title, *rest in sheet.iter_rows(min_row=2, values_only=True)}


def sentences(found: tuple[Problem, ...]) -> Iterator[str]:
    """Every kind, worst first, with its sentence and, where the troubled workbook draws it, as somebody meets it."""
    met = {problem.code: problem for problem in reversed(found)}
    for kind in sorted(catalogue().values(), key=lambda kind: (SEVERITIES.index(kind.severity), kind.code)):
        yield f"{kind.severity} {kind.code}: {kind.title}"
        yield f"    {kind.sentence}"
        yield f"    {kind.mend}"
        if kind.code in met:
            yield f"    as in: {met[kind.code]}"
        yield ""


def test_every_sentence_is_as_read_aloud(found: tuple[Problem, ...]) -> None:
    """tests/goldens/problems.txt holds all of them."""
    fresh = "\n".join(sentences(found))
    if os.environ.get("UPDATE_GOLDENS"):
        GOLDEN.parent.mkdir(exist_ok=True)
        GOLDEN.write_text(fresh, encoding="utf-8")
    assert GOLDEN.read_text(encoding="utf-8") == fresh, CURE


def test_the_troubled_workbook_shows_every_message(found: tuple[Problem, ...]) -> None:
    """Each kind is drawn by `handouts check workbooks/troubled.xlsx` or written out on its last sheet, and never both."""
    drawn = {catalogue()[problem.code].title for problem in found}
    out = set(written_out())
    assert (drawn | out, drawn & out) == ({kind.title for kind in catalogue().values()}, set())
    assert len(drawn) > 70 and len(out) == len(CHECKED) + len(BUILT)


def test_the_last_sheet_says_what_the_catalogue_says_and_what_draws_it() -> None:
    """Sentence and mend are the catalogue's, filled; beside them stands the file that draws them."""
    kinds = {kind.title: kind for kind in catalogue().values()}
    for title, (sentence, mend, draws) in written_out().items():
        for text, pattern in ((sentence, kinds[title].sentence), (mend, kinds[title].mend)):
            assert re.fullmatch(".+".join(map(re.escape, re.split(r"\{\w+\}", pattern))), text), title
        assert draws.endswith((".", "by a build."))


@pytest.mark.parametrize("code", CHECKED)
def test_a_real_file_draws_what_no_readable_book_can(tmp_path: Path, code: str) -> None:
    """A file made here: locked, cut short, a picture, a list of 50,001 fabrics, …"""
    assert catalogue()[code].title in written_out()
    assert code in drawn_by_check(CHECKED[code](tmp_path))


@pytest.mark.parametrize("code", BUILT)
def test_a_real_build_draws_what_checking_does_not(tmp_path: Path, code: str) -> None:
    """Two house rules at odds, a card with too many words: said when the pages are made."""
    assert catalogue()[code].title in written_out()
    path = BUILT[code](tmp_path)
    assert code in drawn_by_build(path, tmp_path / "out") - drawn_by_check(path)


def test_at_most_twenty_findings_are_on_screen_and_the_rest_counted(capsys: pytest.CaptureFixture[str]) -> None:
    """All of them are found in one pass; the screen shows the worst twenty and the number of the others."""
    assert main(["check", str(TROUBLED)]) == 1
    *told, last = capsys.readouterr().err.splitlines()
    count = len(pipeline.check(TROUBLED).problems)
    assert (len(told), last.startswith(f"… and {count - 20} more.")) == (20, True)
    assert not any(line.startswith("note:") for line in told)


def test_every_kind_has_a_code_a_title_a_sentence_and_a_mend() -> None:
    """None is empty, no title stands twice, and the catalogue says what weighs how much."""
    kinds = catalogue()
    assert len(kinds) > 90 and len({kind.title for kind in kinds.values()}) == len(kinds)
    for code, kind in kinds.items():
        assert re.fullmatch(r"[a-z]+(-[a-z]+)*", code) and kind.code == code
        assert all((kind.title, kind.sentence, kind.mend)) and kind.severity in SEVERITIES


def test_findings_come_worst_first(found: tuple[Problem, ...]) -> None:
    """What a build waits for stands before what is only worth knowing."""
    ranks = [SEVERITIES.index(problem.severity) for problem in found]
    assert ranks == sorted(ranks) and len(set(ranks)) == 2


def test_every_sentence_ends_and_is_filled(found: tuple[Problem, ...]) -> None:
    """Full stop at the end, nothing left in braces, no doubled spaces."""
    for problem in found:
        text = f"{problem.message} {problem.mend}"
        assert re.search(r"[.?…”)]$", text), text
        assert not re.search(r"[{}]|  ", text), text


def test_every_finding_of_the_reader_names_its_cell(found: tuple[Problem, ...]) -> None:
    """Where, for somebody with the workbook open: a sheet that is there and a cell."""
    for problem in found:
        if not problem.code.startswith("label-"):
            assert problem.cells and all("!" in cell for cell in problem.cells), problem


def test_care_words_that_are_too_hot_are_told_in_their_own_cell(found: tuple[Problem, ...]) -> None:
    """The cell to mend is Supplier care, not Fibre content; a build says the same as a check."""
    for problems in (found, pipeline.load_workshop(TROUBLED).problems):
        assert {one.cells for one in problems if one.code == "care-conflict"} == {("My fabrics!U25",)}
