"""The catalogue of findings: every sentence in one golden, every one of them shown by the troubled workbook.

To write the golden again after a change of sentences: UPDATE_GOLDENS=1 python -m pytest tests/test_workbook_problems.py
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from handouts import pipeline
from handouts.problems import SEVERITIES, Problem, catalogue

GOLDEN = Path(__file__).parent / "goldens" / "problems.txt"
TROUBLED = Path(__file__).parent.parent / "workbooks" / "troubled.xlsx"
CURE = "read the sentences aloud, then: UPDATE_GOLDENS=1 python -m pytest tests/test_workbook_problems.py"

NOT_IN_ONE_BOOK = {
    "advice-clash": "a clash of two rules of ours; a test of the knowledge finds none",
    "fabrics-missing": "nothing else could be shown",
    "fabrics-none": "nothing else could be shown",
    "column-missing": "the findings about that column could not be shown",
    "rows-cut": "takes 50,000 fabrics",
    "second-side": "found while pages are made",
    "card-too-small": "found while pages are made",
}


@pytest.fixture(scope="module")
def found() -> tuple[Problem, ...]:
    """What the troubled workbook draws."""
    return pipeline.load_workshop(TROUBLED).problems


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


def test_the_troubled_workbook_shows_every_finding(found: tuple[Problem, ...]) -> None:
    """Every kind that a workbook can draw and still be read; the others are named here with the reason."""
    readable = {code for code in catalogue() if not code.startswith("file-")}
    assert readable - {problem.code for problem in found} == set(NOT_IN_ONE_BOOK)


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
