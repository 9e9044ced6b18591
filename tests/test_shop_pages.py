"""What the shop's pages say: statement and care from the label, price both ways, five lines of handling."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from xml.etree import ElementTree

import pytest

from handouts import knowledge, pages, pipeline, printing
from handouts.records import Workshop

VOILE = {
    "code": "C01", "name": "White voile", "cloth": "cotton voile", "fibre_content": "97% cotton, 3% elastane (for stretch)",
    "weight_gsm": 75.0, "width_cm": 140.0, "price_per_m": 10.0, "supplier_care": "Machine wash 40 °C. Do not bleach.",
    "origin": "Made in Portugal", "link": "https://example.org/C01", "shop_cards": 3.0,
}  # fmt: skip
VINYL = {"code": "V1", "name": "Red table vinyl", "cloth": "vinyl", "fibre_content": "PVC on 100% polyester"}
SETTINGS = {
    "business": "Fold & Selvedge", "prepared_by": "A. Draper", "currency": "€", "market": "EU", "units": "both", "title": "t",
}  # fmt: skip


def shop(*rows: dict, **settings: str) -> Workshop:
    """A shop list of some rows."""
    used = {**SETTINGS, **settings}
    return Workshop("shop", used, tuple(pipeline.advise_fabrics(rows, used)), ())


def cards(workshop: Workshop) -> dict[str, ElementTree.Element]:
    """The cards of a shop by code."""
    root = ElementTree.fromstring(pages.shop_cards(workshop, knowledge.load()))
    return {card.get("key", ""): card for card in root.iter("card")}


def words(element: ElementTree.Element | None) -> str:
    """All words of an element, no-break spaces as spaces."""
    assert element is not None
    texts = [text for child in element.iter() for text in (*child.attrib.values(), child.text or "")]
    return " ".join(" ".join(texts).replace("\u00a0", " ").split())


def test_a_care_card_says_what_the_customer_must_know() -> None:
    """Name, business as typed, price by metre and yard, article, width, origin, statement, care, who supplied it, the code."""
    card = cards(shop(VOILE))["C01"]
    front = words(card.find("front"))
    for told in (
        "White voile", "Fold & Selvedge", "€ 10.00 per metre · € 9.14 per yard", "Article C01 · 140 cm (55 in) wide",
        "Made in Portugal", "Fibre content: 97 % cotton, 3 % elastane", "Machine wash 40 °C (supplier)",
        "Drying: do not tumble dry; dry flat or on the line (not stated by supplier)", "Facts supplied by A. Draper.",
        "https://example.org/C01",
    ):  # fmt: skip
        assert told in front, told
    assert card.get("copies") == "3"


def test_a_bare_country_is_named_as_the_origin() -> None:
    """Words that say more than a country stand as typed."""
    assert "Origin: Portugal" in words(cards(shop(VOILE | {"origin": "Portugal"}))["C01"].find("front"))
    assert "Origin" not in words(cards(shop(VOILE | {"origin": "Woven in Italy"}))["C01"].find("front"))


def test_the_yard_comes_first_where_the_shop_measures_by_it() -> None:
    """0.9144 m is a yard: 10.00 per metre is 9.14 per yard (NIST SP 811)."""
    front = words(cards(shop(VOILE, units="imperial", market="US"))["C01"].find("front"))
    assert "€ 9.14 per yard · € 10.00 per metre" in front and "Fiber content: 97% Cotton, 3% Spandex" in front


def test_the_back_says_how_to_handle_it_in_five_lines() -> None:
    """Before cutting, cut, sew, seams, press; then what cannot be undone and what must be warned of."""
    back = cards(shop(VOILE))["C01"].find("back")
    assert back is not None
    heads = [item.get("when", "") for item in back.iter("item")]
    assert heads[:5] == ["Before cutting:", "Cut:", "Sew:", "Seams:", "Press:"]
    assert "Caution: Thin cotton, linen, rayon or silk burns fast: keep it from flames." in words(back)


def test_a_vinyl_card_warns_of_fumes_and_shows_no_iron() -> None:
    """PVC: no iron, fumes named."""
    back = words(cards(shop(VINYL))["V1"].find("back"))
    assert "Never iron or heat PVC" in back and "Press: No iron" in back


def test_a_refused_statement_is_not_printed() -> None:
    """A card without a sound statement says where to look, and states no share."""
    front = words(cards(shop(VOILE | {"fibre_content": "poly/cotton 65/35"}))["C01"].find("front"))
    assert "Fibre content: see the supplier’s label." in front and "65" not in front


def test_every_fibre_stands_in_one_size_and_weight() -> None:
    """16 CFR 303.16(b), Regulation 1007/2011 Art. 16(1): the statement is set in one style, never as bold or a heading."""
    card = cards(shop(VOILE | {"fibre_content": "pile 100% nylon; back 100% cotton; pile 40%"}, market="US"))["C01"]
    told = [text for text in card.iter("text") if "%" in (text.text or "")]
    assert len(told) >= 3 and {text.get("look") for text in told} == {"fibre"}


@pytest.mark.parametrize("size", ["85 x 55 mm", "A7", "3 x 5 in", "A6"])
def test_no_card_suggests_nightwear(size: str) -> None:
    """F19, 16 CFR 1615.1(d): such a word can bring ordinary cloth under the rules for children's sleepwear."""
    text = pages.shop_cards(shop(VOILE, VINYL, shop_card=size), knowledge.load()).casefold()
    assert not any(word in text for word in ("nightwear", "sleepwear", "pyjama", "nightdress"))


