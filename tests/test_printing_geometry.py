"""Where things stand on paper, measured in the PDF by another program: nothing clipped, nothing on top of anything else."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import combinations
from typing import Any
from xml.etree import ElementTree

import pytest

from handouts.printing.look import page_type
from tests.fabrics_by_hand import all_fabrics
from tests.printed import MM, SHEETS, markup, printed, seen, text_of

SIZES = {  # mm; ISO 216 for A4 and A5, ANSI/ASME Y14.1 for Letter
    ("cards", "A4"): (148, 210),
    ("cards", "Letter"): (139.7, 215.9),
    ("binder", "A4"): (210, 297),
    ("binder", "Letter"): (215.9, 279.4),
}
TYPES = {
    ("cards", "A4"): "card-a5",
    ("cards", "Letter"): "card-half-letter",
    ("binder", "A4"): "binder-a4",
    ("binder", "Letter"): "binder-letter",
}
EVERY = [(kind, units, paper) for kind in ("cards", "binder") for units, paper in SHEETS]
HEADINGS = {
    "Before cutting",
    "Lay out and cut",
    "Needle and stitch",
    "Seams and hems",
    "Press",
    "Care",
    "Watch out",
    "Notes",
}


@pytest.mark.parametrize(("kind", "units", "paper"), EVERY)
def test_the_page_has_the_size_of_the_paper(kind: str, units: str, paper: str) -> None:
    """A5 for A4 printers, half a Letter sheet for Letter printers, whole sheets in the binder."""
    wanted = SIZES[kind, paper]
    for page in seen(printed(kind, units, paper).pdf):
        assert (page["width"] / MM, page["height"] / MM) == pytest.approx(wanted, abs=0.05)


@pytest.mark.parametrize(("kind", "units", "paper"), EVERY)
def test_every_word_stands_inside_the_margins(kind: str, units: str, paper: str) -> None:
    """Margins from look.toml; never nearer than 6.5 mm to the edge, which nearly every printer reaches."""
    look = page_type(TYPES[kind, paper])
    assert min(look.left, look.right, look.top, look.bottom) >= 6.5 * MM
    for page in seen(printed(kind, units, paper).pdf):
        assert page["words"]
        outside = [
            w["text"] for w in page["words"] if w["x0"] < look.left - 0.1 or w["x1"] > page["width"] - look.right + 0.1
        ]
        outside += [
            w["text"]
            for w in page["words"]
            if w["top"] < look.top - 3 or w["bottom"] > page["height"] - look.bottom + 3
        ]
        assert outside == []


def overlapping(words: list[dict[str, Any]]) -> list[tuple[str, str]]:
    """Pairs of words whose boxes overlap by more than a hair."""
    pairs = combinations(sorted(words, key=lambda w: w["top"]), 2)
    return [
        (a["text"], b["text"])
        for a, b in pairs
        if min(a["x1"], b["x1"]) - max(a["x0"], b["x0"]) > 0.3
        and min(a["bottom"], b["bottom"]) - max(a["top"], b["top"]) > 0.6
    ]


@pytest.mark.parametrize(("kind", "units", "paper"), EVERY)
def test_no_two_words_overlap(kind: str, units: str, paper: str) -> None:
    """Not even on the longest card."""
    for page in seen(printed(kind, units, paper).pdf):
        assert overlapping(page["words"]) == []


def test_the_overlap_check_can_fail() -> None:
    """Two words in one place are seen."""
    word = {"text": "a", "x0": 10, "x1": 20, "top": 10, "bottom": 19}
    assert overlapping([word, word | {"text": "b", "x0": 15, "x1": 25}]) == [("a", "b")]


@pytest.mark.parametrize(("kind", "units", "paper"), EVERY)
def test_nothing_is_smaller_than_eight_points(kind: str, units: str, paper: str) -> None:
    """8 pt is 1.37 mm of x-height; EU 1169/2011 asks 1.2 mm on food labels."""
    sizes = {round(w["size"], 2) for page in seen(printed(kind, units, paper).pdf) for w in page["words"]}
    assert min(sizes) >= 8 and max(sizes) >= 19


@pytest.mark.parametrize(("kind", "units", "paper"), EVERY)
def test_every_word_of_the_markup_is_printed(kind: str, units: str, paper: str) -> None:
    """Nothing is cut off: every word of every line, reason and caution stands on paper as often as the markup has it."""
    wanted = Counter(
        word for text in visible(ElementTree.fromstring(markup(kind, units, paper))) for word in text.split()
    )
    there = Counter(word for page in seen(printed(kind, units, paper).pdf) for word in text_of(page).split())
    assert sum(wanted.values()) > 1000
    assert {word for word in wanted - there if len(word) < 60} == set()


PRINTED = ("title", "because", "mark", "caution", "when", "label", "value", "tested", "size", "change")
"""The attributes of page markup that are words on paper."""


def visible(element: ElementTree.Element) -> Iterator[str]:
    """Every text of the markup that is printed."""
    if element.tag != "pages":
        yield from (element.get(name, "") for name in PRINTED)
    yield element.text or ""
    for child in element:
        yield from visible(child)


@pytest.mark.parametrize(("kind", "units", "paper"), EVERY)
def test_no_heading_stands_alone(kind: str, units: str, paper: str) -> None:
    """Under every block's heading, in its own column and not far below, stands a line of the block."""
    looked = 0
    for page in seen(printed(kind, units, paper).pdf):
        for heading in headings(page["words"]):
            below = [
                w for w in page["words"] if 0 < w["top"] - heading["bottom"] < 8 and abs(w["x0"] - heading["x0"]) < 20
            ]
            assert [w for w in below if "Bold" not in w["fontname"]], heading["text"]
            looked += 1
    assert looked >= 6 * 6


