"""Which pages, in which order, and the words on them: records → page markup. The only part that knows Jinja2."""

from __future__ import annotations

from handouts.model import Knowledge
from handouts.pages.card import card
from handouts.pages.class_page import class_page
from handouts.pages.comparison import comparison
from handouts.pages.comparison_sheet import comparison_table
from handouts.pages.plan import plan
from handouts.pages.shop import bolt_ends, shelf_list, shop_cards, shop_marks
from handouts.pages.templates import render
from handouts.pages.words import vocabulary, words_of
from handouts.records import Workshop

__all__ = [
    "binder",
    "bolt_ends",
    "cards",
    "class_page",
    "comparison",
    "comparison_table",
    "plan",
    "shelf_list",
    "shop_cards",
    "shop_marks",
]


def cards(workshop: Workshop, knowledge: Knowledge) -> str:
    """Page markup with a card per fabric: A5 when the printer holds A4, half-letter when it holds Letter."""
    return _per_fabric(workshop, knowledge, "card-half-letter" if _letter(workshop) else "card-a5", "card")


def binder(workshop: Workshop, knowledge: Knowledge, two_sided: bool = False) -> str:
    """Page markup with a full page per fabric and a binding margin; backs are mirrored when printed on both sides."""
    return _per_fabric(workshop, knowledge, "binder-letter" if _letter(workshop) else "binder-a4", "page", two_sided)


def _letter(workshop: Workshop) -> bool:
    return workshop.settings.get("paper") == "Letter"


def _per_fabric(workshop: Workshop, knowledge: Knowledge, page: str, detail: str, two_sided: bool = False) -> str:
    settings = workshop.settings
    words = words_of(settings.get("units") or "both", knowledge)
    return render(
        "card.xml.j2",
        title=str(settings.get("title") or ""),
        author=str(settings.get("prepared_by") or settings.get("teacher") or ""),
        page=page,
        two_sided=two_sided,
        inch=settings.get("units") == "imperial",
        cards=[card(fabric, words, knowledge, detail) for fabric in workshop.fabrics],
        places=places(workshop, detail),
    )


def places(workshop: Workshop, detail: str) -> list[str]:
    """What stands in each head: `card 5 of 12 · W3`; the code alone when there is no other."""
    many, word = len(workshop.fabrics), vocabulary()["place"][detail]
    codes = [fabric.code for fabric in workshop.fabrics]
    return [f"{word.format(n, many)} · {code}" if many > 1 else code for n, code in enumerate(codes, start=1)]
