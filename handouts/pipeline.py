"""From a workbook to finished files: the only file that knows all the parts."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from handouts import advice, knowledge, labelling, workbook
from handouts.model import Cloth, Construction, Knowledge, Rule, Value
from handouts.problems import Problem, problem, worst_first
from handouts.records import Book, Content, Fabric, Fact, Tested, Workshop

WEIGHT_REACH = 2.5
"""How far from its own weight a card looks for changes, as a factor: beyond it the cloth is another cloth."""


@dataclass(frozen=True)
class Entry:
    """One row of the Fabrics sheet, read and resolved, before any advice."""

    row: int
    code: str
    name: str
    cells: Mapping[str, Value]
    item: Cloth | Construction
    content: Content
    facts: Mapping[str, Fact]
    choices: Sequence[Rule]


def load_workshop(path: Path) -> Workshop:
    """The class or shop list in a workbook, every fabric advised. What is wrong with it stands in `problems`."""
    base = knowledge.load()
    book = workbook.read(path, vocabularies(base))
    entries, problems = read_entries(book, base)
    house, house_problems = read_house(book, base)
    fabrics = advise_entries(entries, base, book.settings, house)
    found = [
        *book.problems,
        *problems,
        *house_problems,
        *clashes(fabrics, base),
        *(p for f in fabrics if f.label for p in f.label.problems),
    ]
    supplies = tuple(filled(row) for _, row in rows_of(book.supplies))
    return Workshop(
        slug(str(book.settings.get("title") or path.stem)),
        book.settings,
        tuple(fabrics),
        tuple(worst_first(found)),
        supplies,
    )


def vocabularies(base: Knowledge) -> dict[str, tuple[str, ...]]:
    """The word lists that the workbook offers in drop-downs and checks against."""
    needles = [f"{point} {nm}" for point in base.needles.points for nm in base.needles.us_size if 60 <= nm <= 120]
    return {
        "cloths": tuple(sorted({item.name for item in (*base.cloths.values(), *base.constructions.values())})),
        "fibres": tuple(sorted({fibre.eu for fibre in base.fibres.values()})),
        "needles": tuple(needles),
        "finishes": tuple(base.topics["seam_finish"].order),
        "topics": tuple(topic.title for topic in base.topics.values()),
    }


def rows_of(frame: Any) -> Iterable[tuple[int, Mapping[str, Value]]]:
    """A frame's rows as (sheet row number, values)."""
    return zip((int(n) for n in frame.index), frame.to_dict("records"), strict=True)


def filled(row: Mapping[str, Value]) -> dict[str, Value]:
    """Only the cells that hold something."""
    import pandas as pd

    return {
        key: value
        for key, value in row.items()
        if not (value is None or value is pd.NA or value != value or value == "")
    }


def read_entries(book: Book, base: Knowledge) -> tuple[list[Entry], list[Problem]]:
    """Every row that names a cloth we know, and what is wrong with the others."""
    entries: list[Entry] = []
    problems: list[Problem] = []
    for place, (number, row) in enumerate(rows_of(book.fabrics), start=1):
        entry, found = read_entry(filled(row), number, place, lambda key, n=number: book.cell("fabrics", key, n), base)  # type: ignore[misc]
        problems += found
        if entry:
            entries.append(entry)
    return entries, problems


def read_entry(
    cells: Mapping[str, Value], number: int, place: int, cell: Callable[[str], str], base: Knowledge
) -> tuple[Entry | None, list[Problem]]:
    """One row, with its cloth and fibre content understood; None when nobody knows what cloth it is."""
    item, problems = read_cloth(cells, cell, base)
    content, found = read_content(cells, "fibre_content", cell, base)
    trim, more = read_content(cells, "trim_fibres", cell, base)
    problems += [*found, *more]
    if "fibre_content" not in cells and cells.get("cloth"):
        problems.append(problem("content-missing", cell("fibre_content")))
    if "name" not in cells:
        problems.append(problem("name-missing", cell("name")))
    if item is None:
        return None, problems
    facts = advice.facts_of(cells, cell, item, content, base, trim)
    name = str(cells.get("name", item.name))
    return Entry(
        number,
        str(cells.get("code", f"F{place}")),
        name,
        cells,
        item,
        content,
        facts,
        advice.choices(cells, cell, base),
    ), problems


def read_cloth(
    cells: Mapping[str, Value], cell: Callable[[str], str], base: Knowledge
) -> tuple[Cloth | Construction | None, list[Problem]]:
    """The cloth a row names, and the finding when it is missing, unknown or only guessed."""
    if "cloth" not in cells:
        return None, [problem("cloth-missing", cell("cloth"))]
    said = str(cells["cloth"])
    found = advice.find_cloth(said, base)
    if found.item is None:
        proposal = f"Did you mean {' or '.join(found.proposals)}? " if found.proposals else ""
        return None, [problem("cloth-unknown", cell("cloth"), found=said, proposal=proposal)]
    if not found.sure:
        return found.item, [problem("cloth-read-as", cell("cloth"), found=said, cloth=found.item.name)]
    return found.item, []


