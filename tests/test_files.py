"""Files appear only when all of them are ready."""

from __future__ import annotations

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
