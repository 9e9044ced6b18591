"""The comparison sheet: order, marks, dashes, repeated headings, and a layout where nothing touches or is lost."""

from __future__ import annotations

import io
from itertools import pairwise
from xml.etree import ElementTree

import pdfplumber
import pytest

from handouts import knowledge, pipeline
from handouts.pages.comparison import COLUMNS, comparison, groups, watch
from handouts.pages.comparison_sheet import HEADINGS, comparison_table
from handouts.places import shipped
from handouts.planning import plan
from handouts.printing import print_pages
from handouts.records import Fabric, Workshop
from tests.class_by_hand import fabric, mm, nm, workshop
from tests.classes_by_hand import sixty, twelve

BASE = knowledge.load()
PT_PER_MM = 72 / 25.4


def markup(fabrics: tuple[Fabric, ...], **settings: str) -> str:
    """The comparison's page markup of these fabrics."""
    made = workshop(fabrics, **settings)
    return comparison(made, plan(made, BASE), BASE)


def printed(fabrics: tuple[Fabric, ...], **settings: str) -> pdfplumber.PDF:
    """The comparison as a PDF."""
    return pdfplumber.open(io.BytesIO(print_pages(markup(fabrics, **settings)).pdf))


def made_of(workshop_: Workshop) -> list[tuple[int, list[str]]]:
    """Dots and codes of every group, read down."""
    return [(g.dots, [r.code for r in g.rows]) for g in groups(workshop_, plan(workshop_, BASE), BASE)]


@pytest.mark.parametrize("fabrics", [twelve(), sixty()])
def test_the_iron_never_cools_when_read_down(fabrics: tuple[Fabric, ...]) -> None:
    """One group for every heat, rising, and every fabric in it once."""
    found = made_of(workshop(fabrics))
    dots = [d for d, _ in found]
    assert dots == sorted(set(dots))
    assert sorted(code for _, codes in found for code in codes) == sorted(f.code for f in fabrics)


@pytest.mark.parametrize(
    ("fabrics", "settings"), [(twelve(), {}), (twelve(), {"paper": "Letter"}), (sixty(), {"units": "imperial"})]
)
def test_dots_drawn_on_the_page_only_grow(fabrics: tuple[Fabric, ...], settings: dict[str, str]) -> None:
    """Read off the PDF: filled circles at the Iron column, from top to bottom of all pages."""
    filled: list[int] = []
    for page in printed(fabrics, **settings).pages:
        rows: dict[int, int] = {}
        for curve in page.curves:
            if curve["width"] < 7 and abs(curve["width"] - curve["height"]) < 0.5:
                rows.setdefault(round(curve["top"]), 0)
                rows[round(curve["top"])] += bool(curve["fill"])
        filled += [rows[top] for top in sorted(rows)]
    assert len(filled) >= 4, "every group draws its dots"
    assert filled == sorted(filled)


def test_twelve_fabrics_are_one_sheet() -> None:
    """The table, what never to do and the stations on one landscape page, A4 and Letter."""
    for paper, wide in (("A4", 297), ("Letter", 279.4)):
        pages = printed(twelve(), paper=paper).pages
        assert [len(pages), round(float(pages[0].width) / PT_PER_MM, 1)] == [1, wide]


@pytest.mark.parametrize("name", ["outerwear", "outerwear-imperial"])
def test_the_example_class_is_one_sheet(name: str) -> None:
    """The twelve cloths of workbooks/, with the advice of the rules: one page, the iron rising, no usual cell marked."""
    made = pipeline.load_workshop(shipped("workbooks") / f"{name}.xlsx")
    found = plan(made, BASE)
    assert print_pages(comparison(made, found, BASE)).pages == 1
    dots = [d for d, _ in made_of(made)]
    assert dots == sorted(dots) and len(made.fabrics) == 12
    assert all(
        found.usual[c].value != found.settings[code][c] for c in found.usual for code in found.usual[c].exceptions
    )


def test_headings_stand_on_every_page_of_a_long_table() -> None:
    """Sixty fabrics: wherever rows of the table stand, its headings stand above them, and the pages are counted."""
    pages = printed(sixty(), paper="Letter").pages
    assert len(pages) > 2
    for number, page in enumerate(pages, 1):
        text = page.extract_text()
        assert f"Page {number} of {len(pages)}." in text
        if any(f"S{n} " in text for n in range(1, 61)) and "To change a station" not in text:
            assert "Fabric Iron Steam Press Needle Stitch Foot Overlock Seam finish Watch" in text.replace(
                "\u00a0", " "
            )


