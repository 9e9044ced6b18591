"""From fabrics to finished files."""

from __future__ import annotations

import json
import re
import unicodedata
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from handouts import files, knowledge, pages, planning, printing, telling, workbook
from handouts.errors import HandoutsError
from handouts.model import Knowledge, Value
from handouts.problems import Problem, problem, worst_first
from handouts.records import Fabric, Workshop
from handouts.sheets import PAGE_TYPES


def slug(text: str) -> str:
    """A folder or file name that is safe everywhere: letters, digits and hyphens, at most 60 characters."""
    bare = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    name = re.sub(r"[^a-z0-9]+", "-", bare).strip("-")[:60].strip("-") or "class"
    return f"_{name}" if name in RESERVED else name


RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(10))}
"""File names that Windows keeps for itself."""


@dataclass(frozen=True)
class Built:
    """What a build made: the folder, the files in it, and what it has to say."""

    folder: Path
    files: tuple[Path, ...]
    problems: tuple[Problem, ...]
    unchanged: int = 0  # shop cards that say what they said in the earlier build and are not printed again


def build(
    workshop: Workshop, out: Path, only: Sequence[str] = (), kinds: Sequence[str] = (), since: Path | None = None
) -> Built:
    """Every file of the class in `out`/<class>, or of the fabrics `only` and the page types `kinds`.

    since: the folder of an earlier build; care cards and bolt ends that say the same as there are not printed again.
    """
    base = knowledge.load()
    chosen = narrowed(workshop, only)
    makers, marks = dict(MAKERS), earlier_marks(since) if since else {}
    if since:
        makers["shop cards"] = partial(make_shop, since=marks)
    made: dict[str, bytes] = {}
    problems = list(chosen.problems)
    for kind in wanted_pages(chosen.settings, kinds):
        for name, content, found in makers[kind](chosen, base):
            made[name] = content
            problems += found
    folder = out / workshop.slug
    done = files.place_all(folder, made, whole=not (only or kinds))
    same = marks.items() & json.loads(made.get(MARKS, b"{}")).items()
    return Built(folder, tuple(done), tuple(worst_first(problems)), len(same))


def narrowed(workshop: Workshop, only: Sequence[str]) -> Workshop:
    """The class with only some of its fabrics. Raises HandoutsError for a code that is not on the list."""
    if not only:
        return workshop
    wanted = {code.casefold() for code in only}
    fabrics = tuple(fabric for fabric in workshop.fabrics if fabric.code.casefold() in wanted)
    unknown = [code for code in only if code.casefold() not in {fabric.code.casefold() for fabric in fabrics}]
    if unknown:
        codes = ", ".join(fabric.code for fabric in workshop.fabrics)
        raise HandoutsError(f"No fabric has the code {', '.join(unknown)}. The codes are: {codes}.")
    return replace(workshop, fabrics=fabrics)


def wanted_pages(settings: Mapping[str, Value], kinds: Sequence[str]) -> list[str]:
    """The page types asked for on the command line, else on the Class sheet, else all. Raises HandoutsError for others."""
    typed = " ".join(f"{kind}," for kind in kinds) or str(settings.get("pages") or "")
    asked = [kind.strip().lower().replace("-", " ") for kind in typed.split(",") if kind.strip()]
    unknown = [kind for kind in asked if kind not in MAKERS]
    if unknown:
        raise HandoutsError(f"No page type is called {', '.join(unknown)}. There are: {', '.join(PAGE_TYPES)}.")
    return [kind for kind in MAKERS if not asked or kind in asked]


Page = tuple[str, bytes, list[Problem]]
"""A file: its path inside the class's folder, its bytes, and what printing it has to say."""


def printed(name: str, markup: str) -> Page:
    """A PDF from page markup, with a note for every card that needed a second side."""
    result = printing.print_pages(markup)
    return name, result.pdf, [problem("second-side", file=name, card=card) for card in result.second_sides]


