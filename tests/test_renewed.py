"""What is generated and committed is fresh. The cure for every failure here: `python -m tests.renew`."""

from __future__ import annotations

import json
from pathlib import Path

import pypdf
import pytest

from tests import renew

CURE = "stale: run `python -m tests.renew`, look at the pictures, commit"


def test_readmes_tables_are_fresh() -> None:
    """The tables of columns and findings say what sheets.py and problems.toml say."""
    assert renew.readme() == (renew.TOP / "README.md").read_text(encoding="utf-8"), CURE


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example class, built now."""
    return renew.built(tmp_path_factory.mktemp("fresh"))


def text_of(pdf: Path) -> list[str]:
    """The words of every page: the bytes depend on the machine's zlib, the words do not (printing_facts B2)."""
    return [page.extract_text() for page in pypdf.PdfReader(pdf).pages]


def names(folder: Path) -> set[str]:
    """Every file below a folder but the pictures."""
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file() and path.suffix != ".png"}


def test_the_example_holds_the_same_files(fresh: Path) -> None:
    """No file too many, none missing."""
    assert names(renew.EXAMPLE) == names(fresh), CURE


def test_the_examples_pages_are_fresh(fresh: Path) -> None:
    """Every PDF says what a build now says."""
    for name in sorted(names(fresh)):
        if name.endswith(".pdf"):
            assert text_of(renew.EXAMPLE / name) == text_of(fresh / name), f"{name}: {CURE}"


def test_the_examples_advice_is_fresh(fresh: Path) -> None:
    """advice.json and class.html are the same to the byte."""
    for name in ("advice.json", "class.html"):
        assert (renew.EXAMPLE / name).read_bytes() == (fresh / name).read_bytes(), f"{name}: {CURE}"
    assert len(json.loads((fresh / "advice.json").read_text(encoding="utf-8"))["fabrics"]) == 12


def test_the_pictures_are_there() -> None:
    """README's two pictures exist and are PNG files."""
    for picture in renew.PICTURED:
        assert (renew.EXAMPLE / picture).read_bytes().startswith(b"\x89PNG"), CURE
