"""The supplier's ironing words as a ceiling for the iron: dots and steam. A ceiling, never a target."""

from __future__ import annotations

import re
from functools import lru_cache

from handouts.labelling.supplier import iron_dots, is_no, settings, stated
from handouts.labelling.words import lexicon
from handouts.model import Knowledge

NOT = r"(?:do not|don't|never|no|not|ne pas|nicht|niet|non)"
FORBIDS = re.compile(rf"\b{NOT}\s+(?:be\s+)?(?:iron|press|repass|bügeln|buegeln|stirare|planchar|strijk)")
DRY = re.compile(
    r"\bno\s+steam|\b(?:do not|don't|never|without|ohne|sans)\s+(?:use\s+)?(?:steam|dampf|vapeur)|\bdry iron"
)


@lru_cache(maxsize=4096)
def iron_limit(text: str, knowledge: Knowledge) -> tuple[int | None, bool]:
    """The most dots that a supplier's care words allow (None when they name no heat), and whether they forbid steam."""
    known = lexicon(knowledge)
    chosen = {key: value.casefold() for key, value in settings(text).items()}
    words = chosen.get("ironing") or stated(text, "none", known).words("ironing").casefold()
    dry = bool(DRY.search(words)) or is_no(chosen.get("steam", "").strip(" ."))
    if FORBIDS.search(words) or is_no(words.strip(" .")):
        return 0, True
    dots = iron_dots(words, knowledge) if words else 0
    return dots or None, dry
