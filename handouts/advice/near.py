"""Words that are most like a text: what difflib finds, after one look at the letters of all words at once."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

import numpy as np


class Near:
    """A list of words that many texts are held against."""

    def __init__(self, words: Iterable[str]) -> None:
        self.words = tuple(words)
        self.places = {sign: place for place, sign in enumerate(sorted(set("".join(self.words))))}
        self.lengths = np.array([len(word) for word in self.words])
        self.counts = np.array([self.count(word) for word in self.words])

    def count(self, text: str) -> np.ndarray:
        """How often each letter of the list stands in a text."""
        places = [self.places[sign] for sign in text if sign in self.places]
        return np.bincount(places, minlength=len(self.places)).astype(np.int16)

    def closest(self, text: str, most: int, cutoff: float) -> list[str]:
        """The same as difflib.get_close_matches: its ratio is at most twice the shared letters by all letters of the pair."""
        shared = np.minimum(self.counts, self.count(text)).sum(axis=1)
        possible = np.flatnonzero(2 * shared >= cutoff * (self.lengths + len(text)) - 1e-9)
        return difflib.get_close_matches(text, [self.words[at] for at in possible], n=most, cutoff=cutoff)
