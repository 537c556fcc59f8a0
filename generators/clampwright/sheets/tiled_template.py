"""A template larger than a page: an overview with the page map, then the drawing in tiles."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import chain

from clampwright.sheets.bars import bars
from clampwright.sheets.clip import inside
from clampwright.sheets.drawing import Box, Item, Page, Text, box_path
from clampwright.sheets.drawing_window import Drawn, drawn, part_note
from clampwright.sheets.figures import figure
from clampwright.sheets.flow import Block, flow, gap, heading, ticked
from clampwright.sheets.ink import GREY, SMALL, TRIM
from clampwright.sheets.part_view import CROSS_ARM, View, room_around
from clampwright.sheets.placement import Placement, polygon
from clampwright.sheets.template import (
    TITLE,
    Work,
    drawing_region,
    full_columns,
    notes_pages,
)
from clampwright.sheets.template_notes import note_blocks
from clampwright.sheets.tiles import (
    Mark,
    Tile,
    Tiling,
    axis,
    join_notes,
    mark_box,
    mark_items,
    page_map,
    trim_lines,
)
from clampwright.sheets.title_block import Head, map_box, title_block
from clampwright.trade.tables import rule

_PAD = 9.0
_MAP_ROOM = 26.0
_MAP_HEIGHT = 95.0
_TRIM_WEIGHT = 12.0
_OVERVIEW = "DRILL TEMPLATE: overview"


@dataclass(frozen=True, slots=True)
class Plan:
    """How the drawing is cut up. `region` is the window on every page; the whole drawing has its outline's
    lower left corner at (0, 0)."""

    turned: bool
    tiling: Tiling
    region: Box
    marks: tuple[Mark, ...]


def tiled_pages(work: Work) -> tuple[Page, ...]:
    """Overview and notes first, then a page a tile."""
    head = work.head(TITLE, prints=True, map_room=_MAP_ROOM)
    plan = _plan(work, head)
    notes = _notes(work, plan, [])
    drawings = _drawings(work, plan, 1 + max(notes))
    if left := _without_label(work, drawings):
        notes = _notes(work, plan, left)
        drawings = _drawings(work, plan, 1 + max(notes))
    first = 1 + max(notes)
    count = first + len(drawings)
    overview = _overview(work, plan, first, count)
    pages = [work.page(_OVERVIEW, (*overview, *notes.get(0, ())))]
    pages += notes_pages(work, notes, 1, first, count)
    for tile, drawing in zip(plan.tiling.tiles(), drawings, strict=True):
        pages.append(_tile_page(work, plan, head, tile, drawing.items, first, count))
    return tuple(pages)


def _drawings(work: Work, plan: Plan, first: int) -> list[Drawn]:
    """Each tile's window; `first` is the first tile's page, counted from 0."""
    return [_tile_drawing(work, plan, tile, first + 1) for tile in plan.tiling.tiles()]


def _without_label(work: Work, drawings: list[Drawn]) -> list[str]:
    """Holes that no tile has room to label."""
    labelled = {label for drawing in drawings for label in drawing.labelled}
    return [hole.label for hole in work.layout.holes if hole.label not in labelled]


def _plan(work: Work, head: Head) -> Plan:
    region = drawing_region(work, head)
    plans = [_plan_way(work, region, turned=turned) for turned in (False, True)]
    return min(plans, key=lambda plan: len(plan.tiling.tiles()))


def _plan_way(work: Work, region: Box, *, turned: bool) -> Plan:
    _, _, wide, high = work.layout.outline.box()
    across, along = (high, wide) if turned else (wide, high)
    placement = _whole(work, turned)
    circles = [(*placement.page(h.at), h.diameter_mm / 2 + CROSS_ARM) for h in work.layout.holes]
    overlap = rule("template-overlap").value
    tiling = Tiling(
        axis(-_PAD, across + _PAD, region[2] - region[0], overlap, [(x, r) for x, _, r in circles]),
        axis(-_PAD, along + _PAD, region[3] - region[1], overlap, [(y, r) for _, y, r in circles]),
    )
    return Plan(turned, tiling, region, tiling.marks(circles))


def _whole(work: Work, turned: bool) -> Placement:
    """The part with its outline's lower left corner, as it lies on the pages, at (0, 0)."""
    _, _, _, high = work.layout.outline.box()
    return Placement((high, 0.0) if turned else (0.0, 0.0), turned)


