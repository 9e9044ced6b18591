"""How names of cloths are compared: in plain letters, apart from case, accents, hyphens and a plural s."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache


@lru_cache(100_000)
def plain(text: str) -> str:
    """Lower case, no accents, hyphens and slashes as spaces, figures apart: `Crêpe-de-Chine`, `8oz` → `crepe de chine`, `8 oz`.

    The two words `light weight` are one, as in `lightweight`.
    """
    bare = "".join(c for c in unicodedata.normalize("NFKD", text.casefold()) if not unicodedata.combining(c))
    spaced = " ".join(re.sub(r"(?<=\d)(?=[a-z])|[^\w%]+", " ", bare).split())
    return re.sub(r"\b(light|mid|medium|heavy) weight\b", r"\1weight", spaced)


def singular(text: str) -> str:
    """The last word without a plural s: `corduroys` → `corduroy`."""
    return text[:-1] if text.endswith("s") and not text.endswith("ss") else text
