"""The plan's pages: every section, the right sums in words, and a layout where nothing touches or is lost."""

from __future__ import annotations

import io
from xml.etree import ElementTree

import pdfplumber
import pytest

from handouts import knowledge
from handouts.pages.amounts import bought, cut, minutes, money, thread, times, yards
from handouts.pages.glance import foot as foot_on_the_card
from handouts.pages.measures import Measures
from handouts.pages.plan import plan as pages
from handouts.planning import plan
from handouts.planning.usual import foot
from handouts.printing import print_pages
from handouts.records import Fabric
from tests.class_by_hand import fabric, serger, workshop
from tests.classes_by_hand import sixty, twelve

BASE = knowledge.load()
PT_PER_MM = 72 / 25.4


def markup(fabrics: tuple[Fabric, ...], supplies: tuple[dict[str, object], ...] = (), **settings: object) -> str:
    """The plan's page markup of these fabrics."""
    made = workshop(fabrics, supplies, **settings)
    return pages(made, plan(made, BASE), BASE)


def words(fabrics: tuple[Fabric, ...], supplies: tuple[dict[str, object], ...] = (), **settings: object) -> str:
    """All words of the plan, white space folded."""
    root = ElementTree.fromstring(markup(fabrics, supplies, **settings))
    said = [text for e in root.iter() for text in (e.get("title"), e.get("label"), e.get("when"), e.text) if text]
    return " ".join(" ".join(said).replace("\u00a0", " ").split())


def printed(fabrics: tuple[Fabric, ...], **settings: object) -> pdfplumber.PDF:
    """The plan as a PDF."""
    return pdfplumber.open(io.BytesIO(print_pages(markup(fabrics, **settings)).pdf))


SECTIONS = [
    "Order of work",
    "Kits: cut before the class",
    "Supplies",
    "Lay ready",
    "Set up",
    "Irons and circuits",
    "Time",
    "Take care",
]


@pytest.mark.parametrize(
    ("fabrics", "paper", "units"),
    [(twelve(), "A4", "both"), (sixty(), "Letter", "imperial"), (sixty(), "A4", "metric")],
)
def test_pages_hold_every_section_and_nothing_touches(fabrics: tuple[Fabric, ...], paper: str, units: str) -> None:
    """Headings, page numbers, margins that printers can fill, and no two words in one place."""
    found = printed(fabrics, paper=paper, units=units).pages
    text = " ".join(page.extract_text() for page in found)
    assert [title for title in SECTIONS if title not in text] == []
    for number, page in enumerate(found, 1):
        boxes = page.extract_words(x_tolerance=1.5)
        assert f"Page {number} of {len(found)}." in page.extract_text() and len(boxes) > 20
        assert (
            min(w["x0"] for w in boxes) >= 6.5 * PT_PER_MM
            and max(w["x1"] for w in boxes) <= float(page.width) - 6.5 * PT_PER_MM
        )
        assert max(w["bottom"] for w in boxes) <= float(page.height) - 6.5 * PT_PER_MM
        assert touching(boxes) == []


def touching(boxes: list[dict[str, float]]) -> list[tuple[float, float]]:
    """Pairs of words whose boxes share more than a hair."""
    return [
        (a["text"], b["text"])
        for number, a in enumerate(boxes)
        for b in boxes[number + 1 :]
        if min(a["x1"], b["x1"]) - max(a["x0"], b["x0"]) > 0.5
        and min(a["bottom"], b["bottom"]) - max(a["top"], b["top"]) > 0.35 * (a["bottom"] - a["top"])
    ]


@pytest.mark.parametrize(("fabrics", "paper", "units"), [(twelve(), "Letter", "both"), (sixty(), "A4", "both")])
def test_every_word_is_on_the_paper_whole(fabrics: tuple[Fabric, ...], paper: str, units: str) -> None:
    """Nothing is lost or cut in two between the markup and the page."""
    root = ElementTree.fromstring(markup(fabrics, paper=paper, units=units))
    wanted = {
        word
        for tag in ("cell", "text", "item")
        for e in root.iter(tag)
        for word in (e.text or "").replace("\u00a0", " ").split()
    }
    pages_ = printed(fabrics, paper=paper, units=units).pages
    on_paper = {part for page in pages_ for word in page.extract_words() for part in word["text"].split("\u00a0")}
    assert len(wanted) > 150
    assert sorted(wanted - on_paper) == []


def test_headings_are_repeated_where_a_table_runs_over() -> None:
    """Sixty kits take more than a page: each page with kits names the columns."""
    for page in printed(sixty(), paper="A4").pages:
        text = page.extract_text()
        if "all pieces one way" in text or "across the grain" in text:
            assert "Usable width" in text


def test_the_kit_says_what_the_plan_says() -> None:
    """The teacher's example (common practice, handling notes): 27 pieces, 13 in a row, 3 rows, 45 cm."""
    cloth = fabric("F1", "Poplin", facts={"width_cm": 140, "shrink_length_pct": 0, "shrink_width_pct": 0})
    sheet = {"students": 12, "sample_width_cm": 10, "sample_height_cm": 15, "units": "metric"}
    said = words((cloth,), **sheet)
    assert "27 13 × 3 135 cm 45 cm 0 % 0.5 m" in said


