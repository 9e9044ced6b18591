"""Any text at all in the Fibre content cell: nothing raises, nothing takes long, and content written out reads back the same."""

from __future__ import annotations

import time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from handouts.labelling import read_content
from handouts.problems import catalogue
from tests.content_words import words
from tests.labelling_knowledge import knowledge

FRAGMENTS = st.sampled_from(
    ["97%", "3 %", "40", "60/40", "cotton", "linen", "Baumwolle", "poly", "CO", "elastane", "(for stretch)", "pile", "back:", ";",
     ",", "/", "unknown", "scraps", "remnants", "exclusive of", "except", "added to", "PVC", "on", "coated", "leather", "union",
     "*", "silk", "look", "bamboo", "\n", "½", "--", "constitutes", "Super 130s", "17.2 µm", "recycled", "()", "(", "100%"]
)  # fmt: skip


@settings(deadline=None, max_examples=300, suppress_health_check=[HealthCheck.too_slow])
@given(st.one_of(st.text(max_size=200), st.lists(FRAGMENTS, max_size=14).map(" ".join)))
def test_any_text_is_read(cell: str) -> None:
    """No text raises, every finding has its fields, every fibre is one we know, and the cell is kept as typed."""
    content = read_content(cell, knowledge())
    assert cell == content.typed
    assert {share.fibre for section in content.sections for share in section.shares} <= {None, *knowledge().fibres}
    for code, found in content.findings:
        assert catalogue()[code].sentence.format(**found) and catalogue()[code].mend.format(**found)


LONG = [
    "a" * 32767,
    "(" * 32767,
    "1 " * 16000,
    "\x00\x1b\u202e" * 9000,
    "exclusive of " * 2500,
    "cotton coated " * 2300,
]


@pytest.mark.parametrize("cell", LONG, ids=lambda cell: ascii(cell[:12]))
def test_the_longest_cell_is_read_in_a_blink(cell: str) -> None:
    """A spreadsheet cell holds 32,767 characters; reading one takes well under a second."""
    start = time.perf_counter()
    read_content(cell, knowledge())
    assert time.perf_counter() - start < 2


FIBRES = st.sampled_from(
    ["cotton", "linen", "wool", "silk", "polyester", "polyamide", "viscose", "elastane", "acrylic", "metallic", "hemp"]
)


@st.composite
def cells(draw: st.DrawFn) -> str:
    """A well-formed cell: one to five fibres to 0.5 %, some with reasons, perhaps as pile and back."""
    blend = draw_blend(draw)
    form = draw(st.sampled_from(["plain", "back", "exclusive", "coating"]))
    if form == "back":
        return f"pile: {blend}; back: {draw_blend(draw)}; pile 40%"
    return {"plain": blend, "exclusive": f"{blend}; exclusive of ornamentation", "coating": f"PVC on {blend}"}[form]


def draw_blend(draw: st.DrawFn) -> str:
    """Shares in half percents that add up to 100."""
    names = draw(st.lists(FIBRES, min_size=1, max_size=5, unique=True))
    cuts = sorted(draw(st.lists(st.integers(1, 199), min_size=len(names) - 1, max_size=len(names) - 1, unique=True)))
    halves = [b - a for a, b in zip([0, *cuts], [*cuts, 200], strict=True)]
    reasons = draw(
        st.lists(st.sampled_from(["", " (for stretch)", " (strength)"]), min_size=len(names), max_size=len(names))
    )
    return ", ".join(f"{h / 2:g}% {name}{reason}" for h, name, reason in zip(halves, names, reasons, strict=True))


@settings(deadline=None, max_examples=150)
@given(cells())
def test_content_written_out_reads_back_the_same(cell: str) -> None:
    """content → words → content: sections, shares, reasons, coating and endings survive."""
    first = read_content(cell, knowledge())
    again = read_content(words(first), knowledge())
    assert first.findings == ()
    assert (first.sections, first.exclusive_of, first.coating) == (again.sections, again.exclusive_of, again.coating)
