"""From entries to fabrics: advice, what would change it, its likes, its label."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache

from handouts import advice, knowledge, labelling
from handouts.model import Knowledge, Rule, Value
from handouts.pipeline.reading import Entry, read_entry
from handouts.problems import Problem, problem
from handouts.records import Content, Decision, Fabric, Fact, Label, Section, Share, Tested


def advise_entries(
    entries: Sequence[Entry],
    base: Knowledge,
    settings: Mapping[str, Value],
    house: Sequence[Rule] = (),
    around: bool = True,
) -> list[Fabric]:
    """Every entry with its advice and label. around: also what might or would change it, and its likes."""
    facts = [entry.facts for entry in entries]
    own = [entry.choices for entry in entries]
    decided = advice.advise(facts, base, own, house, mights=around)
    reach = base.number("weight_reach")
    turning = advice.changes(facts, base, decided, reach, own, house) if around else [()] * len(entries)
    near = neighbours(facts) if around else None
    return [
        Fabric(
            entry.code, entry.name, entry.row, entry.item.id, entry.item.name, entry.content, entry.facts, decisions, turns,
            advice.likenesses(entry.item.id, entry.facts, decisions, near, base) if near else (),
            label_of(entry, base, settings, decisions), tested_of(entry.cells), str(entry.cells.get("notes", "")),
            {key: entry.cells[key] for key in SHOP_CELLS if key in entry.cells},
            labelling.flags(entry.content, entry.facts, str(settings.get("market") or "none"), base),
        )
        for entry, decisions, turns in zip(entries, decided, turning, strict=True)
    ]  # fmt: skip


SHOP_CELLS = ("origin", "link", "shop_cards")
"""Columns that only the shop's pages need."""


def label_of(entry: Entry, base: Knowledge, settings: Mapping[str, Value], decisions: Mapping[str, Decision]) -> Label:
    """The fibre statement and care lines of one fabric for the market of the class; no hotter or wetter than advised."""
    facts = {name: fact.value for name, fact in entry.facts.items()}
    made = labelling.label(
        entry.content,
        settings.get("market", "none"),
        base,
        supplier_care=str(entry.cells.get("supplier_care", "")),
        facts={
            **facts,
            "press_dots": decisions["press_dots"].value,
            "steam": decisions["steam"].value,
            "no_wash": washing_forbidden(decisions),
        },
        prepared_by=str(settings.get("prepared_by") or ""),
    )
    return replace(made, problems=tuple(at_its_cell(found, entry) for found in made.problems))


def origin_of(entry: Entry, base: Knowledge, settings: Mapping[str, Value]) -> Iterator[Problem]:
    """What is wrong with the origin typed for a fabric, in its own cell."""
    typed, market = str(entry.cells.get("origin", "")), str(settings.get("market") or "none")
    return labelling.origin_problems(typed, market, base, entry.cell("origin"))


def washing_forbidden(decisions: Mapping[str, Decision]) -> tuple[Value, ...]:
    """What printed lines of Before cutting forbid (wash, machine wash): the care card cannot advise that."""
    return tuple(word for spoke in decisions["pretreat"].won for word in spoke.never)


def tested_of(cells: Mapping[str, Value]) -> Tested:
    """What the test seam showed, from the four Tested columns."""
    return Tested(
        str(cells.get("tested_needle", "")),
        cells.get("tested_stitch_mm"),
        str(cells.get("tested_iron", "")),
        str(cells.get("tested_on", "")),
    )


@cache
def usual_facts() -> dict[str, dict[str, Fact]]:
    """The facts of every known cloth as it usually is, by cloth id."""
    base = knowledge.load()
    contents = {text: labelling.read_content(text, base) for text in {c.usual_content for c in base.cloths.values()}}
    return {
        id: advice.facts_of({}, lambda key: "usual", cloth, contents[cloth.usual_content], base)
        for id, cloth in base.cloths.items()
    }


PLAIN = ("plain-weave", "twill", "pile-weave", "jersey")
"""Constructions in which every fibre is asked when coverage is counted."""


def of_every_fibre() -> Iterator[dict[str, Fact]]:
    """The facts of a plain, a twilled, a pile and a knitted cloth of every fibre."""
    base = knowledge.load()
    for fibre in base.fibres:
        content = Content("", (Section("", (Share(None if fibre == "unknown" else fibre, 100.0, fibre),)),))
        for construction in PLAIN:
            yield advice.facts_of({}, lambda key: "probe", base.constructions[construction], content, base)


