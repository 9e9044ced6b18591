"""From a workbook to entries: every row with its cloth, fibre content and facts understood, and what is wrong with it."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Any

from handouts import advice, labelling, printing
from handouts.model import Cloth, Construction, Knowledge, Rule, Value
from handouts.pages.shop import page_of
from handouts.problems import Problem, problem
from handouts.records import Book, Content, Fact
from handouts.sheets import FABRICS
from handouts.units import number_words


@dataclass(frozen=True)
class Entry:
    """One row of the Fabrics sheet, read and resolved, before any advice.

    Facts and choices are worked out when somebody asks: checking a long list needs those of few rows.
    """

    row: int
    code: str
    name: str
    cells: Mapping[str, Value]
    item: Cloth | Construction
    content: Content
    trim: Content
    cell: Callable[[str], str]
    base: Knowledge = field(repr=False)

    @cached_property
    def facts(self) -> Mapping[str, Fact]:
        """Fact name → Fact: typed, derived or usual."""
        facts = advice.facts_of(self.cells, self.cell, self.item, self.content, self.base, self.trim)
        return facts | supplier_limits(self.cells, self.cell, self.base)

    @cached_property
    def choices(self) -> Sequence[Rule]:
        """The teacher's own word in the row, as rules."""
        return advice.choices(self.cells, self.cell, self.base)


def vocabularies(base: Knowledge) -> dict[str, tuple[str, ...]]:
    """The word lists that the workbook offers in drop-downs and checks against."""
    sizes = [f"{nm}/{us}" for nm, us in base.needles.us_size.items()]
    needles = [f"{point} {size}" for point in base.needles.points for size in sizes]
    return {
        "cloths": tuple(sorted({item.name for item in base.items})),
        "fibres": tuple(sorted({fibre.eu for fibre in base.fibres.values()})),
        "needles": tuple(needles),
        "finishes": tuple(base.topics["seam_finish"].order),
        "topics": tuple(topic.title for topic in base.topics.values()),
    }


def rows_of(frame: Any) -> Iterable[tuple[int, Mapping[str, Value]]]:
    """A frame's rows as (sheet row number, the cells that hold something)."""
    rows: dict[int, dict[str, Value]] = {int(number): {} for number in frame.index}
    for key in frame.columns:
        held = frame[key].dropna()
        for number, value in zip(held.index.tolist(), held.tolist(), strict=True):
            rows[number][key] = value
    return rows.items()


def read_entries(book: Book, base: Knowledge) -> tuple[list[Entry], list[Problem]]:
    """Every row that names a cloth we know, and what is wrong with the others."""
    entries: list[Entry] = []
    problems: list[Problem] = []
    for place, (number, row) in enumerate(rows_of(book.fabrics), start=1):
        entry, found = read_entry(row, number, place, lambda key, n=number: book.cell("fabrics", key, n), base)  # type: ignore[misc]
        problems += found
        if entry:
            entries.append(entry)
    return entries, problems


def read_entry(
    cells: Mapping[str, Value], number: int, place: int, cell: Callable[[str], str], base: Knowledge
) -> tuple[Entry | None, list[Problem]]:
    """One row, with its cloth and fibre content understood; None when nobody knows what cloth it is."""
    content, found = read_content(cells, "fibre_content", cell, base)
    item, problems = read_cloth(cells, cell, base)
    trim, more = read_content(cells, "trim_fibres", cell, base)
    problems += [*found, *more, *advice.odd_measures(cells, cell, base)]
    if item is None:
        return None, problems
    code, name = str(cells.get("code", f"F{place}")), str(cells.get("name", item.name))
    return Entry(number, code, name, cells, item, content, trim, cell, base), problems


def supplier_limits(cells: Mapping[str, Value], cell: Callable[[str], str], base: Knowledge) -> dict[str, Fact]:
    """The ceiling that the supplier's own ironing words set: the rules cap dots and steam by it."""
    if "supplier_care" not in cells:
        return {}
    dots, dry = labelling.iron_limit(str(cells["supplier_care"]), base)
    where = cell("supplier_care")
    limits = {"supplier_dots": dots, "supplier_steam": "none" if dry else None}
    return {name: Fact(value, "derived", where) for name, value in limits.items() if value is not None}


def read_cloth(
    cells: Mapping[str, Value], cell: Callable[[str], str], base: Knowledge
) -> tuple[Cloth | Construction | None, list[Problem]]:
    """The cloth a row names, and the finding when it is missing, unknown or only guessed."""
    if "cloth" not in cells:
        return None, []  # the workbook's own checks say so
    said = str(cells["cloth"])
    found = cloth_of(said, str(cells.get("fibre_content", "")), base)
    if found.item is None:
        proposal = f"Did you mean {' or '.join(found.proposals)}? " if found.proposals else ""
        return None, [problem("cloth-unknown", cell("cloth"), found=said, proposal=proposal)]
    if not found.sure:
        return found.item, [problem("cloth-read-as", cell("cloth"), found=said, cloth=found.item.name)]
    return found.item, []


@lru_cache(maxsize=4096)
def cloth_of(said: str, content: str, base: Knowledge) -> advice.Found:
    """The cloth that a name means for a fibre content; long lists say the same of many rows."""
    return advice.find_cloth(said, base, content_of(content, base))


def content_of(typed: str, base: Knowledge) -> Content:
    """A Fibre content cell, read; nothing where nothing is typed."""
    return labelling.read_content(typed, base) if typed else Content("", ())


def read_content(
    cells: Mapping[str, Value], key: str, cell: Callable[[str], str], base: Knowledge
) -> tuple[Content, list[Problem]]:
    """A cell of fibre content, read, and its findings with their cell."""
    content = content_of(str(cells.get(key, "")), base)
    return content, [problem(code, cell(key), **found) for code, found in content.findings]


def unprintable(entries: Sequence[Entry], book: Book) -> Iterator[Problem]:
    """A note for every cell with a character that none of the fonts can print."""
    for entry in entries:
        for key, text in entry.cells.items():
            if isinstance(text, str) and (missing := printing.missing_glyphs(text)):
                what = FABRICS.column(key).title()
                yield problem("character-missing", entry.cell(key), what=what, found=" ".join(sorted(missing)))
    for key, text in book.settings.items():
        if isinstance(text, str) and (missing := printing.missing_glyphs(text)):
            cell = book.setting_cells.get(key, "Class")
            yield problem("character-missing", cell, what=key, found=" ".join(sorted(missing)))


def untiled(book: Book) -> Iterator[Problem]:
    """A note when tiling was asked for and cards of that size do not fill the sheet: they get crop marks."""
    size, asked = str(book.settings.get("shop_card") or "A7"), book.settings.get("shop_sheet")
    near = printing.untiled(page_of(book.settings), size) if asked == "tile" else None
    if near:
        paper, cell = str(book.settings.get("paper") or "A4"), book.setting_cells.get("shop_sheet", "Class")
        yield problem(
            "tile-crop", cell, size=size, paper=paper, near=" × ".join(number_words(round(mm, 1)) for mm in near)
        )


def read_house(book: Book, base: Knowledge) -> tuple[list[Rule], list[Problem]]:
    """The House rules sheet as rules, and what is wrong with it."""
    rows = [advice.HouseRow(number, row) for number, row in rows_of(book.house)]
    imperial = book.settings.get("units") == "imperial"
    return advice.house_rules(rows, lambda key, number: book.cell("house", key, number), base, imperial)