def test_a_swatch_carries_the_statement() -> None:
    """16 CFR 303.21: on the card with room for a swatch, statement and swatch are on one side."""
    front = cards(shop(VOILE, shop_card="A6"))["C01"].find("front")
    assert front is not None and front.find("swatch") is not None
    assert "97 % cotton" in words(front)


def test_hostile_words_stay_words() -> None:
    """Names, origins and links are escaped."""
    bad = "<b>\"&' {{ 7*7 }}</b>"
    card = cards(shop(VOILE | {"name": bad, "origin": bad, "link": bad}, business=bad))["C01"]
    assert words(card).count(bad) >= 4


def test_the_shelf_list_holds_every_cloth() -> None:
    """Article, cloth, fibres, width, price, origin."""
    text = ElementTree.fromstring(pages.shelf_list(shop(VOILE, VINYL), knowledge.load()))
    rows = [[(cell.text or "").replace("\u00a0", " ") for cell in row] for row in text.iter("row")]
    price = "€ 10.00 per metre · € 9.14 per yard"
    assert rows[0] == ["C01", "White voile", "97 % cotton, 3 % elastane", "140 cm (55 in)", price, "Made in Portugal"]
    assert [row[0] for row in rows] == ["C01", "V1"]


def test_the_shelf_list_tells_parts_apart() -> None:
    """A statement of several lines in one cell."""
    velvet = VOILE | {"fibre_content": "pile 80% silk, 20% viscose; back 100% cotton; pile 55%"}
    made = [ElementTree.fromstring(pages.shelf_list(shop(row, market=market), knowledge.load()))
            for row, market in ((VINYL, "EU"), (velvet, "EU"), (velvet, "US"))]  # fmt: skip
    assert [(next(one.iter("row"))[2].text or "").replace("\u00a0", " ") for one in made] == [
        "100 % polyester, coating: polyvinyl chloride",
        "pile: 80 % silk, 20 % viscose, back: 100 % cotton",
        "Pile: 80% Silk, 20% Rayon, 100% Cotton Back (Pile constitutes 55% of fabric and back 45%)",
    ]


def test_a_bolt_end_label_has_no_back_and_one_copy() -> None:
    """Statement, care, price and origin for the end of the bolt."""
    root = ElementTree.fromstring(pages.bolt_ends(shop(VOILE), knowledge.load()))
    assert root.get("sides") is None and root.find(".//back") is None
    assert [card.get("copies") for card in root.iter("card")] == ["1"]
    assert "97 % cotton" in words(root) and "Machine wash 40 °C" in words(root)


@pytest.mark.parametrize("size", ["85 x 55 mm", "A7", "3 x 5 in", "A6"])
def test_the_whole_example_list_goes_on_cards_of_every_size(size: str) -> None:
    """Sixty ordinary cloths: none is refused, front and back."""
    example = pipeline.load_workshop(Path(__file__).parent.parent / "workbooks" / "shop-list.xlsx")
    used = replace(example, settings={**example.settings, "shop_card": size, "market": "EU"})
    assert len(used.fabrics) > 50
    assert printing.print_pages(pages.shop_cards(used, knowledge.load())).refused == ()


def test_a_card_that_is_too_full_is_told_of(tmp_path: Path) -> None:
    """The smallest card, a long name and long care: left out, with the way to mend it."""
    long = VOILE | {"name": "Extraordinarily long name of a cloth " * 6}
    built = pipeline.build(shop(long, shop_card="85 x 55 mm"), tmp_path, kinds=["shop cards"])
    assert "card-too-small" in [found.code for found in built.problems]


def test_thousands_of_cards_are_a_matter_of_seconds() -> None:
    """A shop list of a thousand cloths: markup in well under ten seconds."""
    import time

    one = shop(VOILE)
    many = replace(one, fabrics=tuple(replace(one.fabrics[0], code=f"N{n}") for n in range(1000)))
    start = time.perf_counter()
    pages.shop_cards(many, knowledge.load())
    assert time.perf_counter() - start < 10


SET = "wash: 40 gentle; bleach: no; dry: low; iron: 2; clean: P"


def test_symbols_only_with_a_licence_and_beside_words() -> None:
    """Off by default: the symbols are others' trade mark. With a licence they follow the words, in the standard's order."""
    plain = cards(shop(VOILE | {"supplier_care": SET}))["C01"]
    assert plain.find(".//symbols") is None
    card = cards(shop(VOILE | {"supplier_care": SET}, symbols_right="CH 123"))["C01"]
    shown = card.find(".//symbols")
    assert shown is not None and shown.text == "wash-40-mild bleach-no tumble-1 iron-2 clean-p"
    assert "Tumble dry low" in words(card) and "printed under licence: CH 123" in words(card)


@pytest.mark.parametrize(
    "care", ["", "Dry clean only", "wash: 40; bleach: no; dry: low; iron: 2", SET.replace("40", "35")]
)
def test_no_symbol_for_what_the_supplier_did_not_set(care: str) -> None:
    """A symbol is a claim with a reasonable basis (16 CFR 423.6(c)): all five settings from the supplier, or none at all."""
    card = cards(shop(VOILE | {"supplier_care": care}, symbols_right="CH 123"))["C01"]
    assert card.find(".//symbols") is None
