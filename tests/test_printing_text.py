"""Paragraphs: nothing lost, nothing wider than its column."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from handouts.printing.fonts import clean
from handouts.printing.look import Style
from handouts.printing.text import Span, line_width, shrink, wrap

PLAIN, STRONG = Style(9, 11), Style(9, 11, bold=True)
words = st.text(alphabet="abcdefghijklmnopqrstuvwxyzäöüß0123456789,.()/⅝°\u00a0 ", max_size=120)


def text_of(line: tuple[Span, ...]) -> str:
    """The words of a line."""
    return "".join(span.text for span in line)


@given(st.lists(st.tuples(words, st.booleans()), max_size=4), st.floats(12, 300))
def test_no_letter_is_lost_and_no_line_is_too_wide(parts: list[tuple[str, bool]], most: float) -> None:
    """Whatever the words and the width."""
    lines = wrap([Span(text, STRONG if bold else PLAIN) for text, bold in parts], most)
    letters = "".join(clean(text) for text, _ in parts).replace(" ", "")
    assert "".join(map(text_of, lines)).replace(" ", "") == letters
    assert all(line_width(line) <= most + 1e-6 for line in lines)


def test_a_number_stays_with_its_unit() -> None:
    """The no-break space does not break."""
    lines = wrap([Span("it weighs 350\u00a0g/m² now", PLAIN)], 60)
    assert [*map(text_of, lines)] == ["it weighs", "350\u00a0g/m² now"]


def test_a_word_wider_than_the_column_is_cut_not_clipped() -> None:
    """Only such a word is."""
    lines = [text_of(line) for line in wrap([Span("a " + "w" * 40 + " b", PLAIN)], 60)]
    assert len(lines) > 3 and "".join(lines).replace(" ", "") == "a" + "w" * 40 + "b"


def test_spans_join_where_no_space_stands_between() -> None:
    """Bold inside a word does not break it."""
    assert [text_of(line) for line in wrap([Span("over", PLAIN), Span("lock", STRONG), Span(" it", PLAIN)], 400)] == [
        "overlock it"
    ]


def test_shrinking_stops_at_the_least_size() -> None:
    """A title gets smaller until it fits, never smaller than allowed."""
    assert shrink("short", Style(19, 21), 12.5, 200).size == 19
    assert shrink("a very long title " * 9, Style(19, 21), 12.5, 200).size == 12.5


def test_a_wide_word_breaks_at_its_hyphen() -> None:
    """Before anybody cuts it in the middle of a syllable."""
    assert [text_of(line) for line in wrap([Span("straight-stitch", STRONG)], 50)] == ["straight-", "stitch"]
