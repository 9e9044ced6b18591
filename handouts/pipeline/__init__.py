"""From a workbook to finished files: the only room that knows all the parts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path

from handouts import advice, knowledge, reasons, workbook
from handouts import coverage as covered
from handouts.errors import HandoutsError
from handouts.model import Knowledge, Rule
from handouts.pages.retold import retold as retold_in
from handouts.pages.words import words_of
from handouts.pipeline.advising import (
    advise_entries,
    advise_fabrics,
    findings,
    of_every_fibre,
    statements,
    test_seams,
    usual_facts,
)
from handouts.pipeline.making import Built, build, slug, wanted_pages
from handouts.pipeline.reading import Entry, read_entries, read_house, rows_of, unprintable, untiled, vocabularies
from handouts.problems import Problem, worst_first
from handouts.records import Book, Fact, Workshop
from handouts.sheets import COLOURS, fact_kinds

__all__ = ["Built", "advise_fabrics", "build", "check", "coverage", "explain", "load_workshop", "mark", "new_book"]


@dataclass(frozen=True)
class Checked:
    """A workbook looked through: how many fabrics could be read, and every finding, worst first."""

    fabrics: int
    problems: tuple[Problem, ...]


def load_workshop(path: Path, kinds: Sequence[str] | None = None) -> Workshop:
    """The class or shop list in a workbook, every fabric advised. What is wrong with it stands in `problems`.

    kinds: the page types that it is for; a list only for the shop's pages is spared what those do not print.
    """
    base = knowledge.load()
    book, entries, house, problems = read_book(path, base)
    around = kinds is None or wanted_pages(book.settings, kinds) != ["shop cards"]
    fabrics = advise_entries(entries, base, book.settings, house, around)
    supplies = tuple(row for _, row in rows_of(book.supplies))
    found = worst_first([*problems, *findings(entries, fabrics, base, book.settings)])
    named = "title" in book.setting_cells  # a list without settings has its file's name
    title = str(book.settings["title"] if named else path.stem)
    return Workshop(slug(title), book.settings, tuple(fabrics), tuple(found), supplies)


def read_book(path: Path, base: Knowledge) -> tuple[Book, list[Entry], list[Rule], list[Problem]]:
    """A workbook with its fabrics and house rules understood, and what is wrong with them, before any advice."""
    book = workbook.read(path, vocabularies(base))
    entries, problems = read_entries(book, base)
    house, more = read_house(book, base)
    return book, entries, house, [*book.problems, *problems, *more, *unprintable(entries, book), *untiled(book)]


def check(path: Path) -> Checked:
    """What is missing or wrong in a workbook. Only the tested settings are advised on, so a list of thousands is quick."""
    base = knowledge.load()
    book, entries, house, problems = read_book(path, base)
    noted = test_seams(entries, base, house)
    return Checked(
        len(entries), tuple(worst_first([*problems, *statements(entries, base, book.settings, house), *noted]))
    )


def new_book(path: Path, imperial: bool = False, example: bool = False) -> None:
    """A workbook to fill at `path`, or the example class. Raises HandoutsError for another ending or a taken name."""
    if path.exists():
        raise HandoutsError(f"{path} is already there. Choose another name, so that nothing of yours is lost.")
    if path.suffix.lower() != ".xlsx":
        raise HandoutsError(f"The new workbook is an .xlsx file: call it {path.with_suffix('.xlsx').name}.")
    words = vocabularies(knowledge.load())
    if example:
        workbook.write_example(path, words, imperial=imperial)
    else:
        workbook.write_starter(path, words, imperial=imperial)


def mark(book: Path, copy: Path, problems: Sequence[Problem]) -> None:
    """A copy of the workbook with each finding coloured and told in its cell. Raises HandoutsError for the book's own path."""
    workbook.write_marked(book, copy, problems)


def coverage() -> str:
    """What the knowledge base covers: every cloth as it usually is, of every fibre, and with one more cell typed.

    One cloth of each construction is asked with everything that may be typed, one of each set of families with every weight.
    """
    base = knowledge.load()
    usual = list(usual_facts().values())
    turns = {name: advice.limits(base.rules, name) for name, kind in fact_kinds().items() if kind == "number"}
    weights = covered.turning_points({"weight_gsm": turns.pop("weight_gsm")})
    typed = covered.typed_values(turns)
    probed = [p for facts in one_of_each("construction", usual) for p in covered.probes(facts, typed)]
    probed += [p for facts in one_of_each("families", usual) for p in covered.probes(facts, weights)]
    probed += [p for facts in of_every_fibre() for p in covered.probes(facts, [("colour", word) for word in COLOURS])]
    every = [*usual, *probed]
    advised = list(zip(every, advice.advise(every, base, mights=False), strict=True))
    chosen = [(usual[0], {"seam_finish": finish}) for finish in base.topics["seam_finish"].order]
    own = [advice.choices(cells, lambda key: key, base) for _, cells in chosen]
    advised += zip([facts for facts, _ in chosen], advice.advise([f for f, _ in chosen], base, own), strict=True)
    return "\n".join(covered.report(base, advised, date.today()))


def one_of_each(fact: str, fabrics: Sequence[Mapping[str, Fact]]) -> list[Mapping[str, Fact]]:
    """One fabric for every different value of a fact."""
    return list({facts[fact].value: facts for facts in fabrics}.values())


def explain(workshop: Workshop, code: str = "", topic: str = "") -> Iterator[str]:
    """Why, in words. Raises HandoutsError for a code or a topic that does not exist."""
    base = knowledge.load()
    codes = [fabric.code for fabric in workshop.fabrics]
    if code and code.casefold() not in {known.casefold() for known in codes}:
        raise HandoutsError(f"No fabric has the code {code}. The codes are: {', '.join(codes)}.")
    named = {word.casefold(): known.id for known in base.topics.values() for word in (known.id, known.title)}
    if topic and topic.casefold() not in named:
        raise HandoutsError(f"No topic is called {topic}. There are: {', '.join(base.topics)}.")
    chosen = [fabric for fabric in workshop.fabrics if not code or fabric.code.casefold() == code.casefold()]
    words = words_of(str(workshop.settings.get("units") or ""), base)
    retold = partial(retold_in, measures=words.measures)
    return reasons.explain(chosen, base, words, retold, named.get(topic.casefold(), ""))
