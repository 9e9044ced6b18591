"""Tables and class pages over several pages: headings again on each, groups whole, nothing lost, nothing on top of anything."""

from __future__ import annotations

from typing import Any

import pytest

from handouts import printing
from tests.printed import MM, seen, text_of
from tests.test_printing_geometry import overlapping


def row(number: int, words: str = "short") -> str:
    """A row with its number in every cell."""
    first, stitch = f"<cell strong='yes'>R{number} name</cell><cell/>", f"<cell>{words}{number}<gauge mm='2.5'/></cell>"
    return f"<row>{first}{stitch}<cell mark='triangle'>watch{number}</cell></row>"


def group(first: int, count: int, words: str = "short") -> str:
    """A group of rows with a spanning cell."""
    rows = "".join(row(number, words) for number in range(first, first + count))
    return (
        f"<group><span column='1' strong='yes'>iron{first}<dots n='2'/><note>up to 150 °C</note></span>{rows}</group>"
    )


def page_of(body: str, page: str = "wide-a4") -> list[dict[str, Any]]:
    """A class page with a table of these groups, as seen by another program."""
    columns = "".join(f"<column label='{label}'/>" for label in ("Fabric", "Iron", "Stitch", "Watch"))
    head, foot = "<head title='Side by side'><aside>read down</aside></head>", "<foot>Follow manuals.</foot>"
    sheet = (
        f"<sheet page='{page}' outline='Table' count='page # of #'>{head}<table>{columns}{body}</table>{foot}</sheet>"
    )
    return seen(printing.print_pages(f"<pages title='T'>{sheet}</pages>").pdf)


@pytest.mark.parametrize("page", ["wide-a4", "wide-letter", "sheet-a4", "sheet-letter"])
def test_every_row_is_printed_once_and_headings_on_every_page(page: str) -> None:
    """Sixty rows in groups of five."""
    pages = page_of("".join(group(first, 5) for first in range(0, 60, 5)), page)
    assert len(pages) > 1
    assert all(all(label in text_of(one) for label in ("Fabric", "Iron", "Stitch", "Watch")) for one in pages)
    words = " ".join(map(text_of, pages)).split()
    assert [words.count(f"watch{number}") for number in range(60)] == [1] * 60
    assert all(overlapping(one["words"]) == [] for one in pages)


def test_a_short_group_stays_on_one_page() -> None:
    """Its spanning cell stands beside all of its rows."""
    for one in page_of("".join(group(first, 5) for first in range(0, 60, 5))):
        numbers = [number for number in range(60) if f"watch{number}" in text_of(one).split()]
        assert numbers and numbers[0] % 5 == 0 and len(numbers) % 5 == 0


def test_a_group_longer_than_a_page_tells_its_span_again() -> None:
    """Forty rows of one heat: every page says which heat."""
    pages = page_of(group(0, 40))
    assert len(pages) > 1 and all("iron0" in text_of(one) for one in pages)
    assert all(overlapping(one["words"]) == [] for one in pages)


def test_pages_are_counted_when_there_are_several() -> None:
    """And only then."""
    several, one = page_of(group(0, 40)), page_of(group(0, 3))
    assert [f"page {n} of {len(several)}" in text_of(page) for n, page in enumerate(several, 1)] == [True] * len(
        several
    )
    assert len(one) == 1 and "page 1" not in text_of(one[0])


def test_long_words_make_lines_not_overlaps() -> None:
    """A cell as long as a paragraph wraps inside its column, whatever its neighbours need."""
    long = "a very long remark about how this one has to be sewn on a rainy day " * 4
    pages = page_of(group(0, 8, long) + group(8, 8))
    assert all(overlapping(one["words"]) == [] for one in pages)
    right = max(word["x1"] for one in pages for word in one["words"])
    assert right <= pages[0]["width"] - 12 * MM + 0.1


def test_a_row_without_a_group_and_a_table_without_labels() -> None:
    """The plain list of the page: no rules, no headings."""
    rows = "<row><cell strong='yes'>no steam</cell><cell>Acetate · Velvet</cell></row>"
    table = f"<table plain='yes'><column share='1'/><column share='4'/>{rows}</table>"
    sheet = f"<sheet page='sheet-a4'><block title='Never'>{table}</block></sheet>"
    page = seen(printing.print_pages(f"<pages>{sheet}</pages>").pdf)[0]
    assert "Never" in text_of(page) and "no steam Acetate · Velvet" in text_of(page)
    assert [line for line in page["lines"] if line["top"] > 30 * MM] == []


def test_a_spanning_cell_higher_than_its_row_makes_the_row_higher() -> None:
    """One fabric at a heat with a note: the next group starts below the note."""
    page = page_of(group(0, 1) + group(1, 1))[0]
    notes = [word for word in page["words"] if word["text"] == "150"]
    names = [word for word in page["words"] if word["text"] == "R1"]
    assert notes[0]["bottom"] < names[0]["top"] + 1


def test_blocks_in_two_columns_stand_level() -> None:
    """The two columns of a class page start at one height and differ by less than a block."""
    blocks = "".join(f"<block title='B{n}'>" + "<item tick='yes'>do it</item>" * 3 + "</block>" for n in range(6))
    page = seen(printing.print_pages(f"<pages><sheet page='sheet-a4'><columns>{blocks}</columns></sheet></pages>").pdf)[
        0
    ]
    titles = [word for word in page["words"] if word["text"].startswith("B")]
    left = [word["top"] for word in titles if word["x0"] < page["width"] / 2]
    right = [word["top"] for word in titles if word["x0"] > page["width"] / 2]
    assert len(left) == len(right) == 3 and left == pytest.approx(right, abs=0.1)
    assert len(page["rects"]) == 18, "a box to tick before each item"
