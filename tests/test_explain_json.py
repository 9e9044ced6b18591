"""`handouts explain --json` keeps the contract: a schema of our own (draft 2020-12), checked with the jsonschema library."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from handouts import pipeline, telling
from handouts.cli import main

BOOKS = Path(__file__).parent.parent / "workbooks"
SCHEMA = json.loads((Path(__file__).parent / "explain.schema.json").read_text(encoding="utf-8"))


def test_the_schema_itself_is_one() -> None:
    """The schema is well formed."""
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


@pytest.mark.parametrize("book", ["outerwear.xlsx", "outerwear-imperial.xlsx", "shop-list.xlsx"])
def test_every_example_keeps_the_contract(book: str) -> None:
    """Facts, advice on every topic, label and problems, in the shapes of the contract."""
    whole = json.loads(telling.as_json(pipeline.load_workshop(BOOKS / book)))
    jsonschema.validate(whole, SCHEMA, cls=jsonschema.Draft202012Validator)
    assert len(whole["fabrics"]) >= 12


def test_the_schema_can_fail() -> None:
    """A dot too many, a topic too few: refused."""
    whole = json.loads(telling.as_json(pipeline.load_workshop(BOOKS / "outerwear.xlsx")))
    whole["fabrics"][0]["advice"]["press_dots"]["value"] = 4
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(whole, SCHEMA)
    del whole["fabrics"][0]["advice"]["press_dots"]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(whole, SCHEMA)


def test_the_command_prints_it(capsys: pytest.CaptureFixture[str]) -> None:
    """The command prints nothing else on stdout."""
    assert main(["explain", str(BOOKS / "outerwear.xlsx"), "--json"]) == 0
    jsonschema.validate(json.loads(capsys.readouterr().out), SCHEMA)