@pytest.mark.parametrize(
    ("fabrics", "units", "paper"),
    [(twelve(), "both", "A4"), (sixty(), "imperial", "Letter"), (sixty(), "metric", "A4")],
)
def test_no_words_touch_and_none_is_clipped(fabrics: tuple[Fabric, ...], units: str, paper: str) -> None:
    """Boxes of words neither overlap nor reach into the margin that printers cannot fill (6.5 mm)."""
    seen = 0
    for page in printed(fabrics, units=units, paper=paper).pages:
        words = page.extract_words(x_tolerance=1.5, keep_blank_chars=False)
        seen += len(words)
        for word in words:
            assert word["x0"] >= 6.5 * PT_PER_MM and word["x1"] <= float(page.width) - 6.5 * PT_PER_MM, word["text"]
            assert word["top"] >= 6.5 * PT_PER_MM and word["bottom"] <= float(page.height) - 6.5 * PT_PER_MM, word[
                "text"
            ]
        assert overlapping(words) == []
    assert seen > 200


def overlapping(words: list[dict[str, float]]) -> list[tuple[float, float]]:
    """Pairs of words whose boxes share more than a hair."""
    tall = 0.35  # boxes are as high as the type, which overhangs its line a little
    return [
        (a["text"], b["text"])
        for number, a in enumerate(words)
        for b in words[number + 1 :]
        if min(a["x1"], b["x1"]) - max(a["x0"], b["x0"]) > 0.5
        and min(a["bottom"], b["bottom"]) - max(a["top"], b["top"]) > tall * (a["bottom"] - a["top"])
    ]


@pytest.mark.parametrize(
    ("fabrics", "paper", "units"), [(twelve(), "Letter", "both"), (twelve(), "A4", "both"), (sixty(), "A4", "imperial")]
)
def test_every_word_of_the_markup_is_on_the_paper_whole(fabrics: tuple[Fabric, ...], paper: str, units: str) -> None:
    """Nothing is lost or cut in two between the markup and the page: every word of every cell is printed."""
    root = ElementTree.fromstring(markup(fabrics, paper=paper, units=units))
    wanted = {word for cell in root.iter("cell") for word in (cell.text or "").replace("\u00a0", " ").split()}
    pages = printed(fabrics, paper=paper, units=units).pages
    paper_words = {part for page in pages for word in page.extract_words() for part in word["text"].split("\u00a0")}
    assert len(wanted) > 60
    assert sorted(wanted - paper_words) == []


def test_an_exception_carries_a_triangle_and_weight_and_the_usual_does_not() -> None:
    """Three of four sew 2.5 mm with the standard foot: the fourth is marked in both columns, the others in none."""
    cloths = [fabric(f"F{n}", "Twill") for n in (1, 2, 3)]
    cloths.append(fabric("F4", "Coating", stitch_mm=mm(3.0), foot=("Use a walking foot.",)))
    made = workshop(cloths)
    cells = {row.code: row.cells for group in groups(made, plan(made, BASE), BASE) for row in group.rows}
    assert [column for column in COLUMNS if cells["F4"][column].differs] == ["stitch", "foot"]
    assert [column for code in ("F1", "F2", "F3") for column in COLUMNS if cells[code][column].differs] == []
    assert (cells["F1"]["foot"].words, cells["F4"]["foot"].words) == ("—", "walking")
    marked = [
        cell for cell in ElementTree.fromstring(markup(tuple(cloths))).iter("cell") if cell.get("mark") == "triangle"
    ]
    assert [cell.get("strong") for cell in marked] == ["yes", "yes"]


def test_cloth_that_is_never_ironed_is_no_exception_in_steam() -> None:
    """Its heat says it already: steam and pressing are not about it."""
    cloths = [fabric("F1", "A"), fabric("F2", "B"), fabric("F3", "Vinyl", 0, steam="none")]
    made = workshop(cloths)
    cells = {row.code: row.cells for group in groups(made, plan(made, BASE), BASE) for row in group.rows}
    assert [(cells["F3"][c].words, cells["F3"][c].differs) for c in ("steam", "press")] == [
        ("none", False),
        ("never", False),
    ]


