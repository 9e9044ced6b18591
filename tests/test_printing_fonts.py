"""The fonts: our own cuts, allowed to be ours, with every sign the pages need, measured as fontTools measures them."""

from __future__ import annotations

import hashlib

import pytest
from fontTools.ttLib import TTFont

from handouts.printing import missing_glyphs
from handouts.printing.fonts import clean, coverage, runs, width
from handouts.printing.look import fonts_folder, part

KINDS = ("regular", "bold", "spare")
NEEDED = "⅛⅜⅝⅞⅓⅔⅙⅚½¼¾°×±′″–—→≤≥−✓✗☐☑■●▲№€²·…“”‘’" + "ÀÿŁőşğẾệ" + "αΩΆ" + "ЖщЇґ" + "0123456789"
"""printing_facts.md A2: fractions, signs, Latin-1 and Extended-A, Vietnamese, Greek, Cyrillic."""


def font(kind: str) -> TTFont:
    """The font file of a kind."""
    return TTFont(fonts_folder() / part("fonts")[kind]["file"])


@pytest.mark.parametrize("kind", KINDS)
def test_the_font_is_the_one_we_looked_at(kind: str) -> None:
    """The file's SHA-256 stands in look.toml."""
    path = fonts_folder() / part("fonts")[kind]["file"]
    assert hashlib.sha256(path.read_bytes()).hexdigest() == part("fonts")[kind]["sha256"]


@pytest.mark.parametrize("kind", KINDS)
def test_the_font_has_a_name_of_our_own(kind: str) -> None:
    """SIL OFL 1.1 clause 3 and the Vera licence: a changed font must not carry the reserved names."""
    names = [str(font(kind)["name"].getName(number, 3, 1)) for number in (1, 2, 3, 4, 6)]
    assert all("Handout" in name for name in names if name not in ("Regular", "Bold"))
    assert not [name for name in names for word in ("Source", "Bitstream", "Vera", "DejaVu") if word in name]


def test_every_sign_of_ascii_can_be_printed() -> None:
    """Which is why such a text need not be looked at sign by sign."""
    printable = {n for n in range(128) if chr(n).isprintable()}
    assert len(printable) == 95 and printable <= set(coverage("regular"))


def test_no_two_fonts_share_a_postscript_name() -> None:
    """Two with one name print as one, silently (printing_facts.md A1)."""
    assert len({str(font(kind)["name"].getName(6, 3, 1)) for kind in KINDS}) == len(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_the_font_may_be_embedded(kind: str) -> None:
    """OpenType OS/2 fsType 0: installable embedding, no restriction."""
    assert font(kind)["OS/2"].fsType == 0


def test_the_licences_travel_along() -> None:
    """Both licences ask for their text and copyright line beside the fonts."""
    assert "SIL OPEN FONT LICENSE Version 1.1" in (fonts_folder() / "OFL.txt").read_text(encoding="utf-8")
    assert "Bitstream Vera is a trademark" in (fonts_folder() / "VERA.txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("kind", ["regular", "bold"])
def test_the_main_fonts_hold_every_sign_we_need(kind: str) -> None:
    """Each needed sign has a glyph that draws something or is a space."""
    have = font(kind).getBestCmap()
    assert [sign for sign in NEEDED if ord(sign) not in have] == []


@pytest.mark.parametrize("kind", ["regular", "bold"])
def test_figures_are_tabular(kind: str) -> None:
    """All ten figures are equally wide, so that columns of numbers stand straight."""
    face = font(kind)
    assert len({face["hmtx"][face.getBestCmap()[ord(figure)]][0] for figure in "0123456789"}) == 1


@pytest.mark.parametrize("kind", ["regular", "bold"])
@pytest.mark.parametrize("text", ["Boiled wool, moss", "350 g/m² × 5 °C", "Żółć Ελλάς Жук"])
def test_width_is_the_sum_of_the_advances(kind: str, text: str) -> None:
    """Compared with the font's own hmtx table, read by fontTools."""
    face = font(kind)
    advances = sum(face["hmtx"][face.getBestCmap()[ord(c)]][0] for c in text)
    assert width(text, kind == "bold", 10) == pytest.approx(advances * 10 / face["head"].unitsPerEm, rel=1e-3)


def test_a_sign_that_no_font_has_is_reported_and_printed_as_a_question_mark() -> None:
    """Never a black box, never nothing."""
    assert missing_glyphs("a 布 b ש") == {"布", "ש"}
    assert "".join(characters for _, _, characters in runs("a 布 b", False, 9)) == "a ? b"


def test_the_spare_font_prints_what_the_main_one_lacks() -> None:
    """Armenian and Georgian stand only in the spare font; the rest of the line keeps the main one."""
    assert missing_glyphs("Հայ ქარ") == set()
    assert [(name.split("-")[0], text) for name, _, text in runs("ab Հ", False, 9)] == [
        ("HandoutSans", "ab "),
        ("HandoutSpare", "Հ"),
    ]


def test_fractions_are_never_set_smaller_than_they_can_be_read() -> None:
    """printing_facts.md A2: a ⅝ below 9 pt is the first thing to fail."""
    assert [(size, text) for _, size, text in runs("8 ⅝ in", False, 8)] == [(8, "8 "), (9, "⅝"), (8, " in")]


def test_text_is_composed_and_control_signs_are_gone() -> None:
    """NFD, bidi marks, NUL, a lone surrogate, tabs and line ends cannot disturb a line."""
    assert clean("e\u0301\u202e\x00\ud800 a\tb\nc\u00a0d\u200b") == "é a b c\u00a0d"
