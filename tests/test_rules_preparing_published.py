"""Preparing, cutting and holding against the trade and against published tables (tests/reference, sources in their rows)."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from handouts.advice import find_cloth
from handouts.records import Decision
from tests.preparing import KNOWN, advised, decide, facts
from tests.test_rules_preparing import PINS, WET

REFERENCE = Path(__file__).parent / "reference"
Agrees = Callable[[str, Mapping[str, Decision]], bool]


def test_check_values_of_the_trade() -> None:
    """Common practice, no source: light viscose is cut with a rotary cutter under weights, medium linen with either tool."""
    for cloth in ("viscose-challis", "viscose-twill", "viscose-poplin"):
        assert advised()[cloth]["cut_tool"].value == "rotary", cloth
        assert advised()[cloth]["hold"].value[0] == "weights", cloth
    assert advised()["linen-medium"]["cut_tool"].value == "either"


def table(name: str) -> list[dict[str, str]]:
    """The rows of a published table; each row names its sources."""
    with (REFERENCE / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def tools(text: str) -> set[str]:
    """`rotary or fine shears` → what our word may be: rotary, shears or either."""
    named = {tool for tool in ("rotary", "shears") if tool in text} | ({"shears"} if "scissors" in text else set())
    return named | ({"either"} if len(named) == 2 else set())


def holds(text: str) -> set[str]:
    """`fine pins or weights` → the words of our list that the entry allows."""
    found = {word for word, sign in (("weights", "weight"), ("clips", "clip"), ("tape", "tape")) if sign in text}
    if "pins" in text and "no pins" not in text:
        found.add("fine pins" if re.search(r"fine|silk", text) else "pins")
    return found


def tool_agrees(text: str, ours: Mapping[str, Decision]) -> bool:
    """Our tool is one that was published."""
    return ours["cut_tool"].value in tools(text)


def hold_agrees(text: str, ours: Mapping[str, Decision]) -> bool:
    """Our first way of holding is among those published."""
    return ours["hold"].value[0] in holds(text)


def no_pins_agrees(text: str, ours: Mapping[str, Decision]) -> bool:
    """Where no pins were published we have none."""
    return "no pins" not in text or not PINS & set(ours["hold"].value)


def layers_agree(text: str, ours: Mapping[str, Decision]) -> bool:
    """Where a single layer was published we cut one."""
    return "single" not in text or ours["cut_layers"].value == "single"


def stays_dry(text: str, ours: Mapping[str, Decision]) -> bool:
    """Where washing was published as forbidden we do not wash."""
    forbids = re.search(r"never wash|do not wash|do not wet|no washing|^wipe$", text)
    return not forbids or not any(map(WET.search, ours["pretreat"].value))


def is_washed(text: str, ours: Mapping[str, Decision]) -> bool:
    """Where washing was published plainly, ours wets it too."""
    plain = re.search(r"^(wash and dry|wash hot|secure ends, wash|zigzag ends, wash)", text)
    return not plain or any(map(WET.search, ours["pretreat"].value))


@pytest.mark.parametrize(
    ("column", "agrees"),
    [
        ("cut_tool", tool_agrees),
        ("hold_down", hold_agrees),
        ("hold_down", no_pins_agrees),
        ("cut_tool", layers_agree),
        ("pretreat", stays_dry),
        ("pretreat", is_washed),
    ],
)
def test_agreement_with_the_published_handling_table(column: str, agrees: Agrees) -> None:
    """At least 95 % of the rows of fabric_handling.csv, whose sources stand in its column source_ids; the rest is printed."""
    rows = table("fabric_handling.csv")
    cloths = {row["fabric"]: find_cloth(row["fabric"], KNOWN).item for row in rows}
    assert None not in cloths.values()
    ours = {name: advised()[item.id] for name, item in cloths.items() if item}
    wrong = [f"{row['fabric']}: {row[column]}" for row in rows if not agrees(row[column], ours[row["fabric"]])]
    print(column, wrong)
    assert len(rows) > 60
    assert len(wrong) <= 0.05 * len(rows)


# Ours is no smaller than the top of what these rows of shrinkage.csv give for the bare fibre; the row names its source.
SHRINKAGE = {
    "S09": "cotton",
    "S10": "linen",
    "S21": "viscose",
    "S12": "polyester",
    "S26": "modal",
    "S24": "wool",
    "S05": "silk",
    "S28": "polyamide",
}


@pytest.mark.parametrize(("row", "fibre"), SHRINKAGE.items())
def test_expected_shrinkage_is_the_high_side_of_what_was_published(row: str, fibre: str) -> None:
    """Plain weave of one fibre: the length is at least the published maximum of that row."""
    published = next(r for r in table("shrinkage.csv") if r["id"] == row)
    top = float(published["length_pct_max"] or published["unspecified_direction_max"])
    [decisions] = decide([facts("plain-weave", {}, f"100% {fibre}")])
    assert decisions["shrink_pct"].value["length"] >= top, published["source"]


MEASURED = {
    "S04": "wool-suiting",
    "S19": "muslin",
    "S37": "cotton-jersey",
    "S40": "cotton-flannel",
    "S43": "quilted-cotton",
    "S45": "denim",
    "S46": "stretch-denim",
}


@pytest.mark.parametrize(("row", "cloth"), MEASURED.items())
def test_expected_shrinkage_covers_published_cloths(row: str, cloth: str) -> None:
    """Neither length nor width of a named cloth is below what its row of shrinkage.csv found; the row names its source."""
    published = next(r for r in table("shrinkage.csv") if r["id"] == row)
    ours = advised()[cloth]["shrink_pct"].value
    for side in ("length", "width"):
        assert ours[side] >= float(published[f"{side}_pct_max"] or 0), published["source"]
    assert ours["length"] >= float(published["unspecified_direction_max"] or 0), published["source"]


def test_preshrunk_cloth_shrinks_less() -> None:
    """Sold as preshrunk, under 3 % is expected (shrinkage.csv, row S38), less than for the same cloth untreated."""
    limit = float(next(r for r in table("shrinkage.csv") if r["id"] == "S38")["unspecified_direction_max"])
    for id in ("quilting-cotton", "linen-medium", "viscose-challis", "denim", "terry"):
        before, after = decide([facts(id, {}), facts(id, {"finish": "preshrunk"})])
        assert after["shrink_pct"].value["length"] == limit < before["shrink_pct"].value["length"], id
