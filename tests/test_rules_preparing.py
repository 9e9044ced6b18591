"""The rules for preparing, laying out, cutting, holding, marking, interfacing, hems, uses and mishaps: read as files, then run.

Over every cloth and bare construction, as it usually is and with odd facts typed.
"""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, cycle, product
from pathlib import Path
from typing import Any

import pytest

from handouts import knowledge, sheets
from tests.preparing import ITEMS, KNOWN, LINES, TOPICS, advised, decide, facts

FOLDER = Path(knowledge.__file__).parent / "rules"
FILES = (
    "pretreat",
    "shrinkage",
    "layout",
    "cutting",
    "holding",
    "marking",
    "interfacing",
    "hems",
    "suits",
    "watch_out",
)
FORBIDDEN = re.compile(r"night(wear|gown|dress)|sleepwear|pyjama|pajama|®|™", re.I)
PINS = {"pins", "fine pins"}


def records() -> list[dict[str, Any]]:
    """Every rule of the files under test, as written."""
    return [rule for name in FILES for rule in tomllib.loads((FOLDER / f"{name}.toml").read_text("utf-8"))["rule"]]


def sentences(rule: Mapping[str, Any]) -> list[str]:
    """Everything of a rule that is printed as a sentence."""
    lines = rule.get("value", []) if rule["topic"] in LINES and rule["topic"] != "suits" else []
    return [*lines, rule["because"], *([rule["say"]] if "say" in rule else [])]


def test_rules_are_many_and_every_topic_has_one_for_any_cloth() -> None:
    """At least two hundred rules; each topic has one rule of tier usual that asks nothing."""
    count = Counter(rule["topic"] for rule in records())
    print(dict(count), sum(count.values()))
    assert set(count) == set(TOPICS)
    assert sum(count.values()) >= 200
    for topic in TOPICS:
        plain = [r for r in records() if r["topic"] == topic and r["tier"] == "usual" and not r["when"]]
        assert len(plain) == 1, topic


def test_sentences_are_short_whole_and_decent() -> None:
    """Lines and reasons: at most seventy characters, capital to full stop, no forbidden word; nouns of `suits` are short."""
    for rule in records():
        for text in sentences(rule):
            assert len(text) <= 70, (rule["id"], text)
            assert text[0].isupper() and text.endswith("."), (rule["id"], text)
        nouns = rule["value"] if rule["topic"] == "suits" else []
        assert all(len(noun) <= 30 for noun in nouns), rule["id"]
        assert not FORBIDDEN.search(" ".join([*sentences(rule), *nouns])), rule["id"]


def alternatives(when: Mapping[str, Any]) -> Iterator[list[tuple[str, Any]]]:
    """A rule's conditions without `any`: one list of (fact, test) for each of its groups."""
    plain = [(fact, test) for fact, test in when.items() if fact != "any"]
    for group in when.get("any", [{}]):
        yield plain + list(group.items())


def possible(tests: Sequence[tuple[str, Any]]) -> bool:
    """Whether some fabric could pass all of these tests at once, each fact taken as free."""
    return all(passable(fact, [test for name, test in tests if name == fact]) for fact in {fact for fact, _ in tests})


def passable(fact: str, tests: Sequence[Any]) -> bool:
    """Whether one value of a fact can pass every test of it."""
    kind = {**sheets.fact_kinds(), "cloth": "choice"}[fact]
    if kind == "number":
        low = max(t.get("min", t.get("above", float("-inf"))) for t in tests)
        high = min(t.get("max", t.get("below", float("inf"))) for t in tests)
        return low < high or (low == high and not any("below" in t and t["below"] == high for t in tests))
    barred = {word for t in tests if isinstance(t, Mapping) for word in t["none"]}
    wanted = [set(t) if isinstance(t, (list, tuple)) else {t} for t in tests if not isinstance(t, Mapping)]
    if kind == "set":
        return all(words - barred for words in wanted)
    return not wanted or bool(set.intersection(*wanted) - barred)


def test_rules_of_one_tier_exclude_each_other_whatever_the_facts() -> None:
    """Where one value wins whole, two rules of a tier that say different things can never hold together."""
    pairs = 0
    rules = [r for r in KNOWN.rules if r.topic in ("cut_tool", "hold", "shrink_pct") and r.value is not None]
    for one, other in combinations(rules, 2):
        if (one.topic, one.tier) == (other.topic, other.tier) and one.value != other.value:
            pairs += 1
            both = [a + b for a, b in product(alternatives(one.when), alternatives(other.when))]
            assert not any(map(possible, both)), f"{one.id} and {other.id} can hold together"
    assert pairs > 100


