"""Sheets that are cut up: true sizes, marks outside, backs behind their fronts, type no smaller than 7 pt, codes that read."""

from __future__ import annotations

import io
from itertools import pairwise

import pdfplumber
import pytest

from handouts.errors import TemplateError
from handouts.printing import print_pages
from handouts.printing.grid import grid
from handouts.printing.look import PT_PER_MM, page_type

MM = 1 / PT_PER_MM
SIZES = {"85 x 55 mm": (85, 55), "A7": (74, 105), "3 x 5 in": (127, 76.2), "A6": (105, 148)}
"""Width and height in mm: ISO 216; card of 85 × 55 mm and index card of 3 × 5 in as sold."""


def card(key: str, words: str = "100 % cotton", copies: int = 1, link: str = "") -> str:
    """Markup of one card whose back says `back of <key>`."""
    scan = f"<qr>{link}</qr>" if link else ""
    return (
        f'<card key="{key}" copies="{copies}"><front><top title="{key}" side="shop"/><text>{words}</text>{scan}'
        f'<foot>foot</foot></front><back><top title="back-of-{key}" side=""/><item when="Sew:">straight</item></back></card>'
    )


def sheets(cards: str, size: str = "A7", mode: str = "crop marks", paper: str = "slots-a4", backs: str = "yes") -> str:
    """Page markup of some cards."""
    return (
        f'<pages title="t" sides="two"><sheet page="{paper}" key="s" outline="o" card="{size}" mode="{mode}" backs="{backs}"'
        f' check="50 mm" unit="mm">{cards}</sheet></pages>'
    )


def opened(markup: str) -> pdfplumber.PDF:
    """The printed PDF, opened."""
    return pdfplumber.open(io.BytesIO(print_pages(markup).pdf))


@pytest.mark.parametrize("paper", ["slots-a4", "slots-letter"])
@pytest.mark.parametrize("size", SIZES)
def test_cards_cut_by_the_marks_are_true_to_size(size: str, paper: str) -> None:
    """The marks in the PDF are as far apart as the card is wide and high, all round, to a hundredth of a millimetre."""
    page = opened(sheets(card("K"), size, paper=paper)).pages[0]
    marks = [line for line in page.lines if line["stroking_color"] in ((0,), 0, [0]) and line["linewidth"] < 0.3]
    xs = sorted({round(m["x0"], 2) for m in marks if abs(m["x0"] - m["x1"]) < 0.01})
    ys = sorted({round(m["top"], 2) for m in marks if abs(m["top"] - m["bottom"]) < 0.01})
    across = {round((b - a) * MM, 2) for a, b in pairwise(xs)}
    down = {round((b - a) * MM, 2) for a, b in pairwise(ys)}
    assert len(xs) > 1 and len(ys) > 1
    wanted = SIZES[size]
    assert (sorted(wanted)) == pytest.approx(sorted([*across, *down]), abs=0.01)


@pytest.mark.parametrize(
    ("size", "a4", "letter"), [("85 x 55 mm", 10, 9), ("A7", 4, 4), ("3 x 5 in", 4, 4), ("A6", 2, 2)]
)
def test_as_many_go_on_a_sheet_as_can(size: str, a4: int, letter: int) -> None:
    """Counts with outer marks, by experiment (printing facts E5)."""
    counts = [grid(page_type(page), size, "crop marks").count for page in ("slots-a4", "slots-letter")]
    assert counts == [a4, letter]


def test_tiles_share_the_sheets_edges() -> None:
    """A4 is 4 A6 and 8 A7 edge to edge; on Letter a tile is quarter-letter (E5). Sizes that do not tile keep crop marks."""
    a6, a7 = (grid(page_type("slots-a4"), size, "tile") for size in ("A6", "A7"))
    assert [(one.count, [round(x * MM, 1) for x in one.card]) for one in (a6, a7)] == [
        (4, [105, 148.5]),
        (8, [74.2, 105]),
    ]
    letter = grid(page_type("slots-letter"), "A6", "tile")
    assert (letter.count, [round(x * MM, 2) for x in letter.card]) == (4, [107.95, 139.7])
    assert not grid(page_type("slots-a4"), "3 x 5 in", "tile").tiled


