"""Ink on a page: text, rules, dashes, dots, boxes. Lengths in points, measured from the top left corner of the sheet."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from handouts.printing.fonts import runs
from handouts.printing.look import PT_PER_MM, drawing, part, weight
from handouts.printing.text import Line

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


def gauge_width(stitch_mm: float, most: float) -> float:
    """Points across the whole stitches of this length that go into `most` points, one at least."""
    step = stitch_mm * PT_PER_MM
    return max(1, int((most + 1e-6) // step)) * step


class Ink:
    """Draws on the current page of a canvas; y grows downwards."""

    def __init__(self, canvas: Canvas, height: float) -> None:
        self.canvas = canvas
        self.height = height

    def line(self, line: Line, x: float, baseline: float) -> None:
        """One line of text from x, standing on `baseline`."""
        text = self.canvas.beginText(x, self.height - baseline)
        for span in line:
            text.setFillGray(span.style.grey)
            for font, size, characters in runs(span.text, span.style.bold, span.style.size):
                text.setFont(font, size)
                text.textOut(characters)
        self.canvas.drawText(text)

    def rule(self, x1: float, y1: float, x2: float, y2: float, name: str = "hair", grey: float = 0.0) -> None:
        """A straight line as thick as the rule `name` of the look."""
        self.canvas.setStrokeGray(grey)
        self.canvas.setLineWidth(weight(name))
        self.canvas.line(x1, self.height - y1, x2, self.height - y2)

    def box(self, x: float, y: float, width: float, height: float, name: str = "hair", dashed: bool = False) -> None:
        """An outlined box, its line centred on the edge."""
        self.canvas.setStrokeGray(0)
        self.canvas.setLineWidth(weight(name))
        self.canvas.setDash(*((part("rule")["swatch_dash_pt"], 0) if dashed else ([], 0)))
        self.canvas.rect(x, self.height - y - height, width, height, stroke=1, fill=0)
        self.canvas.setDash([], 0)

    def dots(self, count: int, of: int, x: float, middle: float, step: float, radius: float) -> None:
        """`count` filled dots of `of`, the rest outlined, from x."""
        self.canvas.setStrokeGray(0)
        self.canvas.setFillGray(0)
        self.canvas.setLineWidth(weight("hair"))
        for number in range(of):
            self.canvas.circle(
                x + radius + number * step, self.height - middle, radius, stroke=1, fill=int(number < count)
            )

    def triangle(self, x: float, baseline: float, side: float) -> None:
        """A filled triangle, the mark of an exception, standing on `baseline`."""
        self._shape([(x, baseline), (x + side, baseline), (x + side / 2, baseline - side * 0.87)], fill=True)

    def tick_box(self, x: float, baseline: float, side: float) -> None:
        """An empty square to tick, standing on `baseline`."""
        self.box(x, baseline - side, side, side)

    def _shape(self, corners: list[tuple[float, float]], fill: bool) -> None:
        self.canvas.setStrokeGray(0)
        self.canvas.setFillGray(0)
        self.canvas.setLineWidth(weight("hair"))
        path = self.canvas.beginPath()
        path.moveTo(corners[0][0], self.height - corners[0][1])
        for x, y in corners[1:]:
            path.lineTo(x, self.height - y)
        path.close()
        self.canvas.drawPath(path, stroke=int(not fill), fill=int(fill))

    def gauge(self, stitch_mm: float, x: float, middle: float, most: float, kind: str = "straight") -> None:
        """A row of stitches at true length, as many as go into `most` points (one at least). kind: straight or zigzag."""
        step = stitch_mm * PT_PER_MM
        count = round(gauge_width(stitch_mm, most) / step)
        if kind == "zigzag":
            self._zigzag(x, middle, step, count)
            return
        gap = min(drawing("gauge_gap"), step * 0.35)
        for number in range(count):
            start = x + number * step
            self.rule(start + gap / 2, middle, start + step - gap / 2, middle, "stitch")

    def _zigzag(self, x: float, middle: float, step: float, count: int) -> None:
        half = drawing("gauge_high") / 2
        for number in range(count):
            way = half if number % 2 else -half
            self.rule(x + number * step, middle - way, x + (number + 1) * step, middle + way, "stitch")

    def block(self, x: float, y: float, width: float, height: float) -> None:
        """A filled black rectangle without an outline."""
        self.canvas.setFillGray(0)
        self.canvas.rect(x, self.height - y - height, width, height, stroke=0, fill=1)

    def turned(
        self, x: float, y: float, width: float, height: float, left_up: bool, draw: Callable[[Ink], None]
    ) -> None:
        """Draws something `height` wide and `width` high on its side in a box: its top at the box's right, or left_up."""
        self.canvas.saveState()
        if left_up:
            self.canvas.translate(x + width, self.height - y - height)
        else:
            self.canvas.translate(x, self.height - y)
        self.canvas.rotate(90 if left_up else -90)
        draw(Ink(self.canvas, width))
        self.canvas.restoreState()
