"""The clauses of a Fibre content cell, each read by the first reader that knows its form."""

from __future__ import annotations

import re
from dataclasses import replace

from handouts.labelling.bicomponent import components
from handouts.labelling.draft import LOADING, Draft
from handouts.labelling.endings import animal, exception, exclusive, mixed, sure_names
from handouts.labelling.shares import SHOWN, leftover, read_share, spelt
from handouts.labelling.tokens import Group, groups, number
from handouts.labelling.words import Lexicon, scan
from handouts.records import Share

WITHIN = re.compile(r"\(([^()]*(?:exclusive of|excluding|except|constitutes|makes up)[^()]*)\)", re.I)
SHARE_OF = re.compile(
    r"([^\d%.,;()]+?)\s*:?\s*(?:constitutes|makes up|is|=)?\s*"
    r"(\d+(?:[.,]\d+)?)\s*(?:%|per ?cent)(?:\s+of\s+(?:the\s+)?\w+)?",
    re.I,
)
COATED = re.compile(
    r"^(?P<what>.+?)[\s-]+(?:(?:coated|coating|laminated|laminate|lamination|backed|film|beschichtet(?:er|es|e)?|enduite?|recubierto|spalmato|gecoat)\s+)?"
    r"(?:on|onto|over|auf|sur|sobre|su|op)\s+(?P<base>.+)$|"
    r"^(?P<what2>[^\d%]+?)[\s-]+(?:coated|laminated|backed)\s+(?P<base2>.+)$|"
    r"^(?P<base3>.*?)\s*\b(?:with\s+(?:a\s+)?)?(?P<what3>[\w-]+)\s+(?:coating|coated|finish|lamination|laminate|backing|membrane|film)$",
    re.I | re.S,
)


def clauses(text: str) -> list[str]:
    """A cell cut at semicolons, line ends and the words that open a clause of their own."""
    opened = WITHIN.sub(r"; \1;", text)
    opened = re.sub(r"(?<![;\n])\s*,?\s*\b(?=(?:exclusive\s+of|excluding|except)\b)", "; ", opened, flags=re.I)
    opened = re.sub(r"[,.](?=\s*[^\W\d][^,;:.\d%]{1,40}:\s)", ";", opened)
    opened = re.sub(r",(?=[^,;\d%]{2,40}\b(?:constitutes|makes up)\b)", ";", opened)
    return [clause for clause in (part.strip(" ,.\t\r") for part in re.split(r"[;\n\r]+", opened)) if clause]


def read_clause(clause: str, draft: Draft) -> None:
    """Reads one clause into the draft."""
    readers = (exclusive, exception, part_shares, animal, union, mixed, whole_unknown, skin, trimmed, coated)
    if any(reader(clause, draft) for reader in readers):
        return
    label, rest = labelled(clause, draft.lexicon)
    if label is not None:
        draft.part = label
        if rest:
            read_clause_of(rest, label, draft)
        return
    if draft.part and draft.total(draft.part) >= 100:
        draft.part = ""
    read_clause_of(clause, draft.part, draft)


def read_clause_of(clause: str, part: str, draft: Draft) -> None:
    """The shares of a clause, each put into the part that its own words name or else into `part`."""
    if not coated(clause, draft, part):
        for group in groups(clause, draft.lexicon):
            part = put_share(group, part, draft)


def put_share(group: Group, part: str, draft: Draft) -> str:
    """Adds one share; what the running part is afterwards."""
    running = group.part if group.leads else part
    if group.words:
        add_share(group, group.part or part, draft)
    elif group.part and group.pct is not None:
        draft.pcts[group.part] = group.pct
        return part
    elif group.pct is not None:
        draft.say("content-number", found=f"{group.pct:g}")
    return running


