"""What is worth saying about a sheet as a whole: headings read another way, hidden rows, merged cells, strays."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from handouts.problems import Problem, problem
from handouts.workbook.grid import letters
from handouts.workbook.layout import Layout
from handouts.workbook.unit_words import imperial_of, metric_of
from handouts.workbook.words import closest, did_you_mean, shown


def notes_on(layout: Layout, imperial: bool = False) -> list[Problem]:
    """Everything about the sheet and its headings. imperial: the unit of headings that name none."""
    return [*_headings(layout, imperial), *_hidden(layout), *_merged(layout), *_far(layout)]


def _headings(layout: Layout, imperial: bool) -> Iterator[Problem]:
    sheet, grid, header = layout.sheet, layout.grid, layout.header
    for key, place in sorted(layout.places.items(), key=lambda pair: pair[1].column):
        if place.heading.how != "exact":
            column = sheet.column(key)
            measure = place.heading.measure or (imperial_of(column) if imperial else metric_of(column))
            read = column.heading.format(unit=measure.word)
            yield problem(
                "heading-read-as", grid.cell(header, place.column), found=shown(place.heading.typed), read=read
            )
    for key, place in layout.twice:
        first = grid.cell(header, layout.places[key].column)
        yield problem("heading-twice", first, grid.cell(header, place.column), heading=shown(place.heading.typed))
    titles = [column.title() for column in sheet.columns if column.key not in layout.places]
    for number, typed in layout.unknown.items():
        near = did_you_mean(closest(typed, titles))
        yield problem("heading-unknown", grid.cell(header, number), found=shown(typed), proposal=near)


def _hidden(layout: Layout) -> Iterator[Problem]:
    grid = layout.grid
    if grid.hidden:
        yield problem("sheet-hidden", grid.cell(layout.header, 1), title=grid.title)
    rows = sorted(row for row in grid.look.hidden_rows if row >= layout.first_row and row in grid.rows)
    if rows:
        yield problem("rows-hidden", grid.cell(rows[0], 1), rows=_ranges(rows))
    places = {place.column: place.heading.typed for place in layout.places.values()}
    columns = sorted(places.keys() & grid.look.hidden_columns)
    if columns:
        names = ", ".join(f"{letters(column)} ({shown(places[column])})" for column in columns[:8])
        yield problem("columns-hidden", grid.cell(layout.header, columns[0]), columns=names)


def _merged(layout: Layout) -> Iterator[Problem]:
    blocks = [block for block in layout.grid.look.merged if block[2] > block[0] and block[0] >= layout.first_row]
    if blocks:
        top, left, bottom, _ = blocks[0]
        cells = f"{layout.grid.cell(top, left)}:{letters(left)}{bottom}"
        yield problem("cells-merged", cells, count=len(blocks))


def _far(layout: Layout) -> Iterator[Problem]:
    if layout.grid.look.far:
        row, column = layout.grid.look.far[0]
        yield problem("cells-far", layout.grid.cell(row, column), count=len(layout.grid.look.far))


def _ranges(numbers: Iterable[int]) -> str:
    """5, 6, 7, 12 as “5–7, 12”; the first dozen of them."""
    spans: list[list[int]] = []
    for number in numbers:
        if spans and number == spans[-1][1] + 1:
            spans[-1][1] = number
        else:
            spans.append([number, number])
    words = [str(low) if low == high else f"{low}–{high}" for low, high in spans]
    return ", ".join(words[:12]) + (" …" if len(words) > 12 else "")
