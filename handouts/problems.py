"""Findings in a workbook, for the person who filled it. The sentences live in problems.toml, one record per kind."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from string import Formatter

from handouts.errors import KnowledgeError
from handouts.places import PACKAGE

SEVERITIES = ("stop", "mend", "note")
"""Worst first. `stop`: the file cannot be read. `mend`: a build waits for it. `note`: built all the same."""


@dataclass(frozen=True)
class Kind:
    """One kind of finding: `sentence` and `mend` hold the {fields} a Problem fills."""

    code: str
    severity: str
    title: str
    sentence: str
    mend: str


@dataclass(frozen=True)
class Problem:
    """One finding: its kind's code, the cells it is about (`Fabrics!F4`), the full sentence and the way to mend it."""

    code: str
    severity: str
    cells: tuple[str, ...]
    message: str
    mend: str

    def __str__(self) -> str:
        where = ", ".join(self.cells)
        return " ".join(part for part in (f"{where}:" if where else "", self.message, self.mend) if part)


@cache
def catalogue() -> dict[str, Kind]:
    """Every kind of finding by code. Raises KnowledgeError naming the record and key that is wrong."""
    with (PACKAGE / "problems.toml").open("rb") as file:
        records = tomllib.load(file)
    kinds = {}
    for code, record in records.items():
        if set(record) != {"severity", "title", "sentence", "mend"} or record["severity"] not in SEVERITIES:
            raise KnowledgeError(
                f"problems.toml: {code}: needs severity ({', '.join(SEVERITIES)}), title, sentence, mend"
            )
        kinds[code] = Kind(code=code, **record)
    return kinds


def problem(code: str, *cells: str, **found: object) -> Problem:
    """A Problem of the kind `code` about `cells`; `found` fills the fields of its sentences."""
    kind = catalogue()[code]
    return Problem(code, kind.severity, cells, kind.sentence.format(**found), kind.mend.format(**found))


def fields(code: str) -> set[str]:
    """The {fields} that the sentences of `code` need."""
    kind = catalogue()[code]
    return {name for _, name, _, _ in Formatter().parse(kind.sentence + kind.mend) if name}


def worst_first(problems: list[Problem]) -> list[Problem]:
    """The same findings, `stop` before `mend` before `note`, otherwise in the order they were found."""
    return sorted(problems, key=lambda p: SEVERITIES.index(p.severity))
