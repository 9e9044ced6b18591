"""The plan's pages: order of work, kits, needles, supplies, what to lay ready, irons, time, cost, cautions."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from handouts.model import Knowledge
from handouts.pages import plan_sums, plan_tables
from handouts.pages.beyond import usual
from handouts.pages.class_words import class_words
from handouts.pages.comparison import note
from handouts.pages.plan_cells import Class, Row, counted
from handouts.pages.plan_words import power_lines, setup_lines, time_lines
from handouts.pages.templates import render
from handouts.pages.words import day, words_of
from handouts.plans import Plan
from handouts.records import Workshop


def plan(workshop: Workshop, made: Plan, knowledge: Knowledge) -> str:
    """Page markup of the plan, portrait, on the paper that the printer holds."""
    settings = workshop.settings
    notes = {fabric.code: note(fabric) for fabric in workshop.fabrics}
    of = Class(made, settings, words_of(settings.get("units") or "both", knowledge), knowledge, notes)
    say = class_words()["plan"]
    title = say["title"].format(title=settings.get("title") or "")
    return render(
        "plan.xml.j2",
        page="sheet-letter" if settings.get("paper") == "Letter" else "sheet-a4",
        title=title,
        author=str(settings.get("prepared_by") or settings.get("teacher") or ""),
        asides=[day(str(settings[key])) for key in ("date", "place", "teacher") if settings.get(key)],
        glance=glance(made, settings),
        sections=sections(of),
        cautions=cautions(workshop, knowledge),
        defer=knowledge.tables["cautions"]["defer"]["say"],
        count=say["page"],
        caution_title=say["cautions"],
        thread=section("thread", plan_sums.threads(of), []),
    )


def glance(made: Plan, settings: Mapping[str, Any]) -> str:
    """`12 fabrics · 8 students · 2 samples of each fabric a student · …`."""
    counts = {key: counted(key, settings.get(key)) for key in ("students", "machines", "sergers", "irons")}
    samples = counted("samples", settings["samples_per_student"])
    return str(
        class_words()["plan"]["glance"].format(fabrics=counted("fabrics", len(made.order)), samples=samples, **counts)
    )


def sections(of: Class) -> list[dict[str, Any]]:
    """The plan's sections in the order in which they are needed: title, a line or more, a table. Empty ones are left out."""
    made = [
        section("order", plan_tables.order(of), plan_tables.order_lines(of)),
        section("kits", plan_tables.kits(of), plan_tables.kit_lines(of)),
        section("supplies", plan_sums.supplies(of), plan_sums.supply_lines(of)),
        section("ready", plan_tables.ready(of), plan_tables.ready_lines(of)),
        section("setup", [], setup_lines(of)),
        section("power", [], power_lines(of)),
        section("time", plan_sums.times(of), time_lines(of)),
        section("cost", plan_sums.costs(of), plan_sums.cost_lines(of)),
    ]
    return [one for one in made if one["rows"] or one["lines"]]


def section(name: str, rows: Sequence[Row], lines: Sequence[str]) -> dict[str, Any]:
    """One section as the template wants it; its widths and headings stand in class_words.toml."""
    say = class_words()["plan"]
    heads, shares = say["head"].get(name, []), say["share"].get(name, [])
    return {
        "title": say[name],
        "lines": [line for line in lines if line],
        "columns": list(zip(heads, shares, strict=True)),
        "rows": rows,
    }


def cautions(workshop: Workshop, knowledge: Knowledge) -> list[dict[str, Any]]:
    """The usual cautions that some fabric of this class calls for, and those of every class."""
    return usual(workshop.fabrics, knowledge, "plan")
