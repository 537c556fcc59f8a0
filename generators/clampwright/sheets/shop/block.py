"""Title block of a drawing: the fields of ISO 7200, and what a shop asks for first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from clampwright.sheets.drawing import Box, Item, Path, Pen, Text, box_path
from clampwright.sheets.ink import ACCENT, WHITE
from clampwright.sheets.lettering import width
from clampwright.sheets.shop.cells import Cell, cell_items, fitted, is_whole
from clampwright.sheets.shop.projection_symbol import projection_symbol, symbol_size
from clampwright.sheets.shop.sizes import DrawingSheet
from clampwright.trade.tables import rule

DO_NOT_MAKE = "DO NOT MAKE"
CAUTION = (
    "For an experimental, amateur-built aircraft. The aircraft kit maker's instructions come first, then the "
    "regulations and licensed practice; this drawing replaces none of them. Have the finished part inspected "
    "before flight."
)

_CAUTION, _SIGNED, _NAMED, _TITLE, _STATE, _FACTS, _STUFF, _TOLERANCES = (
    6.5,
    9.0,
    8.0,
    9.0,
    7.0,
    8.0,
    8.0,
    16.0,
)
"""Heights of the rows from the bottom up, mm."""
_HIGH = _CAUTION + _SIGNED + _NAMED + _TITLE + _STATE + _FACTS + _STUFF + _TOLERANCES
_BAND, _AIR, _GAP = 10.0, 1.5, 3.0
_SYMBOL_MM = 0.25
"""Width of the projection symbol's lines."""


Field = Literal["material", "stock", "finish"]
_OF_STUFF: dict[Field, tuple[float, float, float, bool]] = {
    "material": (0.0, 92.0, 2.9, True),
    "stock": (92.0, 136.0, 2.9, True),
    "finish": (136.0, 180.0, 2.6, False),
}
"""Cells of the row of material: left and right end, mm, letters at most so large, and whether bold."""


@dataclass(frozen=True, slots=True)
class Block:
    """What a title block says, every value in the words that it is printed in.

    Owner, creator, approval and date of issue are left blank, to be written by hand.
    """

    number: str
    """Drawing number: the file's name."""
    title: str
    about: str
    document: str
    """Document type: "part drawing", "turning sheet"."""
    revision: str
    """The recipe's digest."""
    scale: str
    """"1:2"; "as shown" for more than one."""
    units: str
    """In a sentence: "ALL SIZES IN MILLIMETRES"."""
    tolerances: tuple[str, ...]
    """General tolerances, a line each."""
    material: str
    """With temper and specification."""
    stock: str
    """Form and thickness of what it is made from."""
    finish: str
    edge_break: str
    quantity: str
    mass: str
    """Of one piece."""
    projection: str
    """"third" or "first"."""
    checks: str
    """What the checks found: counts of verdicts."""
    sheet: int = 1
    sheets: int = 1
    stop: str = ""
    """Codes and places of failing checks; where there are any the sheet says DO NOT MAKE."""
    caution: str = CAUTION


def has_room(field: Field, words: str) -> bool:
    """Whether a cell takes its words whole, in letters that can be read.

    Examples
    --------
    >>> has_room("finish", "anodise, clear"), has_room("finish", "anodise, clear, " * 8)
    (True, False)
    """
    left, right, size, bold = _OF_STUFF[field]
    return is_whole(Cell((left, 0.0, right, _STUFF), field, (words,), size, bold))


def block_box(sheet: DrawingSheet) -> Box:
    """Where the title block stands: in the lower right corner of the drawing space.

    Examples
    --------
    >>> from clampwright.sheets.shop.sizes import drawing_sheet
    >>> block_box(drawing_sheet("A3"))
    (230.0, 10.0, 410.0, 81.5)
    """
    x1, y0 = sheet.space[2], sheet.space[1]
    return x1 - rule("title-block-width").value, y0, x1, y0 + _HIGH


def free_box(sheet: DrawingSheet, stop: str = "") -> Box:
    """Room above the title block over the whole width, below the band that `stop` puts across the top.

    Examples
    --------
    >>> from clampwright.sheets.shop.sizes import drawing_sheet
    >>> free_box(drawing_sheet("A4")), free_box(drawing_sheet("A4"), "EDGE-1 at A1")[3]
    ((23.0, 84.5, 197.0, 284.0), 274.0)
    """
    x0, _, x1, y1 = sheet.space
    top = _stop_box(sheet)[1] if stop else y1
    return x0 + _GAP, block_box(sheet)[3] + _GAP, x1 - _GAP, top - _GAP


def beside_block(sheet: DrawingSheet) -> Box | None:
    """Room to the left of the title block, for a table or notes; None on an upright sheet.

    Examples
    --------
    >>> from clampwright.sheets.shop.sizes import drawing_sheet
    >>> beside_block(drawing_sheet("A3")), beside_block(drawing_sheet("A"))
    ((23.0, 13.0, 227.0, 81.5), None)
    """
    x0, y0, _, _ = sheet.space
    left, _, _, top = block_box(sheet)
    return (x0 + _GAP, y0 + _GAP, left - _GAP, top) if sheet.landscape else None


