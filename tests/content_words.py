"""A Content written out again as a cell: the form that the reader reads back to the same content."""

from __future__ import annotations

from collections.abc import Iterator

from handouts.labelling.shares import figure
from handouts.records import Content, Section, Share


def words(content: Content) -> str:
    """The cell that says this content: `pile: 100% nylon; back: 100% cotton; pile 40%`."""
    return "; ".join(part for part in clauses(content) if part)


def clauses(content: Content) -> Iterator[str]:
    """The clauses of the cell, in order."""
    if content.unknown:
        yield content.remnants or "unknown"
    elif content.remnants:
        yield "remnants"
    if content.skin:
        yield content.skin
    for section in content.sections:
        if section.part not in ("except", "ornament"):
            yield section_words(section, content)
    for section in content.sections:
        if section.pct is not None and section.part not in ("", "except", "ornament"):
            yield f"{section.part} {figure(section.pct)}%"
    yield from endings(content)


def section_words(section: Section, content: Content) -> str:
    """One section: `back: 70% cotton, 30% rayon`."""
    film = (
        f"{content.coating} coated "
        if content.coating and not section.part and not film_named(section, content)
        else ""
    )
    shares = ", ".join(share_words(share) for share in section.shares)
    if film:
        shares = f"{content.coating} on {shares}"
    return f"{section.part}: {shares}" if section.part else shares


def film_named(section: Section, content: Content) -> bool:
    """Whether the shares themselves name the coating, as in 100% PVC."""
    return any(share.words.casefold() == content.coating.casefold() for share in section.shares)


def share_words(share: Share) -> str:
    """One share: `3% elastane (for stretch)`."""
    number = "" if share.pct is None else f"{figure(share.pct)}% "
    return f"{number}{share.words}" + (f" ({share.reason})" if share.reason else "")


def endings(content: Content) -> Iterator[str]:
    """The clauses `except …` and `exclusive of …`."""
    for section in content.sections:
        if section.part == "except":
            yield from (f"except {figure(s.pct or 0)}% {s.words} {s.reason}".strip() for s in section.shares)
    if content.exclusive_of:
        yield f"exclusive of {content.exclusive_of}"
