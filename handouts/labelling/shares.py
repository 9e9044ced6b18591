"""One share of a Fibre content cell: which fibre its words name, and what is wrong with the words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from handouts.labelling.tokens import Group
from handouts.labelling.words import Lexicon, Match, plain, scan
from handouts.records import Share

Finding = tuple[str, dict[str, object]]
Found = tuple[str | None, list[Finding]]
SHOWN = 60
"""Characters of somebody's words that a message repeats."""


def read_share(group: Group, lexicon: Lexicon) -> tuple[Share, list[Finding]]:
    """A group of tokens as a Share, with its findings."""
    bare = spelt(group.words)
    fibre, findings = identify(
        [word for word in bare if word not in lexicon.groups["all"]] or bare, group.text, lexicon
    )
    pct, reason = group.pct, group.note
    if pct is None and lexicon.has("all", bare):
        pct = 100.0
    if group.mark:
        findings.append(("content-mark", {"found": group.text[:SHOWN] + group.mark}))
    if reason and not is_reason(reason, lexicon):
        reason = ""
    words = group.text.replace("_", " ") + (f" ({group.note})" if group.note and not reason else "")
    return Share(fibre, pct, words, reason), findings


def spelt(words: Sequence[str]) -> list[str]:
    """Words as the lexicon compares them."""
    return " ".join(plain(word) for word in words).split()


def is_reason(note: str, lexicon: Lexicon) -> bool:
    """Whether a bracket names a function: `for stretch`, `strength`; not `nylon`, `recycled`, a trade mark or looks."""
    words = spelt(note.split())
    if not words or lexicon.has("idle", words):
        return False
    if words[0] in lexicon.groups["purpose"] and len(words) > 1:
        return True
    stems = lexicon.groups["function"]
    return any(word.startswith(stem) or (len(stem) > 4 and stem in word) for word in words for stem in stems)


def identify(words: list[str], typed: str, lexicon: Lexicon) -> Found:
    """The fibre that some words name (an id, None when they name none), and what must be said about the words."""
    for step in (nobody_knows, imitation, bamboo, by_name, by_loose_word, blend, misspelt):
        found = step(words, typed, lexicon)
        if found is not None:
            return found
    return None, [unknown_word(typed)]


def nobody_knows(words: list[str], typed: str, lexicon: Lexicon) -> Found | None:
    """Words that say that nobody knows: unknown, scraps, rags. They name no fibre and are no fault."""
    if not lexicon.has("unknown", words) and not leftover(words, lexicon):
        return None
    return None, []


def leftover(words: list[str], lexicon: Lexicon) -> str:
    """The kind of leftover material that words name: remnants, scraps, rags … or nothing."""
    found = scan(words, lexicon.leftovers)
    return lexicon.leftovers[found[-1][2]] if found else ""


def imitation(words: list[str], typed: str, lexicon: Lexicon) -> Found | None:
    """“linen look”, “faux silk”, “silky polyester”: a fibre is named that is not in it."""
    silky = next((word for word in words if word in lexicon.read["looks"]), "")
    look = next((word for word in words if word in lexicon.groups["look"]), "")
    matches = lexicon.find(words)
    if not silky and not (look and any(is_sure(match) for match in matches)):
        return None
    if not silky and len(matches) == 1 and matches[0].meaning.kind == "trade":
        return None
    shammed = lexicon.table["rules"]["imitated"] if look else ()
    real = [m for m in sorted(matches, key=lambda m: not is_sure(m)) if m.meaning.fibre not in shammed]
    fibre = real[0].meaning.fibre if real else None
    return fibre, [("content-implies", implied(typed, fibre, lexicon))]


def implied(typed: str, fibre: str | None, lexicon: Lexicon) -> dict[str, object]:
    """The fields of content-implies."""
    proposal = f"Write “{lexicon.proposal(fibre)}”." if fibre else "Ask the supplier what it is made of."
    return {"found": typed[:SHOWN], "proposal": proposal}


def is_sure(match: Match) -> bool:
    """Whether a phrase is a proper name of a fibre."""
    return match.meaning.kind in ("name", "hair")


def bamboo(words: list[str], typed: str, lexicon: Lexicon) -> Found | None:
    """Bamboo alone: the cloth is viscose, and calling it bamboo is held to deceive."""
    if not any(word in lexicon.groups["bamboo"] for word in words) or any(map(is_sure, lexicon.find(words))):
        return None
    return "viscose", [("content-bamboo", {"found": typed[:SHOWN]})]