def words_at(page: pdfplumber.page.Page) -> dict[str, tuple[float, float]]:
    """Where each word of the page stands: the middle of it, in points from the top left corner."""
    return {w["text"]: ((w["x0"] + w["x1"]) / 2, (w["top"] + w["bottom"]) / 2) for w in page.extract_words()}


def test_every_back_is_behind_its_front() -> None:
    """Long-edge duplex: a back's words lie in the front's slot seen in a mirror (E6); blanks of the last sheet keep theirs."""
    keys = [f"K{n}" for n in range(13)]
    pdf = opened(sheets("".join(map(card, keys)), "85 x 55 mm"))
    one = grid(page_type("slots-a4"), "85 x 55 mm", "crop marks")
    assert len(pdf.pages) == 4
    for sheet in (0, 2):
        front, back = words_at(pdf.pages[sheet]), words_at(pdf.pages[sheet + 1])
        shown = [key for key in keys if key in front]
        assert len(shown) == (10 if sheet == 0 else 3)
        for key in shown:
            x, y = front[key]
            there = one.page.width - back[f"back-of-{key}"][0], back[f"back-of-{key}"][1]
            column, row = ((there[0] - one.left) // one.width, (there[1] - one.top) // one.height)
            assert (column, row) == ((x - one.left) // one.width, (y - one.top) // one.height), key


def test_turned_cards_keep_one_edge_as_their_top() -> None:
    """Cards on their side: the front's top is at the sheet's right, the back's at its left, which is the same edge of paper."""
    one = grid(page_type("slots-letter"), "85 x 55 mm", "crop marks")
    assert one.turned and one.count == 9
    pdf = opened(sheets(card("K"), "85 x 55 mm", paper="slots-letter"))
    front = [c for c in pdf.pages[0].chars if c["text"] == "K" and not c["upright"]]
    back = [c for c in pdf.pages[1].chars if c["text"] == "K" and not c["upright"]]
    slot, behind = one.slot(0), one.slot(0, back=True)
    assert slot.x + one.width - front[0]["x1"] < 8 * PT_PER_MM
    assert back[0]["x0"] - behind.x < 8 * PT_PER_MM
    assert (front[0]["matrix"][1] < 0) and (back[0]["matrix"][1] > 0)


@pytest.mark.parametrize("mode", ["crop marks", "tile"])
@pytest.mark.parametrize("size", SIZES)
def test_nothing_is_printed_near_a_cut_or_where_printers_do_not_reach(size: str, mode: str) -> None:
    """Words stay 4 mm inside every cut and 6.5 mm inside the sheet, front and back, so that a drift of 2 mm cuts no word.

    A character's box is up to half a millimetre higher than its line.
    """
    pdf = opened(sheets("".join(card(f"K{n}", "word " * (n + 1) ** 2) for n in range(14)), size, mode))
    one = grid(page_type("slots-a4"), size, mode)
    xs = [one.left + n * one.width for n in range(one.columns + 1)]
    ys = [one.top + n * one.height for n in range(one.rows + 1)]
    for page in pdf.pages:
        inside = [c for c in page.chars if ys[0] <= c["top"] <= ys[-1]]
        assert inside
        for char in inside:
            assert min(min(abs(char["x0"] - x), abs(char["x1"] - x)) for x in xs) > 3.5 * PT_PER_MM
            assert min(min(abs(char["top"] - y), abs(char["bottom"] - y)) for y in ys) > 3.5 * PT_PER_MM
            assert char["x0"] > 6.0 * PT_PER_MM and char["x1"] < page.width - 6.0 * PT_PER_MM
            assert 6.0 * PT_PER_MM < char["top"] < page.height - 6.0 * PT_PER_MM


def test_type_shrinks_to_seven_points_and_no_further() -> None:
    """A card too full for 7 pt is left out by name; the others are printed (E7: 7 pt is an x-height of 1.2 mm)."""
    full = "word " * 60
    result = print_pages(sheets(card("fits") + card("full", "word " * 400) + card("tight", full), "85 x 55 mm"))
    assert result.refused == ("full",)
    with pdfplumber.open(io.BytesIO(result.pdf)) as pdf:
        sizes = {round(c["size"], 2) for page in pdf.pages for c in page.chars}
        assert min(sizes) == 7
        assert {"fits", "tight"} <= set(words_at(pdf.pages[0])) and "full" not in words_at(pdf.pages[0])


def test_as_many_copies_as_asked() -> None:
    """Quantities per fabric: copies stand side by side; none is printed for 0."""
    page = opened(sheets(card("A", copies=3) + card("B", copies=0) + card("C"))).pages[0]
    titles = [w["text"] for w in page.extract_words() if w["text"] in "ABC"]
    assert sorted(titles) == ["A", "A", "A", "C"]


def test_the_bar_is_fifty_millimetres_long() -> None:
    """The bar under the block shows whether the printer scaled the sheet."""
    page = opened(sheets(card("K"))).pages[0]
    bars = [line for line in page.lines if abs(line["top"] - line["bottom"]) < 0.01 and line["linewidth"] > 0.3]
    assert [round((line["x1"] - line["x0"]) * MM, 2) for line in bars if line["top"] > 700] == [50.0]


@pytest.mark.parametrize("paper", ["slots-a4", "slots-letter"])
@pytest.mark.parametrize("size", SIZES)
def test_the_words_beside_the_bar_stay_on_the_sheet(size: str, paper: str) -> None:
    """Even where a single column stands on the sheet; they keep off the edge that no printer reaches (6 mm)."""
    page = opened(sheets(card("K"), size, paper=paper)).pages[0]
    words = [word for word in page.extract_words() if word["text"] in ("50", "mm")]
    assert len(words) == 2
    assert all(word["x0"] * MM > 6 and word["x1"] * MM < float(page.width) * MM - 6 for word in words)


def test_the_code_is_the_standards_square_by_square() -> None:
    """The dark squares drawn are those segno makes for the same words; the quiet zone of four squares is free (ISO/IEC 18004)."""
    segno = pytest.importorskip("segno")
    link = "https://example.org/cloth/C01"
    page = opened(sheets(card("K", link=link))).pages[0]
    step = 0.45 * PT_PER_MM
    rects = [r for r in page.rects if r["fill"] and abs(r["height"] - step) < 0.01]
    left, top = min(r["x0"] for r in rects), min(r["top"] for r in rects)
    drawn = {
        (round((r["top"] - top) / step), round((r["x0"] - left) / step) + n)
        for r in rects
        for n in range(round(r["width"] / step))
    }
    made = segno.make(link, error="m", boost_error=False, micro=False, mask=2)
    assert drawn == {(y, x) for y, row in enumerate(made.matrix) for x, dark in enumerate(row) if dark}
    near = [
        c for c in page.chars if left - 3.9 * step < c["x1"] and c["x0"] < left and top < c["bottom"] < top + 25 * step
    ]
    assert near == []


def test_a_size_nobody_declared_is_our_fault_and_named() -> None:
    """A broken template is a TemplateError with the name."""
    with pytest.raises(TemplateError, match="A9"):
        print_pages(sheets(card("K"), "A9"))


OTHER_SYMBOLS = """wash-hand wash-no bleach-any bleach-oxygen bleach-no tumble-1 tumble-2 tumble-no line drip flat flat-drip
line-shade drip-shade flat-drip-shade iron-1 iron-3 iron-no clean-p clean-f clean-no"""


def test_symbols_are_drawn_side_by_side_in_ink() -> None:
    """Five symbols of 6 mm with strokes of at least 0.25 mm; every name that labelling can give has a shape."""
    from handouts.knowledge import load
    from handouts.printing.symbols import SHAPES

    washing = load().tables["care"]["symbol"]["wash"]
    names = [f"wash-{c}-{way}".removesuffix("-normal") for c, ways in washing.items() for way in ways]
    names += OTHER_SYMBOLS.split()
    assert {name.split("-")[0] for name in names} == set(SHAPES)
    for start in range(0, len(names), 5):
        shown = " ".join(names[start : start + 5])
        markup = sheets(card("K").replace("<foot>", f"<symbols>{shown}</symbols><foot>"))
        page = opened(markup).pages[0]
        drawn = [d for d in (*page.curves, *page.lines, *page.rects) if d["linewidth"] > 0.7]
        assert len(drawn) >= len(shown.split())
        assert min(d["linewidth"] for d in drawn) >= 0.25 * PT_PER_MM
