"""Facts worked out of what somebody measured: weight of a swatch, stretch and recovery of a knit."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from handouts.model import Knowledge, Value
from handouts.problems import Problem, problem
from handouts.records import Fact
from handouts.units import number_words


def swatch_gsm(grams: float, width_cm: float, length_cm: float) -> float:
    """Grams per square metre of a swatch: g × 10 000 / (cm × cm), mass per unit area as ISO 3801 and ASTM D3776 define it."""
    return grams * 10_000 / (width_cm * length_cm)


def stretch_pct(relaxed: float, stretched: float) -> float:
    """Stretch in percent: 100 × (stretched − relaxed) / relaxed (reference/knit_stretch.md, five sources alike)."""
    return 100 * (stretched - relaxed) / relaxed


def recovery_pct(relaxed: float, stretched: float, recovered: float) -> float:
    """Recovery in percent: 100 × (stretched − recovered) / (stretched − relaxed) (sunnytex.com, in reference/knit_stretch.md)."""
    return 100 * (stretched - recovered) / (stretched - relaxed)


def growth_pct(relaxed: float, recovered: float) -> float:
    """Growth in percent, what stays stretched: 100 × (recovered − relaxed) / relaxed (reference/knit_stretch.md)."""
    return 100 * (recovered - relaxed) / relaxed


def measured(row: Mapping[str, Value], cell: Callable[[str], str]) -> dict[str, Fact]:
    """The facts that the measured columns of a row give, with their formula and cells."""
    return {**weighed(row, cell), **stretched(row, cell), **recovered(row, cell)}


def weighed(row: Mapping[str, Value], cell: Callable[[str], str]) -> dict[str, Fact]:
    """weight_gsm of a weighed swatch."""
    keys = ("swatch_g", "swatch_width_cm", "swatch_length_cm")
    if not all(row.get(key) for key in keys):
        return {}
    value = round(swatch_gsm(*(row[key] for key in keys)), 1)
    return {"weight_gsm": Fact(value, "derived", f"grams × 10 000 ÷ area, {cell(keys[0])}")}


def stretched(row: Mapping[str, Value], cell: Callable[[str], str]) -> dict[str, Fact]:
    """stretch_across_pct and stretch_along_pct of the measured lengths."""
    found = {}
    for way in ("across", "along"):
        length = row.get(f"stretched_{way}_cm")
        if row.get("relaxed_cm") and length and length >= row["relaxed_cm"]:
            value = round(stretch_pct(row["relaxed_cm"], length), 1)
            where = f"(stretched − relaxed) ÷ relaxed, {cell(f'stretched_{way}_cm')}"
            found[f"stretch_{way}_pct"] = Fact(value, "derived", where)
    return found


def recovered(row: Mapping[str, Value], cell: Callable[[str], str]) -> dict[str, Fact]:
    """recovery_pct and growth_pct: the worse of the two directions that were measured."""
    found = []
    for way in ("across", "along"):
        relaxed, length, back = (row.get(key) for key in ("relaxed_cm", f"stretched_{way}_cm", f"recovered_{way}_cm"))
        if relaxed and length and back and relaxed < length and back <= length:
            growth = round(growth_pct(relaxed, back), 1)
            found.append((growth, round(recovery_pct(relaxed, length, back), 1), cell(f"recovered_{way}_cm")))
    if not found:
        return {}
    growth, recovery, where = max(found)
    return {
        "growth_pct": Fact(growth, "derived", f"(recovered − relaxed) ÷ relaxed, {where}"),
        "recovery_pct": Fact(recovery, "derived", f"(stretched − recovered) ÷ (stretched − relaxed), {where}"),
    }


ORDER = (("relaxed_cm", "stretched_{}_cm"), ("recovered_{}_cm", "stretched_{}_cm"))
"""Pairs of columns of which the first can never be the longer."""


def odd_measures(row: Mapping[str, Value], cell: Callable[[str], str], knowledge: Knowledge) -> Iterator[Problem]:
    """What cannot be so: a stretched length shorter than the relaxed one, a typed weight far from the weighed swatch."""
    pairs = dict.fromkeys((short.format(way), long.format(way)) for way in ("across", "along") for short, long in ORDER)
    for short, long in pairs:
        if row.get(short) and row.get(long) and row[short] > row[long]:
            yield problem(
                "measure-order", cell(short), cell(long), short=number_words(row[short]), long=number_words(row[long])
            )
    swatch = weighed(row, cell).get("weight_gsm")
    typed = row.get("weight_gsm")
    if swatch and typed and abs(swatch.value - typed) > knowledge.number("swatch_apart") / 100 * typed:
        words = {"typed": number_words(typed), "swatch": number_words(swatch.value)}
        yield problem("weight-differs", cell("weight_gsm"), cell("swatch_g"), **words)
