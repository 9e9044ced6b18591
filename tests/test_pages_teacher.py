"""What a teacher missed on the printed pages, read aloud over real advice: each sentence she asked for stays."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from handouts import knowledge
from handouts.pages.beyond import likes
from handouts.pages.card import card
from handouts.pages.plan import plan as plan_pages
from handouts.pages.words import vocabulary, words_of
from handouts.pipeline import advise_fabrics
from handouts.planning import plan
from handouts.records import Decision, Fabric, Likeness, Spoke
from tests.class_by_hand import fabric as by_hand
from tests.class_by_hand import workshop

BASE = knowledge.load()
METRIC = words_of("metric", BASE)
CONTENT = {"garment leather": "leather", "waxed cotton": "100% cotton", "scuba": "95% polyester, 5% elastane"}


def cloth(name: str, content: str = "", **cells: object) -> Fabric:
    """A fabric of this cloth, advised."""
    content = content or CONTENT.get(name, "100% cotton")
    return advise_fabrics([{"name": name, "cloth": name, "fibre_content": content, **cells}])[0]


def lines(fabric: Fabric, block: str, detail: str = "card") -> list[str]:
    """The actions of a block."""
    return [one["words"].replace("\u00a0", " ") for one in card(fabric, METRIC, BASE, detail)[block]]


def with_house_foot(fabric: Fabric, words: str) -> Fabric:
    """The fabric in a class that has this rule on its feet."""
    trade = fabric.advice["foot"]
    own = Spoke("house-1", (words,), "Ours feed late.", (), "house")
    value = (words, *trade.value)
    return replace(fabric, advice={**fabric.advice, "foot": Decision("foot", value, (own, *trade.won), choice="house")})


@pytest.mark.parametrize("detail", ["card", "page"])
@pytest.mark.parametrize("name", ["garment leather", "denim"])
def test_no_other_foot_stands_beside_the_classes_own(name: str, detail: str) -> None:
    """`Walking foot` in the strip and `Non-stick foot` under it is two answers; how to set the machine stays."""
    told = card(with_house_foot(cloth(name), "Walking foot."), METRIC, BASE, detail)
    words = " ".join(one["words"] for one in told["sew"])
    assert not re.search(r"(?i)non-stick|roller|all-purpose", words)
    assert (told["settings"][2]["value"], told["settings"][2]["mark"]) == ("walking", "class rule")
    assert name != "denim" or "Level the foot" in words


def test_a_house_rule_that_names_no_foot_leaves_the_trades_foot() -> None:
    """The class may only say how to clean it: then the foot in the strip is not the class's word."""
    told = card(with_house_foot(cloth("denim"), "Brush the feed after it."), METRIC, BASE)
    assert told["settings"][2]["mark"] == "" and told["settings"][2]["value"] == "all-purpose"


def test_how_to_sew_the_stitch_is_told() -> None:
    """A zigzag seam is narrow, leather has no backstitch, foam is butted (common practice, no source)."""
    assert "Zigzag, 2.0 to 2.5 mm; narrow: 0.5 to 1.5 mm wide." in lines(cloth("cotton jersey"), "sew")
    assert any(
        words.endswith("; one row, no backstitch: knot the tails.") for words in lines(cloth("garment leather"), "sew")
    )


def test_thick_foam_is_trimmed_to_nothing_in_words() -> None:
    """`Trim to 0 mm` is no instruction, and there is nothing left to draw."""
    foam = cloth("neoprene", "100% polyester", thickness_mm=3.0)
    told = card(foam, METRIC, BASE)
    words = " ".join(lines(foam, "seams") + lines(foam, "sew"))
    assert "Cut the allowance away: the edges meet." in words and "butt the edges" in words and "0 mm" not in words
    assert told["allowance"] is None


def test_what_to_buy_comes_before_all_work() -> None:
    """A tenth more linen and a repeat more of a check are bought before the wash, not after it or at the table."""
    linen = cloth("medium linen", "100% linen", check="even check", repeat_cm=8.0)
    before = lines(linen, "before")
    assert [words.startswith("Buy ") for words in before[:2]] == [True, True] and "Wash" in " ".join(before[2:])
    assert not any(words.startswith("Buy") for words in lines(linen, "lay_out"))
    assert any("repeat" in words for words in before[:2])


def test_shrinkage_says_what_shrinks_it() -> None:
    """`Dry clean only. Shrinks 10 %` puzzles; what usually does not shrink needs no line, what was measured keeps it."""
    assert "Washed, it shrinks 6 % along, 3 % across (usual)." in lines(cloth("cotton lawn"), "before")
    assert not re.search("(?i)shrink", " ".join(lines(cloth("garment leather"), "before")))
    assert not re.search("(?i)shrink", " ".join(lines(cloth("faux fur"), "before"))), "it is not washed at all"
    measured = cloth("waxed cotton", shrink_length_pct=0, shrink_width_pct=0)
    assert "Does not shrink." in lines(measured, "before")


def test_every_line_on_the_overlock_names_it() -> None:
    """`Four threads: two needles …` under `Zigzag` could be anything."""
    for name, content in (("cotton jersey", "95% cotton, 5% elastane"), ("silk chiffon", "100% silk"), ("scuba", "")):
        found = [w for w in lines(cloth(name, content), "sew") if re.search("(?i)thread(s|-)|three-thread", w)]
        assert found and all("verlock" in words for words in found if not words.startswith("Thread:"))


