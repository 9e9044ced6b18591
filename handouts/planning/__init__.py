"""The class plan: kits, thread, needles, order of work, power, time and cost, from the fabrics and the class sheet."""

from __future__ import annotations

from handouts.model import Knowledge
from handouts.planning import cutting, hours, needles, order, power, ready, supplies, thread, usual
from handouts.plans import Plan
from handouts.records import Workshop

__all__ = ["plan"]


def plan(workshop: Workshop, knowledge: Knowledge) -> Plan:
    """Everything to have ready before people arrive. All lists stand in the order of work."""
    settings = workshop.settings
    fabrics = order.order_of_work(workshop.fabrics, knowledge)
    made = order.steps(fabrics, knowledge)
    changes = order.changes(made)
    columns = {fabric.code: usual.columns(fabric, knowledge) for fabric in fabrics}
    kits = tuple(cutting.kit(fabric, settings, knowledge) for fabric in fabrics)
    samples = int(settings["students"]) * int(settings["samples_per_student"])
    threads = tuple(thread.use(fabric, samples, settings, knowledge) for fabric in fabrics)
    kinds = needles.needs(fabrics, settings, knowledge)
    shelf = supplies.supplies(
        supplies.wants(threads, kinds, knowledge.needles.us_size),
        workshop.supplies,
        settings.get("units") == "imperial",
    )
    return Plan(
        order=made,
        changes=changes,
        changes_listed=order.changes(order.steps(workshop.fabrics, knowledge)),
        settings=columns,
        usual=usual.usual(columns, knowledge),
        never=usual.never(fabrics, knowledge),
        kits=kits,
        threads=threads,
        needles=kinds,
        power=power.check(settings, knowledge),
        hours=hours.of_class(fabrics, changes, settings, knowledge),
        supplies=shelf,
        cost=supplies.cost(kits, shelf, int(settings["students"])),
        ready=ready.ready(fabrics, knowledge),
    )
