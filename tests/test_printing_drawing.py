"""What is drawn to scale is true, and the binder page leaves room for the punch: measured in the PDF by another program."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.fabrics_by_hand import all_fabrics
from tests.printed import MM, printed, seen


@pytest.mark.parametrize(("units", "paper", "across"), [("metric", "A4", 50.0), ("imperial", "Letter", 50.8)])
def test_the_swatch_box_is_a_true_ruler(units: str, paper: str, across: float) -> None:
    """50 mm, or 2 in = 50.8 mm, so that a user can see whether the printer scaled the page."""
    for page in seen(printed("cards", units, paper).pdf)[:5]:
        assert [r for r in page["rects"] if (r["x1"] - r["x0"]) / MM == pytest.approx(across, abs=0.01)]


def test_the_stitch_is_drawn_at_true_length() -> None:
    """The pitch of the dashes is the stitch length in mm: 3.0, 2.5, 2.5, 3.5, 2.5 on the first five cards."""
    for page, fabric in zip(seen(printed("cards", "metric", "A4").pdf), all_fabrics()[:5], strict=False):
        starts = sorted(
            line["x0"]
            for line in page["lines"]
            if line["linewidth"] == pytest.approx(1.1) and line["top"] < 45 * MM and line["x1"] - line["x0"] > 3
        )
        steps = [(b - a) / MM for a, b in pairwise(starts)]
        assert steps and steps == pytest.approx([fabric.advice["stitch_mm"].value["start"]] * len(steps), abs=0.01)


def test_the_seam_allowance_is_drawn_at_true_size() -> None:
    """Boiled wool: sewn at 15 mm and trimmed to 6, so 9 mm are cut away and the seam stands 15 mm from the edge."""
    page = seen(printed("cards", "metric", "A4").pdf)[0]
    away = [r for r in page["rects"] if (r["x1"] - r["x0"]) / MM == pytest.approx(9, abs=0.01)]
    assert len(away) == 1
    seams = {
        line["x0"]
        for line in page["lines"]
        if abs(line["x0"] - line["x1"]) < 0.01 and away[0]["top"] - 4 < line["top"] < away[0]["bottom"]
    }
    assert [x for x in seams if (x - away[0]["x0"]) / MM == pytest.approx(15, abs=0.01)]


@pytest.mark.parametrize(
    ("paper", "centres", "radius", "edge"),
    [("A4", (108.5, 188.5), 3.25, 13), ("Letter", (31.75, 139.7, 247.65), 4, 13)],
)
@pytest.mark.parametrize("two_sided", [False, True])
def test_the_binder_page_keeps_clear_of_the_punch_holes(
    paper: str, centres: tuple[float, ...], radius: float, edge: float, two_sided: bool
) -> None:
    """ISO 838: two holes 80 mm apart, 6 ± 0.5 mm wide, 12 ± 1 mm in. US: three, 108 mm apart, planned 8 mm wide, 13 mm in."""
    pages = seen(printed("binder", "both", paper, two_sided).pdf)
    for number, page in enumerate(pages):
        back = two_sided and number % 2 == 1
        for centre in centres:
            x = page["width"] - edge * MM if back else edge * MM
            ink = [*page["words"], *page["lines"], *page["rects"]]
            near = [
                i
                for i in ink
                if i["x0"] < x + radius * MM
                and i["x1"] > x - radius * MM
                and i["top"] < (centre + radius) * MM
                and i["bottom"] > (centre - radius) * MM
            ]
            assert near == []
        binding = [page["width"] - w["x1"] if back else w["x0"] for w in page["words"]]
        assert min(binding) / MM >= 25 - 0.05


@pytest.mark.parametrize("two_sided", [False, True])
def test_a_fine_tick_shows_where_each_hole_goes(two_sided: bool) -> None:
    """At the height of ISO 838's holes, 108.5 and 188.5 mm from the top of A4, between the binding edge and the text."""
    for number, page in enumerate(seen(printed("binder", "both", "A4", two_sided).pdf)):
        back = two_sided and number % 2 == 1
        ticks = [line for line in page["lines"] if line["linewidth"] < 0.3]
        assert [line["top"] / MM for line in ticks] == pytest.approx([108.5, 188.5], abs=0.05)
        inside = [page["width"] - line["x0"] if back else line["x1"] for line in ticks]
        assert all(13 * MM < x < 25 * MM for x in inside)


def test_backs_are_mirrored_only_when_asked_for() -> None:
    """Printed on one side, every page has its binding margin at the left."""
    assert min(w["x0"] for w in seen(printed("binder", "both", "A4").pdf)[1]["words"]) / MM == pytest.approx(
        25, abs=0.1
    )
    assert min(w["x0"] for w in seen(printed("binder", "both", "A4", True).pdf)[1]["words"]) / MM == pytest.approx(
        13, abs=0.1
    )
