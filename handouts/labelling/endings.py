"""Clauses without shares of their own: what was left out or added, parts of animal origin, content hard to state."""

from __future__ import annotations

import re

from handouts.labelling.draft import ANIMAL, Draft
from handouts.labelling.shares import SHOWN, read_share, spelt
from handouts.labelling.tokens import groups
from handouts.labelling.words import Lexicon, plain
from handouts.records import Share

EXCLUSIVE = re.compile(r"\b(?:exclusive\s+of|excluding|excl\.?\s+(?:of\s+)?|not\s+including)\s*(.*)", re.I | re.S)
EXCEPT = re.compile(r"\bexcept(?:\s+for)?\b[\s:,]*(.*)", re.I | re.S)
ADDED = re.compile(r"(.*?)\s*\b((?:added|in|on|at)\b.*)", re.I | re.S)


def exclusive(clause: str, draft: Draft) -> bool:
    """`exclusive of 3% silk ornamentation`: kept as typed; its fibres still count for the iron."""
    found = EXCLUSIVE.match(clause)
    if not found:
        return False
    draft.exclusive = " ".join(found[1].split()) or "ornamentation"
    lexicon = draft.lexicon
    for group in groups(draft.exclusive, lexicon):
        matches = lexicon.find(spelt(group.words))
        if group.pct is not None:
            draft.pcts["ornament"] = group.pct
        if matches:
            draft.add(Share(matches[0].meaning.fibre, group.pct, group.text), "ornament")
    draft.sections.setdefault("ornament", [])
    return True


def exception(clause: str, draft: Draft) -> bool:
    """`except 5% nylon added to toe and heel`: the share, with where it was added as its reason."""
    found = EXCEPT.match(clause)
    if not found:
        return False
    place = ADDED.match(found[1])
    what, where = (place[1], " ".join(place[2].split())) if place else (found[1], "")
    for group in groups(what, draft.lexicon):
        group.note = ""
        share, findings = read_share(group, draft.lexicon)
        draft.findings += [f for f in findings if f not in draft.findings]
        draft.add(Share(share.fibre, share.pct, share.words, where), "except")
        if share.pct is None or not where:
            draft.say("content-except", found=clause[:SHOWN])
    return True


def animal(clause: str, draft: Draft) -> bool:
    """`with horn buttons`, `leather trim`, `contains feathers`: parts of animal origin that are no textile."""
    words = spelt(re.sub(r"[^\w]+", " ", clause).split())
    if re.search(r"\d", clause) or not (draft.lexicon.has("animal", words) and draft.lexicon.has("attached", words)):
        return False
    if sure_names([word for word in words if word not in draft.lexicon.groups["animal"]], draft.lexicon):
        return False
    draft.sections.setdefault(ANIMAL, [])
    return True


def mixed(clause: str, draft: Draft) -> bool:
    """`mixed fibres`, `unspecified textile composition`: the words of Art. 9(4) for content hard to state when made."""
    if plain(clause) not in draft.lexicon.groups["mixed"]:
        return False
    draft.unknown, draft.remnants = True, plain(clause)
    return True


def sure_names(words: list[str], lexicon: Lexicon) -> bool:
    """Whether a fibre (not “unknown” or “other”) is named."""
    return any(
        m.meaning.fibre not in ("unknown", "other") and m.meaning.kind in ("name", "hair") for m in lexicon.find(words)
    )
