"""Files appear only when all of them are ready."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from handouts import files
from handouts.errors import HandoutsError


def names(folder: Path) -> list[str]:
    """Every file below a folder."""
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())


def test_all_files_are_placed(tmp_path: Path) -> None:
    """Files in folders, in the order given; nothing else is left behind."""
    done = files.place_all(tmp_path / "out", {"cards.pdf": b"1", "cards/a.pdf": b"2"})
    assert names(tmp_path / "out") == ["cards.pdf", "cards/a.pdf"]
    assert [path.read_bytes() for path in done] == [b"1", b"2"]


def test_a_failure_leaves_the_earlier_build_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When one file cannot be written, none is replaced."""
    files.place_all(tmp_path, {"a.pdf": b"old", "b.pdf": b"old"})
    good = Path.write_bytes

    def full_disk(self: Path, data: bytes) -> int:
        if self.name == "b.pdf":
            raise OSError(28, "No space left on device")
        return good(self, data)

    monkeypatch.setattr(Path, "write_bytes", full_disk)
    with pytest.raises(HandoutsError, match="No space"):
        files.place_all(tmp_path, {"a.pdf": b"new", "b.pdf": b"new"})
    assert names(tmp_path) == ["a.pdf", "b.pdf"]
    assert {path.read_bytes() for path in tmp_path.iterdir()} == {b"old"}


def test_cards_no_longer_made_go(tmp_path: Path) -> None:
    """A fabric taken off the list loses its card; other people's files stay."""
    files.place_all(tmp_path, {"cards/a.pdf": b"1", "cards/b.pdf": b"2"})
    (tmp_path / "my notes.txt").write_text("keep", encoding="utf-8")
    files.place_all(tmp_path, {"cards/a.pdf": b"3"})
    assert names(tmp_path) == ["cards/a.pdf", "my notes.txt"]
    files.place_all(tmp_path, {"cards/b.pdf": b"4"}, whole=False)
    assert names(tmp_path) == ["cards/a.pdf", "cards/b.pdf", "my notes.txt"]


def test_a_folder_that_cannot_be_made_is_a_sentence(tmp_path: Path) -> None:
    """A file where the folder should be: a sentence that says what to do."""
    (tmp_path / "out").write_text("", encoding="utf-8")
    with pytest.raises(HandoutsError, match="--out"):
        files.place_all(tmp_path / "out" / "class", {"a.pdf": b""})


def held(monkeypatch: pytest.MonkeyPatch, name: str, error: BaseException) -> None:
    """The file `name` cannot be moved out of its place, as when a viewer holds it open or somebody presses Ctrl-C."""
    good = os.replace

    def replace(path: Path, place: Path) -> None:
        if path.name == name and ".being-built-" not in str(path):
            raise error
        good(path, place)

    monkeypatch.setattr(os, "replace", replace)


@pytest.mark.parametrize("error", [PermissionError(13, "Permission denied", "b.pdf"), KeyboardInterrupt()])
@pytest.mark.parametrize("stuck", ["b.pdf", "gone.pdf"])
def test_a_file_that_cannot_be_moved_brings_all_others_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, stuck: str, error: BaseException
) -> None:
    """One file open in a viewer, or Ctrl-C between two files: the folder is as it was, without the new files."""
    before = {"a.pdf": b"old", "b.pdf": b"old", "cards/gone.pdf": b"old"}
    files.place_all(tmp_path, before)
    held(monkeypatch, stuck, error)
    with pytest.raises(HandoutsError if isinstance(error, OSError) else KeyboardInterrupt):
        files.place_all(tmp_path, {"new.pdf": b"new", "a.pdf": b"new", "b.pdf": b"new"})
    assert {name: (tmp_path / name).read_bytes() for name in names(tmp_path)} == before


@pytest.mark.parametrize(("taken", "is_folder"), [("cards.pdf", True), ("cards", False)])
def test_a_folder_where_a_file_should_be(tmp_path: Path, taken: str, is_folder: bool) -> None:
    """A folder called cards.pdf, a file called cards: a sentence that names it, what is in it stays, nothing new is there."""
    kept = tmp_path / taken / "mine.txt" if is_folder else tmp_path / taken
    kept.parent.mkdir(exist_ok=True)
    kept.write_bytes(b"mine")
    with pytest.raises(HandoutsError, match=f"{taken}: .*Nothing was changed"):
        files.place_all(tmp_path, {"binder.pdf": b"", "cards.pdf": b"", "cards/a.pdf": b""})
    assert names(tmp_path) == [kept.relative_to(tmp_path).as_posix()]


def test_another_build_may_take_a_file_away_meanwhile(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two builds at once: the older file is gone by the time it should be moved, and both end well."""
    files.place_all(tmp_path, {"a.pdf": b"old"})
    good = os.replace

    def replace(path: Path, place: Path) -> None:
        if ".being-built-" not in str(path):
            path.unlink()
        good(path, place)

    monkeypatch.setattr(os, "replace", replace)
    files.place_all(tmp_path, {"a.pdf": b"new"})
    assert (tmp_path / "a.pdf").read_bytes() == b"new"
