"""Jinja2: the templates of page markup, in a sandbox, with everything escaped and nothing undefined."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING, Any

from handouts.errors import TemplateError
from handouts.places import shipped

if TYPE_CHECKING:
    from jinja2 import Environment


UNIT = re.compile(r"(?<=\d) (?=(?:°C|°F|mm|cm|m|in|yd|g/m²|oz/yd²|%|pt|min|h|W|A|V)\b|%|°)")


def unbroken(value: Any) -> Any:
    """A text with no-break spaces between numbers and units; anything else as it is."""
    return UNIT.sub("\u00a0", value) if type(value) is str else value


@cache
def environment() -> Environment:
    """The environment all templates are rendered in: autoescape, strict about names, no reach outside templates/."""
    from jinja2 import FileSystemLoader, StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    return ImmutableSandboxedEnvironment(
        loader=FileSystemLoader(shipped("templates")),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        finalize=unbroken,
    )


def render(template: str, **values: Any) -> str:
    """The template filled with plain dicts, lists and texts. Raises TemplateError naming the template."""
    from jinja2 import TemplateError as Broken

    try:
        return environment().get_template(template).render(**values)
    except Broken as error:
        raise TemplateError(f"templates/{template}: {error}") from error


@cache
def word_file(name: str) -> Mapping[str, Any]:
    """The words of templates/<name>.toml. Raises TemplateError when the file cannot be read."""
    path = shipped("templates") / f"{name}.toml"
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, tomllib.TOMLDecodeError) as error:
        raise TemplateError(f"{path}: {error}") from error


def class_words() -> Mapping[str, Any]:
    """The words of the class pages: class_words.toml."""
    return word_file("class_words")
