"""Every cloth of the knowledge base as a card: each character can be printed, and almost all go on one side."""

from __future__ import annotations

import csv
from dataclasses import replace
from typing import Any

import pytest

from handouts import knowledge, pages, pipeline, printing
from handouts.records import Workshop


@pytest.fixture(scope="module")
def everything(tmp_path_factory: pytest.TempPathFactory) -> Workshop:
    """A list with every cloth by its name and usual content."""
    path = tmp_path_factory.mktemp("cloths") / "cloths.csv"
    rows: list[list[Any]] = [["Name", "Cloth", "Fibre content"]]
    rows += [[cloth.name, cloth.name, cloth.usual_content or "unknown"] for cloth in knowledge.load().cloths.values()]
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows(rows)
    return pipeline.load_workshop(path)


def test_every_character_can_be_printed(everything: Workshop) -> None:
    """No cloth, rule, reason or caution uses a sign that our fonts lack."""
    assert len(everything.fabrics) >= 60
    assert printing.missing_glyphs(pages.binder(everything, knowledge.load())) == set()


@pytest.mark.parametrize(("paper", "units"), [("A4", "both"), ("Letter", "imperial")])
def test_almost_every_cloth_goes_on_one_side(everything: Workshop, paper: str, units: str) -> None:
    """Every seventh cloth, printed: at most one card in twenty needs its back."""
    some = replace(
        everything, fabrics=everything.fabrics[::7], settings={**everything.settings, "paper": paper, "units": units}
    )
    result = printing.print_pages(pages.cards(some, knowledge.load()))
    assert len(result.second_sides) <= len(some.fabrics) / 20
    assert result.pages == len(some.fabrics) + len(result.second_sides)
