"""class.html: one file that fetches nothing, reads in order, and holds every fabric with its reasons."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from itertools import pairwise

import pytest

from handouts import knowledge
from handouts.pages.class_page import class_page
from handouts.planning import plan
from handouts.records import Fabric
from tests.class_by_hand import fabric, workshop
from tests.classes_by_hand import sixty, twelve

BASE = knowledge.load()
VOID = {"meta", "br", "link", "img", "input", "hr"}


class Outline(HTMLParser):
    """What a checker wants of a page: tags in order, ids, links, headings, tables, text by tag, unclosed tags."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.open: list[str] = []
        self.faults: list[str] = []
        self.words: dict[str, list[str]] = {}
        self.feed(text)
        self.faults += [f"never closed: {tag}" for tag in self.open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        if not self.open or self.open.pop() != tag:
            self.faults.append(f"closed out of order: {tag}")

    def handle_data(self, data: str) -> None:
        for tag in set(self.open):
            self.words.setdefault(tag, []).append(data)

    def all(self, tag: str) -> list[dict[str, str | None]]:
        """The attributes of every element of one name."""
        return [attributes for name, attributes in self.tags if name == tag]

    def text(self, tag: str) -> str:
        """All text inside elements of one name, white space folded."""
        return " ".join(" ".join(self.words.get(tag, [])).split())


def page(fabrics: tuple[Fabric, ...], **settings: str) -> str:
    """class.html of these fabrics."""
    made = workshop(fabrics, **settings)
    return class_page(made, plan(made, BASE), BASE)


@pytest.fixture(scope="module")
def text() -> str:
    """The page of the invented class of twelve."""
    return page(twelve())


@pytest.fixture(scope="module")
def outline(text: str) -> Outline:
    """Its outline."""
    return Outline(text)


def test_every_tag_is_closed_in_order(outline: Outline) -> None:
    """A page that no browser has to guess at."""
    assert len(outline.tags) > 500
    assert outline.faults == []


def test_it_fetches_and_runs_nothing(text: str, outline: Outline) -> None:
    """Works offline: no script, no style sheet, picture or font from elsewhere, and the policy forbids them all."""
    assert {tag for tag, _ in outline.tags} & {"script", "link", "img", "iframe", "object", "form", "base"} == set()
    assert not any(name.startswith("on") for _, attributes in outline.tags for name in attributes)
    assert "url(" not in text and "@import" not in text
    policy = next(m["content"] for m in outline.all("meta") if m.get("http-equiv") == "Content-Security-Policy")
    assert policy is not None and policy.startswith("default-src 'none'; style-src 'unsafe-inline'")


def test_every_link_leads_to_a_place_on_the_page(outline: Outline) -> None:
    """Anchors only, each with its target, and no id twice."""
    ids = [str(attributes["id"]) for _, attributes in outline.tags if "id" in attributes]
    links = [str(a["href"]) for a in outline.all("a")]
    assert len(ids) == len(set(ids)) > 30 and len(links) > 30
    assert [link for link in links if not link.startswith("#") or link[1:] not in ids] == []
    assert [a for _, a in outline.tags if "aria-labelledby" in a and a["aria-labelledby"] not in ids] == []


def test_headings_step_down_one_at_a_time(outline: Outline) -> None:
    """One h1, and never a level left out: how a screen reader's user finds a fabric."""
    levels = [int(tag[1]) for tag, _ in outline.tags if re.fullmatch(r"h[1-6]", tag)]
    assert levels.count(1) == 1 and levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_tables_say_what_their_headings_head(outline: Outline) -> None:
    """Every th has a scope; columns, rows and the groups of one heat."""
    scopes = [th.get("scope") for th in outline.all("th")]
    assert None not in scopes and set(scopes) == {"col", "row", "rowgroup"}
    assert scopes.count("rowgroup") == 4 and outline.all("html")[0]["lang"] == "en-GB"
    assert sum(int(str(th["rowspan"])) for th in outline.all("th") if th.get("scope") == "rowgroup") == 12


@pytest.mark.parametrize("fabrics", [twelve(), sixty()])
def test_every_fabric_has_its_card_in_the_order_of_work(fabrics: tuple[Fabric, ...]) -> None:
    """One article each, and the list at the top leads to all of them in the same order."""
    outline = Outline(page(fabrics))
    articles = [str(a["id"]) for a in outline.all("article")]
    assert len(articles) == len(fabrics)
    assert [str(a["href"])[1:] for a in outline.all("a") if str(a["href"]).startswith("#f-")] == articles
    assert [f.name for f in fabrics if f.name not in outline.text("h2")] == []


def test_reasons_and_sources_are_there_to_unfold(outline: Outline) -> None:
    """Under every card: each topic with its reason, linked to the source; no script is needed to open them."""
    reasons = outline.text("details")
    assert reasons.count("Reason for needle_nm.") == 12
    assert "#s-judgement" in {a["href"] for a in outline.all("a")}
    assert outline.text("summary").count("Why, and who says so") == 12
    assert BASE.sources["judgement"].title in outline.text("dd")


def test_what_cannot_be_undone_is_boxed_before_the_reading(text: str) -> None:
    """The box stands above the blocks of every card that has one."""
    card = text[text.index('<article id="f-w7') : text.index("</article>", text.index('<article id="f-w7'))]
    assert card.index("Cannot be undone") < card.index("Before cutting") and "Needle holes stay." in card


def test_exceptions_are_marked_by_shape_weight_and_word(text: str) -> None:
    """A triangle for the eye, bold, and “differs” for the ear."""
    marks = re.findall(
        r"<b><span aria-hidden=\"true\">▲&nbsp;</span><span class=\"vh\">differs: </span>[^<]+</b>", text
    )
    assert len(marks) > 8


def test_nothing_reaches_past_the_screen_but_the_table_that_scrolls() -> None:
    """Words for screen readers stand out of the flow: the table that scrolls holds its own, else the whole page would slide."""
    made = workshop(twelve())
    text = class_page(made, plan(made, BASE), BASE)
    assert ".scroll { position: relative; overflow-x: auto; }" in text and text.count('class="scroll"') == 1


def test_cautions_and_who_decides_are_on_the_page(outline: Outline) -> None:
    """Every caution that a fabric of the class calls for, and the line that defers to manuals and codes."""
    table = BASE.tables["cautions"]
    called = {c["id"]: c["say"] for c in table["caution"] if c["id"] in ("iron", "burn", "needle", "dust", "power")}
    assert [line for say in called.values() for line in say if line not in outline.text("li")] == [] and len(
        called
    ) == 5
    assert next(c["say"][0] for c in table["caution"] if c["id"] == "pvc") not in outline.text("li"), (
        "no vinyl in this class"
    )
    assert table["defer"]["say"] in outline.text("p")


def test_nothing_from_a_workbook_becomes_markup() -> None:
    """A name with tags in it is shown as typed, wherever it stands."""
    evil = '<script>alert("x")</script><img src=x onerror=y>'
    outline = Outline(page((fabric("F1", evil, watch_out=(evil,)),), title=evil, teacher=evil))
    assert {tag for tag, _ in outline.tags} & {"script", "img"} == set()
    assert evil in outline.text("h2") and evil in outline.text("title")


def test_codes_that_look_alike_get_places_of_their_own() -> None:
    """`W 1` and `w-1` are two fabrics; so are two rows with one code spelled in signs."""
    from dataclasses import replace

    first, second = replace(fabric("F1", "A"), code="W 1", row=2), replace(fabric("F2", "B"), code="w-1", row=3)
    ids = [a["id"] for a in Outline(page((first, second))).all("article")]
    assert len(set(ids)) == 2


def test_same_class_same_page(text: str) -> None:
    """Twice the same, to the byte."""
    assert page(twelve()) == text