def test_no_line_leans_on_a_line_that_the_card_leaves_out() -> None:
    """The foot stands in the strip, so no line under it may begin with `It` and mean the foot."""
    sequins, check = cloth("sequinned mesh", "100% polyester"), cloth("tartan", "100% wool", check="even check")
    assert "Sew beside the discs, not over them." in lines(sequins, "sew")
    assert not any(words.startswith("It ") or "; it " in words for f in (sequins, check) for words in lines(f, "sew"))


def test_another_cloth_is_not_told_apart_by_what_the_class_decided() -> None:
    """A class that clips all velvets clips the related one too."""
    velvet = cloth("silk velvet", "100% silk")
    like = Likeness("x", "other velvet", {"hold": ("weights",), "press_dots": 2})
    hold = replace(velvet.advice["hold"], choice="house")
    own = replace(velvet, likes=(like,), advice={**velvet.advice, "hold": hold})
    assert [one["words"] for one in likes(own, METRIC, 2)] == ["except 2 dots."]


def test_a_caution_on_a_card_gives_two_reasons_and_the_full_page_all() -> None:
    """Six lines of bold print are not read."""
    plain = cloth("cotton lawn")
    against = tuple(Spoke(f"r{n}", 1, f"Reason {n}.", (), "fibre") for n in range(4))
    chosen = Decision("press_dots", 3, (), choice="typed", cautions=against)
    own = replace(plain, advice={**plain.advice, "press_dots": chosen})
    cautions = [card(own, METRIC, BASE, detail)["press"][0]["caution"] for detail in ("card", "page")]
    assert [text.count("Reason") for text in cautions] == [2, 4]


def test_the_plan_marks_a_risky_iron() -> None:
    """Who sets up the irons reads the plan, not the card."""
    twill = by_hand("F1", "Twill", 3)
    warned = Decision("press_dots", 3, (), choice="typed", cautions=(Spoke("x", 1, "It melts.", (), "fibre"),))
    made = workshop((replace(twill, advice={**twill.advice, "press_dots": warned}), by_hand("F2", "Drill", 3)), ())
    text = plan_pages(made, plan(made, BASE), BASE)
    assert text.count("▲ iron by choice, see its card") == 1


def test_what_is_all_of_one_kind_needs_no_shares() -> None:
    """Acrylic and polyester without their shares are synthetic through and through: nobody has to find that out."""
    fur = cloth("faux fur", "acrylic, polyester")
    assert fur.fact("synthetic_pct") == 100.0
    assert "fibres and their shares" not in " ".join(lines(fur, "unknown"))
    assert cloth("faux fur", "acrylic, wool").fact("synthetic_pct") is None


def test_a_shirt_is_not_told_to_be_handled_like_its_collars_inside() -> None:
    """Interfacings settle beside interfacings only."""
    near = {like.name for like in cloth("cotton poplin", "97% cotton, 3% elastane").likes}
    assert near and not near & {"wigan", "domette", "collar canvas", "hair canvas"}
    assert "collar canvas" in {like.name for like in cloth("woven fusible interfacing").likes}


def test_a_typed_choice_holds_at_every_weight() -> None:
    """Flat-felled seams lie to one side in light cloth and in heavy: nothing to change from 220 g/m² on."""
    chosen = cloth("stretch cotton sateen", "98% cotton, 2% elastane", weight_gsm=210.0, seam_finish="flat-felled")
    assert chosen.advised("press_direction") == "one side"
    assert [change for change in chosen.changes if change.topic == "press_direction" and change.value == "open"] == []
    left = cloth("stretch cotton sateen", "98% cotton, 2% elastane", weight_gsm=90.0)
    assert {change.topic for change in left.changes} & {"press_direction", "seam_finish"}


def test_a_large_repeat_is_bought_once() -> None:
    """A typed repeat says how much; `one motif's height` would be the same length again."""
    for cells, bought in (
        ({"repeat_cm": 64.0}, "Large repeat: buy one full repeat more."),
        ({}, "Buy one motif's height more."),
    ):
        chair = cloth("upholstery jacquard", "55% cotton, 45% polyester", one_way=True, **cells)
        assert [words for words in lines(chair, "before") if "uy one" in words] == [bought]


@pytest.mark.parametrize(
    ("name", "earlier", "later"),
    [
        ("corduroy", "Before washing, zigzag", "Wash a measured strip"),
        ("terry towelling", "Before washing, zigzag", "Wash and tumble"),
    ],
)
def test_what_comes_first_in_the_work_comes_first_on_the_card(name: str, earlier: str, later: str) -> None:
    """The ends are zigzagged before the wash, though the rule of the cloth stands above the rule of every cloth."""
    told = " / ".join(lines(cloth(name), "before", "page"))
    assert -1 < told.index(earlier) < told.index(later)


def test_cloth_is_pressed_before_anything_is_laid_on_it() -> None:
    """Tissue and pattern go on cloth that lies flat (common practice, no source)."""
    told = lines(cloth("polyester chiffon", "100% polyester"), "lay_out", "page")
    assert told[0].startswith("Press it flat") and any("tissue" in words for words in told[1:])


def test_every_line_that_goes_first_is_a_line_of_the_trade() -> None:
    """A rule that is worded anew must not fall out of the order unseen."""
    said = [words for rule in BASE.rules if rule.topic in ("pretreat", "layout") for words in rule.value or ()]
    starts = [*vocabulary()["line"]["first"], *vocabulary()["line"]["buy"]]
    assert [start for start in starts if not any(words.startswith(start) for words in said)] == []