def test_gauges_are_drawn_at_true_length() -> None:
    """A stitch of 3 mm takes 3 mm of paper: the pitch of the drawn dashes, read off the PDF."""
    page = printed((fabric("F1", "Twill", stitch_mm=mm(3.0)),)).pages[0]
    dashes = sorted(
        (
            line["x0"]
            for line in page.lines
            if 0.5 < line["width"] < 3 * PT_PER_MM and line["stroking_color"] in (0, (0,))
        ),
        key=float,
    )
    steps = {round((b - a) / PT_PER_MM, 2) for a, b in pairwise(dashes)}
    assert steps == {3.0}


@pytest.mark.parametrize(
    ("units", "words"),
    [("metric", "up to 150 °C"), ("imperial", "up to 300 °F"), ("both", "up to 150 °C (300 °F)")],
)
def test_heat_is_said_in_the_units_asked_for(units: str, words: str) -> None:
    """2 dots: 150 °C; 302 °F prints as 300, because 148 to 150 °C is one band (pressing dial facts, 2.8)."""
    made = workshop([fabric("F1", "Twill", 2)], units=units)
    assert [g.heat for g in groups(made, plan(made, BASE), BASE)] == [words.replace(" ", "\u00a0")]


def test_a_group_says_only_what_its_most_tender_cloth_bears() -> None:
    """Two cloths of one dot, one capped at 100 °C: the group says 100."""
    made = workshop([fabric("F1", "A", 1), fabric("F2", "B", 1, press_c=100)], units="metric")
    assert [g.heat for g in groups(made, plan(made, BASE), BASE)] == ["up\u00a0to\u00a0100\u00a0°C"]


def test_what_cannot_be_undone_is_what_to_watch() -> None:
    """The first lasting line goes before an earlier one that can be mended; nothing to watch is a dash."""
    cloth = fabric("F1", "Suede", watch_out=("Water leaves a mark.",))
    assert watch(cloth) == "Water leaves a mark"
    assert watch(fabric("F2", "Twill", watch_out=())) == "—"


def test_a_long_list_is_named_by_code() -> None:
    """Sixty fabrics, fifteen of them never ironed: codes alone under Never."""
    text = " ".join(page.extract_text() for page in printed(sixty()).pages)
    assert "S5 · S10 · S2" in text.replace("\u00a0", " ")


def test_text_from_the_workbook_stays_text() -> None:
    """A name with markup in it is printed as typed and breaks nothing."""
    made = markup((fabric("F1", '<b>Fur & "Co"</b>'),))
    assert any('<b>Fur & "Co"</b>' in (cell.text or "") for cell in ElementTree.fromstring(made).iter("cell"))


def test_the_spreadsheet_says_the_same_as_the_sheet() -> None:
    """Rows in the sheet's order, numbers as numbers, and a row's exceptions named in its last column."""
    made = workshop(twelve())
    found = comparison_table(made, plan(made, BASE), BASE)
    assert found.headings == HEADINGS and {len(row) for row in found.rows} == {len(HEADINGS)}
    assert [row[0] for row in found.rows] == [code for _, codes in made_of(made) for code in codes]
    ponte = dict(zip(HEADINGS, next(row for row in found.rows if row[0] == "W5"), strict=True))
    expected = {
        "Dots": 2,
        "Up to (°C)": 150,
        "Needle": "stretch",
        "Needle size": "90/14",
        "Stitch (mm)": 2.5,
        "Stitches per inch": 10.2,
    }
    assert {key: ponte[key] for key in expected} == expected
    assert "Overlock" in str(ponte["Differs from the usual"]).split(", ")
    assert all(isinstance(cell, (str, int, float)) for row in found.rows for cell in row)
    assert "\u00a0" not in " ".join(str(part) for row in (*found.rows, found.notes) for part in row)


def test_needles_show_both_numbers() -> None:
    """NM and the number beside it, from the needle table: 110/18."""
    made = workshop([fabric("F1", "Canvas", needle_point=("jeans",), needle_nm=nm(110))])
    rows = [row for group in groups(made, plan(made, BASE), BASE) for row in group.rows]
    assert rows[0].cells["needle"].words == "jeans\u00a0110/18"


def test_same_class_same_markup() -> None:
    """Twice the same."""
    assert markup(twelve()) == markup(twelve())
