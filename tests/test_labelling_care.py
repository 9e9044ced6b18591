"""Care lines: the supplier's words kept, guidance marked as such, nothing silent, nothing milder than the tenderest part."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from handouts.knowledge import load
from handouts.labelling import iron_limit, label, origin_problems, read_content
from handouts.labelling.guidance import Care, care_of, least
from handouts.labelling.words import lexicon
from handouts.pipeline import advise_fabrics
from handouts.problems import catalogue
from handouts.records import Fact
from tests.labelling_knowledge import knowledge

HEADS = ("Washing", "Bleach", "Drying", "Ironing", "Cleaning")


def care(cell: str, supplier: str = "", market: str = "US", **facts: object) -> tuple[str, ...]:
    """The care lines of a cell."""
    return label(read_content(cell, knowledge()), market, knowledge(), supplier_care=supplier, facts=facts).care


def test_silence_of_the_supplier_is_never_silence_on_the_card() -> None:
    """R-CL-4, 16 CFR 423.6: silence would mean that hot water, hot irons and any bleach are safe."""
    lines = care("97% cotton, 3% elastane")
    assert tuple(line.split(":")[0] for line in lines[:5]) == HEADS
    assert all("not stated by supplier" in line for line in lines[:5])


def test_the_suppliers_words_are_kept() -> None:
    """The card must not contradict the bolt: each clause is printed under what it is about, the rest is marked."""
    lines = care("100% wool", "Hand wash cold, lay flat to dry. Cool iron.")
    assert lines[:4] == (
        "Washing: Hand wash cold (supplier)",
        "Bleach: do not bleach (not stated by supplier)",
        "Drying: lay flat to dry (supplier)",
        "Ironing: Cool iron (supplier)",
    )


def test_dry_clean_only_forbids_the_wash() -> None:
    """The supplier's cleaning alone: no washing is proposed against him."""
    assert "Washing: do not wash (supplier: dry clean only)" in care("100% silk", "Dry clean only")
    assert "Washing: not stated by supplier; ask before you wash it" in care("100% silk", "Professionally dryclean.")


def test_spot_clean_forbids_the_wash() -> None:
    """No washing is advised where the supplier allows a spot only."""
    lines = care("70% viscose, 30% linen", "Spot clean only")
    assert (
        lines[0] == "Washing: do not wash (supplier: spot clean only)"
        and "Cleaning: Spot clean only (supplier)" in lines
    )


def test_other_languages_are_sorted_too() -> None:
    """A German bolt end."""
    lines = care("100% linen", "40°C waschen, nicht bleichen, nicht trocknen, heiß bügeln, chemisch reinigen", "EU")
    assert tuple(line.split(":")[0] for line in lines) == HEADS
    assert all("(supplier)" in line for line in lines)


def test_five_settings_become_sentences_of_the_market() -> None:
    """16 CFR 423 App. A: cold to 30, warm 31 to 44, hot from 45 °C; °C elsewhere."""
    typed = "wash: {} gentle; bleach: no; dry: low; iron: 2, no steam; clean: no"
    words = {c: care("100% viscose", typed.format(c))[0] for c in (30, 40, 60)}
    assert [line.split("wash ")[1].split(",")[0] for line in words.values()] == ["cold", "warm", "hot"]
    assert care("100% viscose", typed.format(40), "EU") == (
        "Washing: Wash at most 40 °C, gentle (supplier)",
        "Bleach: Do not bleach (supplier)",
        "Drying: Tumble dry low (supplier)",
        "Ironing: Iron at most 150 °C, no steam (supplier)",
        "Cleaning: Do not dryclean (supplier)",
    )


def test_the_tenderest_part_rules() -> None:
    """Fibres, coating, trim, finish and colour each lower what is allowed; the iron follows the card's own dots."""
    assert "warm iron" in " ".join(care("97% cotton, 3% elastane"))
    assert "do not iron" in " ".join(care("PVC on 100% cotton"))
    assert "cool iron, no steam" in " ".join(care("100% cotton", trim={"sequins"}))  # handling_rules.csv PH19, STM11
    assert "hand wash" in " ".join(care("100% cotton", colour="unfast dye"))
    assert "do not wash" in " ".join(care("100% cotton", coating="wax"))
    assert "cool iron" in " ".join(care("100% cotton", press_dots=1))
    assert "hot iron" in " ".join(care("100% cotton"))


