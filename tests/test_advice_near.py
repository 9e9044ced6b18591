"""Near words: the same as difflib finds, and found fast enough for a list of thousands of names that nobody knows."""

from __future__ import annotations

import difflib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from handouts import knowledge
from handouts.advice.cloths import index, near_names, near_parts

WORDS = list(index(knowledge.load()))


@pytest.mark.parametrize("cutoff", [0.6, 0.75, 0.83])
@given(word=st.sampled_from(WORDS), slips=st.text("abcdeinorstxyz éß", max_size=4), at=st.integers(0, 8))
def test_near_words_are_those_of_difflib(cutoff: float, word: str, slips: str, at: int) -> None:
    """Names with slips of the keyboard, at every place: the same words in the same order."""
    said = word[:at] + slips + word[at + len(slips) // 2 :]
    near = near_names(knowledge.load())
    assert near.closest(said, most=3, cutoff=cutoff) == difflib.get_close_matches(said, WORDS, n=3, cutoff=cutoff)


@given(st.text(max_size=30))
def test_no_text_breaks_it(said: str) -> None:
    """Letters that no cloth has, and none at all."""
    parts = near_parts(knowledge.load())
    assert parts.closest(said, most=1, cutoff=0.83) == difflib.get_close_matches(said, parts.words, n=1, cutoff=0.83)
