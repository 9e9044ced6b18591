"""The knowledge base refuses what does not fit: one broken file per mistake, and the words that name file, record and key."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from handouts import knowledge
from handouts.errors import KnowledgeError
from handouts.knowledge.load import FOLDER, load

RULE = """
[[rule]]
id = "planted"
topic = "hold"
tier = "family"
when = { families = ["skin"] }
value = ["clips"]
because = "A planted rule."
sources = ["judgement"]
checked = 2026-11-25
"""
PLANTED = {line.split(" = ")[0]: line for line in RULE.strip().splitlines()[1:]}


def broken(folder: Path, file: str, old: str, new: str) -> str:
    """What the loader says of a copy in which one thing is changed; the thing must be there."""
    copy = folder / "knowledge"
    shutil.copytree(FOLDER, copy, ignore=shutil.ignore_patterns("*.py", "__pycache__"))
    text = (copy / file).read_text(encoding="utf-8") + (RULE if file.startswith("rules/") else "")
    assert old in text
    (copy / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(KnowledgeError) as refused:
        load(copy)
    return str(refused.value)


def changed(folder: Path, key: str, line: str) -> str:
    """What the loader says when one line of a good rule is another."""
    return broken(folder, "rules/holding.toml", RULE, RULE.replace(PLANTED[key], line))


@pytest.mark.parametrize(
    ("file", "old", "new", "words"),
    [
        ("fibres.toml", "dots = 3", "dotz = 3", ["fibres.toml", "cotton", "dotz", "missing key dots"]),
        ("fibres.toml", "[fibre.linen]", "[fibre.linen", ["fibres.toml"]),
        ("cloths/linen.toml", 'construction = "', 'construction = "knotted-', ["constructions.toml", "knotted-"]),
        ("families.toml", '"stable knit" =', '"steady knit" =', ["stable knit", "families.toml"]),
        ("fibres.toml", 'sources = ["LAW-S13",', 'sources = ["LAW-S999",', ["cotton", "LAW-S999", "sources.toml"]),
        ("limits.toml", 'unit = "% elastane"', 'unti = "% elastane"', ["limits.toml", "stretch_from", "unit"]),
        ("limits.toml", 'sources = ["judgement"]', "sources = []", ["limits.toml", "weight_reach"]),
    ],
)
def test_a_broken_record_is_named(tmp_path: Path, file: str, old: str, new: str, words: list[str]) -> None:
    """File, record and key stand in the message."""
    said = broken(tmp_path, file, old, new)
    assert [word for word in words if word not in said] == []


@pytest.mark.parametrize(
    ("key", "line", "words"),
    [
        ("topic", 'topic = "grip"', ["planted", "grip"]),
        ("tier", 'tier = "guild"', ["planted", "guild"]),
        ("when", 'when = { families = ["skinn"] }', ["planted", "skinn"]),
        ("when", "when = { weight_gsm = { over = 90 } }", ["planted", "weight_gsm", "over"]),
        ("when", "when = { wieght_gsm = { min = 90 } }", ["planted", "wieght_gsm"]),
        ("when", "when = { sheer = 1 }", ["planted", "sheer", "true or false"]),
        ("when", 'when = { watch_out = "x" }', ["planted", "watch_out", "no earlier topic"]),
        ("when", 'when = { any = [{ coating = ["waxx"] }] }', ["planted", "waxx"]),
        ("value", 'value = ["magnets"]', ["planted", "magnets", "hold"]),
        ("value", 'never = ["magnets"]', ["planted", "magnets", "hold"]),
        ("value", "", ["planted", "says nothing"]),
        ("value", 'value = ["clips"]\nreplaces = ["nobody"]', ["planted", "nobody"]),
        ("value", 'value = ["clips"]\npriority = 5', ["holding.toml", "planted", "priority"]),
        ("because", "", ["planted", "because"]),
        ("sources", 'sources = ["hearsay"]', ["planted", "hearsay"]),
        ("id", 'id = "hold-usual"', ["hold-usual"]),
    ],
)
def test_a_broken_rule_is_named(tmp_path: Path, key: str, line: str, words: list[str]) -> None:
    """Unknown topics, tiers, facts, tests, words, keys and sources; advice in a wrong shape; an id twice."""
    said = changed(tmp_path, key, line)
    assert [word for word in words if word not in said] == []


def test_the_planted_rule_itself_is_good(tmp_path: Path) -> None:
    """Without a mistake the copy loads, whatever the order of its files: the names of the rule files are turned round."""
    copy = tmp_path / "knowledge"
    shutil.copytree(FOLDER, copy, ignore=shutil.ignore_patterns("*.py", "__pycache__"))
    for place, file in enumerate(sorted((copy / "rules").glob("*.toml"), reverse=True)):
        file.rename(file.with_name(f"{place:02d}.toml"))
    (copy / "rules" / "zz.toml").write_text(RULE, encoding="utf-8")
    ids = [rule.id for rule in load(copy).rules]
    assert sorted([*(rule.id for rule in knowledge.load().rules), "planted"]) == sorted(ids)
    written = [id for id in ids if id != "planted"]
    assert written == [rule.id for rule in knowledge.load().rules]