def add_share(group: Group, part: str, draft: Draft) -> None:
    """Reads the share and keeps its findings; a film with its own percentage goes to the coating, loading stands apart."""
    bare = spelt(group.words)
    if group.pct is not None and draft.lexicon.has("loading", bare) and not sure_names(bare, draft.lexicon):
        draft.sections.setdefault(LOADING, [])
        draft.pcts[LOADING] = group.pct
        return
    if two := components(group, draft.lexicon):
        draft.sections.setdefault(part, []).extend(two)
        return
    share, findings = read_share(group, draft.lexicon)
    for code, found in findings:
        draft.say(code, **found)
    if share.pct is not None and not 0 < share.pct <= 100:
        draft.say("content-number", found=f"{share.pct:g}")
    film = coating_of(group.words, draft.lexicon)
    if film and share.fibre != "elastodiene":
        draft.coating = draft.coating or film
        if share.pct is not None and share.pct < 100 and not part:
            draft.pcts["coating"] = share.pct
            draft.film = True
            return
    before = draft.sections.get(part, [])
    kind = leftover(bare, draft.lexicon) if share.fibre is None and share.pct is None else ""
    if kind and before and before[-1].fibre is None:  # “40% unknown fibres - scraps”
        before[-1] = replace(before[-1], words=f"{before[-1].words} {share.words}")
    else:
        draft.add(share, part)


def labelled(clause: str, lexicon: Lexicon) -> tuple[str | None, str]:
    """`pile: 100% nylon`, `Face--60% rayon` → the part and the rest; (None, clause) when there is no label."""
    colon = re.match(r"^([^:;%\d()]{1,60}?)\s*(?::|--|[—–]|(?<=\s)-(?=\s))\s*(.*)$", clause, re.S)
    if colon:
        words = spelt(colon[1].split())
        if lexicon.find(words) and not scan(words, lexicon.parts):
            return None, clause
        if not words or all(word in lexicon.groups["fillers"] for word in words):
            return "", colon[2]
        if clause[colon.end(1) :].lstrip().startswith("- ") and " ".join(words) not in lexicon.parts:
            return None, clause
        return lexicon.parts.get(" ".join(words), colon[1].strip().lower()), colon[2]
    return None, clause


def part_shares(clause: str, draft: Draft) -> bool:
    """`pile 40%`, `back constitutes 60% of fabric and pile 40%`: only parts and their shares of the whole."""
    lexicon = draft.lexicon
    found = SHARE_OF.findall(clause)
    names = [part_named(words, lexicon) for words, _ in found]
    if not found or not all(names) or SHARE_OF.sub("", clause).strip(" ,.()&"):
        return False
    for name, (_, value) in zip(names, found, strict=True):
        draft.pcts[name] = number(value)
    return True


def part_named(words: str, lexicon: Lexicon) -> str:
    """The part that words name and nothing else, joining words aside; empty when they say more."""
    bare = [w for w in spelt(words.split()) if w not in lexicon.groups["and"] | lexicon.groups["fillers"]]
    return lexicon.parts.get(" ".join(bare), "")


def whole_unknown(clause: str, draft: Draft) -> bool:
    """`unknown`, `remnants unknown`, `100% unknown fibers - rags`; `remnants, 100% cotton` keeps its shares."""
    lexicon = draft.lexicon
    words = spelt(re.sub(r"[^\w]+", " ", clause).split())
    kind = leftover(words, lexicon)
    unknown = lexicon.has("unknown", words) or clause.strip() == "?"
    numbers = re.findall(r"\d+", clause)
    alone = bool(kind) and kind != "remnants" and not numbers and not lexicon.find(words)
    if (unknown or alone) and numbers in ([], ["100"]) and not sure_names(words, lexicon):
        draft.unknown, draft.remnants = True, kind and clause
        return True
    if kind != "remnants" or not sure_names(words, lexicon):
        return False
    draft.remnants = "remnants"
    names = "|".join(lexicon.table["leftover"]["remnants"]["words"])
    rest = re.sub(rf"\b(?:made of\s+)?(?:(?:fabric|cloth)\s+)?(?:{names})\b[\s,:]*(?:of\b)?", " ", clause, flags=re.I)
    read_clause_of(rest, "", draft)
    return True


