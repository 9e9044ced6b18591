"""Claims about wool that need proof: Super numbers, virgin wool, cashmere; and figures of the law worked out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from handouts.labelling.content import MICRON, SUPER
from handouts.labelling.names import all_shares, is_virgin, is_wool, limit, rule_list
from handouts.labelling.shares import figure, spelt
from handouts.labelling.words import Lexicon
from handouts.model import Knowledge
from handouts.problems import Problem, problem
from handouts.records import Content, Share


@dataclass(frozen=True)
class Claims:
    """The content without claims that do not hold, the claims that do, and what to say of the others."""

    content: Content
    lines: tuple[str, ...] = ()
    problems: tuple[Problem, ...] = ()


def us_claims(content: Content, lexicon: Lexicon, cell: tuple[str, ...]) -> Claims:
    """Super numbers (15 USC 68b) and virgin wool (16 CFR 300.20), kept only when they are shown to hold."""
    lines, problems = super_claim(content, lexicon, cell)
    recycled = any(
        is_wool(s, lexicon.knowledge) and lexicon.has("recycled", spelt(s.words.split())) for s in all_shares(content)
    )
    virgin = [s for s in all_shares(content) if is_wool(s, lexicon.knowledge) and is_virgin(s, lexicon)]
    if recycled and virgin:
        problems.append(problem("label-virgin", *cell, reason="part of the wool is recycled (16 CFR 300.20)."))
        content = without_virgin(content, lexicon)
    return Claims(content, tuple(lines), tuple(problems))


def without_virgin(content: Content, lexicon: Lexicon) -> Content:
    """The same content, virgin and new taken out of the words."""
    drop = lexicon.groups["virgin"]

    def bare(share: Share) -> Share:
        words = [word for word in share.words.split() if "".join(spelt([word])) not in drop]
        return replace(share, words=" ".join(words) or lexicon.fibre(share.fibre or "wool").us)

    sections = tuple(replace(section, shares=tuple(map(bare, section.shares))) for section in content.sections)
    return replace(content, sections=sections)


def super_claim(content: Content, lexicon: Lexicon, cell: tuple[str, ...]) -> tuple[list[str], list[Problem]]:
    """`Super 130's` when the diameter typed beside it is fine enough, else the reason it is left off."""
    found = SUPER.search(content.typed)
    if not found:
        return [], []
    claim = int(found[1])
    most = super_most_um(claim, lexicon.knowledge)
    mean = MICRON.search(content.typed)
    if most is None:
        reason = "Super numbers run from 80 to 250 by tens."
    elif not mean:
        reason = f"it needs wool of {figure(most)} µm or finer, and no diameter is given (15 USC 68b)."
    elif float(mean[1].replace(",", ".")) > most:
        reason = f"{mean[1]} µm is coarser than the {figure(most)} µm it needs (15 USC 68b)."
    else:
        return [f"Super {claim}'s"], []
    return [], [problem("label-super", *cell, number=claim, reason=reason)]


def super_most_um(claim: int, knowledge: Knowledge) -> float | None:
    """The greatest mean fibre diameter in µm for a Super number; None when there is no such number."""
    table = knowledge.tables["labelling"]["super"]
    steps, odd = divmod(claim - table["first"], table["by"])
    if odd or not table["first"] <= claim <= table["last"]:
        return None
    return round(float(table["first_um"] - table["step_um"] * steps), 2)


def cashmere_refusal(content: Content, lexicon: Lexicon) -> Iterator[str]:
    """Cashmere whose typed diameter is above the limit of 16 CFR 300.19(a)."""
    mean = MICRON.search(content.typed)
    most = limit(lexicon.knowledge, "cashmere_most")
    cashmere = any(share.fibre == "cashmere" for share in all_shares(content))
    if cashmere and mean and float(mean[1].replace(",", ".")) > most:
        yield f"{mean[1]} µm is coarser than cashmere may be, {figure(most)} µm (16 CFR 300.19)."


def eu_virgin(content: Content, lines: tuple[str, ...], lexicon: Lexicon, cell: tuple[str, ...]) -> Iterator[Problem]:
    """A note when virgin was typed and the statement may not carry it (Art. 8)."""
    wools = rule_list(lexicon.knowledge, "eu_virgin")
    typed = [share for share in all_shares(content) if share.fibre in wools and is_virgin(share, lexicon)]
    if typed and not any(re.search(r"\b(virgin|fleece)\b", line) for line in lines):
        reason = (
            "in a mixture it needs 25 % or more, one other fibre only, and no other wool (Regulation 1007/2011 Art. 8)."
        )
        yield problem("label-virgin", *cell, reason=reason)


def within_tolerance(
    stated_pct: float, found_pct: float, knowledge: Knowledge, fibres: int = 2, wool: bool = False
) -> bool:
    """Whether a laboratory's percent agrees with the label's (16 CFR 303.43): 3 points for blends, none for one fibre or wool."""
    allowed = limit(knowledge, "us_tolerance") if fibres > 1 and not wool else 0.0
    return abs(round(found_pct - stated_pct, 6)) <= allowed


def label_percentages(
    dry: Mapping[str, float], knowledge: Knowledge, lost: Mapping[str, float] | None = None
) -> dict[str, float]:
    """Label percent by fibre from dry mass (any unit): mass × (1 + (allowance + loss) / 100), Annex VIII and IX; `lost` in %."""
    allowance = knowledge.tables["labelling"]["allowance"]
    real = {f: mass * (1 + (allowance[f] + (lost or {}).get(f, 0.0)) / 100) for f, mass in dry.items()}
    whole = sum(real.values())
    return {fibre: 100 * mass / whole for fibre, mass in real.items()}
