"""Fibres and needles against the published tables: names by market, heat never above the record, sizes in pairs."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from handouts.knowledge.load import load
from handouts.model import Fibre

KNOWN = load()
REFERENCE = Path(__file__).parent / "reference"
IDS = {  # names in fibre_heat.csv → ids, where they differ
    "linen/flax": "linen", "angora (rabbit)": "angora", "viscose/rayon": "viscose", "bamboo viscose": "viscose",
    "polyester (PET)": "polyester", "nylon/polyamide": "polyamide", "polypropylene (olefin)": "polypropylene",
    "elastane/spandex": "elastane", "PVC/chlorofibre": "chlorofibre", "metallic/metallised": "metallic", "rubber": "elastodiene",
    "PLA": "polylactide", "PTT/triexta": "triexta", "soy/milk protein (azlon)": "protein",
}  # fmt: skip
DOTS_OTHERWISE = {
    "elastane": 2,  # the table derives 1 and names 2 as published (LAW-S38, 149 °C); handling_notes.md: at most 10 % has 2 dots
    "cashmere": 1,  # the table's `none` is “steam only, do not press”; one dot keeps the iron cool enough to hover
}


def table(name: str) -> list[dict[str, str]]:
    """The rows of a reference table."""
    with (REFERENCE / name).open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def fibre(row: dict[str, str]) -> Fibre:
    """The fibre that a row of fibre_heat.csv speaks of."""
    return KNOWN.fibres[IDS.get(row["fibre"], row["fibre"])]


HEAT = table("fibre_heat.csv")


def test_every_published_fibre_is_here() -> None:
    """All 34 rows of fibre_heat.csv have a record, and there are at least 38 fibres."""
    assert len(HEAT) == 34
    assert len({fibre(row).id for row in HEAT}) == 33  # viscose from bamboo is viscose
    assert len(KNOWN.fibres) >= 38


@pytest.mark.parametrize("row", HEAT, ids=lambda row: row["fibre"])
def test_heat_never_above_the_record(row: dict[str, str]) -> None:
    """Dots not above `iron_dots`, °C not above the highest `safe_iron_c`; 148–150 °C is one band. Sources: its `source_ids`."""
    ours = fibre(row)
    if row["iron_dots"]:
        published = 0 if row["iron_dots"] == "none" else int(row["iron_dots"])
        assert ours.dots <= DOTS_OTHERWISE.get(ours.id, published)
    if row["safe_iron_c"]:
        highest = float(row["safe_iron_c"].rpartition("-")[2])
        assert ours.press_c <= (150 if 148 <= highest <= 150 else highest)


@pytest.mark.parametrize("row", HEAT, ids=lambda row: row["fibre"])
def test_names_as_in_the_law(row: dict[str, str]) -> None:
    """US and EU names and the ISO letters as in fibre_heat.csv; sources: LAW-S01, LAW-S07, LAW-S42."""
    ours = fibre(row)
    if row["us_generic_name"] and ours.id != "angora":
        assert ours.us == row["us_generic_name"]
    assert ours.eu == row["eu_name"]
    assert not row["iso_code"] or row["iso_code"] in ours.codes


def test_angora_is_fur_fibre_in_the_us() -> None:
    """Angora rabbit is not wool in US law: animal name with “hair”, or fur fiber; source LAW-S04, 16 CFR 300.8(g)."""
    assert KNOWN.fibres["angora"].us == "angora rabbit hair"
    assert "fur fiber" in KNOWN.fibres["angora"].spoken


def test_dots_cap_the_temperature() -> None:
    """0, 1, 2, 3 dots are at most 0, 110, 150, 200 °C (source LAW-S13), and no fibre steams without heat."""
    most = {0: 0, 1: 110, 2: 150, 3: 200}
    for ours in KNOWN.fibres.values():
        assert ours.press_c <= most[ours.dots], ours.id
        assert (ours.iron_word == "no iron") == (ours.dots == 0), ours.id
        assert ours.dots > 0 or ours.steam == "none", ours.id


@pytest.mark.parametrize(
    ("id", "word", "steam"),
    [
        ("viscose", "silk", "none"),  # common practice, no source: light viscose at the silk setting without steam
        ("linen", "linen", "high"),  # common practice, no source: linen/cotton setting with plenty of steam
        ("cotton", "cotton", "high"),  # LAW-S25
        ("wool", "wool", "high"),  # LAW-S25: steam positions for pure wool
        ("acetate", "synthetics", "none"),  # LAW-S13: one dot is without steam
        ("polyester", "synthetics", "low"),  # LAW-S22, LAW-S26
        ("polypropylene", "no iron", "none"),  # LAW-S33
        ("unknown", "synthetics", "none"),  # LAW-S28: start low
    ],
)
def test_dial_words(id: str, word: str, steam: str) -> None:
    """The word on the dial and the steam for the fibres a teacher meets most."""
    assert (KNOWN.fibres[id].iron_word, KNOWN.fibres[id].steam) == (word, steam)


def test_a_word_means_one_fibre() -> None:
    """No name, spoken word, trade word or code belongs to two fibres; market names may be shared (rayon, olefin)."""
    owners: dict[str, set[str]] = {}
    for ours in KNOWN.fibres.values():
        for word in (ours.id, *ours.spoken, *ours.trade, *ours.codes):
            owners.setdefault(word.casefold(), set()).add(ours.id)
    assert {word: ids for word, ids in owners.items() if len(ids) > 1} == {}
    assert len(owners) > 500


def test_care_words_are_from_the_lists() -> None:
    """Wash, bleach, dryer and dry cleaning use the words that fibres.toml explains; unknown stays “not known”."""
    for ours in KNOWN.fibres.values():
        assert ours.bleach in ("any", "oxygen only", "none", "not known"), ours.id
        assert ours.tumble in ("none", "low", "medium", "high", "not known"), ours.id
        assert ours.dry_clean in ("allowed", "none", "not known"), ours.id
        assert ours.max_wash_c is None or 30 <= ours.max_wash_c <= 60, ours.id


def test_no_chlorine_on_animal_fibres() -> None:
    """Hypochlorite dissolves wool, hair and silk: EU Annex VIII, source LAW-S07."""
    animal = [ours for ours in KNOWN.fibres.values() if ours.group == "protein"]
    assert len(animal) > 10
    assert {ours.bleach for ours in animal} == {"none"}


def test_wash_not_hotter_than_published() -> None:
    """Where fibre_heat.csv gives a wash temperature we stay at or below it; sources: its `source_ids`."""
    checked = 0
    for row in HEAT:
        if row["max_wash_c_typical"]:
            checked += 1
            assert (fibre(row).max_wash_c or 0) <= float(row["max_wash_c_typical"].rpartition("-")[2])
    assert checked >= 4


def test_needle_pairs_as_published() -> None:
    """NM and the number beside it as in the table of needle_notes.md (a); sources: the row's `source_ids`."""
    rows = table("needle_sizes.csv")
    assert {int(row["nm"]): int(row["us"]) for row in rows} == dict(KNOWN.needles.us_size)
    assert {id for row in rows for id in row["source_ids"].split(";")} <= set(KNOWN.sources)


@pytest.mark.parametrize("nm", [60, 65, 70, 75, 80, 90, 100, 110])
def test_needle_formula_below_nineteen(nm: int) -> None:
    """NM = 60 + 5 × (US − 8) below US 19: source ND-N03."""
    assert nm == 60 + 5 * (KNOWN.needles.us_size[nm] - 8)


def test_needle_range_is_sold_in_known_sizes() -> None:
    """Every point is explained and is sold only in sizes that have a number."""
    sold = KNOWN.tables["needles"]["range"]
    assert set(sold) == set(KNOWN.needles.points)
    assert {nm for sizes in sold.values() for nm in sizes} <= set(KNOWN.needles.us_size)
