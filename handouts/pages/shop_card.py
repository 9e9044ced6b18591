"""What a care card, a bolt-end label and a line of the shelf list say of one cloth, as plain dicts and texts."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from handouts.model import Knowledge, Value
from handouts.pages.amounts import money
from handouts.pages.care import bolt_says, in_brief, parted
from handouts.pages.glance import marked
from handouts.pages.retold import retold
from handouts.pages.sentences import Sentences, pattern
from handouts.pages.templates import word_file
from handouts.pages.words import Words, capital, vocabulary
from handouts.records import Fabric
from handouts.units import M_PER_YARD


def shop_words() -> Mapping[str, Any]:
    """The words of the shop's pages: shop_words.toml."""
    return word_file("shop_words")


def shop_card(fabric: Fabric, settings: Mapping[str, Value], words: Words, knowledge: Knowledge) -> dict[str, Any]:
    """Everything a care card says, front and back; the smallest card has room for one system of units only."""
    say = shop_words()
    small = settings.get("shop_card") in say["detail"]["small"]
    words = replace(words, measures=words.measures.single) if small else words
    return {
        "code": fabric.code,
        "name": fabric.name,
        "copies": int(fabric.shop.get("shop_cards", 1)),
        "business": business(settings),
        "price": price(fabric, settings),
        "facts": facts(fabric, words),
        "statement": statement(fabric),
        "care": care(fabric, brief=small),
        "link": str(fabric.shop.get("link", "")),
        "swatch": say["swatch"] if settings.get("shop_card") == "A6" else "",
        "symbols": " ".join(symbols(fabric, settings)),
        "foot": " ".join([supplied(settings), say["defer"], *licence(fabric, settings)]),
        "handling": handling(fabric, words, knowledge),
        "cautions": cautions(fabric, words),
        "back_foot": say["test"],
    }


def symbols(fabric: Fabric, settings: Mapping[str, Value]) -> tuple[str, ...]:
    """Care symbols, beside the words, when the shop wrote its licence; they are others' trade mark."""
    return fabric.label.symbols if fabric.label and str(settings.get("symbols_right") or "").strip() else ()


def licence(fabric: Fabric, settings: Mapping[str, Value]) -> list[str]:
    """The note that goes with printed symbols."""
    shown = symbols(fabric, settings)
    return [shop_words()["licence"].format(str(settings.get("symbols_right")).strip())] if shown else []


def business(settings: Mapping[str, Value]) -> str:
    """The shop's name as typed; the class's title when there is none."""
    return str(settings.get("business") or settings.get("teacher") or settings.get("title") or "")


def supplied(settings: Mapping[str, Value]) -> str:
    """Who answers for the facts (Regulation (EU) 1007/2011 Art. 15)."""
    by = str(settings.get("prepared_by") or "").strip()
    return str(shop_words()["supplied"]).format(by) if by else str(shop_words()["nobody"])


def price(fabric: Fabric, settings: Mapping[str, Value]) -> str:
    """`€ 12.50 per metre · € 11.43 per yard`, the one first that the shop measures by; empty without a price."""
    value = fabric.fact("price_per_m")
    if not value:
        return ""
    currency, say = str(settings.get("currency") or ""), shop_words()
    metre = say["per_metre"].format(money(value, currency))
    yard = say["per_yard"].format(money(value * M_PER_YARD, currency))
    both = (yard, metre) if settings.get("units") == "imperial" else (metre, yard)
    return " · ".join(both)


def facts(fabric: Fabric, words: Words) -> list[str]:
    """Article, width and weight in one line, origin in the next."""
    say = shop_words()
    width, weight = fabric.facts.get("width_cm"), fabric.facts.get("weight_gsm")
    parts = [say["article"].format(fabric.code)]
    parts += [marked(width, say["wide"].format(words.measures.across(width.value)))] if width and width.value else []
    parts += [marked(weight, words.measures.weight(weight.value))] if weight and weight.value else []
    return [line for line in (" · ".join(parts), origin(fabric)) if line]


def origin(fabric: Fabric) -> str:
    """Where it comes from, as typed: `Made in USA of imported fabric`; a bare country as `Origin: Portugal`."""
    typed, say = str(fabric.shop.get("origin", "")).strip(), shop_words()
    said = not typed or set(typed.casefold().split()) & set(say["origin_said"])
    return typed if said else str(say["origin"]).format(typed)