def trimmed(clause: str, draft: Draft) -> bool:
    """`100% cotton with leather trim`: the fibres, then what is attached to them."""
    found = re.match(r"^(.+?\S)\s+(with\s.+)$", clause, re.I | re.S)
    if not found or not animal(found[2], draft):
        return False
    read_clause(found[1], draft)
    return True


def union(clause: str, draft: Draft) -> bool:
    """`cotton linen union: …`: the words name the weave; warp and weft, or the percentages, must follow."""
    words = spelt(clause.split())
    if "union" not in words or {m.meaning.fibre for m in draft.lexicon.find(words)} != {"cotton", "linen"}:
        return False
    rest = re.sub(r"^.*?\bunion\b[\s:,(-]*", "", clause, flags=re.I | re.S).strip(" )")
    flax = re.search(r",\s*(?:(?:flax|linen)\s*(\d+)\s*%|(\d+)\s*%\s*(?:flax|linen))$", rest, re.I)
    if flax and "weft" in rest.lower():  # pure cotton warp - pure flax weft, flax 45%
        draft.pcts["weft"], rest = float(flax[1] or flax[2]), rest[: flax.start()]
    if rest:
        read_clause(rest, draft)
    draft.union = True
    return True


def skin(clause: str, draft: Draft) -> bool:
    """`leather`, `100% suede leather`. An imitation is not skin: what it is made of is asked for."""
    lexicon = draft.lexicon
    words = [
        w
        for w in spelt(re.sub(r"[^\w]+", " ", clause).split())
        if w not in lexicon.groups["fillers"] | lexicon.groups["all"]
    ]
    found = {lexicon.skins[phrase] for _, _, phrase in scan(words, lexicon.skins)}
    if not found or sure_names([w for w in words if w not in lexicon.skins], lexicon):
        return False
    if "imitation" in found:
        if len(re.findall(r"\d+", clause)) > 1:
            return False
        draft.say("content-imitation", found=clause[:SHOWN])
        draft.coating = draft.coating or "PU"
        draft.add(Share(None, 100.0, clause))
        return True
    draft.skin = "suede" if "suede" in found else "leather"
    return True


def coated(clause: str, draft: Draft, part: str = "") -> bool:
    """`PVC on 100% polyester`, `PU coated nylon`, `100% polyester with PU coating`, `waxed cotton`."""
    lexicon = draft.lexicon
    found = COATED.match(clause)
    parts = {key: value for key, value in (found.groupdict() if found else {}).items() if value is not None}
    what = next((value for key, value in parts.items() if key.startswith("what")), "")
    base = next((value for key, value in parts.items() if key.startswith("base")), "")
    film = coating_of(what.split(), lexicon)
    if not film:
        first, _, rest = clause.partition(" ")
        film = coating_of([first], lexicon) if first.lower().endswith(("ed", "ized", "chst", "iert")) else ""
        base = rest
    if not film or (base and not lexicon.find(spelt(re.sub(r"[^\w]+", " ", base).split()))):
        return False
    draft.coating = film
    on_top = re.match(r"(.*\S)\s*[,+]\s*(\d+(?:[.,]\d+)?\s*%)$", base, re.S)  # 100% polyester, 30% PU coating
    figure = re.search(r"\d+(?:[.,]\d+)?\s*%", on_top[2] if on_top else what)
    base = on_top[1] if on_top else base
    if figure:
        draft.pcts["coating"], draft.film = number(figure.group()), True
    if base:
        read_clause_of(base, part, draft)
    return True


def coating_of(words: list[str], lexicon: Lexicon) -> str:
    """The coating that words name, as the Coating column says it; empty when they name none."""
    found = scan(spelt(words), lexicon.coatings)
    return lexicon.coatings[found[0][2]] if found else ""
