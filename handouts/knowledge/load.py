"""The knowledge folder read into one frozen Knowledge. Everything wrong with it raises KnowledgeError, never a default."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import MISSING, fields
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

from handouts.errors import KnowledgeError
from handouts.knowledge.check import check
from handouts.model import Cloth, Construction, Fibre, Knowledge, Needles, Rule, Source, Topic

FOLDER = Path(__file__).resolve().parent
T = TypeVar("T")


@cache
def load(folder: Path = FOLDER) -> Knowledge:
    """The whole knowledge base, checked. Raises KnowledgeError naming the file, the record and the key at fault."""
    topics_file = read(folder / "topics.toml")
    fibres = records(Fibre, folder, "fibre", "fibres")
    knowledge = Knowledge(
        sources=records(Source, folder, "source", "sources"),
        fibres=fibres,
        constructions=records(Construction, folder, "construction", "constructions"),
        cloths=records(Cloth, folder, "cloth", "cloths"),
        topics={id: record(Topic, id, data, "topics.toml") for id, data in topics_file["topic"].items()},
        tiers=tuple(topics_file["tiers"]),
        rules=(
            *fibre_rules(fibres),
            *dots_rules(read(folder / "heat.toml")),
            *sorted(rules(folder), key=lambda rule: rule.id),
        ),
        needles=needles(folder),
        tables={name: read(folder / f"{name}.toml") for name in tables(folder)},
    )
    check(knowledge)
    return knowledge


def read(file: Path) -> dict[str, Any]:
    """One TOML file as a mapping."""
    try:
        with file.open("rb") as stream:
            return tomllib.load(stream)
    except (OSError, tomllib.TOMLDecodeError) as error:
        raise KnowledgeError(f"{file.name}: {error}") from error


def files(folder: Path, stem: str) -> list[Path]:
    """The file `stem.toml` and every file in the folder `stem/`, in name order."""
    single = folder / f"{stem}.toml"
    return ([single] if single.is_file() else []) + sorted((folder / stem).glob("*.toml"))


def records(kind: type[T], folder: Path, table: str, stem: str) -> dict[str, T]:
    """Every `[table.id]` of the files of `stem` as a record, by id."""
    found: dict[str, T] = {}
    for file in files(folder, stem):
        for id, data in read(file).get(table, {}).items():
            if id in found:
                raise KnowledgeError(f"{file.name}: {table} {id} stands twice")
            found[id] = record(kind, id, data, file.name)
    return found


def record(kind: type[T], id: str, data: Mapping[str, Any], file: str) -> T:
    """One record of `kind`. Raises KnowledgeError for unknown and missing keys."""
    known = {f.name: f for f in fields(kind)}  # type: ignore[arg-type]
    unknown = sorted(set(data) - set(known))
    needed = {n for n, f in known.items() if f.default is MISSING and f.default_factory is MISSING} - {"id", "file"}
    missing = sorted(needed - set(data) - OPTIONAL.get(kind.__name__, frozenset()))
    if unknown or missing:
        raise KnowledgeError(f"{file}: {id}: " + "; ".join(wrong("unknown", unknown) + wrong("missing", missing)))
    values = {key: tuple(value) if isinstance(value, list) else value for key, value in data.items()}
    blanks: dict[str, Any] = {key: EMPTY[key] for key in needed - set(data)}
    if "file" in known:
        values["file"] = file
    return kind(**{"id": id, **blanks, **values})


OPTIONAL = {
    "Rule": frozenset({"when", "value"}),
    "Cloth": frozenset({"families", "spoken", "usual"}),
    "Construction": frozenset({"families", "spoken"}),
    "Fibre": frozenset({"spoken", "trade", "codes"}),
}
EMPTY: Mapping[str, Any] = {
    "when": {},
    "value": None,
    "families": (),
    "spoken": (),
    "usual": {},
    "trade": (),
    "codes": (),
}


def wrong(word: str, keys: list[str]) -> list[str]:
    """`["unknown key coulor"]` or nothing."""
    return [f"{word} key {', '.join(keys)}"] if keys else []


def rules(folder: Path) -> Iterator[Rule]:
    """Every [[rule]] of rules/*.toml."""
    seen: set[str] = set()
    for file in files(folder, "rules"):
        for data in read(file).get("rule", []):
            id = data.get("id", "")
            if not id or id in seen:
                raise KnowledgeError(f"{file.name}: rule “{id}”: needs an id of its own")
            seen.add(id)
            yield record(Rule, id, {k: v for k, v in data.items() if k != "id"}, file.name)


FIBRE_TOPICS = ("press_dots", "press_c", "iron_word", "steam")


def fibre_rules(fibres: Mapping[str, Fibre]) -> Iterator[Rule]:
    """What every fibre's own record says of heat and steam, as rules: the figure stands once, in fibres.toml."""
    for fibre in fibres.values():
        for topic in FIBRE_TOPICS:
            value = fibre.dots if topic == "press_dots" else getattr(fibre, topic)
            yield Rule(
                id=f"{topic.replace('_', '-')}-fibre-{fibre.id}",
                topic=topic,
                tier="fibre",
                when={"fibres": [fibre.id]},
                value=value,
                because=fibre.because,
                sources=fibre.sources,
                checked=fibre.checked,
                file="fibres.toml",
            )


def dots_rules(heat: Mapping[str, Any]) -> Iterator[Rule]:
    """What the decided number of dots caps: the temperature and the word on the dial, from heat.toml."""
    for row in heat["dots"]:
        for topic, key in (("press_c", "most_c"), ("iron_word", "word")):
            yield Rule(
                id=f"{topic.replace('_', '-')}-dots-{row['dots']}",
                topic=topic,
                tier="usual",
                when={"press_dots": {"min": row["dots"], "max": row["dots"]}},
                value=row[key],
                because="No dots: no iron."
                if not row["dots"]
                else f"The most that {row['dots']} of three dots allows.",
                sources=tuple(heat["sources"]),
                checked=heat["checked"],
                file="heat.toml",
            )


def needles(folder: Path) -> Needles:
    """needles.toml as a record."""
    data = read(folder / "needles.toml")
    sizes = {int(nm): int(us) for nm, us in data["us_size"].items()}
    return Needles(us_size=sizes, points=dict(data["points"]), sources=tuple(data["sources"]))


def tables(folder: Path) -> list[str]:
    """The stems of the small table files: every .toml that is not read as records."""
    taken = {"topics", "sources", "fibres", "constructions", "cloths"}
    return sorted(file.stem for file in folder.glob("*.toml") if file.stem not in taken)
