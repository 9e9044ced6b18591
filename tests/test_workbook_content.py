"""The Fibre content cell, from the workbook to the finding: as the bolt end says it (issue 4, third line).

tests/test_labelling_read.py tries the reader itself with many more cells.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from handouts import pipeline
from handouts.problems import Problem
from handouts.records import Fabric
from tests.books import HEADINGS, make

NAMES = {
    # Regulation (EU) No 1007/2011, Annex I: cotton, linen, wool, silk, viscose, polyamide; from memory of the annex
    "English": "50% cotton, 20% linen, 10% wool, 10% silk, 5% viscose, 5% polyamide",
    "French": "50 % coton, 20 % lin, 10 % laine, 10 % soie, 5 % viscose, 5 % polyamide",
    "German": "50 % Baumwolle, 20 % Leinen, 10 % Wolle, 10 % Seide, 5 % Viskose, 5 % Polyamid",
    "Spanish": "50 % algodón, 20 % lino, 10 % lana, 10 % seda, 5 % viscosa, 5 % poliamida",
    "Italian": "50 % cotone, 20 % lino, 10 % lana, 10 % seta, 5 % viscosa, 5 % poliammide",
    "Dutch": "50% katoen, 20% linnen, 10% wol, 10% zijde, 5% viscose, 5% polyamide",
}
SIX = {"cotton": 50, "linen": 20, "wool": 10, "silk": 10, "viscose": 5, "polyamide": 5}


def told(folder: Path, cell: str, cloth: str = "plain weave") -> tuple[Fabric, list[Problem]]:
    """The fabric with this cell, and the findings about the cell."""
    book = make(folder / "b.xlsx", {"Fabrics": [HEADINGS, ["Blue", cloth, cell]]})
    workshop = pipeline.load_workshop(book)
    return workshop.fabrics[0], [found for found in workshop.problems if found.code.startswith("content-")]


@pytest.mark.parametrize(
    "cell", ["60% cotton 40% linen", "cotton 60% linen 40%", "60/40 cotton linen", "cotton 60 / linen 40"]
)
def test_content_in_any_order(tmp_path: Path, cell: str) -> None:
    """The share before its fibre or behind it, or all shares first."""
    fabric, findings = told(tmp_path, cell)
    assert (fabric.content.fibres(), findings) == ({"cotton": 60, "linen": 40}, [])


@pytest.mark.parametrize("separator", [", ", "; ", " / ", " + ", " & ", " and ", "\n", " - ", "  "])
def test_content_with_any_separator(tmp_path: Path, separator: str) -> None:
    """Comma, semicolon, stroke, plus, and, a new line, a dash, a gap."""
    fabric, findings = told(tmp_path, f"60% cotton{separator}40% linen")
    assert (fabric.content.fibres(), findings) == ({"cotton": 60, "linen": 40}, [])


@pytest.mark.parametrize("language", NAMES)
def test_fibre_names_in_six_languages(tmp_path: Path, language: str) -> None:
    """Six fibres by their names of the regulation's annex."""
    fabric, findings = told(tmp_path, NAMES[language])
    assert (fabric.content.fibres(), findings) == (SIX, [])


def test_trade_names_are_proposed_as_generic_ones(tmp_path: Path) -> None:
    """A loose word of the trade is read, and the general name is proposed (common practice, no source)."""
    fabric, (finding,) = told(tmp_path, "100% poly")
    assert fabric.content.fibres() == {"polyester": 100}
    assert (finding.severity, "Write polyester" in finding.mend) == ("note", True)


def test_codes_are_explained(tmp_path: Path) -> None:
    """CO is cotton, PES polyester: each is named in full (ISO 2076 codes, from memory)."""
    fabric, findings = told(tmp_path, "CO 60 PES 40")
    assert fabric.content.fibres() == {"cotton": 60, "polyester": 40}
    assert [("“CO”" in str(f), "cotton" in str(f)) for f in findings if "CO" in f.message] == [(True, True)]
    assert any("polyester" in found.message for found in findings)


def test_sums_other_than_100_are_refused_with_the_proposal(tmp_path: Path) -> None:
    """97 and 2 make 99: to be mended, and what is missing is said."""
    _, (finding,) = told(tmp_path, "97% cotton, 2% elastane")
    assert (finding.code, finding.severity, "99" in finding.message) == ("content-sum", "mend", True)
    assert finding.mend.startswith("1 is missing: look for another fibre")


def test_reasons_in_brackets(tmp_path: Path) -> None:
    """What a small share is for: a reason, and not a fibre."""
    fabric, findings = told(tmp_path, "97% cotton, 3% elastane (stretch)", "jersey")
    reasons = {share.fibre: share.reason for section in fabric.content.sections for share in section.shares}
    assert (reasons["elastane"], findings) == ("stretch", [])


def test_pile_and_back(tmp_path: Path) -> None:
    """Each has its own fibres, and the pile its share of the whole."""
    fabric, findings = told(tmp_path, "pile 100% polyamide; back 100% cotton; pile 40%", "velvet")
    parts = {section.part: [share.fibre for share in section.shares] for section in fabric.content.sections}
    assert (parts["pile"], parts["back"], findings) == (["polyamide"], ["cotton"], [])


def test_a_coating_pvc_on_100_polyester(tmp_path: Path) -> None:
    """The coating is a fact of its own; the base keeps its fibres."""
    fabric, findings = told(tmp_path, "PVC on 100 % polyester")
    assert (fabric.content.coating, fabric.content.fibres(), findings) == ("PVC", {"polyester": 100}, [])
    assert fabric.fact("coating") == "PVC"


def test_unknown_is_an_answer(tmp_path: Path) -> None:
    """Nobody knows: nothing to mend, and the fibre is not guessed."""
    fabric, findings = told(tmp_path, "unknown")
    assert (fabric.content.unknown, findings) == (True, [])