def neighbours(fabrics: Sequence[Mapping[str, Fact]]) -> advice.Neighbours:
    """The known cloths that are related to any of some fabrics, decided as they usually are."""
    base = knowledge.load()
    near = {id: facts for id, facts in usual_facts().items() if any(advice.related(mine, facts) for mine in fabrics)}
    decided = advice.advise(list(near.values()), base, mights=False, topics=advice.COMPARED)
    return advice.Neighbours({id: base.cloths[id].name for id in near}, near, dict(zip(near, decided, strict=True)))


def advise_fabrics(rows: Sequence[Mapping[str, Value]], settings: Mapping[str, Value] | None = None) -> list[Fabric]:
    """Fabrics for rows given as values by Column.key, without a workbook. Raises ValueError for a cloth nobody knows."""
    base = knowledge.load()
    entries = []
    for place, cells in enumerate(rows, start=1):
        entry, problems = read_entry(cells, place + 1, place, lambda key: f"Fabrics!{key}", base)
        if entry is None:
            raise ValueError(f"{cells}: " + " ".join(map(str, problems)))
        entries.append(entry)
    return advise_entries(entries, base, settings or {})


def findings(
    entries: Sequence[Entry], fabrics: Sequence[Fabric], base: Knowledge, settings: Mapping[str, Value]
) -> Iterator[Problem]:
    """What the advice itself has to say: clashing rules, test seams that disagree, statements that cannot stand."""
    yield from clashes(fabrics, base)
    for entry, fabric in zip(entries, fabrics, strict=True):
        yield from advice.disagreements(fabric.tested, fabric.advice, entry.cell, base)
        yield from fabric.label.problems if fabric.label else ()
        yield from origin_of(entry, base, settings)


def test_seams(entries: Sequence[Entry], base: Knowledge, house: Sequence[Rule]) -> Iterator[Problem]:
    """Where a test seam and the rules disagree; decides only what a seam can test, for the fabrics that have one."""
    sewn = [entry for entry in entries if any(key.startswith("tested_") for key in entry.cells)]
    facts, own = [entry.facts for entry in sewn], [entry.choices for entry in sewn]
    decided = advice.advise(facts, base, own, house, mights=False, topics=advice.TESTED) if sewn else []
    for entry, decisions in zip(sewn, decided, strict=True):
        yield from advice.disagreements(tested_of(entry.cells), decisions, entry.cell, base)


CARED = ("press_dots", "steam", "pretreat")
"""Topics that a care label must not go against."""


def statements(
    entries: Sequence[Entry], base: Knowledge, settings: Mapping[str, Value], house: Sequence[Rule] = ()
) -> Iterator[Problem]:
    """What is wrong with fibre statements and supplier care: rows that say the same are asked once, advised where care is."""
    asked: dict[tuple[object, ...], tuple[Problem, ...]] = {}
    once = {said_in(entry): entry for entry in entries}
    caring = {key: entry for key, entry in once.items() if "supplier_care" in entry.cells}
    facts, own = [entry.facts for entry in caring.values()], [entry.choices for entry in caring.values()]
    decided = advice.advise(facts, base, own, house, mights=False, topics=CARED) if caring else []
    for key, decisions in zip(caring, decided, strict=True):
        asked[key] = label_of(caring[key], base, settings, decisions).problems
    for entry in entries:
        key = said_in(entry)
        if key not in asked:
            market = settings.get("market", "none")
            asked[key] = labelling.label(entry.content, market, base, facts=entry.facts).problems
        yield from (at_its_cell(found, entry) for found in asked[key])
        yield from origin_of(entry, base, settings)


def said_in(entry: Entry) -> tuple[object, ...]:
    """What a row says that its label depends on: cloth and fibres, and with supplier care all but its name and price."""
    if "supplier_care" not in entry.cells:
        return entry.item.id, entry.content.typed
    return tuple((key, value) for key, value in entry.cells.items() if key not in NAMING)


NAMING = ("code", "name", "price_per_m", "notes", *SHOP_CELLS)
"""Columns that the label does not depend on."""


def at_its_cell(found: Problem, entry: Entry) -> Problem:
    """A finding about the label with the cell that it is about: the supplier's care words, else the fibre content."""
    return replace(found, cells=(entry.cell("supplier_care" if found.code == "care-conflict" else "fibre_content"),))


def clashes(fabrics: Sequence[Fabric], base: Knowledge) -> list[Problem]:
    """Where two rules of one tier disagree: a fault of ours that the teacher must hear of."""
    return [
        problem(
            "advice-clash", fabric.facts["cloth"].where, topic=base.topics[topic].title, rules=", ".join(decision.clash)
        )
        for fabric in fabrics
        for topic, decision in fabric.advice.items()
        if decision.clash
    ]
