"""Page markup: our own small XML, read into elements whose words are clean.

<pages title= author= subject= sides="two">    sides: printed on both; backs get mirrored margins
  <sheet page= outline= key= …>                page: a page type of look.toml, whose layout decides what a sheet may hold

Layout `card`: head, strip, block …, lasting, differs, unknown, likes, trial, swatch, foot; sheet has over=, further= (“side # …”).
Layout `flow`: head, foot and from top to bottom table, columns, block, text, item; sheet has count= (“page # of #”).

  <head title=> <aside>…</aside> <line>…</line>                 asides stand at the right
  <strip> <setting label= value= mark= tested=> <note/> <gauge mm= kind="straight|zigzag"/> <dots n=/>
  <block title= again=> <item when= mark= caution= because= tick="yes">words</item> <text look=>…</text> <allowance sew= trim=>…
                                               again: its title above what goes on in another column or on another side
  <lasting|differs|unknown|likes title=> <item/> …              lasting is the heavy box
  <trial title= change=> <field>needle</field> …                room to write
  <swatch unit="mm|in" size=>…</swatch>  <foot>…</foot>
  <columns> blocks in two level columns </columns>              <table>: see table.py
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from handouts.errors import TemplateError

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element as Raw


@dataclass(frozen=True)
class Element:
    """One element: its name, attributes, words (white space folded) and children."""

    tag: str
    attributes: dict[str, str]
    words: str = ""
    children: tuple[Element, ...] = field(default=())

    def get(self, name: str, default: str = "") -> str:
        """An attribute, or `default`."""
        return self.attributes.get(name, default)

    def flag(self, name: str) -> bool:
        """Whether an attribute says yes."""
        return self.get(name) == "yes"

    def number(self, name: str) -> float:
        """An attribute as a number. Raises TemplateError naming the element when it is none."""
        try:
            return float(self.attributes[name])
        except (KeyError, ValueError) as error:
            raise TemplateError(
                f"page markup: <{self.tag}> needs a number in {name}=, found “{self.get(name)}”"
            ) from error

    def all(self, tag: str) -> Iterator[Element]:
        """The children of one name."""
        return (child for child in self.children if child.tag == tag)

    def first(self, tag: str) -> Element | None:
        """The first child of that name, or None."""
        return next(self.all(tag), None)


def read(markup: str) -> Element:
    """The root element. Raises TemplateError for text that is not well formed or that declares entities."""
    from xml.etree import ElementTree

    if "<!DOCTYPE" in markup or "<!ENTITY" in markup:
        raise TemplateError("page markup: no document type and no entities are allowed")
    try:
        root = ElementTree.fromstring(printable(markup))
    except ElementTree.ParseError as error:
        raise TemplateError(f"page markup: {error}") from error
    if root.tag != "pages":
        raise TemplateError(f"page markup: expected <pages>, found <{root.tag}>")
    return _element(root)


def printable(markup: str) -> str:
    """The markup without the control characters XML forbids."""
    return "".join(
        c for c in markup if c in "\t\n\r" or (c >= " " and not "\ud800" <= c <= "\udfff" and c not in "\ufffe\uffff")
    )


def _element(raw: Raw) -> Element:
    attributes = {name: fold(value) for name, value in raw.attrib.items()}
    return Element(raw.tag, attributes, fold(raw.text or ""), tuple(_element(child) for child in raw))


def fold(text: str) -> str:
    """White space as single spaces; the no-break space stays."""
    return " ".join(part for part in text.replace("\n", " ").replace("\t", " ").replace("\r", " ").split(" ") if part)
