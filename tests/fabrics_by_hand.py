"""Fabrics with their whole advice written by hand, for tests of cards and printing. Invented advice, no rules needed."""

from __future__ import annotations

from typing import Any

from handouts.records import Change, Content, Decision, Fabric, Label, Likeness, Spoke, Tested, Workshop
from handouts.sheets import CLASS
from tests.fabric_parts import advice, decision, facts, said
from tests.long_fabric import long_winded


def boiled_wool() -> Fabric:
    """Weight assumed, tested, with everything that may stand on a card."""
    steam = ("Steam the whole length, lay it flat, let it cool.", "Mark a 20 cm square and measure it again.")
    lasting = said(
        ("A bare iron leaves shine.", "Steam held in one place shrinks it."), "Wool felts.", "family", lasting=True
    )
    watch = said(("Stay shoulders and neck before you sew.",), "A cut edge stretches.", "family")
    return Fabric(
        "W3",
        "Boiled wool, plum",
        4,
        "boiled-wool",
        "boiled wool",
        Content("100% wool", ()),
        facts({"weight_gsm": 350, "frays": 0, "stretch_across_pct": 15}, width_cm=140, curls=True),
        advice(
            pretreat=Decision("pretreat", steam, (said(steam, "Felting may go on.", "family"),)),
            needle_nm={"low": 80, "high": 100, "start": 90},
            stitch_mm={"low": 3.0, "high": 3.5, "start": 3.0},
            foot=("Use a walking foot.", "Lower the foot pressure."),
            seam_finish=decision("seam_finish", ("none", "lapped"), "Felted loops hold each other.", "construction"),
            seam_allowance_mm={"sew": 15, "trim": 6},
            press_cloth="always",
            suits=("jackets", "coats"),
            watch_out=Decision("watch_out", (*lasting.value, *watch.value), (lasting, watch)),
        ),
        (
            Change("weight_gsm", 420, False, "needle_nm", {"low": 90, "high": 110, "start": 100}),
            Change("weight_gsm", 420, False, "stitch_mm", {"low": 3, "high": 4, "start": 3.5}),
            Change("weight_gsm", 260, True, "needle_nm", {"low": 70, "high": 90, "start": 80}),
        ),
        (Likeness("wool-felt", "wool felt", {"press_direction": "one side"}), Likeness("loden", "loden", {})),
        Label("EU", ("100 % wool",), ("Dry clean, or cool hand wash.",), "not stated"),
        Tested("jeans 90/14", 3.5, "wool", "2026-11-02"),
    )


def challis() -> Fabric:
    """Light viscose: rotary cutter and weights, sharp 70, no steam. The weight is not known."""
    might = said(
        {"low": 60, "high": 70, "start": 60},
        "Very light.",
        "weight",
        unknown=("weight_gsm",),
        test="weight under 90 g/m²",
    )
    return Fabric(
        "W5",
        "Viscose challis",
        6,
        "viscose-challis",
        "rayon challis",
        Content("100% viscose", ()),
        facts({"slippery": 2, "frays": 2}, width_cm=138),
        advice(
            press_dots=1,
            press_c=110,
            iron_word="silk",
            steam="none",
            needle_point=("sharp",),
            cut_tool=decision("cut_tool", "rotary", "Shears lift and shift it.", "family"),
            hold=("weights", "fine pins"),
            needle_nm=Decision("needle_nm", {"low": 60, "high": 80, "start": 70}, (said(70),), (might,)),
            serger={"use": "yes", "threads": 3, "differential": {"low": 1.0, "high": 1.0}},
            seam_finish=("overlock", "french"),
        ),
    )


def lining() -> Fabric:
    """Acetate with the teacher's own, riskier iron setting."""
    own = decision(
        "press_dots",
        2,
        "Typed in the row.",
        "typed",
        choice="typed",
        cautions=(said(1, "Acetate softens above 110 °C."),),
    )
    return Fabric(
        "W2",
        "Acetate lining",
        3,
        "acetate-lining",
        "acetate lining",
        Content("100% acetate", ()),
        facts(weight_gsm=75, width_cm=140, synthetic_pct=0),
        advice(
            press_dots=own,
            steam="none",
            needle_point=("sharp",),
            needle_nm={"low": 60, "high": 70, "start": 70},
            seam_finish=("pinked",),
        ),
        notes="Ask for the offcuts: there is a bag under table 2.",
    )


def waxed_canvas() -> Fabric:
    """No iron, no pins, holes stay."""
    held = Decision(
        "hold",
        ("clips", "tape"),
        (said(("clips", "tape"), "A needle hole stays.", "surface"),),
        lost=(Spoke("hold-no-pins", None, "A pin hole stays.", (), "surface"),),
    )
    lasting = said(("Every needle hole stays.", "An iron melts the wax out for good."), "Wax.", "surface", lasting=True)
    return Fabric(
        "W7",
        "Waxed canvas",
        8,
        "waxed-canvas",
        "waxed canvas",
        Content("100% cotton, waxed", ()),
        facts(weight_gsm=400, width_cm=148, coating="wax"),
        advice(
            press_dots=0,
            press_c=0,
            iron_word="no iron",
            steam="none",
            press_cloth="never",
            press_direction="finger",
            hold=held,
            needle_point=("jeans", "topstitch"),
            needle_nm={"low": 100, "high": 110, "start": 100},
            stitch_mm={"low": 3.5, "high": 4.0, "start": 3.5},
            seam_finish=("flat-felled", "bound"),
            cut_layers="single",
            watch_out=Decision("watch_out", lasting.value, (lasting,)),
        ),
    )


def plain() -> Fabric:
    """Only what a card cannot do without."""
    return Fabric(
        "W9",
        "Linen",
        10,
        "linen",
        "linen",
        Content("100% linen", ()),
        {},
        advice(press_dots=3, press_c=200, iron_word="linen", steam="high"),
    )


def all_fabrics() -> tuple[Fabric, ...]:
    """Six fabrics, the long-winded one last."""
    return (boiled_wool(), challis(), lining(), waxed_canvas(), plain(), long_winded())


def workshop(*fabrics: Fabric, **settings: Any) -> Workshop:
    """A class of these fabrics, the Class sheet ordinary but for `settings`."""
    ordinary = {column.key: column.default for column in CLASS.columns}
    given = {**ordinary, "title": "Outerwear, evening class", "teacher": "A. Example", **settings}
    return Workshop("outerwear", given, fabrics or all_fabrics(), ())
