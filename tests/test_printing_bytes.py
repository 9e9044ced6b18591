"""The PDF file: the same bytes every time, only our fonts, and what a viewer needs to know."""

from __future__ import annotations

import os
import subprocess
import sys
from io import BytesIO
from pathlib import Path

import pypdf
import pytest

from handouts import printing
from handouts.errors import TemplateError
from tests.fabrics_by_hand import all_fabrics
from tests.printed import markup, printed

SCRIPT = """
import hashlib
from tests.printed import printed
for kind in ("cards", "binder"):
    print(hashlib.sha256(printed(kind, "both", "A4").pdf).hexdigest())
"""


def reader(kind: str = "cards") -> pypdf.PdfReader:
    """The printed by-hand class."""
    return pypdf.PdfReader(BytesIO(printed(kind, "both", "A4").pdf))


def test_the_same_markup_gives_the_same_bytes() -> None:
    """In one process, one after the other."""
    text = markup("cards", "both", "A4")
    assert printing.print_pages(text).pdf == printing.print_pages(text).pdf


def test_the_bytes_do_not_depend_on_the_hash_seed() -> None:
    """Two fresh processes with different PYTHONHASHSEED."""
    outputs = set()
    for seed in ("0", "12345"):
        run = subprocess.run(
            [sys.executable, "-c", SCRIPT], capture_output=True, text=True, check=True, cwd=Path(__file__).parent.parent,
            env={**os.environ, "PYTHONHASHSEED": seed},
        )  # fmt: skip
        outputs.add(run.stdout)
    assert len(outputs) == 1 and len(outputs.pop().split()) == 2


@pytest.mark.parametrize("kind", ["cards", "binder"])
def test_only_our_fonts_and_all_of_them_embedded(kind: str) -> None:
    """No Helvetica is left in the resources, and every font brings its own outlines."""
    names = set()
    for page in reader(kind).pages:
        for font in page["/Resources"]["/Font"].values():
            names.add(str(font["/BaseFont"]).split("+")[-1])
            assert "/FontFile2" in font["/FontDescriptor"]
    assert names <= {"HandoutSans-Regular", "HandoutSans-Bold", "HandoutSpare-Regular"} and len(names) >= 2


def test_the_viewer_is_told_to_print_at_true_size() -> None:
    """ISO 32000-1 12.2: PrintScaling None; the title stands in the window, the language is given."""
    root = reader().trailer["/Root"]
    assert root["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert (
        root["/ViewerPreferences"]["/DisplayDocTitle"] is True
        or str(root["/ViewerPreferences"]["/DisplayDocTitle"]).lower() == "true"
    )
    assert root["/Lang"] == "en-GB"
    assert (
        reader().metadata.title == "Outerwear, evening class: fabric cards" and reader().metadata.author == "A. Example"
    )


def test_the_outline_has_an_entry_per_card() -> None:
    """Code and name."""
    assert [entry.title for entry in reader().outline] == [f"{fabric.code} {fabric.name}" for fabric in all_fabrics()]


def test_streams_are_not_blown_up() -> None:
    """No ASCII85: smaller and quicker (printing_facts.md B9); six cards stay under 60 KB."""
    assert b"/ASCII85Decode" not in printed("cards", "both", "A4").pdf
    assert len(printed("cards", "both", "A4").pdf) < 60_000


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("<pages><sheet page='card-a5'>", "markup"),
        ("<card/>", "<pages>"),
        ("<!DOCTYPE a [<!ENTITY b 'c'>]><pages/>", "entities"),
        ("<pages><sheet page='poster'/></pages>", "poster"),
        (
            "<pages><sheet page='card-a5'><strip><setting><dots n='many'/></setting></strip></sheet></pages>",
            "many",
        ),
    ],
)
def test_wrong_markup_is_refused_with_its_name(text: str, word: str) -> None:
    """A TemplateError that says what is wrong, never a broken page."""
    with pytest.raises(TemplateError, match=word):
        printing.print_pages(text)


def test_an_empty_class_is_an_empty_document() -> None:
    """No sheet: still a file that opens."""
    assert printing.print_pages("<pages title='Nothing'/>").pages in (0, 1)
