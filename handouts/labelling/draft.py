"""A Fibre content cell half read: sections fill up clause by clause, then become a Content."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from handouts.labelling.shares import SHOWN, Finding, figure, section_findings
from handouts.labelling.words import Lexicon
from handouts.records import Content, Section, Share

MOST_FINDINGS = 8
"""Findings told about one cell; judgement: more than these is a cell to write anew."""


ANIMAL = "animal parts"
"""The section that notes non-textile parts of animal origin; it holds no shares."""
LOADING = "loading"
"""The section that notes non-fibrous loading, filling or weighting, in percent; it holds no shares (16 CFR 300.3(a)(2))."""


@dataclass
class Draft:
    """What has been read so far. `part` is the section that the next unlabelled share belongs to."""

    lexicon: Lexicon
    part: str = ""
    sections: dict[str, list[Share]] = field(default_factory=dict)
    pcts: dict[str, float] = field(default_factory=dict)
    exclusive: str = ""
    coating: str = ""
    skin: str = ""
    unknown: bool = False
    remnants: str = ""
    union: bool = False
    film: bool = False  # a coating has a share, perhaps one of those that make 100
    findings: list[Finding] = field(default_factory=list)

    def add(self, share: Share, part: str | None = None) -> None:
        """Puts a share into its section, under the running label when none is given."""
        self.sections.setdefault(self.part if part is None else part, []).append(share)

    def total(self, part: str) -> float:
        """The percent read so far in a section."""
        return sum(share.pct or 0.0 for share in self.sections.get(part, ()))

    def say(self, code: str, **found: object) -> None:
        """Notes a finding, unless the same was noted."""
        if (code, found) not in self.findings:
            self.findings.append((code, found))

    def done(self, typed: str) -> Content:
        """The finished Content, with the findings about whole sections."""
        self.settle()
        for part, shares in self.sections.items():
            for code, found in section_findings(shares, part, self.lexicon):
                self.say(code, **found)
        self.check_parts()
        self.check_whole(typed)
        return Content(
            typed,
            tuple(Section(part, tuple(shares), self.pcts.get(part)) for part, shares in self.sections.items()),
            exclusive_of=self.exclusive,
            coating=self.coating,
            skin=self.skin,
            unknown=self.unknown,
            remnants=self.remnants,
            findings=tuple(self.findings[:MOST_FINDINGS]),
        )

    def settle(self) -> None:
        """A lone fibre without a figure is 100 %; words beside a full hundred are no fibre; a film is taken from its base."""
        for part, shares in self.sections.items():
            if len(shares) == 1 and shares[0].pct is None and part not in ("elastic", "except", "ornament"):
                shares[0] = replace(shares[0], pct=100.0)
            if round(self.total(part), 6) == 100:
                self.sections[part] = [share for share in shares if not self.beside(share)]
        self.settle_film()
        if len(self.sections) > 1 and not self.sections.get("", [None]):
            self.sections.pop("", None)

    def settle_film(self) -> None:
        """A film that is one of the shares that make 100 is taken from its base; one that comes on top keeps its percent."""
        over = self.total("coating")
        if self.coating and 0 < over < 100 and round(self.total("") + over, 6) == 100:
            self.pcts["coating"], self.film = over, bool(self.sections.pop("coating"))
        if self.film and round(self.total("") + self.pcts["coating"], 6) == 100:
            self.pcts[""], base = self.total(""), self.sections.get("", [])
            self.sections[""] = [replace(s, pct=part_of(s.pct, self.pcts[""])) for s in base]
        elif self.film:
            self.sections.setdefault("coating", [])

    def beside(self, share: Share) -> bool:
        """Whether a share is only words that stand beside the fibres (care, a name); then they are noted as such."""
        unread = [f for f in self.findings if f[0] == "content-unknown-word" and f[1]["found"] == share.words[:SHOWN]]
        if share.fibre is not None or share.pct is not None or not unread:
            return False
        self.findings = [finding for finding in self.findings if finding not in unread]
        self.say("content-beside", found=share.words[:SHOWN])
        return True

    def check_whole(self, typed: str) -> None:
        """A union without yarns, and a cell in which nothing was found."""
        full = any(self.sections.values())
        if self.union and not full:
            self.say("content-union")
            self.sections = {"": [Share(fibre, None, fibre) for fibre in ("cotton", "linen")]}
        elif typed.strip() and not (
            full or self.unknown or self.skin or self.coating or self.remnants or self.findings
        ):
            self.say("content-nothing", found=typed.strip()[:SHOWN])

    def check_parts(self) -> None:
        """Shares of the parts must make 100 when every part has one."""
        parts = [part for part in self.pcts if part not in ("except", "ornament", "coating", LOADING, "")]
        total = round(sum(self.pcts[part] for part in parts), 6)
        if len(parts) > 1 and total != 100:
            self.say(
                "content-sum", part=" of the parts", total=figure(total), proposal="Check the shares of the parts."
            )
        for part in parts:
            if part not in self.sections and not (part == "pile" and "face" in self.sections):
                self.say("content-part", part=part)


def part_of(pct: float | None, whole: float) -> float | None:
    """A share of the whole cloth as a share of its base, in percent."""
    return None if pct is None else round(pct / whole * 100, 1)
