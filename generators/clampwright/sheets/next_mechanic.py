"""What the next mechanic looks at: stations to compare, torque stripes, wear under the clamps, cushions."""

from __future__ import annotations

from clampwright.layout.joined import Joined
from clampwright.sheets.flow import Block, gap, heading, paragraph, ticked
from clampwright.sheets.hole_table import kept
from clampwright.sheets.ink import SMALL
from clampwright.sheets.plus_minus import station_cell
from clampwright.sheets.stations import marks_said, station_of
from clampwright.sheets.table import Heading, table
from clampwright.sheets.where_on_tube import feet_clock

LOOK = (
    "Station and clock of every clamp as in the table. One that has moved: find out why, put it back, torque "
    "it again.",
    "The line of paint across nut, bolt and foot is whole. Broken: torque again, clean, paint again.",
    "Slide or open each clamp: wear, corrosion or bare metal on the tube under the band and at its edges.",
    "Cushions hard, cracked, torn, swollen or squeezed out: replace the clamp, with a new nut where it has a "
    "plastic or fibre insert.",
    "No cracks where band and feet bend; the feet lie flat; nothing in the stack turns by hand.",
    "Nothing touches what it did not touch when this sheet was made; nothing was added beside it.",
)


def inspection_blocks(layout: Joined, room: float) -> list[Block]:
    """The table of stations to compare, and the points to look at, with boxes to tick."""
    blocks = [*heading("For the next mechanic", room), *kept(paragraph(_SOURCE, room, SMALL))]
    blocks += _stations(layout, room)
    for text in LOOK:
        blocks += ticked(text, room, SMALL)
    return [*blocks, gap(3.0)]


_SOURCE = "Common practice, no source. The maintenance manual and the regulations come first."


def _stations(layout: Joined, room: float) -> list[Block]:
    units = layout.recipe.units
    if not layout.loops:
        return []
    headings = (
        Heading("clamp", bold=True),
        Heading("on", wraps=True),
        Heading(f"station {units}", "right"),
        *([Heading(f"± {units}", "right")] if layout.known_to else []),
        Heading("feet clock", "right"),
        Heading("found", "right"),
    )
    rows = [
        (
            *(loop.label, loop.tube, station_of(loop, layout)),
            *((station_cell(loop.label, layout),) if layout.known_to else ()),
            *(feet_clock(loop).hours, "______"),
        )
        for loop in layout.loops
    ]
    said = [line for each in _said(layout) for line in kept(paragraph(each, room, SMALL))]
    return [*said, *table(headings, rows, room, SMALL), gap(2.0)]


def _said(layout: Joined) -> tuple[str, ...]:
    """How the stations count, and why a clamp may not lie just there."""
    counted = marks_said(layout) or "Stations count from each tube's start."
    if not layout.known_to:
        return (counted,)
    return counted, "Write down where each came to rest when it was fitted: the ± is how far that may be off."
