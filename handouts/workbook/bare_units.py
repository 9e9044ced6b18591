"""Headings that name no unit: which unit is meant, and why."""

from __future__ import annotations

from dataclasses import replace

from handouts.workbook.layout import Layout, Place
from handouts.workbook.unit_words import imperial_of, metric_of

AS_CLASS_SAYS = "as Units on the Class sheet says"


def with_units(layout: Layout, units: object) -> Layout:
    """The same layout, every heading with a unit: as most others of its sheet name one, else as the Class sheet's Units say.

    units: metric, imperial, or anything else where the Class sheet leaves it open; metric then.
    """
    imperial, why = _meant(layout, units)
    bare: dict[str, str] = {}

    def measured(key: str, place: Place) -> Place:
        column = layout.sheet.column(key)
        if place.heading.measure or not column.unit:
            return place
        bare[key] = why
        measure = imperial_of(column) if imperial else metric_of(column)
        return replace(place, heading=replace(place.heading, measure=measure))

    places = {key: measured(key, place) for key, place in layout.places.items()}
    twice = tuple((key, measured(key, place)) for key, place in layout.twice)
    return replace(layout, places=places, twice=twice, bare=bare)


def _meant(layout: Layout, units: object) -> tuple[bool, str]:
    """Whether imperial, and the reason in words."""
    named = [place.heading.measure for place in layout.places.values() if place.heading.measure]
    if named:
        return sum(measure.own for measure in named) * 2 < len(named), "like the other headings"
    if units in ("metric", "imperial"):
        return units == "imperial", AS_CLASS_SAYS
    return False, "since nothing says otherwise"
