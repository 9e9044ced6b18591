"""The rules from the machine to the iron: check values of the trade, and what must hold for every cloth."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

import pytest

from handouts import knowledge, labelling
from handouts.advice import advise, choices, facts_of, find_cloth
from handouts.model import Cloth, Construction, Knowledge
from handouts.records import Decision, Fact

KNOWN = knowledge.load()
FILES = frozenset(
    f"{stem}.toml"
    for stem in (
        *("needle_point", "needle_size", "thread", "stitch", "stitch_length", "foot"),
        *("overlock", "seam_finish", "allowance", "heat", "steam", "pressing"),
    )
)
OWN = [rule for rule in KNOWN.rules if rule.file in FILES]
DECIDE = [topic for topic in KNOWN.topics if topic in {rule.topic for rule in OWN}]


def only(topics: Iterable[str]) -> Knowledge:
    """The knowledge base cut down to some topics, for speed; our rules test no others."""
    kept = {id: topic for id, topic in KNOWN.topics.items() if id in topics}
    return replace(KNOWN, topics=kept, rules=tuple(rule for rule in KNOWN.rules if rule.topic in kept))


OURS = only(DECIDE)


def facts(cloth: str, content: str = "", **typed: Any) -> dict[str, Fact]:
    """The facts of a cloth by id; its usual content when none is given."""
    item = find_cloth(cloth, KNOWN).item
    assert item is not None and item.id == cloth, cloth
    return facts_of(typed, str, item, labelling.read_content(content or usual_content(item), KNOWN), KNOWN)


def usual_content(item: Cloth | Construction) -> str:
    """What the cloth is usually made of; cotton for a bare construction."""
    return item.usual_content if isinstance(item, Cloth) else "100% cotton"


def values(cloth: str, content: str = "", **typed: Any) -> dict[str, Any]:
    """Topic → value for one cloth."""
    return {topic: d.value for topic, d in decide([facts(cloth, content, **typed)])[0].items()}


def decide(fabrics: list[dict[str, Fact]]) -> list[dict[str, Decision]]:
    """Topic → Decision for each, of the topics of these rules."""
    return advise(fabrics, OURS, mights=False)


EVERY = {item.id: facts(item.id) for item in (*KNOWN.constructions.values(), *KNOWN.cloths.values())}
DECIDED = dict(zip(EVERY, decide(list(EVERY.values())), strict=True))


def nm(low: int, high: int, start: int) -> dict[str, int]:
    """A range of needle sizes."""
    return {"low": low, "high": high, "start": start}


# ------------------------------------------------------------------ check values, common practice, no source
def test_viscose_challis() -> None:
    """Sharp from 70, French or overlocked, pressed from the wrong side on silk, dry. Common practice, no source."""
    v = values("viscose-challis", "100% viscose", weight_gsm=115)
    assert v["needle_point"][0] == "sharp" and v["needle_nm"]["start"] == 70
    assert v["stitch"] == "301 straight" and set(v["seam_finish"][:2]) == {"overlock", "french"}
    assert (v["press_side"], v["iron_word"], v["steam"]) == ("wrong", "silk", "none")


@pytest.mark.parametrize(("cloth", "gsm"), [("viscose-twill", 150), ("viscose-poplin", 145)])
def test_heavier_viscose_differs_from_challis_by_the_needle_alone(cloth: str, gsm: int) -> None:
    """Viscose twill and poplin: everything as challis, the needle one size up. Common practice, no source."""
    challis, other = (
        values("viscose-challis", "100% viscose", weight_gsm=115),
        values(cloth, "100% viscose", weight_gsm=gsm),
    )
    assert other["needle_nm"] == nm(75, 80, 80)
    assert {t for t in challis if challis[t] != other[t]} == {"needle_nm"}


def test_medium_linen() -> None:
    """Universal 80, linen heat with high steam, pressed open, overlocked. Common practice, no source."""
    v = values("linen-medium", "100% linen", weight_gsm=185)
    assert v["needle_point"][0] == "universal" and v["needle_nm"]["start"] == 80
    assert (v["iron_word"], v["steam"], v["press_direction"]) == ("linen", "high", "open")
    assert "overlock" in v["seam_finish"]
    assert values("linen-cotton", "55% linen, 45% cotton")["iron_word"] == "cotton"


CHECKS = [  # cloth, topic, expected: common practice, no source
    ("quilting-cotton", "needle_nm", nm(75, 80, 80)),
    ("quilting-cotton", "needle_point", ("universal",)),
    ("quilting-cotton", "press_direction", "open"),
    ("cotton-elastane-jersey", "needle_point", ("stretch", "ballpoint")),
    ("cotton-elastane-jersey", "needle_nm", nm(75, 80, 75)),
    ("cotton-elastane-jersey", "stitch", "304 zigzag"),
    ("boiled-wool", "seam_finish", ("none", "lapped")),
    ("wool-coating-heavy", "needle_nm", nm(90, 100, 100)),
    ("denim", "needle_point", ("jeans", "universal")),
    ("leather-garment", "needle_point", ("leather", "sharp")),
    ("vinyl", "press_dots", 0),
    ("waxed-canvas", "press_dots", 0),
    ("faux-fur", "press_dots", 0),
    ("plush", "press_dots", 0),
    ("fleece-200", "press_dots", 0),
    ("velvet", "press_cloth", "always"),
    ("velvet", "press_side", "wrong"),
    ("silk-chiffon", "seam_finish", ("french", "hairline")),
    ("silk-chiffon", "press_direction", "one side"),
    ("tulle", "seam_finish", ("none", "bound")),
    ("swim-knit", "press_dots", 1),
    ("stretch-denim", "press_dots", 2),
    ("stretch-denim", "stitch", "301 straight"),
    ("ponte", "stitch", "301 straight"),
]


@pytest.mark.parametrize(("cloth", "topic", "expected"), CHECKS)
def test_check_values_of_the_trade(cloth: str, topic: str, expected: Any) -> None:
    """What a teacher would say without looking it up. Common practice, no source."""
    assert DECIDED[cloth][topic].value == expected


@pytest.mark.parametrize(("pct", "dots"), [(2, 2), (10, 2), (11, 1), (20, 1)])
def test_elastane_above_a_tenth_takes_one_dot(pct: int, dots: int) -> None:
    """Elastane 1 to 10 %: two dots; above: one (handling notes PH16, PH17)."""
    assert values("cotton-jersey", f"{100 - pct}% cotton, {pct}% elastane")["press_dots"] == dots


# ------------------------------------------------------------------ every cloth
def test_no_topic_is_empty_and_nothing_clashes() -> None:
    """Every cloth and bare construction gets every setting, and no two rules of one tier disagree."""
    assert len(DECIDED) > 150
    found = [(id, t) for id, d in DECIDED.items() for t in DECIDE if d[t].clash or d[t].value in (None, ())]
    assert found == []


def test_a_start_is_sold_with_its_point() -> None:
    """The needle a card starts with is in the packet: needles.toml lists the sizes of each point."""
    sold = KNOWN.tables["needles"]["range"]
    found = {
        id: (d["needle_point"].value[0], d["needle_nm"].value["start"])
        for id, d in DECIDED.items()
        if d["needle_nm"].value["start"] not in sold[d["needle_point"].value[0]]
    }
    assert found == {}


def test_one_foot_speaks_and_is_short_enough_for_the_strip() -> None:
    """One foot rule wins, its first line names the foot in at most 24 characters, no line is over 70."""
    for id, decided in DECIDED.items():
        lines = decided["foot"].value
        assert len(decided["foot"].won) == 1 and len(lines[0]) <= 24 and max(map(len, lines)) <= 70, id


def test_no_heat_means_no_steam_no_cloth_and_open_by_hand() -> None:
    """Cloth of no dots: no iron, no steam, no press cloth, seams opened by fingers, from the wrong side if at all."""
    cold = {id: d for id, d in DECIDED.items() if d["press_dots"].value == 0}
    assert len(cold) > 15
    want = {
        "iron_word": "no iron",
        "press_c": 0,
        "steam": "none",
        "press_cloth": "never",
        "press_direction": "finger",
        "press_side": "wrong",
    }
    for id, decided in cold.items():
        assert {t: decided[t].value for t in want} == want, id


def test_one_dot_is_dry() -> None:
    """The one-dot symbol is issued “without steam” (GINETEX; STM03); fine hair is steamed from above (fibre_heat.csv, cashmere)."""
    steamed = {id: d["steam"] for id, d in DECIDED.items() if d["press_dots"].value <= 1 and d["steam"].value != "none"}
    assert set(steamed) == {"cashmere-coating"}
    assert [d.value for d in steamed.values()] == ["low"] and "hover" in steamed["cashmere-coating"].won[0].because


def test_four_threads_say_two_needles_alike() -> None:
    """Every overlock rule of four threads says that its two needles have the same size and point."""
    four = [rule for rule in OWN if rule.topic == "serger" and rule.value["threads"] == 4]
    assert len(four) >= 4
    assert all("same size and point" in rule.say + rule.because for rule in four)
    assert all(d["serger"].value["use"] != "no" or d["serger"].value["threads"] == 0 for d in DECIDED.values())


# ------------------------------------------------------------------ prohibitions
def typed(cloth: str, **cells: str) -> dict[str, Decision]:
    """The decisions on one cloth with the teacher's own choice in the row."""
    own = choices(cells, str, KNOWN)
    return advise([facts(cloth)], OURS, [own], mights=False)[0]