def test_the_label_and_the_card_say_one_iron() -> None:
    """For every cloth we know, without words of a supplier: the label's degrees and steam are those of the handling advice."""
    base = load()
    rows = [{"name": c.name, "cloth": c.name, "fibre_content": c.usual_content} for c in base.cloths.values()]
    most = {row["dots"]: row["most_c"] for row in base.tables["heat"]["dots"]}
    told = {}
    for fabric in advise_fabrics(rows, {"market": "EU"}):
        line = next((line for line in fabric.label.care if line.startswith("Ironing")), "")
        dots, steam = fabric.advised("press_dots"), ", no steam" if fabric.advised("steam") == "none" else ""
        told[fabric.name] = (line, f"iron at most {most[dots]} °C{steam}" if dots else "do not iron")
    assert len(told) > 300
    assert {
        name: pair for name, pair in told.items() if pair[0] != f"Ironing: {pair[1]} (not stated by supplier)"
    } == {}


NAMES = ["cotton", "linen", "wool", "silk", "polyester", "nylon", "acrylic", "viscose", "polypropylene"]
FIBRES = st.lists(st.sampled_from(NAMES), min_size=1, max_size=4, unique=True)


@settings(deadline=None, max_examples=120)
@given(FIBRES, st.sampled_from(["cotton", "silk", "acetate", "wool", "polypropylene", "elastane"]))
def test_one_more_fibre_never_allows_more(fibres: list[str], more: str) -> None:
    """Adding a fibre to a blend keeps or lowers every setting."""
    known = lexicon(knowledge())
    order = knowledge().tables["care"]["order"]
    before = care_of(read_content(", ".join(fibres), knowledge()), {}, known)
    after = care_of(read_content(", ".join([*fibres, more]), knowledge()), {}, known)
    for key in ("by", "bleach", "tumble", "steam", "clean"):
        assert order[key].index(getattr(after, key)) <= order[key].index(getattr(before, key)), key
    assert after.c <= before.c and after.dots <= before.dots and after.gentle >= before.gentle


@settings(deadline=None, max_examples=200)
@given(st.text(max_size=500), st.sampled_from(["US", "EU", "UK", "none"]))
def test_any_supplier_text_fits(supplier: str, market: str) -> None:
    """At most six lines of 75 characters, whatever the cell holds, and every operation is spoken of or the bolt is named."""
    lines = care("60% cotton, 40% viscose", supplier, market)
    assert 1 <= len(lines) <= 6 and all(len(line) <= 75 for line in lines)


def test_gentle_once_is_gentle_for_good() -> None:
    """A part that stands a normal wash does not undo the part that does not."""
    table = knowledge().tables["care"]
    assert least(Care(gentle=True), {"gentle": False}, table).gentle
    assert least(Care(gentle=False), {"gentle": True}, table).gentle


def test_every_finish_and_coating_has_its_care() -> None:
    """Every word of the Coating and Trim columns lowers something, and every setting in care.toml can be compared."""
    from handouts.sheets import COATINGS, TRIMS

    table = knowledge().tables["care"]
    assert set(COATINGS) - {"none"} == set(table["coating"])
    assert set(TRIMS) - {"none"} == set(table["trim"])
    for group in ("coating", "trim", "finish", "colour", "nap", "skin", "group"):
        for record in table[group].values():
            assert isinstance(least(Care(), record, table), Care)


def test_a_supplier_hotter_than_the_fibres_is_told() -> None:
    """The words are printed; the shop is asked whether they belong to this cloth."""
    base = knowledge()
    made = label(read_content("100% wool", base), "EU", base, supplier_care="Machine wash 60 °C, hot iron")
    assert [p.code for p in made.problems] == ["care-conflict", "care-conflict"]
    assert "Machine wash 60 °C" in made.care[0]
    assert label(read_content("100% linen", base), "EU", base, supplier_care="Wash 60 °C, hot iron").problems == ()


def test_degrees_in_words_are_washing() -> None:
    """A bolt end that says 30 is not answered with guidance of 40."""
    for said in ("30 Grad Schonwäsche", "30 degrees, gentle", "lavable à 30 degrés", "30° delicate"):
        assert care("97% cotton, 3% elastane", said, "EU")[0] == f"Washing: {said} (supplier)", said


