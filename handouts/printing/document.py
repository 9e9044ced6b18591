"""Page markup in, PDF bytes out: one file, reproducible to the byte, only our own fonts in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from handouts.errors import TemplateError
from handouts.printing import card, flow, slots
from handouts.printing.fonts import clean, face
from handouts.printing.ink import Ink
from handouts.printing.look import Page, drawing, look, page_type
from handouts.printing.markup import Element, read
from handouts.printing.sides import Side

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

LAYOUTS: dict[str, Callable[[Element, Page], list[Side]]] = {
    "card": card.lay_out,
    "flow": flow.lay_out,
    "slots": slots.lay_out,
}


@dataclass(frozen=True)
class Printed:
    """A PDF file, how many pages it has, which fabrics (by the sheet's key) needed more than one side.

    refused: the small cards (by key) that are not in it because even the smallest type is too large for them.
    """

    pdf: bytes
    pages: int
    second_sides: tuple[str, ...]
    refused: tuple[str, ...] = ()


def print_pages(markup: str) -> Printed:
    """The PDF of some page markup. Raises TemplateError for markup or a page type that is wrong."""
    root = read(markup)
    buffer = BytesIO()
    canvas = _canvas(buffer, root)
    second: list[str] = []
    refused: list[str] = []
    pages = 0
    for sheet in root.children:
        page = page_type(sheet.get("page"))
        sides = _layout(page)(sheet, page)
        refused += getattr(sides, "refused", ())
        if len(sides) > 1 and page.layout == "card":
            second.append(sheet.get("key"))
        for number, side in enumerate(sides):
            back = root.get("sides") == "two" and pages % 2 == 1
            _show(canvas, page_type(sheet.get("page"), back), side, back, sheet if number == 0 else None)
            pages += 1
    canvas.save()
    return Printed(buffer.getvalue(), pages, tuple(second), tuple(refused))


def _layout(page: Page) -> Callable[[Element, Page], list[Side]]:
    if page.layout not in LAYOUTS:
        raise TemplateError(
            f"look.toml: page type “{page.name}”: layout “{page.layout}” is none of {', '.join(sorted(LAYOUTS))}"
        )
    return LAYOUTS[page.layout]


def _canvas(buffer: BytesIO, root: Element) -> Canvas:
    """A canvas that writes the same bytes every time, set to print at true size, with title, author, subject and language."""
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0
    font = face("regular")
    for other in ("bold", "spare"):
        face(other)
    canvas = Canvas(
        buffer, invariant=1, pageCompression=1, initialFontName=font, initialFontSize=9, lang=look()["language"]
    )
    canvas.setTitle(clean(root.get("title")))
    canvas.setAuthor(clean(root.get("author")))
    canvas.setSubject(clean(root.get("subject")))
    canvas.setCreator("handouts")
    canvas.setViewerPreference("PrintScaling", "None")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    if root.get("sides") == "two":
        canvas.setViewerPreference("Duplex", "DuplexFlipLongEdge")
    return canvas


def _show(canvas: Canvas, page: Page, side: Side, back: bool, opens: Element | None) -> None:
    """Draws one side; `opens` is the sheet whose first side it is, for the outline."""
    canvas.setPageSize((page.width, page.height))
    ink = Ink(canvas, page.height)
    if opens is not None:
        _outline(canvas, opens)
    if page.holes:
        _hole_ticks(ink, page, back)
    for placed in side:
        placed.piece.draw(ink, page.left + placed.x, page.top + placed.top)
    canvas.showPage()


def _outline(canvas: Canvas, sheet: Element) -> None:
    key = f"sheet-{canvas.getPageNumber()}"
    canvas.bookmarkPage(key)
    canvas.addOutlineEntry(clean(sheet.get("outline")), key, 0, closed=True)
    canvas.showOutline()


def _hole_ticks(ink: Ink, page: Page, back: bool) -> None:
    """A fine grey tick beside the middle of every hole, between the hole and the text."""
    centres, from_edge, diameter = page.holes or ((), 0.0, 0.0)
    near = from_edge + diameter / 2 + drawing("hole_clear")
    far = near + drawing("hole_tick")
    if back:
        near, far = page.width - near, page.width - far
    for centre in centres:
        ink.rule(near, centre, far, centre, "fine", grey=0.5)
