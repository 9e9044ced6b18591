"""Checks by column, in pandas, once every cell is read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from handouts.sheets import FABRICS
from handouts.workbook.limits import DOUBT, SHEER
from handouts.workbook.rows import Rows
from handouts.workbook.unit_words import imperial_of, metric_of, unit_name
from handouts.workbook.words import shown

if TYPE_CHECKING:
    import pandas as pd

MISSING = {"name": "name-missing", "cloth": "cloth-missing", "fibre_content": "content-missing"}


def check_fabrics(rows: Rows, frame: pd.DataFrame, currency: object) -> None:
    """Adds to `rows` what only a whole column shows: what is missing, stands twice, or contradicts itself."""
    _missing(rows, frame)
    _twice(rows, frame, "code", "code-twice")
    _twice(rows, frame, "name", "name-twice")
    _doubtful_units(rows, frame)
    _contradictions(rows, frame)
    if not currency and frame["price_per_m"].notna().any():
        rows.add(int(frame.index[frame["price_per_m"].notna()][0]), "price_per_m", "price-without-currency")


def _missing(rows: Rows, frame: pd.DataFrame) -> None:
    """Required cells that are empty; a column that is not there at all is said once."""
    for key, code in MISSING.items():
        if key not in rows.layout.places:
            if len(frame):
                rows.add(rows.layout.header, key, "column-missing", heading=FABRICS.column(key).title())
            continue
        for row in frame.index[frame[key].isna()]:
            if (row, key) not in rows.faulty:
                rows.add(int(row), key, code)


def _twice(rows: Rows, frame: pd.DataFrame, key: str, code: str) -> None:
    texts = frame[key].dropna().str.casefold()
    for _, same in texts[texts.duplicated(keep=False)].groupby(texts, sort=False):
        first, *others = (int(row) for row in same.index)
        rows.add(
            first, key, code, *(rows.cell(key, row) for row in others[:9]), found=frame.at[first, key], times=len(same)
        )


def _doubtful_units(rows: Rows, frame: pd.DataFrame) -> None:
    """Columns whose middle value makes sense only in the other unit."""
    for key, (low, high) in DOUBT.items():
        place = rows.layout.places.get(key)
        middle = frame[key].median()
        if place is None or not frame[key].notna().any() or low <= middle <= high:
            continue
        column = FABRICS.column(key)
        typed = place.heading.measure or metric_of(column)
        other = imperial_of(column) if typed.own else metric_of(column)
        found = {"heading": shown(place.heading.typed), "unit": unit_name(typed), "other": unit_name(other)}
        figure = f"{float(format(typed.typed(middle), '.3g')):g} {typed.word}"
        rows.add(rows.layout.header, key, "unit-doubtful", middle=figure, **found)


def _contradictions(rows: Rows, frame: pd.DataFrame) -> None:
    heavy = frame["sheer"].fillna(False) & (frame["weight_gsm"] > SHEER["most_gsm"]).fillna(False)
    for row in frame.index[heavy]:
        found = frame["weight_gsm"].loc[row]
        rows.add(int(row), "sheer", "sheer-but-heavy", rows.cell("weight_gsm", int(row)), found=f"{found:.0f}")
    one_way = ~frame["one_way"].fillna(True) & (frame["nap"] == "deep").fillna(False)
    for row in frame.index[one_way]:
        rows.add(int(row), "one_way", "nap-but-not-one-way", rows.cell("nap", int(row)))
