"""What stands beside the picture of a nested sheet: stock, how full it is, its parts, what was left out."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping

from clampwright.nesting.nested import BY_BOXES, Filled, Nest, NestedSheet
from clampwright.nesting.stocks import sheet_words
from clampwright.sheets.both_units import both
from clampwright.sheets.facts import Fact, fact_block
from clampwright.sheets.flow import Block, gap, heading, paragraph, warning
from clampwright.sheets.ink import SMALL
from clampwright.sheets.table import Heading, table
from clampwright.structure.wording import counted

_HEADINGS = (
    Heading("mark", "middle", bold=True),
    Heading("part", wraps=True),
    Heading("recipe", wraps=True),
    Heading("pieces", "right"),
    Heading("turned by", "right", wraps=True),
)
_NOTES = (
    "The cut file holds contours and holes alone; marks stand in a file of their own.",
    "Sizes, finish and edges: as on the drawing of each part.",
    "No part is turned over: each lies with that face up which its drawing shows.",
)
_PILOTS = "Holes that are opened to size in place are cut as pilots."


def nest_notes(
    nest: Nest,
    sheet: NestedSheet,
    marks: Mapping[str, str],
    units: str,
    unmarked: frozenset[str],
    room: float,
) -> list[Block]:
    """The blocks of one sheet, `room` mm wide."""
    filled = next(each for each in nest.by_stock() if each.stock == sheet.stock)
    blocks = [*heading(f"Sheet {sheet.number} of {len(nest.sheets)}", room)]
    blocks += [fact_block(list(_facts(sheet, filled, units)), room), gap(2.0)]
    blocks += paragraph(BY_BOXES, room, SMALL) if sheet.stock in nest.by_boxes else []
    blocks += [*paragraph(sheet.stock.why, room, SMALL), gap(1.0)]
    blocks += [*table(_HEADINGS, list(_rows(sheet, marks)), room, SMALL), gap(2.0)]
    for why in sorted({laid.why for laid in sheet.laid} - {""}):
        parts = sorted({marks[laid.part.number] for laid in sheet.laid if laid.why == why})
        blocks += paragraph(f"{', '.join(parts)}: {why}.", room, SMALL)
    if unmarked:
        blocks += paragraph(f"Too small to be marked here: {', '.join(sorted(unmarked))}.", room, SMALL)
    pilots = any(hole.piloted for laid in sheet.laid for hole in laid.part.holes)
    for note in (*_NOTES, *([_PILOTS] if pilots else [])):
        blocks += paragraph(note, room, SMALL)
    if sheet.number == 1:
        blocks += left_out_blocks(nest, room)
    return blocks


def left_out_blocks(nest: Nest, room: float) -> list[Block]:
    """What goes on no sheet, and what would do."""
    blocks: list[Block] = []
    for number, why in nest.left_out:
        blocks += warning(f"Left out: {number}, {why}.", room, SMALL)
    return blocks


def _facts(sheet: NestedSheet, filled: Filled, units: str) -> Iterator[Fact]:
    stock = sheet.stock
    yield Fact("Material", stock.material)
    yield Fact("Thickness", both(stock.thickness_mm, units))
    yield Fact("Sheet", sheet_words((stock.width_mm, stock.length_mm), units))
    yield Fact("Kerf", f"{both(stock.kerf_mm, units)}, least between parts")
    yield Fact("Margin", both(stock.margin_mm, units))
    yield Fact("Length used", both(sheet.used_mm2 / stock.width_mm, units))
    yield Fact("Filled", f"{100 * sheet.utilisation:.1f} % of the length used")
    several = filled.boxes_sheets > 1 or len(filled.sheets) > 1
    if len(filled.sheets) > 1:
        yield Fact("All together", f"{100 * filled.utilisation:.1f} % on {len(filled.sheets)} sheets")
    on = f" on {counted(filled.boxes_sheets, 'sheet')}" if several else ""
    yield Fact("Boxes alone", f"{100 * filled.boxes:.1f} %{on}, were each part its bounding box")


def _rows(sheet: NestedSheet, marks: Mapping[str, str]) -> Iterator[tuple[str, ...]]:
    count = Counter(laid.part.number for laid in sheet.laid)
    for number in sorted(count, key=lambda n: int(marks[n])):
        same = [laid for laid in sheet.laid if laid.part.number == number]
        turns = sorted({round(math.degrees(laid.turn_rad), 1) for laid in same})
        said = ", ".join(f"{turn:g}°" for turn in turns)
        yield marks[number], number, same[0].part.recipe, str(count[number]), said
