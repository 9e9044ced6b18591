"""The workbooks that come with the project, written from workbooks/data/*.toml: same data, same bytes."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from handouts.places import shipped
from handouts.workbook.rows import Words
from handouts.workbook.starter import starter

if TYPE_CHECKING:
    from openpyxl import Workbook


def outerwear(words: Words, imperial: bool = False) -> Workbook:
    """The example class: outerwear and its linings, twelve cloths."""
    data = _data("outerwear")
    settings = {**data["class"], **(data["imperial"] if imperial else {})}
    return starter(words, imperial, data["fabrics"], settings, data["house"], data["supplies"])


def shop_list(words: Words) -> Workbook:
    """An example shop list: sixty cloths with widths and prices."""
    data = _data("shop-list")
    rows = [_filled(dict(zip(data["columns"]["order"], line, strict=True))) for line in data["list"]["fabrics"]]
    return starter(words, False, rows, data["class"], [], [])


def examples(words: Words) -> dict[str, bytes]:
    """Every workbook of the folder workbooks/, by file name."""
    from handouts.workbook.saving import book_bytes
    from handouts.workbook.troubled import troubled

    books = {
        "starter.xlsx": starter(words),
        "starter-imperial.xlsx": starter(words, imperial=True),
        "outerwear.xlsx": outerwear(words),
        "outerwear-imperial.xlsx": outerwear(words, imperial=True),
        "shop-list.xlsx": shop_list(words),
        "troubled.xlsx": troubled(words),
    }
    return {name: book_bytes(book) for name, book in books.items()}


def _data(name: str) -> dict[str, Any]:
    with (shipped("workbooks") / "data" / f"{name}.toml").open("rb") as file:
        return tomllib.load(file)


def _filled(row: Mapping[str, Any]) -> dict[str, Any]:
    """Without the empty cells."""
    return {key: value for key, value in row.items() if value not in ("", 0)}
