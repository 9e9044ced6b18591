"""What a card says at one glance: what the fabric is and is like, and the five settings of the strip, as plain dicts."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from handouts.pages.care import bolt_says
from handouts.pages.lines import mark_of, marks, names_a_foot
from handouts.pages.measures import percent
from handouts.pages.words import Words, day, listed, vocabulary
from handouts.records import Decision, Fabric, Fact


def what_it_is(fabric: Fabric, words: Words) -> str:
    """`100% wool · boiled wool · 350 g/m² (usual) · 140 cm wide`."""
    weight, width = fabric.facts.get("weight_gsm"), fabric.facts.get("width_cm")
    content = fabric.content.typed.strip()
    unknown = fabric.content.unknown and not fabric.content.remnants
    parts = [vocabulary()["fibres_unknown"] if unknown else content]
    parts += (
        [fabric.cloth_name] if fabric.cloth_name.casefold() not in (fabric.name.casefold(), content.casefold()) else []
    )
    parts += [marked(weight, words.measures.weight(weight.value))] if weight and weight.value else []
    parts += [marked(width, f"{words.measures.across(width.value)} wide")] if width and width.value else []
    return " · ".join(part for part in parts if part)


def marked(fact: Fact, text: str) -> str:
    """The words of a fact, marked when nobody typed it and it is only usual."""
    return f"{text} {vocabulary()['usual']}" if fact.origin == "assumed" else text


def what_it_is_like(fabric: Fabric, words: Words) -> str:
    """What a student would notice: first what is known, then what is usual for its kind, what it suits, when it was tested."""
    told = list(traits(fabric, words))
    known = ", ".join(text for text, origin in told if origin != "assumed")
    usual = ", ".join(text for text, origin in told if origin == "assumed")
    suits = fabric.advice.get("suits")
    uses = vocabulary()["suits"].format(listed(tuple(suits.value), "and")) if suits and suits.value else ""
    tested = vocabulary()["tested"]["day"].format(day(fabric.tested.on)) if fabric.tested.on else ""
    parts = (known, vocabulary()["usually"].format(usual) if usual else "", uses, tested)
    return " · ".join(part for part in parts if part)


def traits(fabric: Fabric, words: Words) -> Iterator[tuple[str, str]]:
    """Each trait worth telling, with where it comes from."""
    for name, how in vocabulary()["trait"].items():
        fact = fabric.facts.get(name)
        if fact is None or fact.value in (None, False, "none", "smooth", ()):
            continue
        text = trait_words(name, how, fact.value, words)
        if text:
            yield text, fact.origin


def trait_words(name: str, how: Any, value: Any, words: Words) -> str:
    """One trait in words; empty when it is not worth a word."""
    if name.endswith("_pct"):
        return how.format(percent(value)) if value >= vocabulary()["trait_least"][name] else ""
    if isinstance(how, dict):
        return str(how.get(str(int(value) if isinstance(value, float) else value), ""))
    if isinstance(value, (frozenset, set, tuple, list)):
        return ", ".join(sorted(word for word in value if word != "none"))
    return str(how).format(vocabulary()["trait_words"].get(name, {}).get(value, value))


def settings(fabric: Fabric, words: Words) -> list[dict[str, Any]]:
    """The five settings a student changes at the machine: needle, stitch, foot, finish, iron."""
    return [needle(fabric, words), stitch(fabric, words), foot(fabric), finish(fabric, words), iron(fabric, words)]


def decided(fabric: Fabric, *topics: str) -> list[Decision]:
    """The decisions there are on these topics."""
    return [fabric.advice[topic] for topic in topics if topic in fabric.advice]


def cell(
    label: str, value: str, notes: list[str], decisions: list[Decision], tested: str = "", **drawn: Any
) -> dict[str, Any]:
    """One setting. A tested setting stands beside the one to start with; the gauge needs its room more than those words."""
    says = vocabulary()["tested"]
    label = says["start"].format(label) if tested and "gauge" not in drawn else label
    tested = says["showed"].format(tested) if tested else ""
    shown = [note for note in notes if note]
    return {"label": label, "value": value, "notes": shown, "mark": own_choice(decisions), "tested": tested, **drawn}


def own_choice(decisions: Sequence[Decision]) -> str:
    """Whose choice a setting is, marked where a rule warns of it: the strip is all that many read."""
    mark = marks(decisions)
    return str(vocabulary()["risk"]["strip"].format(mark)) if mark and any(d.cautions for d in decisions) else mark


def needle(fabric: Fabric, words: Words) -> dict[str, Any]:
    """Point large, both numbers under it, then the sizes that will do."""
    points, sizes = (fabric.advice[topic].value for topic in ("needle_point", "needle_nm"))
    best = words.short("needle_point", points[0]) if points else "–"
    low, high = (words.needle_size(sizes[end]) for end in ("low", "high"))
    notes = [words.short("needle_nm", sizes), "" if low == high else vocabulary()["range"].format(low, high)]
    decisions = decided(fabric, "needle_point", "needle_nm")
    tested = re.sub(r"\b(\d{2,3})$", lambda found: words.needle_size(int(found[1])), fabric.tested.needle)
    return cell(vocabulary()["setting"]["needle"], best, notes, decisions, tested.removeprefix(f"{best} "))


def stitch(fabric: Fabric, words: Words) -> dict[str, Any]:
    """Length large, the other unit, the lengths to try and the stitch under it, then the stitch drawn at true length."""
    lengths, kind = fabric.advice["stitch_mm"].value, str(fabric.advice["stitch"].value)
    length, other, more = stitch_words(lengths, words)
    tested = bare(words.measures.single.stitch(fabric.tested.stitch_mm)) if fabric.tested.stitch_mm else ""
    name = "" if kind.startswith("301") else words.short("stitch", kind)
    notes = [other, name or (f"({more})" if lengths["low"] < lengths["high"] else "")]
    drawn = {"gauge": {"mm": f"{lengths['start']:g}", "kind": "zigzag" if "zigzag" in kind else "straight"}}
    decisions = decided(fabric, "stitch_mm", "stitch")
    return cell(vocabulary()["setting"]["stitch"], length, notes, decisions, tested, **drawn)


def stitch_words(lengths: Mapping[str, float], words: Words) -> tuple[str, str, str]:
    """`3.0 mm`, `8½ per inch`, `2.5 to 3.5 mm`; in inches `8½`, `per inch`, `7½ to 10`."""
    measures = words.measures
    length, _, other = measures.stitch(lengths["start"]).partition(" (")
    more = bare(measures.single.stitches(lengths["low"], lengths["high"]))
    if measures.units == "imperial":
        return bare(length), vocabulary()["per_inch"], more
    return length, other.rstrip(")"), more


def bare(text: str) -> str:
    """Stitches to the inch without those words."""
    return text.replace("\u00a0", " ").removesuffix(f" {vocabulary()['per_inch']}")


def foot(fabric: Fabric) -> dict[str, Any]:
    """The foot that a line of advice names, else the usual one."""
    says = vocabulary()["foot"]
    decision = fabric.advice.get("foot")
    lines = " ".join(decision.value or ()).casefold() if decision else ""
    won = decision.won[0] if decision and decision.won else None
    own = won is not None and mark_of(won.tier) and any(map(names_a_foot, won.value))
    named = [(lines.index(word), word) for word in says["known"] if f"{word} foot" in lines or f"{word}-foot" in lines]
    found = min(named)[1] if named else says["usual"]
    return cell(
        vocabulary()["setting"]["foot"], says["shown"].get(found, found), [], decided(fabric, "foot") if own else []
    )


def finish(fabric: Fabric, words: Words) -> dict[str, Any]:
    """The best seam finish large, what else will do under it."""
    value = fabric.advice["seam_finish"].value or ("none",)
    best, rest = words.short("seam_finish", value[0]), [words.short("seam_finish", word) for word in value[1:]]
    return cell(
        vocabulary()["setting"]["finish"], best, [f"or {listed(rest)}" if rest else ""], decided(fabric, "seam_finish")
    )


def iron(fabric: Fabric, words: Words) -> dict[str, Any]:
    """Dots of three, the most heat, dial and steam."""
    dots = fabric.advice["press_dots"].value
    heat, dial, steam = (words.short(topic, fabric.advice[topic].value) for topic in ("press_c", "iron_word", "steam"))
    notes = [f"≤ {heat}", f"{dial}, {steam}"] if dots else []
    notes.append(bolt(fabric))
    decisions = decided(fabric, "press_dots", "iron_word", "steam")
    value = words.short("press_dots", dots)
    return cell(vocabulary()["setting"]["iron"], value, notes, decisions, fabric.tested.iron, dots=dots)


def bolt(fabric: Fabric) -> str:
    """What the supplier says of ironing, which comes before the advice; empty when he says nothing or nothing is ironed."""
    says, words = bolt_says(fabric), vocabulary()["bolt"]
    return str(words["strip" if len(says) <= words["letters"] else "long"].format(says)) if says else ""
