"""The drawing of a turned part: a section along its bore, its end, and what all of a shape share."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from clampwright.layout.shop.told import TurnedGroup
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Dimension, Item, Path, Text, moved
from clampwright.sheets.lettering import wrap
from clampwright.sheets.shop.arrangement import standard_scales
from clampwright.sheets.shop.dimensioning.strokes import arrow, extent
from clampwright.sheets.shop.dimensioning.style import GAP, LETTER, Style
from clampwright.sheets.shop.dimensioning.wording import Wording
from clampwright.sheets.shop.size_words import STOCK_SIZE, off_words, own_limits, size_words, toleranced
from clampwright.sheets.shop.sizes import DrawingSheet
from clampwright.sheets.shop.square_frame import HIGH, datum_mark, square_frame
from clampwright.sheets.shop.turning_dimensions import (
    BORE_OUT,
    bore_led,
    leader,
    length_below,
    outside_beside,
    outside_reach,
)
from clampwright.sheets.shop.view_items import axis_items, thin_pen, view_items
from clampwright.solids.view_lines import ViewLines

DATUM = "A"
PER_SHAPE = 3
"""Dimensions of a drawing: length, outside diameter, bore, in this order."""
_END_GAP, _FRAME_OFF = 14.0, 9.0
_CHAMFER_RISE, _DATUM_IN = 10.0, 10.0
_SIXTY = (0.5, math.sqrt(0.75))
_CAPTION, _CAPTION_LEAD, _CAPTION_AIR = 3.0, 4.0, 3.0
LEAST_HIGH = 5.0
"""An outside diameter smaller than this on the page is hard to make out."""


@dataclass(frozen=True, slots=True)
class TurnedViews:
    """A turned part as its solid is seen: cut along the bore, lower end on the left, and seen on its end."""

    section: ViewLines
    end: ViewLines


@dataclass(frozen=True, slots=True)
class TurnedFigure:
    """A finished drawing; its upper left corner is (0, 0)."""

    items: tuple[Item, ...]
    dimensions: tuple[Dimension, ...]
    wide: float
    high: float
    scale: float
    scale_said: str
    drawn: TurnedGroup

    def at(self, by: Vec2) -> tuple[tuple[Item, ...], tuple[Dimension, ...]]:
        """Items and dimensions, displaced."""
        return moved(self.items, by), tuple(shifted(each, by) for each in self.dimensions)


def shapes(groups: Sequence[TurnedGroup]) -> tuple[tuple[TurnedGroup, ...], ...]:
    """Groups that differ in nothing but their length, as one drawing serves them."""
    alike: dict[tuple[object, ...], list[TurnedGroup]] = {}
    for group in groups:
        alike.setdefault(_shape(group), []).append(group)
    return tuple(tuple(each) for each in alike.values())


def drawn_of(shape: Sequence[TurnedGroup]) -> TurnedGroup:
    """The group that the drawing of a shape shows: the one of middle length."""
    return sorted(shape, key=lambda group: group.length_mm)[len(shape) // 2]


def turned_figure(
    shape: Sequence[TurnedGroup],
    views: TurnedViews,
    units: str,
    sheet: DrawingSheet,
    room: Vec2,
    most_high: float,
) -> TurnedFigure:
    """The drawing of a shape at the largest standard scale at which it fits into a room, never distorted.

    The length is dimensioned with its value where the shape has one, with the letter L of the table where
    it has several. `most_high` is the largest outside diameter on the page.
    """
    scales = standard_scales(sheet.standard)
    for scale, said in scales:
        made = _figure(shape, views, units, sheet, (scale, said), room[0])
        fits = made.wide <= room[0] and made.high <= room[1]
        if fits and drawn_of(shape).od_mm * scale <= most_high:
            return made
    return made


def _figure(
    shape: Sequence[TurnedGroup],
    views: TurnedViews,
    units: str,
    sheet: DrawingSheet,
    scale: tuple[float, str],
    room: float,
) -> TurnedFigure:
    """Section axis on y = 0, its left face on x = 0; then moved so that the upper left corner is (0, 0)."""
    group, by = drawn_of(shape), scale[0]
    long, half = group.length_mm * by, group.od_mm / 2 * by
    end = (long + _END_GAP + half, 0.0)
    dimensions = _dimensions(shape, by, end, units, sheet)
    symbols = _symbols(shape, by, end, units, sheet)
    axis = axis_items(((0.0, 0.0), (group.length_mm, 0.0)), by, (0.0, 0.0), sheet)
    pictures = (
        *view_items(views.section, by, (0.0, 0.0), sheet),
        *axis,
        *view_items(views.end, by, end, sheet),
    )
    strokes = [stroke for each in dimensions for stroke in each.strokes]
    x0, y0, x1, y1 = extent((*pictures, *symbols, *strokes))
    caption = _caption(shape, scale[1], max(x1 - x0, min(room, 110.0)), (x0, y0 - _CAPTION_AIR))
    x0, y0, x1, y1 = extent((*pictures, *symbols, *strokes, *caption))
    shift = (-x0, -y1)
    return TurnedFigure(
        moved((*pictures, *symbols, *caption), shift),
        tuple(shifted(each, shift) for each in dimensions),
        *(x1 - x0, y1 - y0, *scale, group),
    )


def _dimensions(
    shape: Sequence[TurnedGroup], by: float, end: Vec2, units: str, sheet: DrawingSheet
) -> tuple[Dimension, ...]:
    group, style = drawn_of(shape), Style(units, sheet.standard == "ansi", thin_pen(sheet))
    long, half, bore = group.length_mm * by, group.od_mm / 2 * by, group.bore_mm / 2 * by
    return (
        length_below(long, half, group.length_mm, _length_words(shape, units), by, style),
        outside_beside(half, group.od_mm, outside_words(group, units), by, style),
        bore_led(end, (bore, half), group.bore_mm, bore_words(group, units), by, style.pen),
    )


def _symbols(
    shape: Sequence[TurnedGroup], by: float, end: Vec2, units: str, sheet: DrawingSheet
) -> tuple[Item, ...]:
    """Chamfer, squareness of the faces, datum of the bore."""
    group, pen = drawn_of(shape), thin_pen(sheet)
    long, half, c = group.length_mm * by, group.od_mm / 2 * by, group.chamfer_mm * by
    tip = (long - c / 2, half - c / 2)
    rise = half + _CHAMFER_RISE - tip[1]
    bend = (tip[0] + rise / _SIXTY[1] * _SIXTY[0], half + _CHAMFER_RISE)
    middle = outside_reach(half, outside_words(group, units)) + HIGH / 2 + 1.5 * GAP
    shelf = (half + BORE_OUT) * math.sqrt(0.5)
    frame_right = -_FRAME_OFF
    return (
        *leader(tip, bend, chamfer_words(group, units), pen),
        Path(((0.0, half + GAP), (0.0, middle + 1.5)), pen),
        Path(((frame_right, middle), (0.0, middle)), pen),
        arrow((0.0, middle), (1.0, 0.0)),
        *square_frame(off_words(group.square_mm, units), DATUM, (frame_right, middle), pen),
        Text((frame_right, middle + HIGH / 2 + 1.5 * GAP), "2x", LETTER, "right"),
        *datum_mark(DATUM, (end[0] + shelf + _DATUM_IN, shelf), pen),
    )


def _length_words(shape: Sequence[TurnedGroup], units: str) -> str:
    group = shape[0]
    if len({one.length_mm for one in shape}) > 1:
        return "L"
    return toleranced(group.length_mm, own_limits(group.length), units)


def outside_words(group: TurnedGroup, units: str) -> Wording:
    """The outside diameter as it is printed: "as supplied", or turned down and held to its limits."""
    if group.od is None:
        return Wording((f"Ø{size_words(group.od_mm, units)}", STOCK_SIZE))
    return Wording((f"Ø{toleranced(group.od_mm, group.od, units)}",))


def bore_words(group: TurnedGroup, units: str) -> str:
    """The bore as it is printed, with its limits."""
    return f"Ø{toleranced(group.bore_mm, own_limits(group.bore), units)}"


def chamfer_words(group: TurnedGroup, units: str) -> str:
    """The chamfer of all four edges as it is printed."""
    return f"4x {toleranced(group.chamfer_mm, own_limits(group.chamfer), units)} x 45°"


def _caption(shape: Sequence[TurnedGroup], said: str, room: float, at: Vec2) -> list[Item]:
    """Which groups it shows and what they are made from, under the drawing."""
    numbers = runs([group.number for group in shape])
    as_drawn = "" if len(shape) == 1 else f", {drawn_of(shape).number} is drawn"
    lines = [
        *((line, True) for line in wrap(f"{numbers}: {shape[0].stock}", room, _CAPTION, True)),
        *((line, False) for line in wrap(f"scale {said}{as_drawn}", room, _CAPTION)),
    ]
    x, y = at
    return [
        Text((x, y - _CAPTION - n * _CAPTION_LEAD), line, _CAPTION, bold=bold)
        for n, (line, bold) in enumerate(lines)
    ]


def runs(numbers: Sequence[str]) -> str:
    """Numbers in a row said short.

    Examples
    --------
    >>> runs(["T1", "T2", "T3", "T5", "T6"]), runs(["T4"])
    ('T1 to T3, T5, T6', 'T4')
    """
    found: list[list[str]] = []
    for each in numbers:
        if found and int(each[1:]) == int(found[-1][-1][1:]) + 1:
            found[-1].append(each)
        else:
            found.append([each])
    said = [f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run) for run in found]
    return ", ".join(said)


def shifted(dimension: Dimension, by: Vec2) -> Dimension:
    """A dimension, displaced."""
    points = tuple((x + by[0], y + by[1]) for x, y in dimension.points)
    return replace(dimension, points=points, strokes=moved(dimension.strokes, by))


def _shape(group: TurnedGroup) -> tuple[object, ...]:
    return (
        *(group.stock, group.make, group.material, group.od_mm, group.bore_mm, group.chamfer_mm),
        *(group.od, group.bore, group.square_mm),
    )
