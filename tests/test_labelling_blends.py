"""Random blends under both rule sets, and the kinds of statement the rules know beyond single examples."""

from __future__ import annotations

import re
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from handouts.labelling import label, read_content
from handouts.records import Label
from tests.labelling_knowledge import knowledge

WOOLS = {"wool", "cashmere", "mohair", "alpaca"}
NAMES = [
    "cotton",
    "linen",
    "silk",
    "polyester",
    "nylon",
    "acrylic",
    "spandex",
    "rayon",
    "hemp",
    "ramie",
    *sorted(WOOLS),
]
Blend = list[tuple[Fraction, str, str]]


@st.composite
def blends(draw: st.DrawFn) -> Blend:
    """One to seven fibres in quarter percents that add up to 100, in any order, some with a reason."""
    names = draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=7, unique=True))
    cuts = sorted(draw(st.lists(st.integers(1, 399), min_size=len(names) - 1, max_size=len(names) - 1, unique=True)))
    parts = [Fraction(b - a, 4) for a, b in zip([0, *cuts], [*cuts, 400], strict=True)]
    reasons = draw(st.lists(st.sampled_from(["", "", "for stretch"]), min_size=len(names), max_size=len(names)))
    return list(zip(parts, names, reasons, strict=True))


def stated(blend: Blend, market: str) -> Label:
    """The label of a blend."""
    cell = ", ".join(f"{float(pct):g}% {name}" + (f" ({reason})" if reason else "") for pct, name, reason in blend)
    return label(read_content(cell, knowledge()), market, knowledge())


def lines(made: Label) -> list[tuple[Fraction, str]]:
    """Statement lines as (percent, name in small letters)."""
    found = [re.fullmatch(r"([\d.]+) ?% (.+)", line) for line in made.statement]
    return [(Fraction(match[1]), match[2].lower()) for match in found if match]


@settings(deadline=None, max_examples=250)
@given(blends())
def test_us_statements_keep_every_percent_and_the_order(blend: Blend) -> None:
    """16 CFR 303.16(a)(1): 100 in all, heaviest first, ties as typed, other fiber last."""
    made = lines(stated(blend, "US"))
    assert sum(pct for pct, _ in made) == 100
    named = [line for line in made if not line[1].startswith("other")]
    assert named == sorted(named, key=lambda line: -line[0])
    assert made[: len(named)] == named
    typed = [name for _, name, _ in blend]
    assert named == sorted(named, key=lambda line: (-line[0], typed.index(line[1])))


@settings(deadline=None, max_examples=250)
@given(blends())
def test_us_statements_name_nothing_small_without_a_reason(blend: Blend) -> None:
    """16 CFR 303.3(a), 300.3(b): 5 percent or more, wool, or a stated function is named; the rest is summed and counted."""
    made = {name: pct for pct, name in lines(stated(blend, "US"))}
    may = {name: pct for pct, name, reason in blend if pct >= 5 or name in WOOLS or reason}
    small = [pct for pct, name, _ in blend if name not in may]
    others = {"other fiber" if len(small) == 1 else "other fibers": sum(small)} if small else {}
    assert {**may, **others} == made


@settings(deadline=None, max_examples=250)
@given(blends())
def test_every_small_fibre_is_asked_about(blend: Blend) -> None:
    """R-US-5: the tool asks for the function in words; it does not infer it from the name."""
    asked = [p for p in stated(blend, "US").problems if p.code == "label-reason"]
    assert len([1 for pct, name, reason in blend if pct < 5 and name not in WOOLS and not reason]) == len(asked)


@settings(deadline=None, max_examples=250)
@given(blends())
def test_eu_statements_name_everything(blend: Blend) -> None:
    """Regulation (EU) 1007/2011 Art. 9(1): every fibre with its percent, heaviest first, whatever its share or reason."""
    european = {"linen": "flax", "nylon": "polyamide", "spandex": "elastane", "rayon": "viscose", "hemp": "true hemp"}
    made = lines(stated(blend, "EU"))
    expected = sorted(blend, key=lambda share: -share[0])
    assert [(pct, european.get(name, name)) for pct, name, _ in expected] == made
    assert stated(blend, "UK").statement == stated(blend, "EU").statement


