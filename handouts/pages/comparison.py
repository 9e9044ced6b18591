"""The comparison: every fabric's settings side by side, in the order of work, exceptions marked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from handouts.model import Knowledge
from handouts.pages.amounts import times
from handouts.pages.class_words import class_words
from handouts.pages.measures import FIX, Measures, per_inch
from handouts.pages.templates import render
from handouts.pages.words import Words, words_of
from handouts.plans import Plan
from handouts.records import Fabric, Table, Workshop
from handouts.units import number_words, stitches_per_inch

COLUMNS = ("steam", "press", "needle", "stitch", "foot", "overlock", "seam_finish")
QUIET = ("foot", "overlock")
"""Columns where the usual is printed as a dash: few fabrics differ, and the eye finds them at once."""


@dataclass(frozen=True)
class Cell:
    """What one column says of a fabric. differs: from the class's usual; note: a second, smaller line; gauge: mm and kind."""

    words: str
    differs: bool = False
    note: str = ""
    gauge: tuple[float, str] | None = None


@dataclass(frozen=True)
class Row:
    """One fabric: its cells by column, and the station changes before it."""

    code: str
    name: str
    cells: Mapping[str, Cell]
    changes: tuple[str, ...]


@dataclass(frozen=True)
class Group:
    """The rows of one heat: dots, in words, and how hot at most."""

    dots: int
    words: str
    heat: str
    rows: tuple[Row, ...]


def groups(workshop: Workshop, plan: Plan, knowledge: Knowledge) -> tuple[Group, ...]:
    """The fabrics in the order of work, one group for every heat of the iron."""
    words = words_of(workshop.settings.get("units", ""), knowledge)
    fabrics = {f.code: f for f in workshop.fabrics}
    made: dict[int, list[Row]] = {}
    for step in plan.order:
        row = Row(step.code, step.name, cells(fabrics[step.code], plan, words), step.changes)
        made.setdefault(plan.settings[step.code]["iron"] or 0, []).append(row)
    return tuple(
        Group(dots, whole(words.short("press_dots", dots)), heat(rows, fabrics, words) if dots else "", tuple(rows))
        for dots, rows in made.items()
    )


def heat(rows: list[Row], fabrics: Mapping[str, Fabric], words: Words) -> str:
    """The most that every fabric of a group bears: `up to 150 °C (300 °F)`."""
    return whole(f"up to {words.short('press_c', min(fabrics[row.code].advised('press_c') for row in rows))}")


def whole(text: str) -> str:
    """Words that are not parted at the end of a line."""
    return text.replace(" ", FIX)


def cells(fabric: Fabric, plan: Plan, words: Words) -> dict[str, Cell]:
    """The cells of one fabric, a dash where a quiet column is as usual."""
    settings = plan.settings[fabric.code]
    found = {}
    for column in COLUMNS:
        usual = plan.usual[column]
        same = usual.value is not None and settings[column] == usual.value
        text, note = said(column, settings[column], words)
        differs = fabric.code in usual.exceptions
        found[column] = Cell("—") if same and column in QUIET else Cell(text, differs, note)
    kind = "zigzag" if "zigzag" in str(fabric.advised("stitch")) else "straight"
    seam = found["stitch"]
    note = ", ".join(part for part in (seam.note, seam_note(fabric, words)) if part)
    found["stitch"] = Cell(seam.words, seam.differs, note, (settings["stitch"], kind))
    return {**found, "watch": Cell(watch(fabric))}


def said(column: str, value: Any, words: Words) -> tuple[str, str]:
    """A column's value in words, and a smaller second line."""
    short = class_words()
    if value is None:
        return short["unpressed"][column], ""
    if column == "press":
        return press(value), ""
    if column == "needle":
        return f"{words.short('needle_point', value[0])}{FIX}{words.needle_size(value[1])}", ""
    if column == "stitch":
        return stitch(value, words)
    if column == "overlock":
        return overlock(value)
    if column == "seam_finish":
        return words.short("seam_finish", value), ""
    return str(short.get(column, {}).get(str(value), value)), ""


def stitch(mm: float, words: Words) -> tuple[str, str]:
    """A stitch length, the second unit under the first where both are asked for."""
    metric, inch = Measures("metric").stitch(mm), Measures("imperial").stitch(mm)
    return {"metric": (metric, ""), "imperial": (per_inch(mm), class_words()["per_inch"])}.get(
        words.measures.units, (metric, inch)
    )


def press(value: tuple[str, ...]) -> str:
    """Side, cloth and direction: `wrong side · cloth · open`."""
    short = class_words()
    topics = ("press_side", "press_cloth", "press_direction")
    parts = [short[topic].get(word, word) for topic, word in zip(topics, value, strict=True)]
    return f"{FIX}· ".join(whole(part) for part in parts if part)


def overlock(value: tuple[Any, ...]) -> tuple[str, str]:
    """Threads, and the differential where it is not plain."""
    short = class_words()["overlock"]
    if value == ("no",):
        return short["no"], ""
    threads, low, high = value
    feed = feed_words(low, high)
    return short["threads"].format(threads), "" if feed == "1" else short["feed"].format(feed)


