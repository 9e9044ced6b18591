"""Files that appear only when all of them are ready: written aside first, then moved into place."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterable, Mapping
from errno import EISDIR
from pathlib import Path

from handouts.errors import HandoutsError


def place_all(folder: Path, made: Mapping[str, bytes], whole: bool = True) -> list[Path]:
    """Writes `made` (path inside the folder → bytes) into `folder`, all or nothing; the finished paths, in order.

    whole: the files are everything the folder should hold, so cards of an earlier build that are no longer made go.
    Raises HandoutsError when the folder cannot be written or a file is open in a program that locks it.
    """
    aside = room_in(folder)
    try:
        for name, content in made.items():
            write(aside / "new" / name, content)
        swap(folder, aside, made, earlier(folder, made) if whole else ())
        return [folder / name for name in made]
    finally:
        shutil.rmtree(aside, ignore_errors=True)


def room_in(folder: Path) -> Path:
    """A new hidden folder inside `folder`, on the same disk, to work in."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        return Path(tempfile.mkdtemp(prefix=".being-built-", dir=folder))
    except OSError as error:
        raise HandoutsError(
            f"Cannot write into {folder}: {error.strerror}. Choose another folder with --out."
        ) from error


def write(path: Path, content: bytes) -> None:
    """Writes one file aside."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    except OSError as error:
        raise HandoutsError(f"Cannot write {path.name}: {error.strerror}. Nothing was changed.") from error


def earlier(folder: Path, made: Mapping[str, bytes]) -> list[str]:
    """The single cards of an earlier build that this one did not make."""
    cards = (card for card in sorted((folder / "cards").glob("*.pdf")) if card.is_file())
    names = [card.relative_to(folder).as_posix() for card in cards]
    return [name for name in names if name not in made]


def swap(folder: Path, aside: Path, made: Iterable[str], stale: Iterable[str]) -> None:
    """Moves old files out and new ones in; when one cannot be moved (or somebody presses Ctrl-C), all go back."""
    new, old = aside / "new", aside / "old"
    steps = [step for name in made for step in ((folder / name, old / name), (new / name, folder / name))]
    steps += [(folder / name, old / name) for name in stale]
    begun: list[tuple[Path, Path]] = []
    try:
        for path, place in steps:
            begun.append((path, place))
            move(path, place)
    except BaseException:
        for path, place in reversed(begun):
            if not path.exists():
                move(place, path)
        raise


def move(path: Path, place: Path) -> None:
    """Moves a file, over an older one; where there is none to move, nothing happens."""
    try:
        if path.is_dir():
            raise IsADirectoryError(EISDIR, os.strerror(EISDIR), str(path))
        if path.exists():
            place.parent.mkdir(parents=True, exist_ok=True)
            os.replace(path, place)
    except FileNotFoundError:
        if path.exists():
            raise  # else another build has just taken it away
    except OSError as error:
        raise HandoutsError(
            f"Cannot replace {path.name}: {error.filename}: {error.strerror}. "
            "If it is open in a viewer, close it and build again. Nothing was changed."
        ) from error
