"""Workbooks made to do harm: a sentence each, no trace, never more than 500 MB, never a file outside the folder.

What the unguarded libraries do with these: printing_facts D1 to D8 (a bomb of 927 KB held 1.7 GB; a forged place ends the
process).
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from handouts import workbook
from handouts.cli import main
from tests.books import FABRIC, HEADINGS, codes, make, plain, with_parts, with_rows
from tests.hostile_books import CELL, OTHERS, READ, STOPPED
from tests.read_books import read_apart

MOST_MB = 500


WANTED = {
    **{name: said for name, (_, said) in READ.items()},
    **{name: [said] for name, (_, said) in (STOPPED | OTHERS).items()},
}


@pytest.fixture(scope="module")
def came(tmp_path_factory: pytest.TempPathFactory) -> dict[str, dict[str, Any]]:
    """What came of reading and marking each hostile workbook, one after the other in one process of its own."""
    folder = tmp_path_factory.mktemp("hostile")
    source = plain(folder)
    paths = [build(source, folder / f"{n}.xlsx") for n, (build, _) in enumerate([*READ.values(), *STOPPED.values()])]
    paths += [build(folder) for build, _ in OTHERS.values()]
    return dict(zip(WANTED, read_apart(*paths, mark=True), strict=True))


@pytest.mark.parametrize("name", WANTED)
def test_a_hostile_workbook_is_read_or_refused_in_a_sentence(came: dict[str, dict[str, Any]], name: str) -> None:
    """The finding it should draw, in little time, nothing on stderr."""
    assert [code for code in came[name]["codes"] if not code.endswith("-missing")] == WANTED[name]
    assert came[name]["seconds"] < 30


def test_no_hostile_workbook_takes_more_than_500_mb(came: dict[str, dict[str, Any]]) -> None:
    """The most that the process held while it read and marked all of them."""
    assert len(came) > 25
    assert max(one["peak_mb"] for one in came.values()) < MOST_MB


@pytest.mark.parametrize("build", [build for build, _ in STOPPED.values()], ids=list(STOPPED))
def test_a_hostile_file_is_a_sentence_and_exit_1(
    build: Callable[[Path, Path], Path], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """`handouts check` and `handouts build`: one line on stderr that names the file, no trace, nothing written."""
    path = build(plain(tmp_path), tmp_path / "bad.xlsx")
    before = sorted(tmp_path.rglob("*"))
    assert (main(["check", str(path)]), main(["build", str(path), "--out", str(tmp_path / "out")])) == (1, 1)
    told = capsys.readouterr().err.splitlines()
    assert told[0].startswith("bad.xlsx ") and len(told) == 3
    assert sorted(tmp_path.rglob("*")) == before


def test_the_biggest_list_that_is_read_stays_under_500_mb(tmp_path: Path) -> None:
    """1,900,000 filled cells: within the limits, read, and said to be cut."""
    rows = "".join(
        f'<row r="{n}">{"".join(CELL.format(f"{letter}{n}") for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ")}</row>'
        for n in range(3, 73_000)
    )
    (came,) = read_apart(with_rows(plain(tmp_path), tmp_path / "b.xlsx", rows), mark=True)
    assert (came["fabrics"], "rows-cut" in came["codes"]) == (50_000, True)
    assert came["peak_mb"] < MOST_MB


def test_names_with_paths_in_them_write_nowhere(tmp_path: Path) -> None:
    """A sheet, a code and a file with a path for a name: read as texts, and the marked copy lands where it was asked for."""
    path = make(
        tmp_path / "b.xlsx",
        {"Fabrics": [["Code", *HEADINGS], ["../../../tmp/x", *FABRIC], ["/etc/passwd", "", "", ""]]},
    )
    renamed = with_parts(
        path, tmp_path / "c.xlsx", {"xl/workbook.xml": lambda xml: xml.replace(b'"Fabrics"', b'"../..\\x"')}
    )
    before = sorted(tmp_path.rglob("*"))
    book = workbook.read(renamed)
    assert (book.fabrics["code"].tolist(), book.titles["fabrics"]) == (["../../../tmp/x", "/etc/passwd"], "../..\\x")
    workbook.write_marked(renamed, tmp_path / "copy.xlsx", book.problems)
    assert sorted(tmp_path.rglob("*")) == sorted([*before, tmp_path / "copy.xlsx"])


def test_signs_that_turn_the_line_do_not_reach_the_screen(tmp_path: Path) -> None:
    """Bidi and control characters in names of files, sheets, headings and cells are left out of every message."""
    path = make(
        tmp_path / "a.xlsx", {"Fabrics": [[*HEADINGS, "N\u202eap"], ["", "denim\u2066", "100% cotton", "\u202ebrused"]]}
    )
    strange = tmp_path / "ev\u202eil\x07.csv"
    strange.write_bytes(path.read_bytes())
    told = " ".join(map(str, workbook.read(strange).problems))
    assert told and not set(told) & set("\u202e\u2066\x07")


def test_every_cell_may_hold_32767_characters(tmp_path: Path) -> None:
    """The longest cell in every column and in the headings: cut, asked about, never a trace."""
    long = "x" * 32_767
    path = make(tmp_path / "b.xlsx", {"Fabrics": [[*HEADINGS, "Weight (g/m²)", "Needle", long], [long] * 6]})
    book = workbook.read(path)
    assert {"text-cut", "number-unreadable", "needle-unreadable"} <= set(codes(book))
    assert all(len(str(found)) < 900 for found in book.problems)
    workbook.write_marked(path, tmp_path / "copy.xlsx", book.problems)


@pytest.mark.parametrize("ending", [".xlsx", ".ods", ".xls", ".csv"])
def test_a_mutated_file_still_gets_its_marked_copy(tmp_path: Path, ending: str) -> None:
    """Whatever the reader makes of it, the copy lists the findings."""
    data = plain(tmp_path).read_bytes()
    for cut in (10, 400, len(data) - 40):
        path = tmp_path / f"cut{ending}"
        path.write_bytes(data[:cut])
        workbook.write_marked(path, tmp_path / "copy.xlsx", workbook.read(path).problems)
        assert workbook.read(tmp_path / "copy.xlsx").problems[0].code == "fabrics-missing"
