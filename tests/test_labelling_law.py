"""Every openly listed example of tests/reference/fibre_law_examples.csv: the text the law prints, or the derived result.

Source of the rows: the regulations named in each row's last column. Forms are compared, not layout: `percent` and `%`, capitals,
a full stop at the end and the printer's line breaks are the same text.
"""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from handouts.labelling import label, read_content
from handouts.labelling.claims import label_percentages, super_most_um, within_tolerance
from handouts.pages import shop_card
from handouts.pipeline import advise_fabrics
from tests.labelling_knowledge import knowledge

FILE = Path(__file__).parent / "reference" / "fibre_law_examples.csv"
with FILE.open(encoding="utf-8", newline="") as stream:
    ROWS = list(csv.DictReader(stream))


def rows(*kinds: str) -> list:
    """The rows of some kinds as test parameters named by id, market and section."""
    return [
        pytest.param(row, id=f"{row['id']} {row['market']} {row['source']}") for row in ROWS if row["kind"] in kinds
    ]


def same(text: str) -> str:
    """A statement reduced to its words: percent as %, no capitals, no line breaks, no closing stops."""
    flat = re.sub(r"\s*(/|--(?=\d))\s*", " ", text.casefold())
    flat = re.sub(r"\s*(?:percent|%)\s*", "% ", flat)
    return " ".join(re.sub(r"\.(?=\s|$)", "", flat).split())


def labelled(row: dict) -> object:
    """The label of a row's cell."""
    base = knowledge()
    return label(read_content(row["cell"], base), row["market"], base)


@pytest.mark.parametrize("row", rows("statement"))
def test_the_statement_is_the_text_the_law_prints(row: dict) -> None:
    """The section is in the test's name."""
    assert same(row["expected"]) == same(" / ".join(labelled(row).statement))


@pytest.mark.parametrize("row", rows("refused"))
def test_what_cannot_stand_is_refused_with_a_reason(row: dict) -> None:
    """No statement at all, and a sentence that says why."""
    made = labelled(row)
    assert (made.statement, [p.code for p in made.problems if p.code.startswith("label")]) == ((), ["label-refused"])


@pytest.mark.parametrize("row", rows("care"))
def test_care_words_are_those_the_rule_prints(row: dict) -> None:
    """16 CFR 423: the supplier's settings become the sentence of the rule."""
    base = knowledge()
    made = label(read_content("100% acetate", base), row["market"], base, supplier_care=row["cell"])
    assert any(same(row["expected"]) in same(line) for line in made.care), made.care


@pytest.mark.parametrize("row", rows("claim"))
def test_a_super_number_needs_the_diameter_for_it(row: dict) -> None:
    """X-D-12: 17.3 µm is above the 17.25 µm of Super 130 (15 USC 68b(a)(5))."""
    made = labelled(row)
    assert (made.statement, [p.code for p in made.problems]) == (("100% Wool",), ["label-super"])
    assert "17.25" in made.problems[0].message


def test_super_limits_are_those_the_act_prints() -> None:
    """15 USC 68b(a)(5), the lines that were read; 150 and 160 were cut off there and follow the series."""
    printed = {80: 19.75, 90: 19.25, 100: 18.75, 110: 18.25, 120: 17.75, 130: 17.25, 140: 16.75, 170: 15.25, 180: 14.75,
               190: 14.25, 200: 13.75, 210: 13.25, 220: 12.75, 230: 12.25, 240: 11.75, 250: 11.25}  # fmt: skip
    assert printed == {claim: super_most_um(claim, knowledge()) for claim in printed}
    assert [super_most_um(claim, knowledge()) for claim in (70, 95, 260, 1)] == [None] * 4


def test_three_points_of_tolerance_for_blends_only() -> None:
    """X-US-38, 16 CFR 303.43(a): 40 stated, 37 to 43 found agrees. (c): none for one fibre. 15 USC 68b: none for wool."""
    found = [36.9, 37.0, 40.0, 43.0, 43.1]
    assert [within_tolerance(40, pct, knowledge()) for pct in found] == [False, True, True, True, False]
    assert not within_tolerance(100, 99, knowledge(), fibres=1)
    assert not within_tolerance(40, 39, knowledge(), wool=True)


def test_dry_masses_become_label_percentages() -> None:
    """X-EU-6, the worked example of Annex VIII of Regulation 1007/2011: the three results it prints, to 0.1."""
    made = label_percentages({"wool": 10.27, "viscose": 48.71, "cotton": 41.02}, knowledge(), lost={"cotton": 4.0})
    assert {fibre: round(made[fibre], 2) for fibre in ("wool", "viscose")} == {"wool": 10.61, "viscose": 48.62}
    assert pytest.approx(40.77, abs=0.011) == made["cotton"]
    assert pytest.approx(100.0) == sum(made.values())


@pytest.mark.parametrize("row", rows("phrase"))
def test_sentences_the_rules_print_are_on_the_card(row: dict) -> None:
    """X-US-39 (303.17(b)): a name with a fibre and no full statement beside it; X-US-40 (303.33(a)(3)): origin as typed."""
    cloth = {
        "name": "Silk mix",
        "cloth": "twill",
        "fibre_content": "60% silk",
        "origin": "Made in USA of imported fabric",
    }
    (fabric,) = advise_fabrics([cloth], {"market": "US"})
    printed = [*shop_card.statement(fabric), shop_card.origin(fabric)]
    assert any(line.replace("’", "'") in row["expected"].split(" / ") for line in printed), printed


def test_every_row_is_tested() -> None:
    """The guard: no kind of row is left without a test, and the rows are there."""
    tested = {"statement", "refused", "care", "claim", "tolerance", "arithmetic", "phrase"}
    assert tested == {row["kind"] for row in ROWS}
    assert len({row["id"] for row in ROWS}) == 42
