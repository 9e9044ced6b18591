"""The commands: exit codes, what goes to stdout and what to stderr, and sentences instead of traces."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from handouts import cli, pipeline
from handouts.cli import main
from handouts.errors import KnowledgeError

BOOKS = Path(__file__).parent.parent / "workbooks"
SMALLEST = "Name,Cloth,Fibre content\nPale lawn,cotton lawn,100% cotton\n"


def small(folder: Path, text: str = SMALLEST) -> Path:
    """A workbook of one sheet, as text."""
    path = folder / "small.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_a_book_with_three_columns_builds(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Only Name, Cloth and Fibre content filled: exit 0, and the files are named on stdout."""
    assert main(["build", str(small(tmp_path)), "--out", str(tmp_path / "out")]) == 0
    assert "cards.pdf" in capsys.readouterr().out
    assert list((tmp_path / "out").glob("*/cards.pdf"))


def test_something_to_mend_builds_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """An unknown cloth: exit 1, a sentence with the cell on stderr, no file."""
    book = small(tmp_path, "Name,Cloth,Fibre content\nPale lawn,xyzzy,100% cotton\n")
    assert main(["build", str(book), "--out", str(tmp_path / "out")]) == 1
    said = capsys.readouterr()
    assert "B2" in said.err and "xyzzy" in said.err and said.out == ""
    assert not (tmp_path / "out").exists()


def test_checking_says_how_many(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`check` of a good book: exit 0."""
    assert main(["check", str(small(tmp_path))]) == 0
    assert "1 fabric read. 0 to mend" in capsys.readouterr().out


def test_a_code_that_is_not_on_the_list(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`--only` with an unknown code names the codes there are."""
    assert main(["build", str(small(tmp_path)), "--only", "W9", "--out", str(tmp_path)]) == 1
    assert "The codes are: F1." in capsys.readouterr().err


def test_a_page_type_that_does_not_exist(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`--pages` with an unknown type names the types there are."""
    assert main(["build", str(small(tmp_path)), "--pages", "posters", "--out", str(tmp_path)]) == 1
    assert "comparison" in capsys.readouterr().err


def test_only_some_pages(tmp_path: Path) -> None:
    """`--pages comparison` builds the comparison and nothing else."""
    assert main(["build", str(small(tmp_path)), "--pages", "comparison", "--out", str(tmp_path / "out")]) == 0
    made = {path.name for path in (tmp_path / "out").rglob("*") if path.is_file()}
    assert {"comparison.pdf", "comparison.xlsx"} <= made and "cards.pdf" not in made


def test_no_such_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A workbook that is not there: a sentence and exit 1."""
    assert main(["check", str(tmp_path / "nowhere.xlsx")]) == 1
    assert "nowhere.xlsx" in capsys.readouterr().err


def test_usage(capsys: pytest.CaptureFixture[str]) -> None:
    """No command: the help and exit 2; a wrong option: exit 2."""
    assert main([]) == 2
    assert "examples:" in capsys.readouterr().out
    with pytest.raises(SystemExit) as stopped:
        main(["build"])
    assert stopped.value.code == 2


def test_our_own_fault_is_said_to_be_ours(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A broken knowledge file or a bug: exit 3, no trace."""

    def broken(path: Path) -> None:
        raise KnowledgeError("fibres.toml: cotton: unknown key coulor")

    monkeypatch.setattr(pipeline, "check", broken)
    assert main(["check", str(small(tmp_path))]) == cli.OUR_BUG
    said = capsys.readouterr().err
    assert "not in your workbook" in said and "Traceback" not in said


def test_a_new_workbook_is_not_written_over_an_old_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`new` writes a workbook that checks clean, and refuses a path that is taken."""
    path = tmp_path / "class.xlsx"
    assert main(["new", str(path), "--example"]) == 0
    assert f"handouts build {path}" in capsys.readouterr().out
    assert main(["check", str(path)]) == 0
    assert main(["new", str(path)]) == 1
    assert "already there" in capsys.readouterr().err


def test_what_the_knowledge_covers(capsys: pytest.CaptureFixture[str]) -> None:
    """`check --knowledge` counts cloths and rules, and names no hole, no rule that never speaks, no source in vain."""
    assert main(["check", "--knowledge"]) == 0
    out = capsys.readouterr().out
    assert "cloths" in out and "Holes (a topic without a rule of its own for a structure): 0" in out
    assert "Sources never cited: 0" in out and re.search(r"^Rules never fired by any cloth.*: 0$", out, re.M)


@pytest.mark.parametrize("book", ["outerwear.xlsx", "outerwear-imperial.xlsx", "shop-list.xlsx"])
def test_every_example_builds(book: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`handouts build` on each example exits 0."""
    assert main(["build", str(BOOKS / book), "--out", str(tmp_path)]) == 0, capsys.readouterr().err


def test_the_troubled_book_does_not(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The troubled example: exit 1, at most twenty findings on screen, the rest counted, nothing written."""
    assert main(["build", str(BOOKS / "troubled.xlsx"), "--out", str(tmp_path)]) == 1
    lines = capsys.readouterr().err.splitlines()
    assert len([line for line in lines if "!" in line]) <= cli.ON_SCREEN and any("more." in line for line in lines)
    assert list(tmp_path.iterdir()) == []
