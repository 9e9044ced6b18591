"""The look of the pages, read from templates/look.toml: text styles, gaps, papers, page types. All lengths out are points."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from handouts.errors import TemplateError
from handouts.places import shipped
from handouts.units import MM_PER_INCH

PT_PER_MM = 72 / MM_PER_INCH


@dataclass(frozen=True)
class Style:
    """How a run of text is set: size and line distance in points, grey from 0 (black) to 1 (white)."""

    size: float
    leading: float
    bold: bool = False
    grey: float = 0.0


@dataclass(frozen=True)
class Page:
    """A page type. All in points; `holes` are (centres from the top, distance from the binding edge, diameter).

    run_in: a card's last parts run on as paragraphs instead of standing in columns.
    """

    name: str
    layout: str
    width: float
    height: float
    top: float
    right: float
    bottom: float
    left: float
    scale: float = 1.0
    holes: tuple[tuple[float, ...], float, float] | None = None
    run_in: bool = False

    @property
    def inner_width(self) -> float:
        """Points between the left and right margins."""
        return self.width - self.left - self.right

    @property
    def inner_height(self) -> float:
        """Points between the top and bottom margins."""
        return self.height - self.top - self.bottom


@dataclass(frozen=True)
class Fit:
    """One rung of the fit ladder: body size in points, what gaps and all sizes are multiplied by, points left free to write in.

    loath: lines by which one column may be longer before a block is parted between two columns.
    """

    body: float
    gap: float = 1.0
    scale: float = 1.0
    free: float = 0.0
    leading: float = 1.0
    loath: float = 6.0

    @cache  # noqa: B019 - a page has a few dozen fits, and they are equal by value
    def style(self, name: str) -> Style:
        """The text style `name` at this fit, never below the floor."""
        record = part("text")[name]
        wanted = (self.body if record.get("fits") else record["size_pt"]) * self.scale
        points = max(wanted, part("text")["floor_pt"])
        tight = self.leading if record.get("fits") else 1.0
        return Style(points, points * record["leading"] * tight, record.get("bold", False), record.get("grey", 0.0))

    def space(self, name: str) -> float:
        """The gap `name` in points at this fit."""
        gaps = part("gap")
        fits = f"{name}_fit_pt"
        return (gaps[fits] * self.gap if fits in gaps else gaps[f"{name}_pt"]) * self.scale


@cache
def look() -> Mapping[str, Any]:
    """Everything in look.toml. Raises TemplateError when the file cannot be read."""
    path = fonts_folder().parent / "look.toml"
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, tomllib.TOMLDecodeError) as error:
        raise TemplateError(f"{path}: {error}") from error


def part(name: str) -> Mapping[str, Any]:
    """One table of look.toml, like `gap`."""
    return look()[name]


def drawing(name: str) -> float:
    """A length of the table `drawing`, in points."""
    return float(part("drawing")[f"{name}_mm"]) * PT_PER_MM


def weight(name: str) -> float:
    """The thickness of a rule, in points."""
    return float(part("rule")[f"{name}_pt"])


def fonts_folder() -> Path:
    """Where the fonts live."""
    return shipped("templates") / "fonts"


def ladder(page: Page) -> tuple[Fit, ...]:
    """The fits to try on a page type, roomiest first: at each scale down to 1 the rungs; small type only at the last."""
    rungs = look()["ladder"]
    largest = max(rung["body_pt"] for rung in rungs)
    scales = sorted({page.scale, (page.scale + 1) / 2, 1.0}, reverse=True)
    return tuple(
        Fit(
            rung["body_pt"],
            rung["gap"],
            scale,
            rung["free_mm"] * PT_PER_MM * scale,
            rung["leading"],
            rung["loath"],
        )
        for scale in scales
        for rung in rungs
        if scale == scales[-1] or rung["body_pt"] == largest
    )


@cache
def page_type(name: str, mirrored: bool = False) -> Page:
    """The page type `name`; `mirrored` has the margins of a back. Raises TemplateError for a type look.toml lacks."""
    if name not in part("page"):
        raise TemplateError(f"look.toml: no page type “{name}”: it has {', '.join(sorted(part('page')))}")
    record = part("page")[name]
    paper = part("paper")[record["paper"]]
    sides = (paper["width_mm"], paper["height_mm"])
    width, height = reversed(sides) if record.get("turned") else sides
    margin = {side: length * PT_PER_MM for side, length in record["margin_mm"].items()}
    if mirrored:
        margin["left"], margin["right"] = margin["right"], margin["left"]
    return Page(
        name, record["layout"], width * PT_PER_MM, height * PT_PER_MM, scale=record.get("scale", 1.0),
        holes=_holes(record.get("holes", "")),
        run_in=record.get("ends") == "run in", **margin,
    )  # fmt: skip


def _holes(name: str) -> tuple[tuple[float, ...], float, float] | None:
    """The punch holes of a page type, in points."""
    if not name:
        return None
    record = part("holes")[name]
    centres = tuple(c * PT_PER_MM for c in record["centres_mm"])
    return centres, record["from_edge_mm"] * PT_PER_MM, record["diameter_mm"] * PT_PER_MM
