"""The comparison: every fabric's settings side by side, in the order of work, exceptions marked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from handouts.model import Knowledge
from handouts.pages.amounts import times
from handouts.pages.beyond import usual
from handouts.pages.class_words import class_words
from handouts.pages.glance import bolt
from handouts.pages.measures import FIX, Measures, per_inch
from handouts.pages.retold import retold
from handouts.pages.templates import render
from handouts.pages.words import Words, words_of
from handouts.plans import Plan
from handouts.records import Fabric, Workshop
from handouts.units import number_words

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
    """One fabric: its cells by column, the station changes before it, and a note on the iron under its name."""

    code: str
    name: str
    cells: Mapping[str, Cell]
    changes: tuple[str, ...]
    note: str = ""


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
        fabric = fabrics[step.code]
        row = Row(step.code, step.name, cells(fabric, plan, words), step.changes, note(fabric))
        made.setdefault(plan.settings[step.code]["iron"] or 0, []).append(row)
    return tuple(
        Group(dots, whole(words.short("press_dots", dots)), heat(rows, fabrics, words) if dots else "", tuple(rows))
        for dots, rows in made.items()
    )


def note(fabric: Fabric) -> str:
    """What a glance down the Iron column must not miss: the supplier's own word, or a choice that a rule warns of."""
    chosen = [fabric.advice[topic] for topic in ("press_dots", "steam") if topic in fabric.advice]
    risk = class_words()["comparison"]["risk"] if any(decision.cautions for decision in chosen) else ""
    return " ".join(part for part in (bolt(fabric), risk) if part)


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
    return {**found, "watch": Cell(retold(watch(fabric), words.measures))}


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
    """What most of the class does, and how to read it: `Usual in this class: medium steam; … ▲ and bold: differs from that.`"""
    short = class_words()
    values = {column: plan.usual[column].value for column in COLUMNS if column in plan.usual}
    named = [usual_words(column, value, words) for column, value in values.items() if value is not None]
    says = short["comparison"]
    return f"{says['usual'].format('; '.join(named))} {says['key']}" if named else str(says["no_usual"])


def usual_words(column: str, value: Any, words: Words) -> str:
    """One usual setting with its name: `no steam`, `walking foot`, `finish overlock`."""
    if column == "steam":
        return words.short("steam", value)
    if column == "stitch":
        return str(class_words()["usual"][column].format(words.measures.stitch(value).replace(FIX, " ")))
    if column == "overlock" and value == ("no",):
        return str(class_words()["usual"]["no_overlock"])
    return str(class_words()["usual"][column].format(said(column, value, words)[0].replace(FIX, " ")))


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
        usual=usual_line(plan, words),
        never=list(never(plan)),
        stations=stations(plan, knowledge),
        changes={station: times(count) for station, count in plan.changes.items()},
        defer=deferral(workshop, knowledge),
        say=class_words(),
    )


def deferral(workshop: Workshop, knowledge: Knowledge) -> str:
    """What the table is worth, the usual cautions that its fabrics call for, and who decides in the end."""
    defer = knowledge.tables["cautions"]["defer"]
    said = [record["card"] for record in usual(workshop.fabrics, knowledge) if record.get("table")]
    return " ".join([defer["start"], *said, defer["say"]])