def _tile_drawing(work: Work, plan: Plan, tile: Tile, first: int) -> Drawn:
    """A tile's window: part, labels, marks and trim lines; `first` is the page of the first tile."""
    x, y = _shift(plan, tile)
    origin = _whole(work, plan.turned).origin
    view = View(work.layout, Placement((origin[0] + x, origin[1] + y), plan.turned), plan.region)
    spots = [(mark, (mark.at[0] + x, mark.at[1] + y)) for mark in plan.marks if inside(mark.at, tile.box)]
    note = part_note(work.layout, work.findings, work.check)
    joins = _joins(plan, tile)
    trims = trim_lines(plan.region, plan.tiling.across.overlap, joins)
    room = room_around(view)
    room.boxes += [mark_box(spot) for _, spot in spots]
    hints = join_notes(room, plan.tiling.across.overlap, joins, first)
    room.lines += [(*line.points[0], *line.points[1], _TRIM_WEIGHT) for line in trims]
    picture = drawn(view, note, room, sizes=False)
    marks = [item for mark, spot in spots for item in mark_items(mark, spot)]
    return replace(picture, items=(*picture.items, *trims, *marks, *hints))


def _joins(plan: Plan, tile: Tile) -> list[tuple[str, int]]:
    """Sides where another tile joins, and that tile's number."""
    return [(side, other.number) for side, other in plan.tiling.neighbours(tile)]


def _shift(plan: Plan, tile: Tile) -> tuple[float, float]:
    return plan.region[0] - tile.box[0], plan.region[1] - tile.box[1]


def _tile_page(
    work: Work, plan: Plan, head: Head, tile: Tile, items: tuple[Item, ...], first: int, count: int
) -> Page:
    x0, y0, x1, _ = work.paper.frame
    rings = [polygon(work.layout.outline, _whole(work, plan.turned))]
    return work.page(
        f"{TITLE}, tile {tile.number + 1}",
        (
            *title_block(head, work.paper.frame, first + tile.number + 1, count),
            *page_map(plan.tiling, rings, map_box(head, work.paper.frame), first + 1, tile.number, 2.6),
            box_path(plan.region, TRIM),
            *items,
            *bars((x0, y0), x1 - x0, plan.region[3] - y0),
        ),
    )


def _notes(work: Work, plan: Plan, unlabelled: list[str]) -> dict[int, tuple[Item, ...]]:
    room = work.column_width
    blocks = [
        *_joining(work, plan, room),
        *note_blocks(work.layout, work.findings, work.check, room, turned=plan.turned, unlabelled=unlabelled),
    ]
    columns = full_columns(work, 0)
    below_map = [
        replace(column, top=column.top - _MAP_HEIGHT - 4.0) for column in (next(columns), next(columns))
    ]
    return flow(blocks, chain(below_map, columns))


def _overview(work: Work, plan: Plan, first: int, count: int) -> tuple[Item, ...]:
    head = work.head(_OVERVIEW, prints=False)
    x0, _, x1, y1 = work.paper.frame
    top = y1 - head.height() - 1.0
    box = (x0, top - _MAP_HEIGHT, x1, top - 4.0)
    rings = [polygon(work.layout.outline, _whole(work, plan.turned))]
    text = "Page map, not to scale: the drawing at 1:1 is on the pages with these numbers."
    return (
        *title_block(head, work.paper.frame, 1, count),
        Text((x0, top - 2.0), text, SMALL, colour=GREY),
        *page_map(plan.tiling, rings, box, first + 1, None, 6.0),
    )


def _joining(work: Work, plan: Plan, room: float) -> list[Block]:
    """How to join the pages, with the distance between the farthest marks as a check."""
    units = work.layout.recipe.units
    blocks = heading("Join the pages", room)
    overlap = figure(plan.tiling.across.overlap, units)
    steps = [
        f"Print all pages in one go. Neighbours share a strip of {overlap} {units}, with a dashed line in "
        "its middle.",
        "Cut one page of each pair at its dashed line and lay it on the other, so that both lines and the "
        "marks R1, R2, ... of the same name meet. Tape on a flat surface, away from the holes.",
    ]
    if len(plan.marks) > 1:
        pairs = [(a, b) for n, a in enumerate(plan.marks) for b in plan.marks[n + 1 :]]
        a, b = max(pairs, key=lambda pair: math.dist(pair[0].at, pair[1].at))
        apart = f"{figure(math.dist(a.at, b.at), units)} {units}"
        steps.append(
            f"Check: {a.name} to {b.name} is {apart}. What joining adds to the print's error shows here."
        )
    for step in steps:
        blocks += ticked(step, room)
    return [*blocks, gap(3.0)]
