"""How a run ends when something outside goes wrong: a sentence, the right exit code, nothing half-written."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from handouts.cli import main

BOOKS = Path(__file__).parent.parent / "workbooks"
ROWS = "Name,Cloth,Fibre content\nPale lawn,cotton lawn,100% cotton\n"
COMMAND = (sys.executable, "-m", "handouts")


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A workbook of one fabric, as text."""
    path = tmp_path / "small.csv"
    path.write_text(ROWS, encoding="utf-8")
    return path


def ran(*words: str | Path, code: str = "", **environment: str) -> subprocess.CompletedProcess[bytes]:
    """A command in a process of its own; `code` instead of `-m handouts`."""
    start = (sys.executable, "-c", code) if code else COMMAND
    return subprocess.run([*start, *map(str, words)], capture_output=True, env={**os.environ, **environment})


@pytest.mark.parametrize("locale", [{"LC_ALL": "C", "PYTHONUTF8": "0"}, {"PYTHONIOENCODING": "cp1252"}])
def test_words_are_the_same_in_every_locale(book: Path, locale: dict[str, str]) -> None:
    """`explain` into a file: a locale without ⅝ or °, Windows' own code page: UTF-8 all the same, exit 0."""
    plain, other = ran("explain", book), ran("explain", book, **locale)
    assert "⅝" in plain.stdout.decode(), "the text must hold a sign that code pages lack"
    assert (other.returncode, other.stdout, other.stderr) == (0, plain.stdout, plain.stderr)


@pytest.mark.parametrize("at_once", ["", "1"], ids=["held back", "at once"])
@pytest.mark.parametrize("words", [["check", "small.csv"], ["explain", "small.csv"], ["--help"], []])
def test_a_reader_who_has_heard_enough_is_no_fault(book: Path, words: list[str], at_once: str) -> None:
    """`handouts explain BOOK | head -1`: no complaint; exit 0, also when all was still waiting to be read."""
    process = subprocess.Popen(
        [*COMMAND, *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=book.parent,
        env=here() | {"PYTHONUNBUFFERED": at_once},
    )
    assert process.stdout and process.stderr
    process.stdout.close()
    said = process.stderr.read()
    process.stderr.close()
    assert (process.wait(), said) == (0, b"")


def here() -> dict[str, str]:
    """An environment in which `-m handouts` works from another folder."""
    return {**os.environ, "PYTHONPATH": str(BOOKS.parent)}


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
@pytest.mark.parametrize("words", [["check", "small.csv"], ["explain", "small.csv"]])
def test_a_full_disk_behind_stdout_is_said(book: Path, words: list[str]) -> None:
    """`handouts explain BOOK > full`: one sentence, exit 1, no trace."""
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run([*COMMAND, *words], stdout=full, stderr=subprocess.PIPE, cwd=book.parent, env=here())
    assert (done.returncode, done.stderr.decode()) == (1, "The computer refuses: No space left on device.\n")


def test_no_screen_at_all(book: Path) -> None:
    """Stdout and stderr closed, as when a program starts it: it still ends with its exit code."""
    closed = "import os, sys; sys.stdout = sys.stderr = None; from handouts.cli import run; run()"
    assert ran("check", book, code=closed).returncode == 0
    assert ran("check", BOOKS / "troubled.xlsx", code=closed).returncode == 1


@pytest.mark.parametrize(("sign", "code", "said"), [(signal.SIGINT, 130, "Stopped."), (signal.SIGTERM, 143, "")])
def test_stopped_in_the_middle_of_writing(tmp_path: Path, sign: signal.Signals, code: int, said: str) -> None:
    """Ctrl-C, or the end from outside, while files are written: the right code, and not a file or folder of it is left."""
    slow = (
        "import time; from handouts import files; from handouts.cli import run\n"
        "good = files.write\n"
        "def write(path, content):\n"
        "    good(path, content); print('writing', flush=True); time.sleep(60)\n"
        "files.write = write; run()"
    )
    out = tmp_path / "out"
    words = ["build", str(BOOKS / "outerwear.xlsx"), "--out", str(out), "--pages", "comparison"]
    process = subprocess.Popen(
        [sys.executable, "-c", slow, *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=here()
    )
    assert process.stdout and process.stdout.readline() == b"writing\n"
    process.send_signal(sign)
    _, complaint = process.communicate(timeout=30)
    assert (process.returncode, complaint.decode().startswith(said), b"Traceback" in complaint) == (code, True, False)
    assert [path for path in out.rglob("*") if path.is_file() or path.name.startswith(".")] == []


def test_two_builds_at_once_end_well(book: Path, tmp_path: Path) -> None:
    """The same class built twice at the same time: both exit 0, every file whole, nothing of the work left over."""
    words = [*COMMAND, "build", "small.csv", "--out", "out"]
    both = [subprocess.Popen(words, cwd=tmp_path, env=here(), stdout=subprocess.PIPE) for _ in range(2)]
    told = [process.communicate()[0].decode().splitlines() for process in both]
    assert [process.returncode for process in both] == [0, 0] and told[0] == told[1]
    named = {tmp_path / line for line in told[0][:-1]}
    assert named == {path for path in (tmp_path / "out").rglob("*") if path.is_file()}
    assert main(["build", str(book), "--out", str(tmp_path / "alone")]) == 0
    assert all(
        path.read_bytes() == (tmp_path / "alone" / path.relative_to(tmp_path / "out")).read_bytes() for path in named
    )


def test_no_room_on_the_disk(book: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """A disk that fills up while files are written: the reason, exit 1, no file."""

    def full(path: Path, content: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert main(["build", str(book), "--out", str(book.parent / "out")]) == 1
    assert "No space left on device. Nothing was changed." in capsys.readouterr().err
    assert list((book.parent / "out").rglob("*.*")) == []


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (["check", "x" * 300 + ".xlsx"], 1, "File name too long"),
        (["build", ""], 1, "is a folder"),
        (["build", "small.csv", "--out", "small.csv"], 1, "--out"),
        (["build", "small.csv", "--out", "x" * 300], 1, "--out"),
        (["build", "small.csv", "--only", "F1", "f1", "W9"], 1, "No fabric has the code W9. The codes are: F1."),
        (["build", "small.csv", "--pages", "cards", "posters"], 1, "No page type is called posters."),
        (["build", "small.csv", "--changed-since", "nowhere"], 1, "nowhere holds no earlier build"),
        (["build", r"C:\Users\me\class.xlsx"], 1, r"C:\Users\me\class.xlsx"),
        (["explain", "small.csv", "F1", "petrol"], 1, "No topic is called petrol."),
        (["explain", "small.csv", "W9"], 1, "The codes are: F1."),
        (["new", "class"], 1, "call it class.xlsx"),
        (["new", "class.xls"], 1, "call it class.xlsx"),
        (["new", "small.csv"], 1, "already there"),
        (["new", "."], 1, "already there"),
        (["new", "nowhere/class.xlsx"], 1, "No such file or directory"),
        (["check"], 2, "Which workbook?"),
    ],
)
def test_a_sentence_and_the_right_code(
    book: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    words: list[str],
    code: int,
    said: str,
) -> None:
    """What a person may type wrongly: told in words that name it, never as our own fault; no file is made."""
    monkeypatch.chdir(book.parent)
    assert main(words) == code
    told = capsys.readouterr().err
    assert said in told and "handouts itself" not in told and told == told.lstrip()
    assert [path.name for path in book.parent.iterdir()] == ["small.csv"]