def test_exclusion_check_is_not_blind() -> None:
    """Slippery and sheer can hold together; at least 2 and below 2 cannot; a family wanted and barred cannot."""
    assert possible([("slippery", {"min": 2}), ("sheer", True)])
    assert not possible([("slippery", {"min": 2}), ("slippery", {"below": 2})])
    assert possible([("families", ("velvet",)), ("families", {"none": ("lace",)})])
    assert not possible([("families", ("velvet",)), ("families", {"none": ("velvet", "lace")})])


VARIATIONS: tuple[tuple[tuple[str, Any], ...], ...] = (
    (),
    (("coating", "PVC"),),
    (("coating", "water repellent"), ("colour", "dark")),
    (("trim", "sequins"), ("finish", "resin")),
    (("finish", "glazed"), ("colour", "unfast dye")),
    (("check", "uneven check"), ("repeat_cm", 12), ("width_cm", 90)),
    (("nap", "deep"), ("slippery", 3), ("sheer", True)),
    (("weight_gsm", 30), ("frays", 3), ("shrink_length_pct", 8)),
    (("weight_gsm", 700), ("texture", "crinkled")),
)
NAMES = [", ".join(key for key, _ in typed) or "as usual" for typed in VARIATIONS]


@pytest.mark.parametrize("typed", VARIATIONS, ids=NAMES)
def test_every_cloth_gets_every_topic_without_clash(typed: tuple[tuple[str, Any], ...]) -> None:
    """No empty topic, no clash; at most six lines as the cloth usually is, eight when odd facts are typed."""
    most = 8 if typed else 6
    for id, decisions in advised(typed).items():
        for topic in TOPICS:
            assert decisions[topic].value, (id, topic)
            assert not decisions[topic].clash, (id, topic, decisions[topic].clash)
            assert topic not in LINES or len(decisions[topic].value) <= most, (id, topic, decisions[topic].value)


DRY = re.compile(r"^(Do not (wash|wet|machine)|Keep it dry|Leave it unwashed)")
WET = re.compile(r"^(Wash|Hand wash|Rinse|Before washing|Zigzag|Soak|To be washed: wash)|\bwash and dry\b")


@pytest.mark.parametrize("typed", VARIATIONS, ids=NAMES)
def test_a_card_never_says_wash_and_do_not_wash(typed: tuple[tuple[str, Any], ...]) -> None:
    """What must stay dry silences every line that wets it."""
    dry = 0
    for id, decisions in advised(typed).items():
        lines = decisions["pretreat"].value
        if any(DRY.search(line) for line in lines):
            dry += 1
            assert not [line for line in lines if WET.search(line)], (id, lines)
    assert dry > 20


def test_coated_cloth_is_never_pinned() -> None:
    """Whatever the cloth, under wax, film, rubber or membrane: a pin hole there never closes (THR-LEATHER, APQ-COAT, EES-WAX)."""
    coats = cycle(("wax", "PU", "PVC", "laminated", "rubber", "membrane"))
    coated = [facts(id, {"coating": coat}) for id, coat in zip(ITEMS, coats, strict=False)]
    assert not [id for id, d in zip(ITEMS, decide(coated), strict=True) if PINS & set(d["hold"].value)]


def test_skins_and_films_are_never_pinned_and_the_ban_is_one_of_safety() -> None:
    """Leather, suede, vinyl and cork: no pins, and not even a house rule lifts it."""
    bans = [r for r in KNOWN.rules if r.topic == "hold" and r.never]
    assert bans and all(r.safety and set(r.never) == PINS for r in bans)
    made = {id: KNOWN.constructions[getattr(item, "construction", id)].structure for id, item in ITEMS.items()}
    skins = [id for id, structure in made.items() if structure in ("skin", "film")]
    assert len(skins) > 5
    assert not [id for id in skins if PINS & set(advised()[id]["hold"].value)]


def test_what_cannot_be_undone_is_marked() -> None:
    """Shine, holes, felting, melting, bleeding: their lines are lasting; advice that only helps is not."""
    lasting = {r.id: r.lasting for r in KNOWN.rules if r.topic == "watch_out"}
    for harm in ("holes-stay", "wool-felts", "glaze", "elastane", "velvet", "unfast", "shrinks", "silk", "acetate"):
        assert lasting[f"watch-{harm}"], harm
    assert not lasting["watch-usual"] and not lasting["watch-curls"]
    boxed = [id for id, d in advised().items() if any(won.lasting for won in d["watch_out"].won)]
    assert len(boxed) > len(ITEMS) / 2


def test_typed_facts_speak() -> None:
    """Check with repeat, narrow width, measured shrinkage and dark dye each add a line of their own."""
    typed = {"check": "even check", "repeat_cm": 12, "width_cm": 90, "shrink_length_pct": 8, "colour": "dark"}
    [decisions] = decide([facts("poplin", typed)])
    won = {spoke.rule for topic in LINES for spoke in decisions[topic].won}
    assert won >= {
        "layout-even-check",
        "layout-repeat",
        "layout-narrow",
        "pretreat-measured",
        "pretreat-dark",
        "mark-dark",
    }
