"""The knowledge that labelling needs, loaded without the rest of the knowledge base so that these tests stand alone."""

from __future__ import annotations

import importlib
from functools import cache

from handouts.model import Fibre, Knowledge, Needles

loading = importlib.import_module("handouts.knowledge.load")


@cache
def knowledge() -> Knowledge:
    """The real fibres and labelling tables; no cloths, topics or rules."""
    folder = loading.FOLDER
    tables = {name: loading.read(folder / f"{name}.toml") for name in ("labelling", "care", "heat")}
    fibres = loading.records(Fibre, folder, "fibre", "fibres")
    return Knowledge({}, fibres, {}, {}, {}, (), (), Needles({}, {}, ()), tables)
