"""What is known of a fabric: typed in its row, derived from its fibre content, or usual for its cloth; and where from."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from handouts.advice.measures import measured
from handouts.advice.spoken_weight import told_weight
from handouts.model import Cloth, Construction, Knowledge, Value
from handouts.records import Content, Fact
from handouts.sheets import FABRICS

NO_CONTENT = Content("", ())
TYPED = tuple(
    column
    for column in FABRICS.columns
    if column.group == "facts" and column.kind not in ("text", "cloth", "content", "photo")
)


def facts_of(
    row: Mapping[str, Value],
    cell: Callable[[str], str],
    item: Cloth | Construction,
    content: Content,
    knowledge: Knowledge,
    trim: Content = NO_CONTENT,
) -> dict[str, Fact]:
    """Fact name → Fact for one row. `row` holds only the cells that are filled, by Column.key; `cell` says where one stands."""
    facts = dict(assumed(item, knowledge))
    facts.update(derived(content, trim, cell, knowledge))
    facts.update(made(item, knowledge, cell))
    facts.update(told_weight(str(row.get("cloth", "")), cell("cloth"), item, knowledge))
    facts.update(measured(row, cell))
    for column in TYPED:
        if column.key in row:
            value = frozenset(words(row[column.key])) if column.several else row[column.key]
            facts[column.key] = Fact(value, "typed", cell(column.key))
    return facts


def words(text: str) -> list[str]:
    """`sequins, beads` → its parts."""
    return [part.strip() for part in text.split(",") if part.strip()]


def assumed(item: Cloth | Construction, knowledge: Knowledge) -> Iterator[tuple[str, Fact]]:
    """What is usual: for an empty cell, then for the construction, then for the cloth; the later replaces the earlier."""
    several = {column.key for column in FABRICS.columns if column.several}
    construction = knowledge.constructions[getattr(item, "construction", item.id)]
    layers = (
        ("usual.toml", knowledge.tables["usual"]["usual"]),
        (construction.id, construction.usual),
        (item.id, item.usual),
    )
    for where, usual in layers:
        for name, value in usual.items():
            held = frozenset([value] if isinstance(value, str) else value) if name in several else value
            yield name, Fact(held, "assumed", where)


def made(item: Cloth | Construction, knowledge: Knowledge, cell: Callable[[str], str]) -> dict[str, Fact]:
    """How it is made, from the Cloth cell."""
    construction = knowledge.constructions[getattr(item, "construction", item.id)]
    where = cell("cloth")
    return {
        "cloth": Fact(item.id, "derived", where),
        "construction": Fact(construction.id, "derived", where),
        "structure": Fact(construction.structure, "derived", where),
        "families": Fact(frozenset((*construction.families, *item.families)), "derived", where),
    }


def derived(content: Content, trim: Content, cell: Callable[[str], str], knowledge: Knowledge) -> dict[str, Fact]:
    """What the fibre content says. A share that nobody stated leaves its percentages unknown."""
    shares = content.fibres()
    every = frozenset(shares) | (frozenset(trim.fibres()) if trim.sections else frozenset())
    groups = {fibre: knowledge.fibres[fibre].group for fibre in every}
    where = cell("fibre_content")
    values: dict[str, Value] = {
        "fibres": every,
        "fibre_groups": frozenset(groups.values()),
        "main_fibre": max(shares, key=lambda f: (shares[f] or 0, f)),
        "fibre_count": len(shares),
        "elastane_pct": total(shares, {"elastane", "elastodiene"}),
        "metallic_pct": total(shares, {"metallic"}),
        "synthetic_pct": total(shares, {f for f in shares if groups[f] == "synthetic"}),
        "wool_pct": total(shares, {f for f in shares if groups[f] == "protein" and f != "silk"}),
    }
    facts = {name: Fact(value, "derived", where) for name, value in values.items() if value is not None}
    if content.coating:
        facts["coating"] = Fact(content.coating, "derived", where)
    return facts


def total(shares: Mapping[str, float | None], wanted: set[str]) -> float | None:
    """The summed share of some fibres in percent, all of it where there is no other; None when one has a share nobody stated."""
    if set(shares) <= wanted:
        return 100.0
    found = [shares[fibre] for fibre in shares if fibre in wanted]
    return None if None in found or "unknown" in shares else sum(pct for pct in found if pct is not None)
