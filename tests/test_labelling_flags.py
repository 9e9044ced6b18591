"""Flags for the card: what burns fast, what fumes, what is no textile; each from a law or a safety sheet."""

from __future__ import annotations

import pytest

from handouts.labelling import flags, read_content
from tests.labelling_knowledge import knowledge


def flagged(cell: str, market: str = "US", **facts: object) -> list[str]:
    """The flags raised for a cell."""
    return [spoke.rule for spoke in flags(read_content(cell, knowledge()), facts, market, knowledge())]


@pytest.mark.parametrize(("gsm", "expected"), [(87.9, ["flag-light-flammable"]), (88, []), (None, [])])
def test_light_plant_and_silk_cloth_is_flagged(gsm: float | None, expected: list[str]) -> None:
    """F16, 16 CFR 1610.1(d): plain cloth of 2.6 oz/yd² (88 g/m²) or more needs no test; unknown weight is no claim."""
    assert expected == flagged("100% cotton", weight_gsm=gsm)
    assert expected == flagged("100% silk", weight_gsm=gsm)
    assert flagged("100% polyester", weight_gsm=gsm) == []


def test_raised_plant_cloth_is_flagged_at_any_weight() -> None:
    """F16: brushed, terry and pile cloth of cotton or rayon is outside the exemption."""
    assert flagged("100% cotton", weight_gsm=300, nap="brushed") == ["flag-raised-flammable"]
    assert flagged("100% wool", weight_gsm=300, nap="brushed") == []


def test_pvc_animal_parts_and_skins_are_flagged() -> None:
    """F13 (fumes), Art. 12 (animal parts in the EU and UK), and leather, which is no textile."""
    assert flagged("PVC on 100% polyester") == ["flag-pvc-fumes"]
    assert flagged("100% polyester", coating="PVC") == ["flag-pvc-fumes"]
    assert flagged("100% wool; leather trim", "EU") == ["flag-animal-parts"]
    assert flagged("100% silk", "UK", weight_gsm=200, trim={"feathers"}) == ["flag-animal-parts"]
    assert flagged("leather") == ["flag-leather-skin"]


def test_every_flag_is_short_sourced_and_leaves_the_word_to_others() -> None:
    """A line for the card, a source, and who decides; never a word about nightwear."""
    for id, record in knowledge().tables["labelling"]["flag"].items():
        assert len(record["say"]) <= 75 and record["sources"], id
        assert any(word in record["because"] for word in ("supplier", "decide", "rules of your country")), id
        assert not any(
            word in (record["say"] + record["because"]).lower() for word in ("nightwear", "sleepwear", "pyjama")
        ), id
