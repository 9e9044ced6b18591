"""Two invented classes, made by hand: twelve cloths for coats and linings, and a shop list of sixty."""

from __future__ import annotations

from itertools import product

from handouts.records import Fabric
from tests.class_by_hand import fabric, mm, nm, serger


def twelve() -> tuple[Fabric, ...]:
    """An evening class on coats and their linings, in the order in which a teacher might list them. Invented settings."""
    walking, deep = (
        ("Use a walking foot.",),
        {"nap": "deep", "one_way": True, "families": ("fur fabric",), "structure": "knit"},
    )
    return (
        fabric(
            "W1",
            "Plum wool coating",
            2,
            {"width_cm": 150, "price_per_m": 32.0},
            steam="high",
            needle_nm=nm(90),
            stitch_mm=mm(3.0),
            foot=walking,
            press_cloth="always",
            seam_finish=("bound",),
            watch_out=("Pressing hard on the right side leaves shine.",),
        ),
        fabric(
            "W2",
            "Acetate lining",
            1,
            {"width_cm": 140, "price_per_m": 9.5},
            steam="none",
            needle_point=("sharp",),
            needle_nm=nm(70),
            stitch_mm=mm(2.0),
            seam_finish=("pinked",),
            press_cloth="always",
            watch_out=("One drop of water leaves a ring.",),
            pretreat=("Do not wash it.",),
            thread="polyester, Tex 21",
        ),
        fabric(
            "W3",
            "Boiled wool, moss",
            2,
            {"width_cm": 140, "structure": "knit", "thickness_mm": 2.2},
            needle_nm=nm(90),
            stitch_mm=mm(3.0),
            foot=walking,
            press_cloth="always",
            seam_finish=("none",),
            hold=("clips",),
            watch_out=("Steam held in one place shrinks it.",),
        ),
        fabric(
            "W4",
            "Herringbone tweed",
            2,
            {"one_way": True, "width_cm": 150},
            stitch_mm=mm(2.5),
            press_cloth="always",
            seam_finish=("overlock", "bound"),
            serger=serger(3),
            watch_out=("It frays while you look at it.",),
            pretreat=("Do not wash; steam it all over.",),
        ),
        fabric(
            "W5",
            "Ponte, navy",
            2,
            {"structure": "knit", "width_cm": 150, "stretch_across_pct": 30},
            steam="low",
            needle_point=("stretch",),
            needle_nm=nm(90),
            stitch="304 zigzag",
            serger=serger(4, 1.3, 1.5),
            seam_finish=("overlock",),
            press_direction="one side",
            watch_out=(),
        ),
        fabric(
            "W6",
            "Corduroy, eight wale",
            3,
            {"nap": "short", "one_way": True, "width_cm": 140},
            needle_nm=nm(90),
            stitch_mm=mm(3.0),
            foot=walking,
            seam_finish=("overlock",),
            serger=serger(4),
            watch_out=("A bare iron crushes the pile.",),
            cut_layers="single",
        ),
        fabric(
            "W7",
            "Waxed canvas",
            0,
            {"width_cm": 148},
            steam="none",
            needle_point=("jeans",),
            needle_nm=nm(100),
            stitch_mm=mm(3.5),
            foot=walking,
            seam_finish=("lapped", "bound"),
            hold=("clips", "tape"),
            watch_out=("Needle holes stay.",),
            pretreat=("Do not wash it.",),
            press_cloth="never",
            interfacing=("No fusible: the wax keeps the glue off.",),
        ),
        fabric(
            "W8",
            "Quilted nylon",
            1,
            {"width_cm": 140},
            steam="none",
            needle_point=("sharp",),
            foot=walking,
            stitch_mm=mm(3.0),
            seam_finish=("bound",),
            hold=("clips",),
            press_cloth="always",
            watch_out=(),
        ),
        fabric(
            "W9",
            "Long-pile fur fabric",
            0,
            deep,
            steam="none",
            needle_nm=nm(100),
            stitch_mm=mm(3.5),
            foot=("Use a roller foot.",),
            seam_finish=("none",),
            watch_out=("Cut the backing only, never the pile.",),
            cut_layers="single",
            press_cloth="never",
        ),
        fabric(
            "W10",
            "Cotton twill, stone",
            3,
            {"width_cm": 145, "price_per_m": 14.0},
            steam="high",
            needle_point=("jeans",),
            needle_nm=nm(90),
            stitch_mm=mm(2.8),
            seam_finish=("flat-felled", "overlock"),
            press_side="either",
            watch_out=(),
        ),
        fabric(
            "W11",
            "Viscose twill lining",
            1,
            {"width_cm": 140},
            steam="none",
            needle_point=("sharp",),
            needle_nm=nm(70),
            stitch_mm=mm(2.2),
            seam_finish=("overlock", "french"),
            serger=serger(3),
            watch_out=("Wet, it is weak: do not wring it.",),
        ),
        fabric(
            "W12",
            "Polyester fleece",
            0,
            {"structure": "knit", "families": ("fleece",), "nap": "brushed", "width_cm": 150},
            steam="none",
            needle_point=("stretch",),
            needle_nm=nm(90),
            stitch="304 zigzag",
            stitch_mm=mm(3.0),
            serger=serger(4, 1.3, 1.5),
            seam_finish=("overlock",),
            press_cloth="never",
            watch_out=("Melts at once under an iron.",),
        ),
    )


def sixty() -> tuple[Fabric, ...]:
    """A shop list: sixty fabrics of every heat with long and short names, none of them real."""
    points, feet = (
        ("universal", "sharp", "stretch", "jeans", "leather"),
        ("Use the all-purpose foot.", "Use a walking foot."),
    )
    finishes = ("overlock", "french", "none", "bound", "zigzag", "flat-felled")
    names = (
        "Linen",
        "Viscose challis with a very long trade description",
        "Silk satin",
        "Wool melton",
        "Stretch denim",
    )
    made = []
    for number, (dots, size, name) in enumerate(product((0, 1, 2, 3), (70, 80, 90), names), start=1):
        made.append(
            fabric(
                f"S{number}",
                f"{name} no. {number}",
                dots,
                {"one_way": number % 7 == 0, "width_cm": 110 + number % 5 * 10},
                needle_point=(points[number * 3 % 5],),
                needle_nm=nm(size),
                stitch_mm=mm(2 + number % 4 / 2),
                foot=(feet[number % 3 == 0],),
                seam_finish=(finishes[number % 6],),
                serger=serger(3 + number % 2) if number % 6 == 0 else serger(use="no", threads=0),
                steam="none" if dots < 2 else ("medium", "high")[number % 2],
                press_cloth=("optional", "always")[number % 4 == 0],
                watch_out=("A line about what cannot be undone, as long as a rule allows it.",) if number % 3 else (),
            )
        )
    return tuple(made)