def test_a_leather_point_on_an_imitation_prints_with_a_caution() -> None:
    """A wedge slits the backing: the teacher may, but the card says so. Real leather takes it without a word."""
    assert [s.rule for s in typed("faux-leather", needle="leather 90")["needle_point"].cautions] == ["point-no-wedge"]
    assert typed("leather-garment", needle="leather 90")["needle_point"].cautions == ()


def test_a_hot_iron_on_vinyl_prints_with_a_caution() -> None:
    """PVC gives off fumes: a typed setting stays with its caution (handling rule PH22)."""
    assert "dots-vinyl" in [s.rule for s in typed("vinyl", iron="cotton")["press_dots"].cautions]


def test_french_seams_stop_at_200() -> None:
    """From 200 g/m² no rule may advise a French seam: four layers make a ridge (CONOVER; handling rule SM06)."""
    heavy = {id: d for id, d in DECIDED.items() if EVERY[id]["weight_gsm"].value >= 200}
    assert len(heavy) > 60
    assert [id for id, d in heavy.items() if "french" in d["seam_finish"].value] == []


# ------------------------------------------------------------------ form
def test_every_topic_has_a_rule_for_any_cloth() -> None:
    """A required topic always has something to say: a usual rule without conditions (press cloth: on the iron decided before)."""
    free = {rule.topic for rule in OWN if rule.tier == "usual" and not rule.when}
    assert set(DECIDE) - free == {"press_cloth"}
    assert len(OWN) >= 200


def test_reasons_are_one_short_sentence() -> None:
    """Each reason ends in a full stop, stays under 120 characters, and no rule's words name a cell or a file."""
    assert [r.id for r in OWN if not r.because.endswith(".") or len(r.because) > 120 or "toml" in r.because] == []