@settings(deadline=None, max_examples=250)
@given(blends(), st.integers(1, 40))
def test_no_tolerance_mends_a_sum(blend: Blend, quarters: int) -> None:
    """A blend that misses 100 by a quarter percent or more gets no statement in any market with rules."""
    off = [(blend[0][0] + Fraction(quarters, 4), *blend[0][1:]), *blend[1:]]
    assert [stated(off, market).statement for market in ("US", "EU")] == [(), ()]


def said(cell: str, market: str) -> tuple[str, ...]:
    """The statement of a cell."""
    return label(read_content(cell, knowledge()), market, knowledge()).statement


def test_one_generic_name_is_stated_once() -> None:
    """303.7(d): modal and viscose are both rayon; two shares of 3 are 6 percent and named."""
    assert said("94% cotton, 3% modal, 3% viscose", "US") == ("94% Cotton", "6% Rayon")
    assert said("94% cotton, 3% modal, 3% viscose", "EU") == ("94 % cotton", "3 % modal", "3 % viscose")


def test_a_fibre_alone_is_no_hundred_percent() -> None:
    """16 CFR 303.27, Art. 7(1): “all” and “100 %” only when said; the advice still takes cotton for cotton."""
    for cell in ("cotton", "mostly cotton", "waxed cotton", "pile nylon; back cotton; pile 40%"):
        made = [label(read_content(cell, knowledge()), market, knowledge()) for market in ("US", "EU")]
        assert [(m.statement, [p.code for p in m.problems]) for m in made] == [((), ["label-refused"])] * 2, cell
    said = ("100% cotton", "all cotton", "reine Baumwolle", "cotton 100", "waxed 100.0% cotton", "84% PVC, 16% cotton")
    stated = [label(read_content(cell, knowledge()), "US", knowledge()).statement[0] for cell in said]
    assert stated == ["All Cotton" if cell == "all cotton" else "100% Cotton" for cell in said]


def test_pile_and_back_need_their_ratio_in_the_us() -> None:
    """303.24: face and back apart only with the ratio; several fibres stand under their label."""
    assert said("pile 100% nylon; back 100% cotton", "US") == ()
    assert said("face 40% nylon, 60% rayon; back 30% rayon, 70% cotton; face 55%", "US") == (
        "Face:", "60% Rayon", "40% Nylon", "Back:", "70% Cotton", "30% Rayon", "(Face constitutes 55% of fabric and back 45%)",
    )  # fmt: skip
    assert said("pile 100% nylon; back 100% cotton", "EU") == ("pile: 100 % polyamide", "back: 100 % cotton")


def test_ornamentation_has_its_limit() -> None:
    """303.26: up to 5 percent left out; Art. 10: up to 7 %. Above it the shares must hold it."""
    cells = {pct: f"100% rayon; exclusive of {pct}% silk ornamentation" for pct in (5, 6, 7, 8)}
    assert [bool(said(cell, "US")) for cell in cells.values()] == [True, False, False, False]
    assert [bool(said(cell, "EU")) for cell in cells.values()] == [True, True, True, False]


def test_other_fibres_are_a_narrow_way_out() -> None:
    """Art. 9(2): one up to 5, several up to 15, inclusive; 303.6: an other fiber of 5 percent must be named."""
    assert said("95% cotton, 5% other fibre", "EU") == ("95 % cotton", "5 % other fibres")
    assert said("85% cotton, 15% other fibres", "EU") == ("85 % cotton", "15 % other fibres")
    assert said("84% cotton, 16% other fibres", "EU") == ()
    assert said("94% cotton, 6% other fibre", "EU") == ()
    assert said("96% cotton, 4% other fiber", "US") == ("96% Cotton", "4% Other Fiber")
    assert said("95% cotton, 5% other fiber", "US") == ()


