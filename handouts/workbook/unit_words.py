"""What a unit word means for a column: by which factor its values become metric."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from functools import cache

from handouts.sheets import STITCH, Column, Unit
from handouts.workbook.limits import LIST
from handouts.workbook.words import spoken


@dataclass(frozen=True)
class Measure:
    """A unit as typed: metric value = factor × typed, or factor ÷ typed when reciprocal. own: the column's metric unit."""

    word: str
    factor: float = 1.0
    reciprocal: bool = False
    own: bool = True

    def metric(self, typed: float) -> float:
        """The value in the column's metric unit; a converted one has as many figures as anybody measures."""
        if self.reciprocal:
            return _rounded(self.factor / typed) if typed else 0.0
        return typed if self.factor == 1.0 else _rounded(typed * self.factor)

    def typed(self, metric: float) -> float:
        """What somebody typed in this unit for a metric value."""
        return self.factor / metric if self.reciprocal and metric else metric / self.factor


def _rounded(value: float) -> float:
    """10 oz/yd² as 339.1 g/m², 7.257 stitches per inch as 3.5 mm."""
    return float(f"{value:.{LIST['figures']}g}")


def metric_of(column: Column) -> Measure:
    """The column's own metric unit."""
    return Measure(column.unit.metric if column.unit else "")


def imperial_of(column: Column) -> Measure:
    """The column's imperial unit."""
    unit = column.unit
    return Measure(unit.imperial, unit.factor, unit.reciprocal, own=False) if unit else Measure("")


def unit_name(measure: Measure) -> str:
    """The unit in a sentence: inches rather than in."""
    return {"in": "inches", "cm": "centimetres", "mm": "millimetres"}.get(measure.word, measure.word)


def measure(column: Column, word: str) -> Measure | None:
    """What `word` means as a unit of this column; None when it is none of its units."""
    return _measures(column.unit).get(_spelt(word)) if column.unit else None


@cache
def _measures(unit: Unit) -> dict[str, Measure]:
    table = spoken("units")["stitch" if unit is STITCH else unit.metric]
    metric = {_spelt(word): Measure(unit.metric) for word in (unit.metric, *table["metric"])}
    imperial = Measure(unit.imperial, unit.factor, unit.reciprocal, own=False)
    others = {_spelt(word): Measure(word, factor, own=False) for word, factor in table.get("others", {}).items()}
    return {**others, **{_spelt(word): imperial for word in (unit.imperial, *table["imperial"])}, **metric}


def _spelt(word: str) -> str:
    text = unicodedata.normalize("NFKC", word).casefold().strip(" .()[]").replace("²", "2")
    return " ".join(text.split()) or word.strip()
