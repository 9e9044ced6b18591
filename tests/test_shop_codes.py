"""The printed code read back by a general reader of codes that knows nothing of ours (zxing-cpp), from the PDF as pixels."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image

from handouts import knowledge, pages
from handouts.printing import print_pages
from tests.test_shop_pages import VOILE, shop

LINKS = [
    "https://example.org/C01",
    "https://example.org/stoffe/überwurf?farbe=weiß&lang=de",
    "https://example.org/shop/fabrics/cotton/voile/white-voile-140-cm-wide?colour=0417&roll=22#care-and-handling",
]


def scanned(pdf: bytes, folder: Path, dpi: int) -> list[str]:
    """What a reader finds on the first side, printed at so many dots per inch in grey."""
    (folder / "cards.pdf").write_bytes(pdf)
    subprocess.run(
        ["pdftoppm", "-r", str(dpi), "-gray", "-singlefile", "-png", folder / "cards.pdf", folder / "side"], check=True
    )
    with Image.open(folder / "side.png") as side:
        return [code.text for code in zxingcpp.read_barcodes(side)]


@pytest.mark.parametrize("size", ["85 x 55 mm", "A7", "3 x 5 in", "A6"])
@pytest.mark.parametrize("mode", ["crop marks", "tile"])
def test_the_code_on_every_card_of_a_sheet_reads(tmp_path: Path, size: str, mode: str) -> None:
    """Every copy on the sheet, on A4 for one mode and Letter for the other, also where cards lie on their side."""
    paper = "A4" if mode == "tile" else "Letter"
    made = print_pages(pages.shop_cards(shop(VOILE, shop_card=size, shop_sheet=mode, paper=paper), knowledge.load()))
    found = scanned(made.pdf, tmp_path, 300)
    fit = 2 if (size, mode) == ("A6", "crop marks") else 3  # three copies are asked for; two such A6 go on a sheet
    assert found == ["https://example.org/C01"] * fit


@pytest.mark.parametrize("link", LINKS)
@pytest.mark.parametrize("dpi", [150, 600])
def test_long_links_and_other_letters_read_at_any_resolution(tmp_path: Path, link: str, dpi: int) -> None:
    """At 150 dots per inch a square is under three pixels: an old office printer."""
    used = shop(VOILE | {"link": link, "shop_cards": 1.0}, shop_card="A6")
    assert scanned(print_pages(pages.shop_cards(used, knowledge.load())).pdf, tmp_path, dpi) == [link]


def test_a_bolt_end_carries_the_code_too(tmp_path: Path) -> None:
    """One label, one code."""
    made = print_pages(pages.bolt_ends(shop(VOILE), knowledge.load()))
    assert scanned(made.pdf, tmp_path, 300) == ["https://example.org/C01"]
