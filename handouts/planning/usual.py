"""What each column of the comparison says of each fabric, what is usual in the class, and what never to do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Any

from handouts.model import Knowledge, Topic
from handouts.planning.order import needle, uses_overlock
from handouts.plans import Listed, Usual
from handouts.records import Decision, Fabric

COLUMNS = ("iron", "steam", "press", "needle", "stitch", "foot", "overlock", "seam_finish")


def columns(fabric: Fabric, knowledge: Knowledge) -> dict[str, Any]:
    """Column → what the fabric asks for there, in a form that can be compared; None: the column is not about this fabric."""
    pressed = bool(fabric.advised("press_dots"))
    serger = fabric.advised("serger") or {}
    feed = serger.get("differential") or {}
    return {
        "iron": fabric.advised("press_dots"),
        "steam": fabric.advised("steam") if pressed else None,
        "press": press(fabric) if pressed else None,
        "needle": needle(fabric),
        "stitch": fabric.advised("stitch_mm")["start"],
        "foot": foot(fabric.advised("foot") or (), knowledge),
        "overlock": (serger["threads"], feed.get("low"), feed.get("high")) if uses_overlock(fabric) else ("no",),
        "seam_finish": (fabric.advised("seam_finish") or ("none",))[0],
    }


def press(fabric: Fabric) -> tuple[str, ...]:
    """Side, cloth and direction of pressing."""
    return tuple(str(fabric.advised(topic)) for topic in ("press_side", "press_cloth", "press_direction"))


def foot(lines: Sequence[str], knowledge: Knowledge) -> str:
    """The foot that the lines name first, in a word or two; the usual one when they name none."""
    known, text = knowledge.tables["planning"]["foot"], " ".join(map(str, lines)).casefold()
    named = [(text.index(word), word) for word in known["known"] if f"{word} foot" in text or f"{word}-foot" in text]
    return str(min(named)[1] if named else known["usual"])


def usual(settings: Mapping[str, Mapping[str, Any]], knowledge: Knowledge) -> dict[str, Usual]:
    """Each column's commonest value and who differs; settings in the order of work, which settles ties."""
    least = knowledge.tables["planning"]["number"]["usual_share"]["value"]
    return {
        column: usual_of({code: row[column] for code, row in settings.items()}, least) for column in COLUMNS if settings
    }


def usual_of(values: Mapping[str, Any], least: float) -> Usual:
    """The commonest of these values (the first among equals) if it holds the share `least`, and the codes of the others.

    None says nothing: it is neither counted nor an exception.
    """
    own = {code: value for code, value in values.items() if value is not None}
    if not own:
        return Usual(None, 0.0, ())
    value, count = Counter(own.values()).most_common(1)[0]
    share = count / len(own)
    if share < least or count == 1 < len(own):
        return Usual(None, share, ())
    return Usual(value, share, tuple(code for code, said in own.items() if said != value))


def never(fabrics: Sequence[Fabric], knowledge: Knowledge) -> tuple[Listed, ...]:
    """What never to do and with which fabrics, in the planning table's order; headings that hold for none are left out."""
    listed = [
        Listed(record["title"], tuple(f.code for f in fabrics if forbidden(f, record, knowledge)))
        for record in knowledge.tables["planning"]["never"]
    ]
    return tuple(item for item in listed if item.codes)


def forbidden(fabric: Fabric, record: Mapping[str, Any], knowledge: Knowledge) -> bool:
    """Whether one [[never]] record holds for a fabric."""
    if record.get("needs_iron") and not fabric.advised("press_dots"):
        return False
    if any(fabric.fact(name) in values for name, values in record.get("facts", {}).items()):
        return True
    decision = fabric.advice.get(record.get("topic", ""))
    if decision is None:
        return False
    if "forbids" in record:
        return forbids(decision, set(record["forbids"]), knowledge.topics[decision.topic])
    if "values" in record:
        return decision.value in record["values"]
    return any(word in str(line).casefold() for line in decision.value or () for word in record["words"])


def forbids(decision: Decision, values: set[Any], topic: Topic) -> bool:
    """Whether a rule that spoke forbids every one of these values and none of them won; of lines, a rule that is printed."""
    spoke = decision.won if topic.combine == "all" else (*decision.won, *decision.lost, *decision.cautions)
    banned = {value for rule in spoke for value in rule.never}
    return values <= banned and not values & set(decision.value or ())
