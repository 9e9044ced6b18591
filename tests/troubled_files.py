"""A real file for every finding that no readable workbook draws: code → a function that makes it in a folder."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from handouts import pipeline
from handouts.problems import Problem
from tests.books import FABRIC, HEADINGS, make, packed, plain
from tests.hostile_books import STOPPED
from tests.old_books import container

LONG = "Lay it out on the longest table there is and walk round it before anybody cuts. "
RULES = [
    ["When", "Is", "Topic", "Advice"],
    *(["Cloth", "denim", "Needle point", point] for point in ("jeans", "sharp")),
]


def written(name: str, data: bytes) -> Callable[[Path], Path]:
    """A maker of a file with these bytes."""

    def maker(folder: Path) -> Path:
        (folder / name).write_bytes(data)
        return folder / name

    return maker


def sheets(**lines: Any) -> Callable[[Path], Path]:
    """A maker of a workbook with these sheets."""
    return lambda folder: make(folder / "b.xlsx", {title.replace("_", " "): rows for title, rows in lines.items()})


def directory(folder: Path) -> Path:
    """A folder under a workbook's name."""
    (folder / "folder.xlsx").mkdir()
    return folder / "folder.xlsx"


def held(folder: Path) -> Path:
    """A file that may be looked at and not be read, whoever asks: the memory of this process at address 0."""
    (folder / "held.xlsx").symlink_to("/proc/self/mem")
    return folder / "held.xlsx"


def cut(folder: Path) -> Path:
    """A workbook that lost its end."""
    return written("cut.xlsx", plain(folder).read_bytes()[:-40])(folder)


def renamed(folder: Path) -> Path:
    """A workbook called .csv."""
    return plain(folder).rename(folder / "b.csv")


def many(count: int) -> bytes:
    """A text file of so many fabrics."""
    return (",".join(HEADINGS) + "\n" + "".join(f"{n},denim,cotton\n" for n in range(count))).encode()


CHECKED: Mapping[str, Callable[[Path], Path]] = {
    "file-missing": lambda folder: folder / "none.xlsx",
    "file-folder": directory,
    "file-closed": held,
    "file-empty": written("empty.xlsx", b""),
    "file-too-big": lambda folder: STOPPED["two thousand parts"][0](plain(folder), folder / "big.xlsx"),
    "file-encrypted": written("locked.xlsx", container({"EncryptionInfo": b"x", "EncryptedPackage": b"y"})),
    "file-damaged": cut,
    "file-not-a-workbook": written("picture.xlsx", b"\x89PNG\r\n\x1a\n..."),
    "file-web-page": written("order.xls", b"<html><table><tr><td>Name</td></tr></table>"),
    "file-other-kind": written("b.xlsb", packed({"xl/workbook.bin": b"x"})),
    "file-renamed": renamed,
    "fabrics-missing": sheets(Letter=[["Dear Ann,"]]),
    "lines-in-one-cell": sheets(Stock=[["Name;Cloth;Fibre content"], ["Blue;denim;100% cotton"]]),
    "fabrics-none": sheets(Fabrics=[HEADINGS]),
    "column-missing": sheets(Fabrics=[HEADINGS[:2], FABRIC[:2]]),
    "rows-cut": written("long.csv", many(50_001)),
}
BUILT: Mapping[str, Callable[[Path], Path]] = {
    "advice-clash": sheets(Fabrics=[HEADINGS, FABRIC], House_rules=RULES),
    "second-side": sheets(Fabrics=[[*HEADINGS, "Notes"], [*FABRIC, LONG * 20]]),
    "card-too-small": sheets(
        Class=[["Setting", "Value"], ["Shop card", "85 x 55 mm"], ["Market", "EU"]],
        Fabrics=[[*HEADINGS, "Supplier care"], ["A long name of a cloth " * 20, *FABRIC[1:], LONG]],
    ),
}


def drawn_by_check(path: Path) -> set[str]:
    """The codes that `handouts check` has for a file."""
    return {found.code for found in pipeline.check(path).problems}


def drawn_by_build(path: Path, out: Path) -> set[str]:
    """The codes that `handouts build` has for a file."""
    workshop = pipeline.load_workshop(path)
    found: Iterable[Problem] = (*workshop.problems, *pipeline.build(workshop, out).problems)
    return {one.code for one in found}
