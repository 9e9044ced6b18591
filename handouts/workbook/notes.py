"""What is worth saying about a sheet as a whole: headings read another way, hidden rows, merged cells, strays."""

from __future__ import annotations

from collections.abc import Iterator

from handouts.problems import Problem, problem
from handouts.workbook.grid import letters, ranges
from handouts.workbook.layout import Layout, Place
from handouts.workbook.limits import LIST
from handouts.workbook.words import closest, did_you_mean, shown


def notes_on(layout: Layout) -> list[Problem]:
    """Everything about the sheet and its headings."""
    return [*_headings(layout), *_hidden(layout), *_merged(layout), *_far(layout)]


def _headings(layout: Layout) -> Iterator[Problem]:
    sheet, grid, header = layout.sheet, layout.grid, layout.header
    for key, place in sorted(layout.places.items(), key=lambda pair: pair[1].column):
        if place.heading.how != "exact":
            yield _read_as(layout, key, place)
    for key, place in layout.twice:
        first = grid.cell(header, layout.places[key].column)
        yield problem("heading-twice", first, grid.cell(header, place.column), heading=shown(place.heading.typed))
    titles = [column.title() for column in sheet.columns if column.key not in layout.places]
    unknown, most = list(layout.unknown.items()), LIST["own_columns"]
    for number, typed in unknown[:most]:
        near = did_you_mean(closest(typed, titles))
        yield problem("heading-unknown", grid.cell(header, number), found=shown(typed), proposal=near)
    for number, typed in unknown[most : most + 1]:
        found = f"{shown(typed)}” and {len(unknown) - most} more up to “{shown(unknown[-1][1])}"
        yield problem("heading-unknown", grid.cell(header, number), found=found, proposal="")


def _read_as(layout: Layout, key: str, place: Place) -> Problem:
    """What a heading is read as; where it names no unit, which one is taken, and why."""
    column, measure = layout.sheet.column(key), place.heading.measure
    cell, found = layout.grid.cell(layout.header, place.column), shown(place.heading.typed)
    read = column.heading.format(unit=measure.word if measure else "")
    if key not in layout.bare:
        return problem("heading-read-as", cell, found=found, read=read)
    other = column.title(imperial=measure is None or measure.own)
    return problem("unit-assumed", cell, found=found, read=read, other=other, why=layout.bare[key])


def _hidden(layout: Layout) -> Iterator[Problem]:
    grid = layout.grid
    if grid.hidden:
        yield problem("sheet-hidden", grid.cell(layout.header, 1), title=grid.title)
    rows = sorted(row for row in grid.look.hidden_rows if row >= layout.first_row and row in grid.rows)
    if rows:
        yield problem("rows-hidden", grid.cell(rows[0], 1), rows=ranges(rows))
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