def feed_words(low: float, high: float) -> str:
    """The differential: `1`, `1.3–1.5`."""
    return number_words(low) if low == high else f"{number_words(low)}–{number_words(high)}"


def seam_note(fabric: Fabric, words: Words) -> str:
    """The stitch by name, where it is not the straight one."""
    stitch = str(fabric.advised("stitch") or "")
    return "" if stitch.startswith("301") else words.short("stitch", stitch)


def watch(fabric: Fabric) -> str:
    """The line that a glance must not miss: the first about harm that cannot be undone, else the first; a dash for none."""
    decision = fabric.advice.get("watch_out")
    lines = tuple(decision.value or ()) if decision else ()
    lasting = [line for spoke in decision.won if spoke.lasting for line in spoke.value or ()] if decision else []
    first = next((line for line in lasting if line in lines), lines[0] if lines else "—")
    return str(first).rstrip(".")


def usual_line(plan: Plan, words: Words) -> str:
    """What most of the class does: `Usual here: steam medium; press wrong side · open; …`."""
    short = class_words()
    named = [
        short["usual"][column].format(said(column, plan.usual[column].value, words)[0])
        for column in COLUMNS
        if column in plan.usual and plan.usual[column].value is not None
    ]
    return short["comparison"]["usual"].format("; ".join(named)) if named else str(short["comparison"]["no_usual"])


def never(plan: Plan) -> Iterator[tuple[str, str]]:
    """What never to do, and the fabrics: by name, or by code alone where they are many."""
    names = {step.code: f"{step.code}{FIX}{step.name}" for step in plan.order}
    for item in plan.never:
        few = len(item.codes) <= class_words()["names_most"]
        yield item.title, f"{FIX}· ".join(names[code] if few else code for code in item.codes)


def stations(plan: Plan, knowledge: Knowledge) -> list[tuple[str, str, str]]:
    """What it takes to change each station: its name, how often in this order, what to do."""
    table = knowledge.tables["planning"]
    cooling = table["number"]["iron_cooling_minutes"]["value"]
    return [
        (record["title"], times(plan.changes[id]), record["does"].format(cooling=cooling))
        for id, record in table["station"].items()
    ]


def comparison(workshop: Workshop, plan: Plan, knowledge: Knowledge) -> str:
    """Page markup of the landscape sheet: the table, what never to do, what it takes to change a station."""
    words = words_of(workshop.settings.get("units", ""), knowledge)
    return render(
        "comparison.xml.j2",
        settings=workshop.settings,
        groups=groups(workshop, plan, knowledge),
        columns=COLUMNS,
        usual=f"{usual_line(plan, words)} {class_words()['comparison']['key']}",
        never=list(never(plan)),
        stations=stations(plan, knowledge),
        changes={station: times(count) for station, count in plan.changes.items()},
        defer=knowledge.tables["cautions"]["defer"]["short"],
        say=class_words(),
    )


HEADINGS = (
    "Code", "Fabric", "Dots", "Up to (°C)", "Steam", "Press", "Needle", "Needle size", "Stitch (mm)", "Stitches per inch",
    "Foot", "Overlock threads", "Differential", "Seam finish", "Watch", "Differs from the usual",
)  # fmt: skip


def comparison_table(workshop: Workshop, plan: Plan, knowledge: Knowledge) -> Table:
    """The same as a spreadsheet: numbers as numbers, every cell filled, the exceptions named in the last column."""
    words = words_of(workshop.settings.get("units", ""), knowledge)
    fabrics = {f.code: f for f in workshop.fabrics}
    rows = tuple(table_row(fabrics[step.code], plan, words) for step in plan.order)
    notes = (
        usual_line(plan, words),
        *(f"{title}: {names}" for title, names in never(plan)),
        knowledge.tables["cautions"]["defer"]["short"],
    )
    title = class_words()["comparison"]["title"].format(title=workshop.settings.get("title", ""))
    return Table(title, HEADINGS, rows, tuple(note.replace(FIX, " ") for note in notes))


def table_row(fabric: Fabric, plan: Plan, words: Words) -> tuple[object, ...]:
    """One row of plain values."""
    own = plan.settings[fabric.code]
    point, nm = own["needle"]
    threads, feed = (own["overlock"][0], feed_words(*own["overlock"][1:])) if len(own["overlock"]) == 3 else ("", "")
    steam, pressing = (said(column, own[column], words)[0] for column in ("steam", "press"))
    differs = [class_words()["column"][c] for c, usual in plan.usual.items() if fabric.code in usual.exceptions]
    return (
        fabric.code, fabric.name, own["iron"], fabric.advised("press_c"), steam, pressing.replace(FIX, " "), point,
        words.needle_size(nm), own["stitch"], round(stitches_per_inch(own["stitch"]), 1),
        own["foot"], threads, feed, words.short("seam_finish", own["seam_finish"]), watch(fabric), ", ".join(differs),
    )  # fmt: skip
