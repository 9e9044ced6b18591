"""Conversions against pint (a general-purpose units library) and published pairs."""

from __future__ import annotations

import pint
import pytest

from handouts import units
from handouts.sheets import CM, GSM, MM, PER_METRE

REGISTRY = pint.UnitRegistry()


@pytest.mark.parametrize("celsius", [0, 110, 148.9, 150, 200])
def test_fahrenheit_agrees_with_pint(celsius: float) -> None:
    """°C → °F as pint converts it."""
    expected = REGISTRY.Quantity(celsius, "degC").to("degF").magnitude
    assert units.fahrenheit(celsius) == pytest.approx(expected)


def test_300_fahrenheit_is_the_150_degree_band() -> None:
    """300 °F is 148.9 °C (pressing_dial note 8): 150 °C prints as 302 °F."""
    assert round(units.fahrenheit(150)) == 302
    assert REGISTRY.Quantity(300, "degF").to("degC").magnitude == pytest.approx(148.9, abs=0.05)


@pytest.mark.parametrize("gsm", [20, 145, 237.3, 1000])
def test_ounces_agree_with_pint(gsm: float) -> None:
    """g/m² → oz/yd² as pint converts it."""
    expected = REGISTRY.Quantity(gsm, "g/m**2").to("oz/yd**2").magnitude
    assert units.oz_yd2(gsm) == pytest.approx(expected)


def test_seven_ounce_denim_as_published() -> None:
    """7 oz/yd² is 237.3 g/m²: Six Dragon Textile, in reference/fabric_weight.md."""
    assert pytest.approx(237.3, abs=0.1) == 7 * units.GSM_PER_OZ_YD2


@pytest.mark.parametrize(("mm", "spi"), [(2.5, 10.16), (3.0, 8.47)])
def test_stitches_per_inch_as_published(mm: float, spi: float) -> None:
    """2.5 mm is 10.16 to the inch: melgeecrafts.com, in reference/consumables.md; 3.0 mm by the same formula."""
    assert units.stitches_per_inch(mm) == pytest.approx(spi, abs=0.01)
    assert units.stitches_per_inch(units.stitches_per_inch(mm)) == pytest.approx(mm)


@pytest.mark.parametrize(
    ("unit", "imperial", "metric"), [(CM, "inch", "cm"), (MM, "inch", "mm"), (GSM, "oz/yd**2", "g/m**2")]
)
def test_column_factors_agree_with_pint(unit: object, imperial: str, metric: str) -> None:
    """One of the imperial heading's unit in the metric one, as pint converts it."""
    assert unit.factor == pytest.approx(REGISTRY.Quantity(1, imperial).to(metric).magnitude)  # type: ignore[attr-defined]


def test_a_price_by_the_yard_is_dearer_by_the_metre() -> None:
    """10 a yard is 10.94 a metre: 1 / 0.9144 (exact)."""
    assert 10 * PER_METRE.factor == pytest.approx(10.936, abs=0.001)


@pytest.mark.parametrize(("mm", "words"), [(15, "⅝"), (6, "¼"), (38.1, "1½"), (25.4, "1"), (0, "0"), (10, "⅜")])
def test_inches_read_as_on_a_tape(mm: float, words: str) -> None:
    """Seam allowances to the nearest eighth: 15 mm is the ⅝ in of home patterns (reference/seam_types.md)."""
    assert units.inch_words(mm) == words
