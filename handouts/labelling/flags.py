"""Lines for a card about fire, fumes and animal parts, each with its source and who decides in the end."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from handouts.labelling.draft import ANIMAL
from handouts.labelling.names import limit, rule_list
from handouts.labelling.statement import plain_facts
from handouts.labelling.words import Lexicon, lexicon
from handouts.model import Knowledge
from handouts.records import Content, Spoke

RAISED = ("brushed", "short", "deep")


def flags(content: Content, facts: Mapping[str, Any], market: str, knowledge: Knowledge) -> tuple[Spoke, ...]:
    """What the card must warn of: `say` is the line to print, `because` and `sources` its reason. market: US, EU, UK, none."""
    known = lexicon(knowledge)
    values = plain_facts(facts)
    return tuple(spoke(id, known) for id in raised(content, values, market, known))


def spoke(id: str, known: Lexicon) -> Spoke:
    """One flag of labelling.toml as a rule that spoke."""
    record = known.table["flag"][id]
    return Spoke(
        f"flag-{id}", None, record["because"], tuple(record["sources"]), "fibre", say=record["say"], safety=True
    )


def raised(content: Content, facts: Mapping[str, Any], market: str, known: Lexicon) -> Iterator[str]:
    """The flags that hold, by id."""
    if flares(content, known) and facts.get("nap") in RAISED:
        yield "raised-flammable"
    elif (flares(content, known) or is_silk(content)) and below(facts, known):
        yield "light-flammable"
    if content.coating == "PVC" or facts.get("coating") == "PVC":
        yield "pvc-fumes"
    yield from animal(content, facts, market)


def below(facts: Mapping[str, Any], known: Lexicon) -> bool:
    """Whether the cloth is under the weight from which plain cloth needs no test, in g/m²."""
    weight = facts.get("weight_gsm")
    return isinstance(weight, (int, float)) and weight < limit(known.knowledge, "flammable_below")


def flares(content: Content, known: Lexicon) -> bool:
    """Whether plant or regenerated fibres are in the cloth: a blend with exempt fibres only is exempt, others are not."""
    groups = rule_list(known.knowledge, "cellulosic")
    return any(known.fibre(f).group in groups for f in content.fibres() if f in known.knowledge.fibres)


def is_silk(content: Content) -> bool:
    """Whether silk is in the cloth."""
    return "silk" in content.fibres()


def animal(content: Content, facts: Mapping[str, Any], market: str) -> Iterator[str]:
    """The phrase for parts of animal origin, in the European Union and the United Kingdom; leather sold as leather."""
    trims = facts.get("trim") or ()
    feathers = "feathers" in ([trims] if isinstance(trims, str) else trims)
    if content.skin and not content.sections:
        yield "leather-skin"
    elif market in ("EU", "UK") and (content.skin or feathers or any(s.part == ANIMAL for s in content.sections)):
        yield "animal-parts"
