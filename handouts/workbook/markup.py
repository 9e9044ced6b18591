"""Reads markup as a stream: no tree in memory, no document types, so that nothing unfolds."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import IO
from xml.parsers import expat

from handouts.workbook.limits import FILE


@dataclass(frozen=True)
class Element:
    """One element by its local name, with the local name of the one around it."""

    name: str
    parent: str
    about: Mapping[str, str]


def parser(start: Callable[[str, dict[str, str]], None], end: Callable[[str], None]) -> expat.XMLParserType:
    """A parser that refuses document types (no spreadsheet program writes one) and endless nesting with ValueError."""
    depth = 0

    def refuse(*_: object) -> None:
        raise ValueError("document type")

    def deeper(name: str, about: dict[str, str]) -> None:
        nonlocal depth
        depth += 1
        if depth > FILE["most_depth"]:
            raise ValueError("nesting")
        start(name, about)

    def back(name: str) -> None:
        nonlocal depth
        depth -= 1
        end(name)

    made = expat.ParserCreate()
    made.buffer_text = True
    made.StartDoctypeDeclHandler = refuse
    made.StartElementHandler = deeper
    made.EndElementHandler = back
    return made


def parse(made: expat.XMLParserType, file: IO[bytes]) -> None:
    """Feeds a file to a parser, a piece at a time. Raises ExpatError for broken markup."""
    while piece := file.read(FILE["piece_bytes"]):
        made.Parse(piece, False)
    made.Parse(b"", True)


def elements(file: IO[bytes], names: Sequence[str]) -> list[Element]:
    """Every element with one of these local names, in document order."""
    found: list[Element] = []
    around: list[str] = []

    def start(name: str, about: dict[str, str]) -> None:
        bare = name.rpartition(":")[2]
        if bare in names:
            found.append(Element(bare, around[-1] if around else "", about))
            if len(found) > FILE["most_elements"]:
                raise ValueError("too many elements")
        around.append(bare)

    def end(_: str) -> None:
        around.pop()

    parse(parser(start, end), file)
    return found