def test_degrees_fahrenheit_are_no_celsius() -> None:
    """104 °F is 40 °C, 300 °F is 149 °C: two dots (exact conversion)."""
    base = knowledge()
    assert (
        label(read_content("100% cotton", base), "US", base, supplier_care="Machine wash 140 °F, iron 300 °F").problems
        == ()
    )
    hot = label(read_content("100% wool", base), "US", base, supplier_care="Machine wash 140 °F, iron 400 °F")
    assert [p.code for p in hot.problems] == ["care-conflict"] * 2
    typed = "wash: 104 F gentle; bleach: no; dry: no; iron: 300 F; clean: no"
    assert care("100% viscose", typed, "EU")[0] == "Washing: Wash at most 40 °C, gentle (supplier)"
    assert label(read_content("100% viscose", base), "EU", base, supplier_care=typed).symbols[::3] == (
        "wash-40-mild",
        "iron-2",
    )


def test_label_says_who_supplied_the_facts_and_where() -> None:
    """Art. 15(2): who attaches the label answers for it. Facts may come as Fact records. Problems carry the cell."""
    base = knowledge()
    facts = {"trim": Fact(frozenset({"sequins"}), "typed", "Fabrics!R4")}
    made = label(
        read_content("60% cotton, 39% linen", base), "US", base, facts=facts, prepared_by=" A. Shop ", cell="Fabrics!D4"
    )
    assert (made.market, made.supplied_by, [p.cells for p in made.problems]) == ("US", "A. Shop", [("Fabrics!D4",)])
    assert "cool iron, no steam" in " ".join(made.care)


@pytest.mark.parametrize(
    ("colour", "bleach", "degrees"),
    [(None, "only non-chlorine", 40), ("pale", "only non-chlorine", 60), ("mid", "only non-chlorine", 60),
     ("dark", "do not", 30), ("print", "do not", 30)],
)  # fmt: skip
def test_guidance_takes_a_colour_nobody_typed_for_a_dye(colour: str | None, bleach: str, degrees: int) -> None:
    """Judgement: chlorine and hot water take the colour out of cotton that bears both undyed."""
    facts = {"colour": colour} if colour else {}
    made = label(read_content("100% cotton", knowledge()), "EU", knowledge(), facts=facts)
    assert f"at most {degrees} °C" in made.care[0] and f"Bleach: {bleach}" in made.care[1]


def test_an_unknown_colour_is_no_ground_to_doubt_the_supplier() -> None:
    """He knows his dye: 60 °C on cotton draws no finding, nor is it changed."""
    made = label(read_content("100% cotton", knowledge()), "EU", knowledge(), supplier_care="Machine wash 60 °C")
    assert (made.care[0], made.problems) == ("Washing: Machine wash 60 °C (supplier)", ())


def test_every_label_message_is_drawn() -> None:
    """No message of this group is dead."""
    base = knowledge()
    virgin = "60% virgin wool, 40% recycled wool"
    cells = ["97% cotton, 3% nylon", "60% cotton", "100% wool Super 200s", virgin, "100% fancy cotton"]
    cells += ["60% PVC, 40% polyester", "100% cotton; lining unknown"]
    drawn = {
        p.code for cell in cells for p in label(read_content(cell, base), "US", base, supplier_care="hot iron").problems
    }
    drawn |= {p.code for p in label(read_content("100% silk", base), "US", base, supplier_care="hot iron").problems}
    drawn |= {p.code for p in origin_problems("imported", "US", base)}
    assert {code for code in catalogue() if code.startswith(("label-", "care-"))} == drawn


@pytest.mark.parametrize(
    ("words", "limit"),
    [
        ("Machine wash cold. Warm iron.", (2, False)),
        ("Wash 40. Do not iron.", (0, True)),
        ("wash: 40; iron: low; steam: no", (1, True)),
        ("Hot iron, no steam", (3, True)),
        ("Iron at 110 °C", (1, False)),
        ("••", (None, False)),
        ("iron ••", (2, False)),
        ("30 Grad waschen, nicht bügeln", (0, True)),
        ("Dry clean only", (None, False)),
        ("", (None, False)),
    ],
)
def test_the_suppliers_iron_is_a_ceiling(words: str, limit: tuple[int | None, bool]) -> None:
    """Bolt words as dots and steam: cool the lowest, warm the middle setting (16 CFR 423 App. A); 110, 150 °C as GINETEX."""
    assert iron_limit(words, knowledge()) == limit