def by_name(words: list[str], typed: str, lexicon: Lexicon) -> Found | None:
    """Words that hold a proper fibre name. Two different names for one share imply a fibre that may not be there."""
    sure = [match for match in lexicon.find(words) if is_sure(match)]
    if not sure:
        return None
    names = dict.fromkeys(match.meaning.fibre for match in sure)
    if len(names) == 1:
        fibre = sure[0].meaning.fibre
        return None if fibre == "unknown" else fibre, []
    fibre = next((f for f in names if f not in lexicon.table["rules"]["imitated"]), sure[0].meaning.fibre)
    proposal = f"Write “{lexicon.proposal(fibre)}”, or give each fibre its own percentage."
    return fibre, [("content-implies", {"found": typed[:SHOWN], "proposal": proposal})]


def by_loose_word(words: list[str], typed: str, lexicon: Lexicon) -> Found | None:
    """Trade words, short forms and letter codes: they point to a fibre but cannot stand on a label."""
    matches = lexicon.find(words)
    if not matches:
        return None
    meaning = matches[0].meaning
    if meaning.fibre == "unknown":
        return None, [unknown_word(typed)]
    code = {"trade": "content-trade", "loose": "content-short", "code": "content-code"}[meaning.kind]
    return meaning.fibre, [(code, {"found": typed[:SHOWN], "fibre": lexicon.proposal(meaning.fibre)})]


def blend(words: list[str], typed: str, lexicon: Lexicon) -> Found | None:
    """“blend”, “mix”: of what?"""
    if not lexicon.has("blends", words):
        return None
    return None, [("content-blend", {"found": typed[:SHOWN]})]


def misspelt(words: list[str], typed: str, lexicon: Lexicon) -> Found | None:
    """A name with a slip of the finger: the nearest fibre, to be confirmed."""
    for word in [word for word in words[:6] if word not in lexicon.groups["fillers"]]:
        close = get_close_matches(word, lexicon.names, n=1, cutoff=0.8) if 3 < len(word) < 30 else []
        if close:
            fibre = lexicon.phrases[close[0]].fibre
            return fibre, [unknown_word(typed, f"Did you mean {lexicon.proposal(fibre)}? ")]
    return None


def unknown_word(typed: str, proposal: str = "") -> Finding:
    """The finding about words that name no fibre."""
    return "content-unknown-word", {"found": typed[:SHOWN], "proposal": proposal}


def section_findings(shares: Sequence[Share], part: str, lexicon: Lexicon) -> Iterator[Finding]:
    """What is wrong with the shares of one section taken together: missing percentages, a sum other than 100, a fibre twice."""
    of = f" of the {part}" if part else ""
    if part in ("except", "ornament"):
        return
    missing = [share for share in shares if share.pct is None]
    if missing:
        if part != "elastic":
            yield "content-no-share", {"part": of, "proposal": share_proposal(shares, missing, lexicon)}
        return
    total = round(sum(share.pct or 0.0 for share in shares), 6)
    if shares and total != 100:
        yield "content-sum", {"part": of, "total": figure(total), "proposal": sum_proposal(total)}


def share_proposal(shares: Sequence[Share], missing: Sequence[Share], lexicon: Lexicon) -> str:
    """`If the rest is elastane, write 3% elastane.`"""
    rest = round(100 - sum(share.pct or 0.0 for share in shares), 6)
    if len(missing) == 1 and len(shares) > 1 and rest > 0:
        return f"If the rest is {missing[0].words[:SHOWN]}, write “{figure(rest)}% {missing[0].words[:SHOWN]}”."
    return "Copy the percentages from the bolt end, like “60% cotton, 40% linen”."


def sum_proposal(total: float) -> str:
    """What is missing or too much."""
    gap = round(100 - total, 6)
    if gap > 0:
        return f"{figure(gap)} is missing: look for another fibre on the bolt end, or a figure that was misread."
    return (
        f"{figure(-gap)} too much: look for a figure that was misread, or for a part (pile, back, lining) of its own."
    )


def figure(value: float) -> str:
    """A number without a useless tail: 97.0 → `97`, 33.3 → `33.3`."""
    return f"{value:.6f}".rstrip("0").rstrip(".")
