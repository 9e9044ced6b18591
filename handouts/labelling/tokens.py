"""A clause of a Fibre content cell cut into tokens, and tokens paired into (percent, words) groups."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from handouts.labelling.words import Lexicon, plain, scan

MARKS = "*†‡§¹²³"
HALVES = {"½": 0.5, "¼": 0.25, "¾": 0.75}


@dataclass(frozen=True)
class Token:
    """number (value in percent), word, part (pile, back …), gap (a separator), ratio (slash), note (bracket), mark (asterisk)."""

    kind: str
    text: str
    value: float = 0.0


@dataclass
class Group:
    """One share as found: its percent (None when none was written), words, bracket, asterisks and the part it names."""

    pct: float | None = None
    words: list[str] = field(default_factory=list)
    note: str = ""
    mark: str = ""
    part: str = ""
    leads: bool = False  # the part stands first, so it holds for the shares that follow

    @property
    def text(self) -> str:
        """The words as typed."""
        return " ".join(self.words)


def pattern(lexicon: Lexicon) -> re.Pattern[str]:
    """The token pattern, with the percent words and the “and” words of labelling.toml."""
    percent = "|".join(re.escape(word) for word in sorted(lexicon.read["percent"], key=len, reverse=True))
    joined = "|".join(re.escape(word) for word in lexicon.read["and"])
    return re.compile(
        rf"""(?P<note>\([^()]*\)|\[[^\[\]]*\])
        |(?P<number>%?\s*\d+(?:[.,]\d+)?[½¼¾]?\s*(?:%|(?:{percent})(?!\w))?|[½¼¾]\s*%)
        |(?P<mark>[{re.escape(MARKS)}])
        |(?P<gap>[,|·•–—+&]|--|(?<=\s)-(?=\s)|\.(?=\s|$)|(?<!\w)(?:{joined})(?!\w))
        |(?P<ratio>[/:]|-(?=\d))
        |(?P<word>(?:pa|pe)\d+|[^\W\d_]+_[\d.,/]+|[^\W\d_]+(?:['’][^\W\d_]+)*)""",
        re.VERBOSE | re.IGNORECASE,
    )


def tokens(clause: str, lexicon: Lexicon) -> list[Token]:
    """The tokens of a clause, in order."""
    found = []
    for match in pattern(lexicon).finditer(clause):
        kind, text = match.lastgroup or "", match.group().strip()
        found.append(Token(kind, text, number(text) if kind == "number" else 0.0))
    return with_parts(found, lexicon)


def with_parts(found: Sequence[Token], lexicon: Lexicon) -> list[Token]:
    """The tokens, with words at either end of a run that name a part (pile, back, lining) made into one token."""
    made: list[Token] = []
    for kind, run in groupby(found, key=lambda token: token.kind):
        found_run = list(run)
        made += named_parts(found_run, lexicon) if kind == "word" else found_run
    return made


def named_parts(run: list[Token], lexicon: Lexicon) -> list[Token]:
    """A run of words with the part at its start or end made a token; a word that also names a fibre stays a word."""
    bare = [plain(token.text) for token in run]
    spans = scan(bare, lexicon.parts)
    if not spans or (len(spans) == 1 and spans[0][:2] == (0, len(run)) and spans[0][2] in lexicon.phrases):
        return run
    for start, stop, phrase in (spans[0], spans[-1]):
        part = Token("part", lexicon.parts[phrase])
        if start == 0:
            return [part, *run[stop:]]
        if stop == len(run) and lexicon.find(bare[:start]):
            return [*run[:start], part]
    return run


def number(text: str) -> float:
    """The figure in `97,5 %` or `3½`."""
    digits = re.search(r"\d+(?:[.,]\d+)?", text)
    half = next((value for sign, value in HALVES.items() if sign in text), 0.0)
    return (float(digits.group().replace(",", ".")) if digits else 0.0) + half


def groups(clause: str, lexicon: Lexicon) -> list[Group]:
    """The shares written in a clause, whichever way round they stand."""
    found = tokens(clause, lexicon)
    shared = ratio(found, lexicon)
    if shared:
        return shared
    pieces = [group for piece in cut(found) for group in pair(piece)]
    return joined(pieces)


def ratio(found: Sequence[Token], lexicon: Lexicon) -> list[Group]:
    """`60/40 cotton linen`, `poly/cotton 65/35`: all numbers in one run, all names on one side. Empty when it is not so."""
    solid = [t for t in found if t.kind in ("number", "word")]
    numbers = [t for t in solid if t.kind == "number"]
    run = "".join("n" if t.kind == "number" else "w" for t in solid)
    if len(numbers) < 2 or not re.fullmatch(r"n+w+|w+n+", run):
        return []
    names = named(found, lexicon)
    if len(names) != len(numbers):
        return []
    note = next((t.text[1:-1] for t in found if t.kind == "note"), "")
    made = [Group(n.value, words) for n, words in zip(numbers, names, strict=True)]
    made[-1].note = note
    return made


def named(found: Sequence[Token], lexicon: Lexicon) -> list[list[str]]:
    """The names of a ratio: as separated, or else one per fibre phrase."""
    pieces: list[list[str]] = [[]]
    for token in found:
        if token.kind == "word":
            pieces[-1].append(token.text)
        elif pieces[-1]:
            pieces.append([])
    return [part for piece in pieces if piece for part in by_fibre(piece, lexicon)]


def by_fibre(words: list[str], lexicon: Lexicon) -> list[list[str]]:
    """Words cut after each fibre phrase: combed cotton polyester → combed cotton, polyester."""
    matches = [m for m in lexicon.find([plain(word) for word in words]) if m.meaning.fibre != "unknown"]
    stops = [match.stop for match in matches[:-1]]
    starts = [0, *stops]
    return [words[a:b] for a, b in zip(starts, [*stops, len(words)], strict=True)]


def cut(found: Sequence[Token]) -> Iterator[list[Token]]:
    """Tokens between separators; a bracket or mark stays with what stands before it."""
    piece: list[Token] = []
    for token in found:
        if token.kind in ("gap", "ratio"):
            yield piece
            piece = []
        else:
            piece.append(token)
    yield piece


def pair(piece: Sequence[Token]) -> Iterator[Group]:
    """The shares of one piece: numbers open shares when the piece starts with one, else they close them."""
    solid = [t for t in piece if t.kind in ("number", "word")]
    opens = not solid or solid[0].kind == "number"
    group = Group()
    for token in piece:
        fresh = token.kind == "number" if opens else token.kind == "word" and group.pct is not None
        fresh = fresh or (token.kind == "part" and bool(group.part))
        if fresh and (group.words or group.pct is not None):
            yield group
            group = Group()
        put(group, token)
    if group.words or group.pct is not None or group.note:
        yield group


def put(group: Group, token: Token) -> None:
    """Adds one token to a share."""
    if token.kind == "number":
        group.pct = token.value
    elif token.kind == "word":
        group.words.append(token.text)
    elif token.kind == "part":
        group.part, group.leads = token.text, not group.words and group.pct is None
    elif token.kind == "note":
        group.note = f"{group.note} {token.text[1:-1]}".strip()
    else:
        group.mark += token.text


def joined(pieces: Sequence[Group]) -> list[Group]:
    """Shares in which a lone number has found the lone words beside it, and a lone bracket the share before it."""
    done: list[Group] = []
    for group in pieces:
        last = done[-1] if done else None
        if last and not group.words and group.pct is None:
            last.note = f"{last.note} {group.note}".strip()
        elif last and lone(last) and lone(group) and bool(last.words) != bool(group.words):
            last.words = last.words or group.words
            last.pct = group.pct if last.pct is None else last.pct
            last.note = f"{last.note} {group.note}".strip()
        else:
            done.append(group)
    return done


def lone(group: Group) -> bool:
    """Only a number, or only words, and no part of its own."""
    return not group.part and (group.pct is None) != (not group.words)
