"""Files that appear only when all of them are ready: written aside first, then moved into place."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path

from handouts.errors import HandoutsError


def place_all(folder: Path, made: Mapping[str, bytes], whole: bool = True) -> list[Path]:
    """Writes `made` (path inside the folder → bytes) into `folder`, all or nothing; the finished paths, in order.

    whole: the files are everything the folder should hold, so cards of an earlier build that are no longer made go.
    Raises HandoutsError when the folder cannot be written or a file is open in a program that locks it.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        aside = Path(tempfile.mkdtemp(prefix=".being-built-", dir=folder))
    except OSError as error:
        raise HandoutsError(
            f"Cannot write into {folder}: {error.strerror}. Choose another folder with --out."
        ) from error
    try:
        for name, content in made.items():
            write(inside(aside, name), content)
        finished = [move(aside / name, inside(folder, name)) for name in made]
        if whole:
            drop_earlier(folder, {folder / name for name in made})
        return finished
    finally:
        shutil.rmtree(aside, ignore_errors=True)


def write(path: Path, content: bytes) -> None:
    """Writes one file aside."""
    try:
        path.write_bytes(content)
    except OSError as error:
        raise HandoutsError(f"Cannot write {path.name}: {error.strerror}. Nothing was changed.") from error


def inside(folder: Path, name: str) -> Path:
    """The path of `name` in the folder, its own folder made."""
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    return path


def move(ready: Path, place: Path) -> Path:
    """Moves a finished file into place, over an older one."""
    try:
        os.replace(ready, place)
    except OSError as error:
        raise HandoutsError(
            f"Cannot replace {place}: {error.strerror}. If it is open in a viewer, close it and build again."
        ) from error
    return place


def drop_earlier(folder: Path, kept: set[Path]) -> None:
    """Removes the single cards of an earlier build that this one did not make."""
    for card in sorted((folder / "cards").glob("*.pdf")):
        if card not in kept:
            card.unlink()