def read_content(
    cells: Mapping[str, Value], key: str, cell: Callable[[str], str], base: Knowledge
) -> tuple[Content, list[Problem]]:
    """A cell of fibre content, read, and its findings with their cell."""
    if key not in cells:
        return Content("", ()), []
    content = labelling.read_content(str(cells[key]), base)
    return content, [problem(code, cell(key), **found) for code, found in content.findings]


def read_house(book: Book, base: Knowledge) -> tuple[list[Rule], list[Problem]]:
    """The House rules sheet as rules, and what is wrong with it."""
    rows = [advice.HouseRow(number, filled(row)) for number, row in rows_of(book.house)]
    return advice.house_rules(rows, lambda key, number: book.cell("house", key, number), base)


def advise_entries(
    entries: Sequence[Entry], base: Knowledge, settings: Mapping[str, Value], house: Sequence[Rule] = ()
) -> list[Fabric]:
    """Every entry with its advice, what would change it, its likes and its label."""
    facts = [entry.facts for entry in entries]
    decided = advice.advise(facts, base, [entry.choices for entry in entries], house)
    turning = advice.changes(facts, base, decided, WEIGHT_REACH)
    near = neighbours()
    return [
        Fabric(
            entry.code, entry.name, entry.row, entry.item.id, entry.item.name, entry.content, entry.facts, decisions, turns,
            advice.likenesses(entry.item.id, entry.facts, decisions, near),
            label_of(entry, base, settings), tested_of(entry.cells), str(entry.cells.get("notes", "")),
        )
        for entry, decisions, turns in zip(entries, decided, turning, strict=True)
    ]  # fmt: skip


def label_of(entry: Entry, base: Knowledge, settings: Mapping[str, Value]) -> Any:
    """The fibre statement and care lines of one fabric for the market of the class."""
    return labelling.label(
        entry.content,
        settings.get("market", "none"),
        base,
        supplier_care=str(entry.cells.get("supplier_care", "")),
        facts={name: fact.value for name, fact in entry.facts.items()},
        prepared_by=str(settings.get("prepared_by") or ""),
    )


def tested_of(cells: Mapping[str, Value]) -> Tested:
    """What the test seam showed, from the four Tested columns."""
    return Tested(
        str(cells.get("tested_needle", "")),
        cells.get("tested_stitch_mm"),
        str(cells.get("tested_iron", "")),
        str(cells.get("tested_on", "")),
    )


@cache
def neighbours() -> advice.Neighbours:
    """Every cloth of the knowledge base with its usual content, decided once."""
    base = knowledge.load()
    facts = {}
    for id, cloth in base.cloths.items():
        content = labelling.read_content(cloth.usual_content, base)
        facts[id] = advice.facts_of({}, lambda key: "usual", cloth, content, base)
    decided = advice.advise(list(facts.values()), base, mights=False)
    return advice.Neighbours({id: base.cloths[id].name for id in facts}, facts, dict(zip(facts, decided, strict=True)))


def advise_fabrics(rows: Sequence[Mapping[str, Value]], settings: Mapping[str, Value] | None = None) -> list[Fabric]:
    """Fabrics for rows given as values by Column.key, without a workbook. Raises ValueError for a cloth nobody knows."""
    base = knowledge.load()
    entries = []
    for place, cells in enumerate(rows, start=1):
        entry, problems = read_entry(cells, place + 1, place, lambda key: f"Fabrics!{key}", base)
        if entry is None:
            raise ValueError(f"{cells}: " + " ".join(map(str, problems)))
        entries.append(entry)
    return advise_entries(entries, base, settings or {})


def clashes(fabrics: Sequence[Fabric], base: Knowledge) -> list[Problem]:
    """Where two rules of one tier disagree: a fault of ours that the teacher must hear of."""
    return [
        problem(
            "advice-clash", fabric.facts["cloth"].where, topic=base.topics[topic].title, rules=", ".join(decision.clash)
        )
        for fabric in fabrics
        for topic, decision in fabric.advice.items()
        if decision.clash
    ]


def slug(text: str) -> str:
    """A folder or file name that is safe everywhere: letters, digits and hyphens, at most 60 characters."""
    bare = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    name = re.sub(r"[^a-z0-9]+", "-", bare).strip("-")[:60].strip("-") or "class"
    return f"_{name}" if name in RESERVED else name


RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
"""File names that Windows keeps for itself."""