def headings(words: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """The first word of every block's heading."""
    firsts = {title.split()[0] for title in HEADINGS}
    return [w for w in words if w["text"] in firsts and "Bold" in w["fontname"] and 9 < w["size"] < 12.5]


@pytest.mark.parametrize(("units", "paper"), SHEETS)
def test_no_box_is_empty(units: str, paper: str) -> None:
    """The one heavy box of a card holds words, and a card with nothing lasting to say has none."""
    heavy = 0
    for page in seen(printed("cards", units, paper).pdf):
        for box in [r for r in page["rects"] if r["linewidth"] > 1.5]:
            inside = [
                w
                for w in page["words"]
                if box["x0"] < w["x0"] and w["x1"] < box["x1"] and box["top"] < w["top"] and w["bottom"] < box["bottom"]
            ]
            assert len(inside) > 5
            heavy += 1
    assert heavy == sum(any(spoke.lasting for spoke in f.advice["watch_out"].won) for f in all_fabrics())


@pytest.mark.parametrize(("kind", "units", "paper"), EVERY)
def test_a_second_side_is_reported(kind: str, units: str, paper: str) -> None:
    """Only the long-winded fabric needs one, and only it is named."""
    result = printed(kind, units, paper)
    assert result.second_sides == ("W12",)
    assert result.pages == len(seen(result.pdf)) > len(all_fabrics())


def test_a_card_that_runs_over_says_so() -> None:
    """The front tells the reader to turn over, every further side says whose, which and of how many it is."""
    sides = [text_of(page) for page in seen(printed("cards", "both", "A4").pdf) if "W12" in text_of(page)]
    assert len(sides) > 1 and all("Turn over" in side for side in sides[:-1]) and "Turn over" not in sides[-1]
    for number, side in enumerate(sides[1:], start=2):
        assert f"W12 · side {number} of {len(sides)}" in side.replace("\u00a0", " ")


def test_the_markup_is_what_was_asked_for() -> None:
    """The checks above looked at six fabrics."""
    assert markup("cards", "both", "A4").count("<sheet ") == len(all_fabrics()) == 6
