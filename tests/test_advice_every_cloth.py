"""What must hold for every cloth as it usually is, whatever order its files are read in (issue list, proof by properties)."""

from __future__ import annotations

import shutil
from pathlib import Path

from handouts.advice import advise, facts_of
from handouts.knowledge.load import FOLDER, load
from handouts.records import Content, Section, Share
from tests.random_fabrics import ITEMS, KNOWN


def test_the_order_of_files_never_matters(tmp_path: Path) -> None:
    """The knowledge files renamed so that the last is read first: the same advice for every cloth as it usually is."""
    copy = tmp_path / "knowledge"
    shutil.copytree(FOLDER, copy, ignore=shutil.ignore_patterns("*.py", "__pycache__"))
    for folder in ("rules", "cloths"):
        for place, file in enumerate(sorted((copy / folder).glob("*.toml"), reverse=True)):
            file.rename(file.with_name(f"{place:02d}.toml"))
    turned = load(copy)
    assert list(turned.cloths) != list(KNOWN.cloths), "the order must have changed"
    facts = [
        facts_of({}, str, item, Content("", (Section("", (Share("cotton", 100.0, ""),)),)), KNOWN) for item in ITEMS
    ]
    for one, other in zip(advise(facts, KNOWN, mights=False), advise(facts, turned, mights=False), strict=True):
        assert {t: d.value for t, d in one.items()} == {t: d.value for t, d in other.items()}


USUAL_CONTENTS = (
    "cotton",
    "linen",
    "viscose",
    "silk",
    "wool",
    "polyester",
    "polyamide",
    "acrylic",
    "acetate",
    "unknown",
)


def test_no_two_rules_clash_over_all_cloths_and_usual_fibres() -> None:
    """Every cloth and construction × the usual fibres: no two rules of one tier disagree."""
    facts = [
        facts_of({}, lambda key: key, item, Content("", (Section("", (Share(fibre, 100.0, fibre),)),)), KNOWN)
        for item in ITEMS
        for fibre in USUAL_CONTENTS
    ]
    assert len(facts) >= 600, "the test must have looked at something"
    found = {
        (facts_["cloth"].value, facts_["main_fibre"].value, topic): decision.clash
        for facts_, advice in zip(facts, advise(facts, KNOWN, mights=False), strict=True)
        for topic, decision in advice.items()
        if decision.clash
    }
    assert found == {}
