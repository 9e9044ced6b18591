"""The shop's pages as page markup: care cards with handling on the back, bolt-end labels, the shelf list."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from hashlib import sha256
from typing import Any

from handouts.model import Knowledge, Value
from handouts.pages.shop_card import business, fibre_heading, price, shop_card, shop_words, statement, supplied
from handouts.pages.templates import render
from handouts.pages.words import words_of
from handouts.records import Fabric, Workshop

BOLT = "bolt end"
SHELF_SHARES = (1.1, 3, 3.4, 1.5, 2.2, 1.8)
"""Widths of the shelf list's columns (judgement)."""


def shop_cards(workshop: Workshop, knowledge: Knowledge, only: Iterable[str] | None = None) -> str:
    """Care cards of the size on the Class sheet, as many of each as its row says; `only` keeps the fabrics of these codes."""
    settings = workshop.settings
    size, mode = str(settings.get("shop_card") or "A7"), str(settings.get("shop_sheet") or "crop marks")
    return sheet(workshop, knowledge, kept(workshop, only), "title", size, mode, True)


def bolt_ends(workshop: Workshop, knowledge: Knowledge, only: Iterable[str] | None = None) -> str:
    """A label for the end of every bolt: what it is, its fibres and care, price, width, origin; `only` as for the cards."""
    return sheet(workshop, knowledge, kept(workshop, only), "bolts", BOLT, "crop marks", False)


def kept(workshop: Workshop, only: Iterable[str] | None) -> list[Fabric]:
    """The fabrics of these codes; all when none are named."""
    codes = set(only) if only is not None else None
    return [fabric for fabric in workshop.fabrics if codes is None or fabric.code in codes]


def sheet(
    workshop: Workshop, knowledge: Knowledge, fabrics: Sequence[Fabric], title: str, size: str, mode: str, backs: bool
) -> str:
    """Cards or labels of one size on sheets to be cut up."""
    settings, say = workshop.settings, shop_words()
    imperial = settings.get("units") == "imperial"
    return render(
        "shop.xml.j2",
        title=say[title].format(business=business(settings)),
        author=str(settings.get("prepared_by") or settings.get("teacher") or ""),
        subject=say["care"],
        page=page_of(settings),
        size=size,
        mode=mode,
        backs=backs,
        check=say["check_in" if imperial else "check"],
        unit="in" if imperial else "mm",
        cards=[card if backs else label_of(card) for card in cards_of(fabrics, settings, knowledge)],
    )


def cards_of(fabrics: Iterable[Fabric], settings: Mapping[str, Value], knowledge: Knowledge) -> list[dict[str, Any]]:
    """The care cards of some fabrics."""
    words = words_of(str(settings.get("units") or "both"), knowledge)
    return [shop_card(fabric, settings, words, knowledge) for fabric in fabrics]


def label_of(card: dict[str, Any]) -> dict[str, Any]:
    """A care card made into a bolt-end label: one of each, without a swatch."""
    return card | {"copies": 1, "swatch": ""}


def page_of(settings: Mapping[str, Value]) -> str:
    """The page type for the paper in the printer."""
    return "slots-letter" if settings.get("paper") == "Letter" else "slots-a4"


def shelf_list(workshop: Workshop, knowledge: Knowledge) -> str:
    """Every cloth with article, fibres, width, price and origin, in the order of the workbook."""
    settings, say = workshop.settings, shop_words()
    words = words_of(str(settings.get("units") or "both"), knowledge)
    return render(
        "shelf.xml.j2",
        title=say["shelf"].format(business=business(settings)),
        author=str(settings.get("prepared_by") or ""),
        page="sheet-letter" if settings.get("paper") == "Letter" else "sheet-a4",
        date=str(settings.get("date") or ""),
        columns=list(zip(shelf_headings(settings), SHELF_SHARES, strict=True)),
        rows=[shelf_row(fabric, settings, words) for fabric in workshop.fabrics],
        foot=f"{supplied(settings)} {say['defer']}",
    )


def shelf_headings(settings: Mapping[str, Value]) -> list[str]:
    """The headings of the shelf list, the fibres spelt as in the market."""
    heads = {**shop_words()["shelf_columns"], "fibres": fibre_heading(str(settings.get("market") or ""))}
    return list(heads.values())


def shelf_row(fabric: Fabric, settings: Mapping[str, Value], words: Any) -> list[str]:
    """One cloth of the shelf list."""
    width = fabric.facts.get("width_cm")
    across = words.measures.across(width.value) if width and width.value and width.origin != "assumed" else ""
    fibres = run_on(statement(fabric)).partition(": ")[2] or "–"
    cells = [fabric.code, fabric.name, fibres, across, price(fabric, settings), str(fabric.shop.get("origin", ""))]
    return [cell or "–" for cell in cells]


def run_on(lines: Sequence[str]) -> str:
    """The lines of a statement as one: a comma between them, none after a colon or before a bracket."""
    told = lines[0] if lines else ""
    for line in lines[1:]:
        told += f" {line}" if told.endswith(":") or line.startswith("(") else f", {line}"
    return told


def shop_marks(workshop: Workshop, knowledge: Knowledge) -> dict[str, str]:
    """Fabric code → a mark of everything its care card says (SHA-256): the card has changed when the mark has."""
    cards = cards_of(workshop.fabrics, workshop.settings, knowledge)
    size = str(workshop.settings.get("shop_card") or "")
    return {card["code"]: sha256(repr((size, sorted(card.items()))).encode()).hexdigest()[:16] for card in cards}