def make_cards(workshop: Workshop, base: Knowledge) -> Iterator[Page]:
    """All cards in one file, and a file per card."""
    yield printed("cards.pdf", pages.cards(workshop, base))
    for name, fabric in card_names(workshop.fabrics).items():
        _, content, _ = printed(name, pages.cards(replace(workshop, fabrics=(fabric,)), base))
        yield f"cards/{name}.pdf", content, []


def card_names(fabrics: Sequence[Fabric]) -> dict[str, Fabric]:
    """A file name for each fabric from its code; codes that would share one get their row number too."""
    names: dict[str, Fabric] = {}
    for fabric in fabrics:
        name = slug(fabric.code)
        names[f"{name}-{fabric.row}" if name in names else name] = fabric
    return names


def make_comparison(workshop: Workshop, base: Knowledge) -> Iterator[Page]:
    """The class-wide table as pages, as a spreadsheet, and the page for a phone."""
    plan = planning.plan(workshop, base)
    yield printed("comparison.pdf", pages.comparison(workshop, plan, base))
    yield "comparison.xlsx", workbook.table_bytes(pages.comparison_table(workshop, plan, base)), []
    yield "class.html", pages.class_page(workshop, plan, base).encode(), []


def make_binder(workshop: Workshop, base: Knowledge) -> Iterator[Page]:
    """The cards on full pages with a binding margin."""
    yield printed("binder.pdf", pages.binder(workshop, base))


def make_plan(workshop: Workshop, base: Knowledge) -> Iterator[Page]:
    """What to have ready, and everything as data."""
    yield printed("plan.pdf", pages.plan(workshop, planning.plan(workshop, base), base))
    yield "advice.json", telling.as_json(workshop).encode(), []


def make_shop(workshop: Workshop, base: Knowledge, since: Mapping[str, str] | None = None) -> Iterator[Page]:
    """Care cards to cut out and bolt-end labels, only those that changed since the marks of an earlier build; the shelf list.

    The list is for looking up, so it is printed whole, unless nothing in it changed.
    """
    marks = pages.shop_marks(workshop, base)
    changed = [code for code, mark in marks.items() if since is None or since.get(code) != mark]
    size = str(workshop.settings.get("shop_card") or "")
    if changed:
        yield cut_out("shop-cards.pdf", pages.shop_cards(workshop, base, changed), size)
        yield cut_out("bolt-ends.pdf", pages.bolt_ends(workshop, base, changed), "")
    if since is None or list(since.items()) != sorted(marks.items()):
        yield printed("shelf-list.pdf", pages.shelf_list(workshop, base))
    yield MARKS, json.dumps(marks, indent=0, sort_keys=True).encode(), []


MARKS = "shop-marks.json"
"""What each care card said at a build, as marks: a later build prints only the cards whose mark changed."""


def cut_out(name: str, markup: str, size: str) -> Page:
    """A PDF of small cards, with a finding for every card whose words do not go on it at the smallest type."""
    result = printing.print_pages(markup)
    return (
        name,
        result.pdf,
        [problem("card-too-small", file=name, card=card, size=size or "label") for card in result.refused],
    )


def earlier_marks(build_folder: Path) -> dict[str, str]:
    """The marks of an earlier build. Raises HandoutsError when the folder holds none."""
    try:
        marks = json.loads((build_folder / MARKS).read_text(encoding="utf-8"))
        return {str(code): str(mark) for code, mark in marks.items()}
    except (OSError, ValueError, AttributeError) as error:
        raise HandoutsError(
            f"{build_folder} holds no earlier build of shop cards ({MARKS} is missing or damaged)."
        ) from error


MAKERS: Mapping[str, Callable[[Workshop, Knowledge], Iterator[Page]]] = {
    "cards": make_cards,
    "comparison": make_comparison,
    "binder": make_binder,
    "shop cards": make_shop,
    "plan": make_plan,
}
"""Page type → what makes its files."""
