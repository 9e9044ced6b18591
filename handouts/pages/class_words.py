"""Words of the pages about the whole class, from templates/class_words.toml."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from typing import Any

from handouts.errors import TemplateError
from handouts.places import shipped


@cache
def class_words() -> Mapping[str, Any]:
    """Everything in class_words.toml. Raises TemplateError when the file cannot be read."""
    path = shipped("templates") / "class_words.toml"
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, tomllib.TOMLDecodeError) as error:
        raise TemplateError(f"{path}: {error}") from error