def block_items(block: Block, sheet: DrawingSheet) -> tuple[Item, ...]:
    """The title block, and the band across the top of the sheet where the part is not to be made."""
    box = block_box(sheet)
    pen = Pen(sheet.narrow_mm)
    items: list[Item] = []
    for cell in _cells(block, sheet, box):
        items += cell_items(cell, pen)
    items += _projection(block, sheet, box)
    if block.stop:
        items += _band(_state_box(box), block.stop)
        items += _band(_stop_box(sheet), block.stop)
    frame = Pen(rule("sheet-frame-line").value)
    items += [Path(((box[0], box[1]), (box[0], box[3]), (box[2], box[3])), frame)]
    return tuple(items)


_Row = tuple[float, tuple[tuple[float, str, tuple[str, ...], float, bool], ...]]
"""Height, and cells: right end, label, lines, size of the letters, bold."""


def _cells(block: Block, sheet: DrawingSheet, box: Box) -> Iterator[Cell]:
    """Row by row from the bottom, then the cells beside and over one another at the top."""
    x, y, _, _ = box
    for high, cells in (*_names(block), *_facts(block, sheet)):
        left = 0.0
        for right, label, lines, size, bold in cells:
            yield Cell((x + left, y, x + right, y + high), label, lines, size, bold)
            left = right
        y += high
    half = _TOLERANCES / 2
    yield Cell((x, y, x + 136, y + 2 * half), "Where no tolerance is given", block.tolerances, 2.6)
    yield Cell((x + 136, y + half, x + 180, y + 2 * half), "Edges", (block.edge_break,), 2.6)
    yield Cell((x + 136, y, x + 158, y + half), "Quantity", (block.quantity,), 2.9, True)
    yield Cell((x + 158, y, x + 180, y + half), "Mass of one", (block.mass,), 2.6)


def _names(block: Block) -> tuple[_Row, ...]:
    """Caution, blanks to sign, what the sheet is."""
    blanks = ((62, "Legal owner"), (102, "Created by"), (142, "Approved by"), (180, "Date of issue"))
    named = (
        (50, "Document type", (block.document,), 2.9, False),
        (124, "Drawing number", (block.number,), 3.6, True),
        (162, "Revision", (block.revision,), 2.9, True),
        (180, "Sheet", (f"{block.sheet} of {block.sheets}",), 2.9, True),
    )
    title = ((90, "Title", (block.title,), 4.2, True), (180, "What for", (block.about,), 2.6, False))
    return (
        (_CAUTION, ((180, "", (block.caution,), 2.2, False),)),
        (_SIGNED, tuple((right, label, (), 2.9, False) for right, label in blanks)),
        (_NAMED, named),
        (_TITLE, title),
    )


def _facts(block: Block, sheet: DrawingSheet) -> tuple[_Row, ...]:
    """Checks, how it is drawn, what it is made of; where a check fails a band stands in the checks' place."""
    checks = (180, "", (), 2.9, False) if block.stop else (180, "Checks", (block.checks,), 2.6, False)
    drawn = (
        (22, "Scale", (block.scale,), 2.9, True),
        (60, "Drawing sheet", (sheet.said,), 2.6, False),
        (104, "Projection", (), 2.6, False),
        (180, "Units", (block.units,), 2.7, True),
    )
    stuff = tuple(
        (right, name.capitalize(), (words,), size, bold)
        for (name, (_, right, size, bold)), words in zip(
            _OF_STUFF.items(), (block.material, block.stock, block.finish), strict=True
        )
    )
    return (_STATE, (checks,)), (_FACTS, drawn), (_STUFF, stuff)


def _state_box(box: Box) -> Box:
    low = box[1] + _CAUTION + _SIGNED + _NAMED + _TITLE
    return box[0], low, box[2], low + _STATE


def _stop_box(sheet: DrawingSheet) -> Box:
    x0, _, x1, y1 = sheet.space
    return x0, y1 - _BAND, x1, y1


def _projection(block: Block, sheet: DrawingSheet, box: Box) -> list[Item]:
    """Symbol and word in their cell."""
    low = box[1] + _CAUTION + _SIGNED + _NAMED + _TITLE + _STATE
    x0, x1 = box[0] + 60, box[0] + 104
    module = (_FACTS - _AIR) / symbol_size(1.0)[1]
    wide = symbol_size(module)[0]
    at = (x1 - wide / 2 - _AIR, low + _FACTS / 2)
    word = Cell((x0, low, x1 - wide - 2 * _AIR, low + _FACTS), " ", (f"{block.projection} angle",), 2.6)
    pens = Pen(_SYMBOL_MM), Pen(sheet.narrow_mm)
    words = [item for item in cell_items(word, pens[1]) if isinstance(item, Text) and item.text.strip()]
    return [*words, *projection_symbol(block.projection, at, module, *pens)]


def _band(box: Box, stop: str) -> list[Item]:
    """DO NOT MAKE and why, white on the accent colour, over the whole of a box."""
    x0, y0, x1, y1 = box
    big = (y1 - y0) * 0.72
    left = x0 + _AIR + width(DO_NOT_MAKE, big, True) + 2 * _AIR
    middle = (y0 + y1) / 2
    size, lines = fitted((f"failing checks: {stop}",), x1 - left - _AIR, y1 - y0 - 1.0, 3.2, True)
    base = middle + size * (0.61 * (len(lines) - 1) - 0.26)
    return [
        box_path(box, None, ACCENT),
        Text((x0 + _AIR, middle - big * 0.36), DO_NOT_MAKE, big, bold=True, colour=WHITE),
        *(
            Text((left, base - 1.22 * size * number), line, size, bold=True, colour=WHITE)
            for number, line in enumerate(lines)
        ),
    ]
