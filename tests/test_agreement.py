"""The advice agrees with the published tables as far as the issue list asks, and every exception is named with its reason."""

from __future__ import annotations

from collections import Counter

import pytest

from tests import agreement, renew

FOUND = agreement.compared()


@pytest.mark.parametrize("measure", agreement.WANTED_PCT)
def test_enough_published_rows_agree(measure: str) -> None:
    """Of the rows that a source fills for this measure, at least the wanted share agrees with ours."""
    agreed, of, pct = agreement.share_pct(FOUND, measure)
    assert pct >= agreement.WANTED_PCT[measure], f"{agreed} of {of}"


def test_every_row_of_the_tables_was_read() -> None:
    """Each row of needle_stitch.csv that prints a size, a length or a point we have is compared, and all of fabric_handling.csv."""
    rows = agreement.table("needle_stitch.csv")
    points = agreement.knowledge.load().needles.points
    counts = Counter(c.measure for c in FOUND)
    assert counts["needle size"] == sum(bool(row["needle_nm_min"]) for row in rows) == 174
    assert counts["stitch length"] == sum(bool(row["stitch_mm_min"]) for row in rows) == 35
    assert counts["needle point"] == sum(row["needle_point"] in points for row in rows) == 63
    assert {c.fabric for c in FOUND if c.measure == "steam"} == {
        row["fabric"] for row in agreement.table("fabric_handling.csv")
    }


def test_every_disagreement_has_a_reason_and_no_reason_is_stale() -> None:
    """disagreements.csv names exactly the rows that we do not follow."""
    assert {c.id for c in FOUND if not c.agrees} == set(agreement.reasons())


def test_developers_reads_the_disagreements() -> None:
    """DEVELOPERS.md lists them as they are; the cure: `python -m tests.renew`."""
    assert renew.developers() == (renew.TOP / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_the_comparison_can_fail() -> None:
    """A needle two sizes off, or a side nobody prints, is found."""
    row = {"id": "X", "fabric": "x", "needle_nm_min": "70", "needle_nm_max": "80", "side": "wrong;either"}
    assert [agreement.size_compared(row, nm).agrees for nm in (60, 65, 75, 90, 100)] == [False, True, True, True, False]
    assert [next(agreement.one_of("side", row, [side])).agrees for side in ("wrong", "right")] == [True, False]
