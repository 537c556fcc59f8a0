"""The hole table and the distances to check, as blocks for a column."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.layout.placed import Hole, PlateLayout
from clampwright.sheets.distances import distances
from clampwright.sheets.figures import coordinate, distance, figure
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.ink import BODY, SMALL
from clampwright.sheets.plus_minus import HOLE_AND_CLAMP, across_cell
from clampwright.sheets.table import Heading, table


def hole_table(layout: PlateLayout, room: float) -> list[Block]:
    """Every hole: coordinates from the two datum edges, final size, drills, and what it is for."""
    units = layout.recipe.units
    headings = (
        Heading("hole", bold=True),
        Heading(f"X {units}", "right"),
        Heading(f"Y {units}", "right"),
        Heading("pilot", "right"),
        Heading("drill", "right"),
        Heading(f"Ø {units}", "right"),
        *([Heading(f"± to its clamp {units}", "right")] if layout.known_to else []),
        Heading("for", wraps=True),
    )
    rows = [_row(hole, layout) for hole in layout.holes]
    text = "X from datum edge X = 0, Y from datum edge Y = 0, seen with this face up."
    text += f" {HOLE_AND_CLAMP}" if layout.known_to else ""
    return [
        *heading("Holes", room),
        *kept(paragraph(text, room, SMALL)),
        *table(headings, rows, room, BODY if len(rows) <= 40 else SMALL),
        gap(4.0),
    ]


def kept(blocks: Sequence[Block]) -> list[Block]:
    """The blocks, each kept with what follows it."""
    return [Block(block.height, block.items, block.head, True) for block in blocks]


def _row(hole: Hole, layout: PlateLayout) -> tuple[str, ...]:
    units = layout.recipe.units
    purpose = {"clamp": "clamp", "component": hole.owner, "lightening": "lightening"}[hole.purpose]
    what = f"{hole.fastener} {purpose}".strip()
    x, y = (coordinate(value, units) for value in hole.at)
    unsure = across_cell(hole.owner, layout) if hole.purpose == "clamp" else ""
    return (
        *(hole.label, x, y, hole.pilot or "-", hole.drill, figure(hole.diameter_mm, units)),
        *((unsure,) if layout.known_to else ()),
        what,
    )


def distance_table(layout: PlateLayout, room: float) -> list[Block]:
    """Centre distances to verify with calipers, with a box to tick, in pairs of columns."""
    units = layout.recipe.units
    found = distances(layout)
    if not found:
        return []
    rows = [(f"{d.first} - {d.second}", distance(d.mm, units), d.what, "________") for d in found]
    headings = (
        Heading("centres", bold=True),
        Heading(f"{units}", "right"),
        Heading("", wraps=True),
        Heading("measured", "right"),
    )
    text = (
        "After the pilots and before the final drills. With the shanks of two equal pilot drills standing in "
        "the holes: outside measure less one shank."
    )
    return [
        *heading("Check with calipers, centre to centre", room),
        *kept(paragraph(text, room, SMALL)),
        *table(headings, rows, room, BODY if len(rows) <= 30 else SMALL),
        gap(4.0),
    ]
