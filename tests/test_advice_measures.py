"""Weight of a swatch, stretch and recovery: published worked examples, and how they become facts."""

from __future__ import annotations

from typing import Any

import pytest

from handouts import knowledge, pipeline
from handouts.advice import measures
from handouts.records import Fabric


@pytest.mark.parametrize(
    ("width_cm", "length_cm", "grams", "gsm", "within"),
    [
        (51.1, 606.4, 240, 77.5, 0.1),  # ofb.net, weighed interfacing
        (51.1, 200, 42, 41.1, 0.05),  # ofb.net
        (60.96, 182.88, 44, 39.5, 0.05),  # ofb.net: 24 × 72 in
        (10, 10, 1.08, 108, 0.01),  # Six Dragon Textile, round cutter of 100 cm²
    ],
)
def test_weighed_swatches_as_published(
    width_cm: float, length_cm: float, grams: float, gsm: float, within: float
) -> None:
    """g/m² = grams × 10 000 / area: the worked examples of reference/fabric_weight.md."""
    assert measures.swatch_gsm(grams, width_cm, length_cm) == pytest.approx(gsm, abs=within)


@pytest.mark.parametrize(
    ("relaxed", "stretched", "pct"),
    [
        (4, 5, 25),  # Sewing Artistry
        (4, 10, 150),  # Sewing Artistry
        (4, 6, 50),  # Bluprint; sewingideas.eu
        (4, 8, 100),  # Bluprint; powersewing.com
        (10, 14, 40),  # Treadle Yard Goods 2023
        (10, 12.5, 25),  # nandifabric.com
    ],
)
def test_stretch_as_published(relaxed: float, stretched: float, pct: float) -> None:
    """The worked examples of reference/knit_stretch.md, section 1."""
    assert measures.stretch_pct(relaxed, stretched) == pytest.approx(pct)


@pytest.mark.parametrize(
    ("relaxed", "stretched", "back", "growth", "recovery"), [(10, 15, 10.5, 5, 90), (4, 6, 4, 0, 100)]
)
def test_recovery_as_worked_out(relaxed: float, stretched: float, back: float, growth: float, recovery: float) -> None:
    """The two vectors of reference/knit_stretch.md, section 3 (formulas: sunnytex.com); the two measures agree."""
    assert measures.growth_pct(relaxed, back) == pytest.approx(growth)
    assert measures.recovery_pct(relaxed, stretched, back) == pytest.approx(recovery)
    stretch = measures.stretch_pct(relaxed, stretched)
    assert 100 * (stretch - growth) / stretch == pytest.approx(recovery)


def fabric(**cells: Any) -> Fabric:
    """One knit from its typed cells."""
    return pipeline.advise_fabrics(
        [{"name": "Knit", "cloth": "cotton jersey", "fibre_content": "100% cotton", **cells}]
    )[0]


def test_a_weighed_swatch_is_the_weight_when_none_is_typed() -> None:
    """Grams and sides typed: the weight is derived and says how; a typed weight stays."""
    swatch = {"swatch_g": 1.85, "swatch_width_cm": 10, "swatch_length_cm": 10}
    found = fabric(**swatch).facts["weight_gsm"]
    assert (found.value, found.origin) == (185, "derived") and "÷ area" in found.where
    assert fabric(**swatch, weight_gsm=200).facts["weight_gsm"].value == 200


def test_measured_lengths_give_stretch_both_ways_and_the_worse_recovery() -> None:
    """10 → 15 → 10.5 across, 10 → 12 → 11 along."""
    across = {"relaxed_cm": 10, "stretched_across_cm": 15, "recovered_across_cm": 10.5}
    found = fabric(**across, stretched_along_cm=12, recovered_along_cm=11)
    values = {
        name: found.fact(name) for name in ("stretch_across_pct", "stretch_along_pct", "recovery_pct", "growth_pct")
    }
    assert values == {"stretch_across_pct": 50, "stretch_along_pct": 20, "recovery_pct": 50, "growth_pct": 10}
    assert any("stays stretched" in line for line in found.advice["watch_out"].value)


def odd(**cells: Any) -> list[tuple[str, tuple[str, ...]]]:
    """Findings on the measures of one row."""
    return [(found.code, found.cells) for found in measures.odd_measures(cells, lambda key: key, knowledge.load())]


def test_what_cannot_be_so_is_said() -> None:
    """Stretched shorter than relaxed; recovered longer than stretched; a typed weight far from the swatch's."""
    assert odd(relaxed_cm=10, stretched_across_cm=9) == [("measure-order", ("relaxed_cm", "stretched_across_cm"))]
    assert odd(relaxed_cm=10, stretched_along_cm=12, recovered_along_cm=13) == [
        ("measure-order", ("recovered_along_cm", "stretched_along_cm"))
    ]
    weighed = {"swatch_g": 2, "swatch_width_cm": 10, "swatch_length_cm": 10}
    assert odd(weight_gsm=150, **weighed) == [("weight-differs", ("weight_gsm", "swatch_g"))]
    assert odd(weight_gsm=195, **weighed) == []
