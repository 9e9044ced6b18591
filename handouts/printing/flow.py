"""The layout of class pages: head, then blocks, tables and columns from top to bottom over as many pages as they need."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from handouts.printing.blocks import block, contents
from handouts.printing.head import foot, head, running_head
from handouts.printing.look import Fit, Page, look
from handouts.printing.markup import Element
from handouts.printing.pieces import Piece, at_least_one, balanced, first_that_fit
from handouts.printing.sides import Placed, Side
from handouts.printing.table import table

EMPTY = Element("", {})


def lay_out(sheet: Element, page: Page) -> list[Side]:
    """The pages of one sheet. Raises nothing for length: a row higher than a page is the only thing that cannot be helped."""
    fit = Fit(look()["ladder"][0]["body_pt"], 1.0, page.scale)
    rows = [row for child in sheet.children for row in flowing(child, page.inner_width, fit)]
    first = head(sheet.first("head") or EMPTY, page.inner_width, fit)
    later = running_head(sheet.first("head") or EMPTY, "", page.inner_width, fit)
    bottom = _foot_height(sheet, page, fit)
    gap = fit.space("after_strip")
    sides: list[list[Placed]] = []
    while rows or not sides:
        top = later if sides else first
        room = page.inner_height - top.height - gap - bottom - fit.space("foot")
        count = (at_least_one if sides else first_that_fit)(rows, room)
        sides.append([Placed(top, 0.0, 0.0), *_column(rows[:count], top.height + gap)])
        rows = _again(rows[count:])
    return [(*side, _foot(sheet, page, fit, number, len(sides))) for number, side in enumerate(sides, 1)]


def _again(rows: list[Piece]) -> list[Piece]:
    """The rows of a further page, with the headings of a table that goes on."""
    if not rows or rows[0].repeat is None:
        return rows
    return [replace(rows[0].repeat, glued=True), *rows]


def _column(rows: Sequence[Piece], y: float) -> list[Placed]:
    placed = []
    for number, row in enumerate(rows):
        y += row.before if number else 0.0
        placed.append(Placed(row, 0.0, y))
        y += row.height
    return placed


def _foot(sheet: Element, page: Page, fit: Fit, number: int, of: int) -> Placed:
    words = sheet.get("count").replace("#", str(number), 1).replace("#", str(of), 1) if of > 1 else ""
    piece = foot(sheet.first("foot"), words, page.inner_width, fit)
    return Placed(piece, 0.0, page.inner_height - piece.height)


def _foot_height(sheet: Element, page: Page, fit: Fit) -> float:
    """Points the foot takes with the longest page count."""
    return foot(sheet.first("foot"), sheet.get("count") + "000", page.inner_width, fit).height


def flowing(element: Element, width: float, fit: Fit) -> list[Piece]:
    """The rows of what may stand on a class page: table, columns, block, text, item; head and foot stand by themselves."""
    makers: dict[str, Callable[[Element, float, Fit], list[Piece]]] = {
        "table": table,
        "columns": columns,
        "block": flowing_block,
    }
    if element.tag in ("head", "foot"):
        return []
    return makers.get(element.tag, contents)(element, width, fit)


def flowing_block(element: Element, width: float, fit: Fit) -> list[Piece]:
    """A titled block that may hold tables too. What stands over a table stays with it; keep="yes": all on one page."""
    parts = [flowing(child, width, fit) for child in element.children]
    for part, after in zip(parts, element.children[1:], strict=False):
        if after.tag == "table" or element.flag("keep"):
            part[:] = [replace(row, glued=True) for row in part]
    rows = [row for part in parts for row in part]
    title = block(Element("block", element.attributes, "", (Element("text", {}, "."),)), width, fit)[:1]
    if not rows or not element.get("title"):
        return rows
    return [replace(title[0], before=fit.space("part")), replace(rows[0], before=fit.space("heading")), *rows[1:]]


def columns(element: Element, width: float, fit: Fit) -> list[Piece]:
    """Blocks in two level columns, as one piece when it fits a page."""
    gap = fit.space("column")
    column = (width - gap) / 2
    rows = [row for child in element.children for row in flowing(child, column, fit)]
    return [replace(balanced(rows, column, gap), before=fit.space("part"))] if rows else []
