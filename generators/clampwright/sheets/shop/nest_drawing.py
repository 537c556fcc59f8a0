"""A stock sheet with its parts, to scale: marks, margin, rolling direction, and where it is cut off."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from clampwright.layout.outline import Arc, Outline
from clampwright.nesting.nested import Laid, NestedSheet
from clampwright.nesting.on_sheet import holes_on_sheet, outline_on_sheet
from clampwright.quantities import Vec2
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Circle, Item, Path, Pen, Text, box_path
from clampwright.sheets.ink import ACCENT, BLACK, FINE, GREY, HOLE, OUTLINE, SMALL, TRIM, WHITE
from clampwright.sheets.lettering import width
from clampwright.sheets.placement import on_arc
from clampwright.sheets.shop.label_room import roomiest

LEFT_MM, RIGHT_MM, BELOW_MM, ABOVE_MM = 10.0, 10.0, 7.0, 3.0
"""Room about the sheet on the page, for its sizes and the rolling direction."""
PER = (1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100)
"""Millimetres of the sheet for one on the page."""
_WHOLE = 0.6
"""Share of the sheet in use from which it is drawn whole; less, and the empty end is broken off."""
_SPARE_MM = 14.0
"""Of the empty end, on the page, before the break."""
_PART = "#e4e4e4"
_SAG_MM = 0.01
_LETTERS = (4.0, 3.2, 2.6, 2.1, 1.7)
_HEAD_MM = 2.0


@dataclass(frozen=True, slots=True)
class SheetDrawn:
    """A picture and the scale that it is drawn to; it stands on (0, 0) and takes `wide` by `high`."""

    items: tuple[Item, ...]
    per: int
    wide: float
    high: float
    unmarked: frozenset[str]
    """Parts with a piece that is too small for its mark."""


def sheet_drawn(sheet: NestedSheet, marks: Mapping[str, str], room: Vec2, units: str) -> SheetDrawn:
    """The sheet as large as it goes into a room.

    Parameters
    ----------
    sheet : NestedSheet
        What is drawn.
    marks : Mapping[str, str]
        By part number, what is written on the part.
    room : Vec2
        Width and height on the page, mm.
    units : str
        "mm" or "in": what sizes are said in first.
    """
    stock = sheet.stock
    used = sheet.used_mm2 / stock.width_mm
    whole = used >= _WHOLE * stock.length_mm
    inner = (room[0] - LEFT_MM - RIGHT_MM, room[1] - BELOW_MM - ABOVE_MM - (0.0 if whole else _SPARE_MM))
    size = (stock.width_mm, stock.length_mm if whole else used)
    per = next((n for n in PER if size[0] / n <= inner[0] and size[1] / n <= inner[1]), PER[-1])
    long = min(stock.length_mm, used + (0.0 if whole else _SPARE_MM * per)) if not whole else stock.length_mm
    page = _OnPage(1 / per)
    corner = page.at((stock.width_mm, long))
    items: list[Item] = [*_sheet(sheet, page, corner, broken=long < stock.length_mm)]
    unmarked = set()
    for laid in sheet.laid:
        drawn, marked = _piece(laid, marks[laid.part.number], page)
        items += drawn
        if not marked:
            unmarked.add(laid.part.number)
    items += [
        *_cut_off(sheet, page, used, units),
        *_sizes(sheet, page, corner, units),
        *_rolling(page, corner),
    ]
    return SheetDrawn(tuple(items), per, corner[0] + RIGHT_MM, corner[1] + ABOVE_MM, frozenset(unmarked))


@dataclass(frozen=True, slots=True)
class _OnPage:
    scale: float

    def at(self, point: Vec2) -> Vec2:
        return LEFT_MM + self.scale * point[0], BELOW_MM + self.scale * point[1]


def _sheet(sheet: NestedSheet, page: _OnPage, corner: Vec2, *, broken: bool) -> Iterator[Item]:
    """Edges, the far one broken where the sheet goes on, and the margin."""
    (x0, y0), (x1, y1) = page.at((0.0, 0.0)), corner
    margin = sheet.stock.margin_mm
    (a, b), (c, _) = page.at((margin, margin)), page.at((sheet.stock.width_mm - margin, 0.0))
    if not broken:
        yield box_path((x0, y0, x1, y1), OUTLINE)
        d = y1 - page.scale * margin
        if margin > 0:
            yield box_path((a, b, c, d), TRIM)
        return
    yield Path(((x0, y1), (x0, y0), (x1, y0), (x1, y1)), OUTLINE)
    if margin > 0:
        yield Path(((a, y1), (a, b), (c, b), (c, y1)), TRIM)
    middle, tooth = (x0 + x1) / 2, 1.6
    zigzag = ((middle - tooth, y1), (middle - tooth / 3, y1 + tooth), (middle + tooth / 3, y1 - tooth))
    yield Path(((x0 - 2.0, y1), *zigzag, (middle + tooth, y1), (x1 + 2.0, y1)), FINE)


def _piece(laid: Laid, mark: str, page: _OnPage) -> tuple[list[Item], bool]:
    """Contour and holes, and the mark where there is most room; whether there was enough."""
    ring = [page.at(point) for point in ring_of(outline_on_sheet(laid), page.scale)]
    holes = [(page.at(at), diameter / 2 * page.scale) for at, diameter in holes_on_sheet(laid)]
    items: list[Item] = [Path(tuple(ring), Pen(0.25), closed=True, fill=_PART)]
    items += [Circle(at, radius, HOLE, WHITE) for at, radius in holes]
    at, room = roomiest(ring, holes)
    for size in _LETTERS:
        half = width(mark, size, True) / 2, size * 0.72 / 2
        if math.hypot(*half) + 0.3 <= room:
            items.append(Text((at[0], at[1] - half[1]), mark, size, "middle", bold=True, colour=BLACK))
            return items, True
    return items, False


def ring_of(outline: Outline, scale: float) -> list[Vec2]:
    """Corners along an outline, on its arcs so close that the page does not show it."""
    points: list[Vec2] = []
    for piece in outline.pieces:
        points.append(piece.start)
        if isinstance(piece, Arc):
            share = max(-1.0, 1 - _SAG_MM / (piece.radius_mm * scale))
            count = max(2, math.ceil(piece.sweep / (2 * math.acos(share))))
            points += [on_arc(piece, k / count) for k in range(1, count)]
    return points


def _cut_off(sheet: NestedSheet, page: _OnPage, used: float, units: str) -> Iterator[Item]:
    """A line across the sheet where what is used of it ends."""
    (x0, y), (x1, _) = page.at((0.0, used)), page.at((sheet.stock.width_mm, used))
    if used < sheet.stock.length_mm - 1e-6:
        yield Path(((x0 - 2.0, y), (x1 + 2.0, y)), Pen(0.25, ACCENT, (3.0, 1.0)))
        # Above the line, where nothing lies; only where the sheet goes on far enough.
        if (sheet.stock.length_mm - used) * page.scale > SMALL + 2.0:
            words = f"used: {both(used, units)}"
            yield Text(((x0 + x1) / 2, y + 1.2), words, SMALL, "middle", colour=ACCENT)


def _sizes(sheet: NestedSheet, page: _OnPage, corner: Vec2, units: str) -> Iterator[Item]:
    """Width below and length on the right, each along its edge."""
    (x0, y0), (x1, y1) = page.at((0.0, 0.0)), corner
    across = ((x0 + x1) / 2, y0 - 2.0 - SMALL)
    yield Text(across, both(sheet.stock.width_mm, units), SMALL, "middle")
    along = (x1 + 2.5 + SMALL, (y0 + y1) / 2)
    yield Text(along, both(sheet.stock.length_mm, units), SMALL, "middle", 90.0)


def _rolling(page: _OnPage, corner: Vec2) -> Iterator[Item]:
    """An arrow up the left side, its words beside it."""
    _, y0 = page.at((0.0, 0.0))
    words = "rolling direction"
    long = min(corner[1] - y0, width(words, SMALL) + 6.0)
    x, foot = 7.0, (y0 + corner[1] - long) / 2
    tip = foot + long
    yield Path(((x, foot), (x, tip - _HEAD_MM)), Pen(0.35, GREY))
    yield Path(((x - 0.8, tip - _HEAD_MM), (x, tip), (x + 0.8, tip - _HEAD_MM)), None, closed=True, fill=GREY)
    yield Text((x - 1.8, foot + long / 2), words, SMALL, "middle", 90.0, colour=GREY)