def test_hair_and_fur_names() -> None:
    """303.6(b), 300.8(g): an animal's name with hair or fiber and only from 5 percent; Angora rabbit is no wool."""
    assert said("30% mink, 70% wool", "US") == ("70% Wool", "30% Mink Hair")
    assert said("80% wool, 20% angora", "US") == ("80% Wool", "20% Angora Rabbit Hair")
    assert said("96% cotton, 4% angora", "US") == ("96% Cotton", "4% Other Fiber")
    assert said("60% cotton, 40% mink fiber", "US") == ("60% Cotton", "40% Mink Fiber")
    assert said("96% cotton, 4% mohair", "US") == ("96% Cotton", "4% Mohair")
    assert said("60% wool, 40% fur fiber", "EU") == ("60 % wool", "40 % animal hair")


def test_virgin_is_a_word_for_wool_only() -> None:
    """Polyester fleece is a cloth, no fleece wool; new cotton is cotton."""
    assert said("100% polyester fleece", "US") == ("100% Polyester",)
    made = label(read_content("100% polyester fleece", knowledge()), "EU", knowledge())
    assert (made.statement, made.problems) == (("100 % polyester",), ())


def test_recycled_and_virgin_wool() -> None:
    """300.3: recycled wool apart and always; 300.20: no virgin beside recycled; Art. 8: virgin from 25 % with one other."""
    assert said("96% cotton, 4% recycled wool", "US") == ("96% Cotton", "4% Recycled Wool")
    assert said("60% virgin wool, 40% cotton", "US") == ("60% Virgin Wool", "40% Cotton")
    assert said("60% virgin wool, 40% recycled wool", "US") == ("60% Wool", "40% Recycled Wool")
    assert said("75% cotton, 25% virgin wool", "EU") == ("75 % cotton", "25 % virgin wool")
    assert said("76% cotton, 24% virgin wool", "EU") == ("76 % cotton", "24 % wool")
    assert said("50% virgin wool, 50% cotton", "EU") == ("50 % virgin wool", "50 % cotton")
    assert said("50% virgin wool, 30% cotton, 20% silk", "EU") == ("50 % wool", "30 % cotton", "20 % silk")


def test_super_numbers_stand_with_their_diameter() -> None:
    """15 USC 68b(a)(5): at or below the limit the claim stands; without a diameter it does not."""
    assert said("100% wool Super 130s 17.25 µm", "US") == ("100% Wool", "Super 130's")
    assert said("100% wool Super 130s", "US") == ("100% Wool",)
    assert said("100% cashmere 19.5 micron", "US") == ()
    assert said("100% cashmere 18.5 micron", "US") == ("100% Cashmere",)


def test_a_union_needs_forty_percent_of_flax() -> None:
    """Art. 9(3): pure cotton warp, pure flax weft, flax 40 % or more; below it the percentages of the whole are stated."""
    cell = "cotton linen union; warp 100% cotton; weft 100% linen; weft {}%"
    assert said(cell.format(40), "EU") == ("cotton linen union", "pure cotton warp - pure flax weft")
    assert said(cell.format(39), "EU") == ("61 % cotton", "39 % flax")
    assert said(cell.format(40), "US") == ("60% Cotton", "40% Linen")


def test_scraps_are_stated_in_the_form_typed() -> None:
    """303.14(a): several wordings are allowed; the typed one is kept when it is one of them."""
    assert said("100% unknown fibers - rags", "US") == ("100% unknown fibers--rags",)
    assert said("unknown rags", "US") == ("Made of miscellaneous rags of undetermined fiber content",)
    assert said("60% cotton, 40% unknown fibers - scraps", "US") == ("60% Cotton", "40% Unknown fibers--scraps")
    assert said("unknown", "US") == () and said("60% cotton, 40% unknown", "US") == ()


def test_without_a_market_nothing_is_refused() -> None:
    """A class needs the fibres in plain English, rules or no rules."""
    assert said("poly/cotton 65/35", "none") == ("65% polyester", "35% cotton")
    assert said("97 % Baumwolle, 3 % Elasthan", "none") == ("97% cotton", "3% elastane")
    assert said("unknown", "none") == ("unknown",)
    assert said("PVC on 100% polyester", "none") == ("100% polyester", "coating: PVC")
