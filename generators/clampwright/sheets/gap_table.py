"""The cut sheet's table: which gap gets which bushing, how sure the gap is, and what is left."""

from __future__ import annotations

import re

from clampwright.layout.bushing_parts import BushingPart, MadeUp
from clampwright.layout.cut_long import as_marked, left_long
from clampwright.layout.joined import Joined
from clampwright.quantities import show_length
from clampwright.sheets.cut_notes import washer_words
from clampwright.sheets.figures import figure
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.hole_table import kept
from clampwright.sheets.how_sure import from_blocks
from clampwright.sheets.ink import SMALL
from clampwright.sheets.plus_minus import gap_cell
from clampwright.sheets.table import Heading, table
from clampwright.trade.tables import rule


def gap_table(layout: Joined, room: float) -> list[Block]:
    """Which clamp gets which bushing under which washers, and what is left."""
    parts, units, sure = as_marked(layout), layout.recipe.units, bool(layout.known_to)
    if not parts:
        return []
    headings = (
        Heading("clamp", bold=True),
        Heading(f"gap asked for {units}", "right"),
        *([Heading(f"gap ± {units}", "right")] if sure else []),
        Heading("bushing", "middle", bold=True),
        Heading(f"its length {units}", "right"),
        *([Heading(f"cut longer {units}", "right")] if sure else []),
        Heading("washers with it", wraps=True),
        Heading(f"left {units}", "right"),
        Heading("found", "right"),
    )
    rows = [
        (
            *(fill.where, figure(fill.gap_mm, units)),
            *((gap_cell(fill.where, layout),) if sure else ()),
            *(part.mark, figure(part.length_mm, units)),
            *((_longer(fill, part, layout),) if sure else ()),
            washer_words(fill) or "none",
            _signed(fill.left_mm, units),
            "________",
        )
        for fill, part in sorted(
            ((fill, part) for part in parts for fill in part.fills), key=lambda pair: _in_order(pair[0])
        )
    ]
    most = show_length(rule("gap-nothing").value, units)
    text = (
        "Left: the gap less bushing and washers; below 0 the stack is too long by that. Up to "
        f"{most} either way is nothing to fill. A gap is never closed with the bolt."
    )
    return [
        *heading("Which bushing goes where", room),
        *kept(paragraph(text, room, SMALL)),
        *from_blocks(layout, room),
        *table(headings, rows, room, SMALL),
        gap(4.0),
    ]


def _longer(fill: MadeUp, part: BushingPart, layout: Joined) -> str:
    """By how much the bushing of a gap is cut longer than its length."""
    longer = left_long(part, layout.known_to, layout.recipe.units)
    return figure(longer.longer_mm, layout.recipe.units) if fill.where in longer.long else "-"


def _in_order(fill: MadeUp) -> list[tuple[int, str]]:
    """A2 before A10."""
    return [(int(run) if run.isdigit() else 0, run) for run in re.findall(r"\d+|\D+", fill.where)]


def _signed(mm: float, units: str) -> str:
    """A length with its sign, rounded to nothing where it shows as nothing."""
    text = figure(abs(mm), units)
    if not float(text):
        return text
    return f"+{text}" if mm > 0 else f"-{text}"
