"""The part of a sheet that says how sure its figures are, and where every ± comes from."""

from __future__ import annotations

from clampwright.layout.joined import Joined
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.hole_table import kept
from clampwright.sheets.ink import SMALL
from clampwright.sheets.plus_minus import START_THERE, cells, where_from
from clampwright.sheets.table import Heading, table


def known_blocks(layout: Joined, room: float) -> list[Block]:
    """A heading, where every ± comes from, and every clamp's in a table; nothing where none is known."""
    if not layout.known_to:
        return []
    units = layout.recipe.units
    headings = (
        Heading("clamp", bold=True),
        Heading(f"station ± {units}", "right"),
        Heading(f"bolt, across ± {units}", "right"),
        Heading(f"gap ± {units}", "right"),
    )
    rows = [(each.clamp, *cells(each, units)) for each in layout.known_to]
    return [
        *from_blocks(layout, room, title="How sure these figures are"),
        *kept(paragraph(START_THERE, room, SMALL)),
        *table(headings, rows, room, SMALL),
        gap(3.0),
    ]


def from_blocks(layout: Joined, room: float, title: str = "") -> list[Block]:
    """Where every ± comes from, under a title where there is one; kept with what follows."""
    said = where_from(layout)
    if not said:
        return []
    return [*(heading(title, room) if title else []), *kept(paragraph(said, room, SMALL))]