def statement(fabric: Fabric) -> list[str]:
    """The fibre statement in the market's words, every line alike; a remark when there is none."""
    label, say = fabric.label, shop_words()
    head = fibre_heading(label.market if label else "")
    if not label or not label.statement:
        return [say["not_stated_us"] if label and label.market == "US" else say["not_stated"].format(head)]
    lines = label.statement
    if label.market == "none" or all(len(line) < 24 and ":" not in line for line in lines):
        return [f"{head}: {', '.join(line.replace(' ', chr(160)) for line in lines)}"]  # a figure stays with its fibre
    return [f"{head}:", *lines]


def fibre_heading(market: str) -> str:
    """`Fibre content`, as the market spells it."""
    return str(shop_words()["fibres_us" if market == "US" else "fibres"])


def care(fabric: Fabric, brief: bool) -> list[dict[str, str]]:
    """The care lines of the label, each under its operation; run together on the smallest card."""
    lines = fabric.label.care if fabric.label else ()
    if brief:
        return [{"when": "", "words": line} for line in in_brief(*parted(lines))]
    says = vocabulary()["care"]
    told = [line for line in lines if not line.startswith(says["guidance"])]
    for name in ("not_stated", "stated"):
        mark = f" ({says[name]})"
        if told and all(mark in line for line in told):
            remark = {"when": "", "words": shop_words()["care_unstated" if name == "not_stated" else "care_stated"]}
            return [remark, *(headed(line.replace(mark, ""), says["heads"]) for line in told)]
    return [headed(line, says["heads"]) for line in told]


def headed(line: str, heads: Sequence[str]) -> dict[str, str]:
    """`Washing: …` with its head apart; a line that goes on has none."""
    head, colon, words = line.partition(": ")
    known = bool(colon) and head.split(",")[0] in heads
    return {"when": f"{head}:", "words": words} if known else {"when": "", "words": line}


def handling(fabric: Fabric, words: Words, knowledge: Knowledge) -> list[dict[str, str]]:
    """Five lines in the order of work: before cutting, cut, sew, seams, press."""
    say, head = Sentences(fabric, words, knowledge), shop_words()["handling"]
    told = {"wash": wash(say), "cut": cut(say), "sew": sew(say), "seam": seams(say), "press": press(say)}
    return [{"when": f"{head[key]}:", "words": text} for key, text in told.items() if text]


def wash(say: Sentences) -> str:
    """What to do first before cutting, as much as goes in a line or two, and the shrinkage of what may be washed."""
    told, most = "", word_file("shop_words")["detail"]["wash_most"]
    for line in say.value("pretreat") or ():
        more = f"{told} {retold(line, say.words.measures)}".strip()
        told = more if not told or len(more) <= most else told
    shrinks = say.value("shrink_pct")
    return " ".join(part for part in (told, say.shrink_pct(shrinks) if shrinks else "") if part)


def cut(say: Sentences) -> str:
    """Layers and tool, then what holds the cloth."""
    how = say.cut({topic: say.value(topic) for topic in ("cut_layers", "cut_tool")})
    return " ".join(part for part in (how, say.hold(say.value("hold"))) if part)


def sew(say: Sentences) -> str:
    """Needle, stitch and length."""
    return f"{say.needle_nm(say.value('needle_nm')).rstrip('.')}. {say.stitch_mm(say.value('stitch_mm'))}"


def seams(say: Sentences) -> str:
    """Finish and allowance."""
    return f"{say.seam_finish(say.value('seam_finish'))} {say.seam_allowance_mm(say.value('seam_allowance_mm'))}"


def press(say: Sentences) -> str:
    """The bolt's own word; dial, dots, degrees, steam and press cloth."""
    dots = say.value("press_dots")
    if not dots:
        return say.iron(0)
    cloth = say.plain("press_cloth", "always") if say.value("press_cloth") == "always" else ""
    heat = f"{capital(say.words.short('press_c', say.value('press_c')))} at most."
    bolt = bolt_says(say.fabric)
    first = str(pattern("bolt")).format(bolt) if bolt else ""
    return " ".join(part for part in (first, say.iron(dots), heat, cloth) if part)


def cautions(fabric: Fabric, words: Words) -> list[dict[str, str]]:
    """What cannot be undone and what the law or safety makes the shop say, one line each."""
    say, watch = shop_words(), fabric.advice.get("watch_out")
    lasting = [line for spoke in (watch.won if watch else ()) if spoke.lasting for line in spoke.value or ()]
    lines = [(say["lasting"], line) for line in lasting[:1]]
    lines += [(say["caution"], spoke.say) for spoke in fabric.flags]
    return [{"when": when, "words": retold(line, words.measures)} for when, line in lines]