def test_power_ends_with_the_electrician_and_prints_the_limit_only_where_published() -> None:
    """80 % for 120 V on 15 or 20 A (safety facts F5); elsewhere arithmetic alone (F9 and the EU line)."""
    us = words(twelve(), circuit_volts=120, circuit_amps=15, iron_watts=1500, irons=2, circuits=1)
    assert "1,440 W" in us and "1,560 W too much" in us and "not even one" in us
    eu = words(twelve(), circuit_volts=230, circuit_amps=16, iron_watts=1800, irons=2, circuits=1)
    assert "80 %" not in eu and "3,680 W by arithmetic" in eu and "leaves 80 W" in eu
    uk = words(twelve(), circuit_volts=230, circuit_amps=32, market="UK")
    assert "13 A fuse" in uk and "13 A fuse" not in eu
    for text in (us, eu, uk):
        power = text[text.index("Irons and circuits") : text.index(" Time ")]
        assert power.endswith("Have a licensed electrician confirm what the room carries.")


def test_cost_is_printed_only_when_there_are_prices() -> None:
    """Cloth prices and packs of the Supplies sheet; without any no section, and what has no price is named."""
    plain = tuple(fabric(f"F{n}", "Twill") for n in (1, 2))
    assert " Cost What " not in words(plain)
    shelf = ({"item": "needles universal 80", "pack_size": 5, "price": 4.0},)
    said = words((*plain, fabric("F3", "Drill", facts={"width_cm": 140, "price_per_m": 10.0})), shelf, currency="€")
    assert "1 of 5 € 4.00 each € 4.00" in said and "not in it: F1 · F2" in said
    assert "In all € 11.00 A student € 1.38" in said  # 0.7 m at 10 and one pack of needles; eight students


def test_an_overlock_that_nobody_has_is_asked_for() -> None:
    """The advice wants one and the Class sheet says none."""
    cloth = (fabric("F1", "Jersey", serger=serger(4), seam_finish=("overlock",)),)
    assert "wants one for F1" in words(cloth, sergers=0)
    assert "wants one" not in words(cloth, sergers=1)


def test_queues_are_marked() -> None:
    """Eight students at one overlock: more than six (common practice)."""
    root = ElementTree.fromstring(markup(twelve(), sergers=1))
    marked = [" ".join(cell.itertext()).strip() for cell in root.iter("cell") if cell.get("mark")]
    assert marked == ["8 more than 6 students each: they will queue"]


def test_a_piece_wider_than_the_cloth_is_said() -> None:
    """No row fits: the kit says so instead of printing a length."""
    said = words((fabric("F1", "Ribbon", facts={"width_cm": 12}),))
    assert "a piece is wider than the cloth" in said


def test_skins_go_by_area() -> None:
    """Square metres, or the square feet skins are sold by, instead of a length."""
    said = words((fabric("F1", "Hide", facts={"structure": "skin"}),))
    assert "0.68 m² (7.3 sq ft) of skin" in said  # 18 × 15 × 20 cm and a quarter; 0.675 / 0.3048² = 7.27


def test_odd_classes_still_make_a_plan() -> None:
    """No machine, no iron, one student, one fabric, nothing ironed: no crash and no empty table."""
    cloth = (fabric("F1", "Vinyl", 0, steam="none"),)
    said = words(cloth, machines=0, irons=0, students=1, samples_per_student=1)
    assert "1 student" in said and "1 sample of each" in said and "Irons and circuits" not in said
    root = ElementTree.fromstring(markup(cloth, machines=0, irons=0))
    assert [table for table in root.iter("table") if table.find("row") is None] == []


def test_a_class_without_fabrics_prints_a_page_and_no_table() -> None:
    """Nothing to prepare is no reason to crash."""
    root = ElementTree.fromstring(markup(()))
    assert [table for table in root.iter("table") if table.find("row") is None] == []
    assert print_pages(markup(())).pages == 1


def test_amounts_by_hand() -> None:
    """Yards by eighths, upwards: 0.5 m is 0.547 yd (NIST: 1 yd = 0.9144 m); hours and minutes; money."""
    both = Measures("both")
    assert [yards(m).replace("\u00a0", " ") for m in (0.5, 0.4572, 0.9144, 1.2)] == ["⅝ yd", "½ yd", "1 yd", "1⅜ yd"]
    assert bought(0.7, both).replace("\u00a0", " ") == "0.7 m (⅞ yd)"
    assert cut(45, both).replace("\u00a0", " ") == "45 cm (17¾ in)"
    assert thread(34.2, both).replace("\u00a0", " ") == "35 m (38 yd)"
    assert [minutes(m).replace("\u00a0", " ") for m in (0, 45, 60, 130)] == ["0 min", "45 min", "1 h", "2 h 10 min"]
    assert (money(1234.5, "€").replace("\u00a0", " "), money(3, "")) == ("€ 1,234.50", "3.00")
    assert [times(n).replace("\u00a0", " ") for n in (0, 1, 2, 5)] == ["never", "once", "twice", "5 times"]


def test_card_and_plan_name_the_same_foot() -> None:
    """Every foot rule of the knowledge base is read as the same foot by the card's strip and by the plan."""
    lines = [rule.value for rule in BASE.rules if rule.topic == "foot" and rule.value]
    assert len(lines) > 5
    for value in lines:
        cloth = fabric("F1", "Cloth", foot=tuple(value))
        assert foot_on_the_card(cloth)["value"].replace(" ", "-") == foot(value, BASE).replace(" ", "-"), value


def test_text_from_the_workbook_stays_text() -> None:
    """Names with markup in them are printed as typed."""
    assert "<b>Fur</b> & Co" in words(
        (fabric("F1", "<b>Fur</b> & Co"),), ({"item": "<i>pins</i>", "pack_size": 1, "price": 1.0},)
    )


def test_same_class_same_bytes() -> None:
    """Twice the same PDF."""
    assert print_pages(markup(twelve())).pdf == print_pages(markup(twelve())).pdf
