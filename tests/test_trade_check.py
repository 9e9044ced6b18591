"""An independent check by the trade, on cloths that the published tables do not name.

trade_check.csv: what a sewing professional does with a cloth known by name and usual content only, several answers where the
trade has several, with the page that says so or `common practice, no source`. Rows to T164 were written before our advice was
looked at; the later ones, from memory of the trade, after it: they guard against falling, they prove little.
trade_names.csv: what teachers write in the Cloth cell, with the content of the bolt end, and the cloth that is meant.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

import pytest

from handouts import knowledge, labelling
from handouts.advice import advise, facts_of, find_cloth
from handouts.records import Decision
from tests.agreement import table

LEAST_PCT = 95
COLUMNS = (
    "cut", "hold", "point", "nm", "mm", "dots", "steam", "side", "press_cloth", "direction", "finish", "serger", "threads",
)  # fmt: skip


@cache
def advised() -> tuple[tuple[Mapping[str, str], Mapping[str, Decision]], ...]:
    """Every row of trade_check.csv with our Decisions, from cloth words and content alone."""
    base = knowledge.load()
    facts = []
    for row in table("trade_check.csv"):
        content = labelling.read_content(row["content"], base)
        item = find_cloth(row["cloth"], base, content).item
        assert item is not None, row["cloth"]
        facts.append(facts_of({"cloth": row["cloth"]}, str, item, content, base))
    return tuple(zip(table("trade_check.csv"), advise(facts, base, mights=False), strict=True))


def ours_of(decided: Mapping[str, Decision]) -> dict[str, Any]:
    """Column → the words of ours that may agree; the two ranges hold their start. Nothing to press through where no iron goes."""
    value = {topic: decision.value for topic, decision in decided.items()}
    iron = value["press_dots"] > 0
    overlocks = value["serger"]["use"] != "no"
    return {
        "cut": ["rotary", "shears"] if value["cut_tool"] == "either" else [value["cut_tool"]],
        "hold": value["hold"][:1],
        "point": value["needle_point"][:1],
        "nm": value["needle_nm"]["start"],
        "mm": value["stitch_mm"]["start"],
        "dots": [str(value["press_dots"])],
        "steam": [value["steam"]],
        "side": [value["press_side"]] if iron else None,
        "press_cloth": [value["press_cloth"]] if iron else None,
        "direction": [value["press_direction"]],
        "finish": value["seam_finish"][:1],
        "serger": [value["serger"]["use"]],
        "threads": [str(value["serger"]["threads"])] if overlocks else None,
    }


def compared(column: str) -> Iterator[tuple[Mapping[str, str], bool]]:
    """Every row that can be compared in a column, and whether ours is among the trade's answers."""
    for row, decided in advised():
        ours = ours_of(decided)[column]
        if ours is not None:
            yield row, agrees(row, column, ours)


def agrees(row: Mapping[str, str], column: str, ours: Any) -> bool:
    """Whether ours lies in the row's range, or is one of its words."""
    if column in ("nm", "mm"):
        return float(row[f"{column}_min"]) <= ours <= float(row[f"{column}_max"])
    return bool(set(ours) & set(row[column].split(";")))


@pytest.mark.parametrize("column", COLUMNS)
def test_the_trade_agrees(column: str) -> None:
    """At least 95 % of the cloths get one of the trade's answers, on the name and content alone."""
    found = list(compared(column))
    missed = [f"{row['id']} {row['cloth']}" for row, agreed in found if not agreed]
    assert len(found) >= 140
    assert 100 * (len(found) - len(missed)) >= LEAST_PCT * len(found), missed


def test_every_disagreement_is_named_with_its_reason() -> None:
    """Where ours is not among the trade's answers the row names the column and says why; no reason is stale."""
    missed = {(row["id"], column) for column in COLUMNS for row, agreed in compared(column) if not agreed}
    named = {(row["id"], row["not_followed"]) for row in table("trade_check.csv") if row["not_followed"]}
    assert missed == named
    assert all(bool(row["why"]) == bool(row["not_followed"]) and row["source"] for row in table("trade_check.csv"))


def test_the_check_is_wide_and_can_fail() -> None:
    """Over 150 cloths, and a needle, a length or a finish that the trade does not use is found."""
    rows = {row["cloth"]: row for row in table("trade_check.csv")}
    voile = rows["cotton voile"]
    assert len(rows) >= 150
    assert [agrees(voile, "nm", nm) for nm in (60, 70, 90)] == [True, True, False]
    assert [agrees(voile, "mm", mm) for mm in (2.0, 3.0)] == [True, False]
    assert [agrees(voile, "finish", [finish]) for finish in ("french", "pinked")] == [True, False]


def test_teachers_words_mean_the_cloth_of_their_content() -> None:
    """A name that several cloths share means the one of this content: flannel of wool, fleece of cotton, velvet that stretches."""
    base = knowledge.load()
    rows = table("trade_names.csv")
    wrong = {}
    for row in rows:
        found = find_cloth(row["said"], base, labelling.read_content(row["content"], base)).item
        if found is None or found.id != row["cloth"]:
            wrong[row["said"], row["content"]] = (found and found.id, row["cloth"])
    assert len(rows) >= 550 and wrong == {}


def test_a_name_alone_still_means_its_usual_cloth() -> None:
    """Without a content the word keeps its usual meaning (common practice, no source)."""
    base = knowledge.load()
    usual = {"flannel": "cotton-flannel", "fleece": "fleece-knit", "chiffon": "silk-chiffon", "fur": "faux-fur"}
    usual |= {"shirting": "poplin", "lining": "polyester-lining", "bed linen": "percale", "8oz denim": "denim-light"}
    found = {word: find_cloth(word, base).item for word in usual}
    assert {word: item.id if item else None for word, item in found.items()} == usual
