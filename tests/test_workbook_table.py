"""A table as a workbook: the comparison for those who want to sort it."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from handouts import workbook
from handouts.records import Table

TABLE = Table(
    "Coats: a/b [x]",
    ("Fabric", "Needle"),
    (("=cmd|' /C calc'!A0", "universal 80/12"), ("Plum", 2.5), ("A\x07b", None)),
    ("Press first.",),
)


@pytest.mark.parametrize("letter", [False, True])
def test_it_is_ready_to_print(tmp_path: Path, letter: bool) -> None:
    """Landscape, one page wide, headings on every page, frozen on screen; every text a text."""
    (tmp_path / "t.xlsx").write_bytes(workbook.table_bytes(TABLE, letter))
    sheet = openpyxl.load_workbook(tmp_path / "t.xlsx").worksheets[0]
    assert [[cell.value for cell in row] for row in sheet["A3:B6"]] == [
        ["Fabric", "Needle"],
        ["=cmd|' /C calc'!A0", "universal 80/12"],
        ["Plum", 2.5],
        ["Ab", None],
    ]
    assert sheet["A4"].data_type == "s"
    assert (sheet["A1"].value, sheet["A8"].value) == (TABLE.title, "Press first.")
    assert (sheet.print_title_rows, sheet.freeze_panes, sheet.page_setup.orientation) == ("$3:$3", "B4", "landscape")
    assert sheet.page_setup.paperSize == (1 if letter else 9)


def test_same_table_same_bytes() -> None:
    """And none of the signs a sheet's name may not have."""
    assert workbook.table_bytes(TABLE) == workbook.table_bytes(TABLE)
