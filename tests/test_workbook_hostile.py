"""Workbooks made to do harm: a sentence each, no trace, never more than 500 MB, never a file outside the folder.

What the unguarded libraries do with these: printing_facts D1 to D8 (a bomb of 927 KB held 1.7 GB; a forged place ends the
process).
"""

from __future__ import annotations

from pathlib import Path

import pytest

from handouts import workbook
from tests.books import FABRIC, HEADINGS, codes, make, plain, with_parts, with_rows
from tests.hostile_books import CELL, OTHERS, READ, STOPPED
from tests.read_books import read_apart

MOST_MB = 500


def test_hostile_workbooks_are_read_or_refused_in_a_sentence(tmp_path: Path) -> None:
    """Each with the finding it should draw, in little time, all of them under 500 MB, nothing on stderr."""
    source = plain(tmp_path)
    wanted = {
        name: (build(source, tmp_path / f"{n}.xlsx"), said) for n, (name, (build, said)) in enumerate(READ.items())
    }
    stops = {
        name: (build(source, tmp_path / f"s{n}.xlsx"), [said])
        for n, (name, (build, said)) in enumerate(STOPPED.items())
    }
    others = {name: (build(tmp_path), [said]) for name, (build, said) in OTHERS.items()}
    cases = {**wanted, **stops, **others}
    came = read_apart(*(path for path, _ in cases.values()), mark=True)
    found = {
        name: [code for code in one["codes"] if not code.endswith("-missing")]
        for name, one in zip(cases, came, strict=True)
    }
    assert found == {name: said for name, (_, said) in cases.items()}
    assert max(one["peak_mb"] for one in came) < MOST_MB
    assert max(one["seconds"] for one in came) < 30
    assert len(came) > 25


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
