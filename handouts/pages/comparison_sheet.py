"""The comparison as a spreadsheet's table: numbers as numbers, every cell filled."""

from __future__ import annotations

from handouts.model import Knowledge
from handouts.pages.class_words import class_words
from handouts.pages.comparison import deferral, feed_words, never, said, usual_line, watch
from handouts.pages.measures import FIX
from handouts.pages.words import Words, words_of
from handouts.plans import Plan
from handouts.records import Fabric, Table, Workshop
from handouts.units import stitches_per_inch

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
        deferral(workshop, knowledge),
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
