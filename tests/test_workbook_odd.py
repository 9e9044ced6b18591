"""Odd books of every origin: a correct reading, or a sentence; never a trace. Each is marked up too."""

from __future__ import annotations

from pathlib import Path

import pytest

from handouts import workbook
from tests.books import FABRIC, HEADINGS, codes
from tests.odd_books import (
    STRICT,
    STRICT_LINKS,
    WEIGHED,
    Maker,
    bare,
    charted,
    commented,
    dated_1904,
    filtered,
    grouped,
    guarded,
    loaded,
    mac_archive,
    shared,
    sheets,
    text,
    with_part,
)

RED = ["Red", *FABRIC[1:]]
CSV = "Name,Cloth,Fibre content\nBlue,denim,100% cotton\n"
ONE = ["Blue"]
BOOKS: dict[str, tuple[Maker, list[str], list[str]]] = {
    # how it arrived → the maker, the names read, the codes told
    "phone, summary first, title above": (
        sheets(
            {"Export Summary": [["Sheet name", "Table name"], ["S", "T"]], "S - T": [["Table 1"], HEADINGS, FABRIC]}
        ),
        ONE,
        [],
    ),
    "web sheet with a filter on": (
        sheets({"Fabrics": [HEADINGS, FABRIC, RED]}, filtered),
        ["Blue", "Red"],
        ["rows-hidden"],
    ),
    "web sheet's own formula with its result": (
        bare(
            [
                HEADINGS,
                ['<c r="@" t="str"><f>IFERROR(__xludf.DUMMYFUNCTION("x"),"Blue")</f><v>Blue</v></c>', *FABRIC[1:]],
            ]
        ),
        ONE,
        [],
    ),
    "headings in row 7": (
        sheets({"F": [["Shop"], ["Street"], [], ["Tel", 5], ["Date", 3], [], HEADINGS, FABRIC]}),
        ONE,
        [],
    ),
    "two rows of headings": (sheets({"F": [["What it is", "", "", "Measured"], *WEIGHED]}), ONE, []),
    "titles of groups": (
        sheets({"Fabrics": [HEADINGS, ["COTTON"], FABRIC, ["WOOL"], RED]}, grouped),
        ["Blue", "Red"],
        ["rows-aside"],
    ),
    "emoji": (sheets({"🧵": [["🧵 Name", "Cloth 👗", "Fibre content"], ["Blue 💙", *FABRIC[1:]]]}), ["Blue 💙"], []),
    "right to left": (sheets({"בדים": [HEADINGS, ["ג'ינס כחול", *FABRIC[1:]]]}), ["ג'ינס כחול"], []),
    "protected": (loaded(guarded), ONE, []),
    "charts": (loaded(charted), ONE, []),
    "comments, links and rich text": (loaded(commented), ONE, []),
    "pivot cache": (
        with_part(xl__pivotCache__pivotCacheDefinition1="<x/>", xl__pivotTables__pivotTable1="<x/>"),
        ONE,
        [],
    ),
    "external link": (
        bare([WEIGHED[0], [*FABRIC, "<c r=\"@\"><f>'[1]Prices'!$B$2</f><v>350</v></c>"]]),
        ONE,
        [],
    ),
    "shared texts, rich and with readings": (
        shared,
        ["Blue", "Blue"],
        ["name-twice"],
    ),
    "shared formula without results": (
        bare(
            [
                WEIGHED[0],
                [*FABRIC, '<c r="@"><f t="shared" ref="D2:D3" si="0">1+1</f><v>350</v></c>'],
                [*RED, '<c r="@"><f t="shared" si="0"/></c>'],
            ]
        ),
        ["Blue", "Red"],
        ["cell-uncalculated"],
    ),
    "days from 1904": (dated_1904, ONE, []),
    "nothing but what is needed": (bare(WEIGHED), ONE, []),
    "element names with a prefix": (bare(WEIGHED, prefix="x:"), ONE, []),
    "strict names": (bare(WEIGHED, main=STRICT, links=STRICT_LINKS), ONE, []),
    "strict names with a prefix": (bare(WEIGHED, prefix="ns0:", main=STRICT, links=STRICT_LINKS), ONE, []),
    "markup in a text": (
        bare([HEADINGS, ['<c r="@" t="inlineStr"><is><t><![CDATA[Blue <b>]]></t></is></c>', *FABRIC[1:]]]),
        ["Blue <b>"],
        [],
    ),
    "errors of a newer program": (
        bare(
            [
                WEIGHED[0],
                [*FABRIC, '<c r="@" t="e"><f>X()</f><v>#SPILL!</v></c>'],
                [*RED, '<c r="@" t="e"><v>#N/A</v></c>'],
            ]
        ),
        ["Blue", "Red"],
        ["cell-error", "cell-error"],
    ),
    "packed with folders and notes": (mac_archive, ONE, []),
    "16,384 columns": (
        sheets({"F": [[*HEADINGS, *[f"Own {n}" for n in range(16_381)]], [*FABRIC, *["v"] * 16_381]]}),
        ONE,
        ["heading-unknown"] * 21,
    ),
    "a second list below": (
        sheets({"F": [HEADINGS, FABRIC, [], ["Supplies"], ["Item", "Pack size", "Price"], ["thread", 500, 3]]}),
        ONE,
        [],
    ),
    "a second list beside": (sheets({"F": [[*HEADINGS, "", *HEADINGS], [*FABRIC, "", *RED]]}), ONE, ["sheet-not-read"]),
    "every line in one cell": (
        sheets({"F": [["Name;Cloth;Fibre content"], ["Blue;denim;100% cotton"]]}),
        [],
        ["lines-in-one-cell"],
    ),
    "a row of dashes": (sheets({"F": [HEADINGS, FABRIC, ["-", "–", "-"]]}), ONE, []),
    "a template": (lambda f: bare(WEIGHED)(f).rename(f / "b.xltx"), ONE, []),
    "text in utf-32": (text("b.csv", CSV.encode("utf-32")), ONE, []),
    "text with an old end mark": (text("b.csv", CSV + "\x1a"), ONE, []),
    "text with a title and a total": (text("b.csv", "Stock\n\n" + CSV + "Total,,\n"), ONE, ["rows-aside"]),
    "ragged text": (text("b.csv", "Name,Cloth,Fibre content\nBlue,denim,100% cotton,x,y\n,,,,\n"), ONE, []),
    "a web page in one file": (
        text("b.xls", "MIME-Version: 1.0\nContent-Type: multipart/related\n\n<html>"),
        [],
        ["file-web-page"],
    ),
    "an old workbook as text": (
        text("b.xls", '<?xml version="1.0"?><Workbook xmlns="urn:x-com:office:spreadsheet"/>'),
        [],
        ["file-other-kind"],
    ),
    "an open workbook as text": (
        text("b.fods", '<?xml version="1.0"?><office:document xmlns:office="x"/>'),
        [],
        ["file-other-kind"],
    ),
    "only a link": (text("b.link", '{"url":"https://example.org/1","doc_id":"1"}'), [], ["file-other-kind"]),
    "a cell that points to no text": (
        bare([HEADINGS, ['<c r="@" t="s"><v>99</v></c>', *FABRIC[1:]]]),
        [],
        ["file-damaged"],
    ),
}


@pytest.mark.parametrize("name", BOOKS)
def test_an_odd_book_is_read_or_told(tmp_path: Path, name: str) -> None:
    """The names in their order, and nothing said that need not be; the marked copy is written all the same."""
    maker, names, said = BOOKS[name]
    path = maker(tmp_path)
    book = workbook.read(path)
    assert (book.fabrics["name"].tolist(), codes(book)) == (names, said)
    workbook.write_marked(path, tmp_path / "copy.xlsx", book.problems)
    assert len(BOOKS) > 30
