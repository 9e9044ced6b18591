"""Sentences of the plan: setting up, irons and circuits, time."""

from __future__ import annotations

from handouts.pages.amounts import minutes
from handouts.pages.plan_cells import Class, counted
from handouts.plans import Power
from handouts.units import number_words


def setup_lines(of: Class) -> list[str]:
    """How to label the irons, how many cutting places, how the overlock starts."""
    say = of.say["setup_words"]
    dots = sorted({step.settings["iron"] for step in of.plan.order if step.settings["iron"]})
    heats = " · ".join(of.words.short("press_dots", count) for count in dots)
    irons = int(of.settings.get("irons") or 0)
    pressing = say["irons_each" if irons >= len(dots) else "irons_few"].format(
        irons=counted("irons", irons), heats=heats
    )
    each = of.number("cutting_students")
    places = say["places"].format(places=counted("places", -(-int(of.settings["students"]) // each)), each=each)
    threads = next((step.settings["overlock"] for step in of.plan.order if step.settings["overlock"]), None)
    overlock = (
        say["overlock"].format(threads=counted("threads", threads)) if threads and of.settings.get("sergers") else ""
    )
    cool = say["cool"] if 1 in dots and irons else ""
    return [pressing if dots and irons else "", cool, places, overlock]


def watts(value: float) -> str:
    """`3,600`."""
    return f"{value:,.0f}"


def power_lines(of: Class) -> list[str]:
    """What the irons draw, what a circuit carries, whether that fits; always ends with the electrician."""
    power = of.plan.power
    if power is None:
        return []
    say = of.say["power_words"]
    load = say["load"].format(
        irons=counted("irons", power.irons),
        watts=watts(power.iron_watts),
        circuits=counted("circuits", power.circuits),
        busiest=counted("irons", power.busiest_irons),
        load=watts(power.busiest_w),
    )
    capacity = say["capacity"].format(
        volts=number_words(power.volts), amps=number_words(power.amps), capacity=watts(power.capacity_w)
    )
    limit = say["limit"].format(limit=watts(power.limit_w)) if power.limit_w is not None else ""
    lines = [load, *([capacity, limit] if power.capacity_w else []), verdict(of, power)]
    fuse = of.knowledge.tables["planning"]["power"]["uk"]["fuse_amps"]
    british = [say["uk"].format(fuse=fuse)] if of.settings.get("market") == "UK" else []
    return [line for line in (*lines, *british, say["confirm"]) if line]


def verdict(of: Class, power: Power) -> str:
    """Whether the irons fit, by how much, and how many would."""
    say = of.say["power_words"]
    if power.verdict == "unknown":
        return str(say["unknown"])
    most = power.capacity_w if power.limit_w is None else power.limit_w
    if power.verdict == "fits":
        return str(say["fits"].format(left=watts(most - power.busiest_w)))
    over = watts(power.busiest_w - most)
    return str(
        say["over"].format(over=over, fit=power.irons_that_fit)
        if power.irons_that_fit
        else say["none"].format(over=over)
    )


def time_lines(of: Class) -> list[str]:
    """How long a student sews, what holds the class up, and how many sittings that makes."""
    say, hours = of.say["time_words"], of.plan.hours
    told = say["each"].format(
        each=minutes(hours.each),
        fabrics=counted("fabrics", len(of.plan.order)),
        samples=counted("samples", of.settings["samples_per_student"]),
        minutes=minutes(of.settings["minutes_per_sample"]),
    )
    total = say["total"].format(
        total=minutes(hours.total),
        sittings=counted("sittings", hours.sittings),
        long=minutes(of.number("sitting_minutes")),
        most=of.number("sitting_fabrics"),
    )
    extra = say["extra"].format(showing=minutes(hours.showing), changing=minutes(hours.changing))
    return [told, wait(of), extra, total, of.say["time_note"]]


def wait(of: Class) -> str:
    """The place that all wait for, if there is one."""
    say = of.say
    place = next((s for s in of.plan.hours.stations if s.station == of.plan.hours.slowest), None)
    if place is None:
        return str(say["time_words"]["no_wait"])
    students = counted("students", of.settings["students"])
    told = {
        "place": say["place"][place.station],
        "count": place.count,
        "students": students,
        "busy": minutes(place.minutes),
    }
    return str(say["time_words"]["wait"].format(**told))
