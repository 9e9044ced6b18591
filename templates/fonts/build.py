"""Makes the fonts in this folder: static, renamed, subset cuts of two open fonts. Run once by hand; the build never does.

Needs fonttools and the two sources:
    pip download --no-deps fontpkg-source-sans-3==3.52      (the variable TTF is inside the wheel; SIL OFL 1.1)
    DejaVuSans.ttf 2.37 from Debian's fonts-dejavu-core     (Bitstream Vera licence and public domain)
    python build.py "SourceSans3[wght].ttf" DejaVuSans.ttf
Both licences let changed copies travel under another name: OFL forbids the reserved name, Vera its own two.
Layout tables are dropped, because the pages set characters one by one. Prints the SHA-256 of what it wrote.
"""

from __future__ import annotations

import hashlib
import sys
from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

HERE = Path(__file__).resolve().parent
FAMILY = "Handout Sans"
SPARE = "Handout Spare"
EPOCH = 3849552000  # 2026-01-01 in the seconds-since-1904 of a font's head table, so that the bytes are the same every time

TEXT = [
    (0x20, 0x7E), (0xA0, 0x24F), (0x259, 0x259), (0x2B0, 0x2FF), (0x300, 0x333), (0x370, 0x3FF), (0x400, 0x52F),
    (0x1E00, 0x1EFF), (0x2000, 0x206F), (0x2070, 0x209F), (0x20A0, 0x20BF), (0x2100, 0x214F), (0x2150, 0x215F),
    (0x2190, 0x21FF), (0x2200, 0x226F), (0x25A0, 0x25FF), (0x2610, 0x2612), (0x2640, 0x2642), (0x2701, 0x2727),
]  # fmt: skip
"""Latin with both extensions, Greek, Cyrillic, Vietnamese, fractions, arrows, signs."""
EXTRA = [*TEXT, (0x250, 0x2AF), (0x530, 0x58F), (0x10A0, 0x10FF)]
"""What the spare font adds where it can: phonetic signs, Armenian, Georgian. No script that needs shaping."""


def points(ranges: list[tuple[int, int]]) -> list[int]:
    """Every code point of the ranges."""
    return [code for first, last in ranges for code in range(first, last + 1)]


def rename(font: TTFont, family: str, style: str) -> None:
    """Gives the font a name of our own; two cuts with one PostScript name would print as one."""
    table = font["name"]
    full = f"{family} {style}"
    names = {1: family, 2: style, 3: f"{full} 1.0", 4: full, 6: f"{family.replace(' ', '')}-{style}"}
    kept = [record for record in table.names if record.nameID in (0, 13, 14) and record.platformID == 3]
    table.names = kept
    for number, words in names.items():
        table.setName(words, number, 3, 1, 0x409)
    font["OS/2"].usWeightClass = 700 if style == "Bold" else 400
    font["head"].macStyle = 1 if style == "Bold" else 0
    font["head"].created = font["head"].modified = EPOCH


def cut(font: TTFont, codes: list[int], path: Path) -> None:
    """Keeps only `codes`, drops layout tables and hints, writes the file."""
    options = Options(layout_features=[], hinting=False, name_IDs=["*"], notdef_outline=True, recalc_timestamp=False)
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "BASE", "STAT", "DSIG", "FFTM", "kern"]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=codes)
    subsetter.subset(font)
    font.recalcTimestamp = False
    font.save(path)
    print(hashlib.sha256(path.read_bytes()).hexdigest(), path.name, path.stat().st_size)


def main(variable: str, spare: str) -> None:
    """Writes the three fonts beside this script."""
    for style, weight in (("Regular", 400), ("Bold", 700)):
        font = instantiateVariableFont(TTFont(variable, recalcTimestamp=False), {"wght": weight})
        rename(font, FAMILY, style)
        cut(font, points(TEXT), HERE / f"HandoutSans-{style}.ttf")
    have = set(TTFont(HERE / "HandoutSans-Regular.ttf").getBestCmap())
    font = TTFont(spare, recalcTimestamp=False)
    rename(font, SPARE, "Regular")
    cut(font, [code for code in points(EXTRA) if code not in have], HERE / "HandoutSpare-Regular.ttf")


if __name__ == "__main__":
    main(*sys.argv[1:])
