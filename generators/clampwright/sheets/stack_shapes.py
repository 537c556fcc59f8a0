"""The shapes of a bolted stack seen from the side: layers in section, bolt and nut as they look."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.placed import Stack, StackItem
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Item, Path, Pen
from clampwright.sheets.ink import BLACK, GREY, PALE, WHITE
from clampwright.trade import bolts, fasteners
from clampwright.trade.tables import rule

LINE = Pen(0.2)
THIN = Pen(0.1, GREY)
HATCH = Pen(0.08, GREY)
UNSURE = Pen(0.18, BLACK, (1.2, 0.8))
_HATCH_STEP = 1.1
_ROOT = 0.61
"""Depth of a thread over its pitch, as it is drawn."""

_LEFT, _RIGHT = 1.9, 1.15
"""How far strips of metal are drawn past the axis, in largest radii."""

_HEAD_ACROSS, _HEAD_HIGH, _WASHER_ACROSS = 1.8, 0.6, 2.2
"""Drawn, in bolt diameters, where the tables know no more."""


@dataclass(frozen=True, slots=True)
class Sizes:
    """What a stack's picture is drawn from, mm; depths count from the head's bearing face towards the nut."""

    shank: float
    head_across: float
    head_high: float
    pitch: float
    nut_across: float
    nut_high: float
    nut_known: bool
    stack: float
    grip: float
    end: float
    """Depth of the bolt's end; of the nut's outer face where no bolt is chosen."""
    radius: float
    """Largest of anything round."""

    @property
    def high(self) -> float:
        """From the head's top to whatever ends last."""
        return self.head_high + max(self.end, self.stack + self.nut_high)

    @property
    def wide(self) -> float:
        """Strips of metal included."""
        return (_LEFT + _RIGHT) * self.radius

    @property
    def left(self) -> float:
        """How far it reaches to the left of the axis."""
        return _LEFT * self.radius


def sizes(stack: Stack) -> Sizes:
    """The sizes of a stack, with drawing proportions for what the tables do not know.

    Examples
    --------
    >>> from clampwright.layout.stacks import build_stack, clamp_items
    >>> from clampwright.trade.hardware import nut
    >>> built = build_stack("AN3", clamp_items(2.286, (), 3.213, "AN3"), nut("MS21044", "AN3"))
    >>> round(sizes(built).stack, 3) == round(built.thickness_mm, 3)
    True
    """
    known = stack.bolt in bolts.bolt_names()
    size = bolts.bolt(stack.bolt) if known else None
    shank = size.nominal_mm if size else fasteners.nominal_mm(stack.bolt)
    height = stack.nut.height_mm
    high = height if height is not None else rule("nut-height-for-mass").value * shank
    across = size.head_across_flats_mm if size else _HEAD_ACROSS * shank
    corners = [across / math.sqrt(3), stack.nut.across_flats_mm / math.sqrt(3)]
    round_ones = [(item.od_mm or 0.0) / 2 for item in stack.items]
    chosen = stack.chosen.length if stack.chosen else None
    return Sizes(
        shank=shank,
        head_across=across,
        head_high=size.head_height_mm if size else _HEAD_HIGH * shank,
        pitch=size.pitch_mm if size else 0.0,
        nut_across=stack.nut.across_flats_mm,
        nut_high=high,
        nut_known=height is not None,
        stack=stack.thickness_mm,
        grip=chosen.grip_mm if chosen else 0.0,
        end=chosen.length_mm if chosen else stack.thickness_mm + high,
        radius=max([_WASHER_ACROSS * shank / 2, *corners, *round_ones]),
    )


@dataclass(frozen=True, slots=True)
class Upright:
    """A stack's axis on the page: the head's bearing face lies at `origin`, the nut below it."""

    origin: Vec2
    scale: float

    def at(self, across: float, depth: float) -> Vec2:
        """A place on the page."""
        return self.origin[0] + self.scale * across, self.origin[1] - self.scale * depth

    def rectangle(
        self,
        left: float,
        top: float,
        right: float,
        bottom: float,
        pen: Pen | None = LINE,
        fill: str | None = None,
    ) -> Path:
        """A rectangle."""
        corners = ((left, top), (right, top), (right, bottom), (left, bottom))
        return Path(tuple(self.at(*corner) for corner in corners), pen, closed=True, fill=fill)

    def line(self, a: Vec2, b: Vec2, pen: Pen) -> Path:
        """A straight line."""
        return Path((self.at(*a), self.at(*b)), pen)


def stack_shapes(stack: Stack, size: Sizes, view: Upright) -> list[Item]:
    """Everything of the stack: layers first, then bolt and nut over them."""
    items: list[Item] = []
    depth = 0.0
    for number, item in enumerate(stack.items):
        for _ in range(item.count):
            items += _layer(item, depth, size, view, rising=number % 2 == 0)
            depth += item.thickness_mm
    return [*items, *_bolt(stack, size, view), *_nut(size, view)]


def half_width(item: StackItem, size: Sizes) -> float:
    """How far a layer is drawn to the right of the axis."""
    return item.od_mm / 2 if item.od_mm else _RIGHT * size.radius


def _layer(item: StackItem, top: float, size: Sizes, view: Upright, *, rising: bool) -> list[Item]:
    bottom, bore = top + item.thickness_mm, max(item.id_mm or 0.0, size.shank) / 2
    right = max(half_width(item, size), bore)
    left = right if item.od_mm else size.left
    washer = item.name in ("washer", "washers")
    items: list[Item] = []
    for x0, x1 in ((-left, -bore), (bore, right)):
        if washer:
            items.append(view.rectangle(x0, top, x1, bottom, LINE, PALE))
            continue
        items.append(view.rectangle(x0, top, x1, bottom, None, WHITE))
        items += _hatched(x0, top, x1, bottom, view, rising=rising)
        items += _sides(x0, top, x1, bottom, view, broken=not item.od_mm and x0 < 0)
    if item.name == "clamp feet":
        middle = (top + bottom) / 2
        items += [view.line((x0, middle), (x1, middle), LINE) for x0, x1 in ((-left, -bore), (bore, right))]
    return items


def _sides(x0: float, y0: float, x1: float, y1: float, view: Upright, *, broken: bool) -> list[Item]:
    """The outline of a cut half; a strip that goes on has no line at its broken end."""
    if not broken:
        return [view.rectangle(x0, y0, x1, y1)]
    return [Path(tuple(view.at(*p) for p in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))), LINE)]


def _hatched(x0: float, y0: float, x1: float, y1: float, view: Upright, *, rising: bool) -> list[Item]:
    """Lines at 45 degrees across a rectangle."""
    (left, top), (right, bottom) = view.at(x0, y0), view.at(x1, y1)
    wide, high = right - left, top - bottom
    lines: list[Item] = []
    for n in range(1, math.ceil((wide + high) / _HATCH_STEP)):
        run = n * _HATCH_STEP
        a, b = (max(0.0, run - high), min(run, high)), (min(run, wide), max(0.0, run - wide))
        ends = [(left + x, bottom + y if not rising else top - y) for x, y in (a, b)]
        lines.append(Path((ends[0], ends[1]), HATCH))
    return lines


def _bolt(stack: Stack, size: Sizes, view: Upright) -> list[Item]:
    known = stack.chosen is not None
    pen, half = LINE if known else UNSURE, size.shank / 2
    items: list[Item] = [view.rectangle(-half, 0.0, half, size.end, pen, WHITE)]
    if known:
        root = half - _ROOT * size.pitch
        items.append(view.line((-half, size.grip), (half, size.grip), LINE))
        items += [view.line((x, size.grip), (x, size.end), THIN) for x in (-root, root)]
    return [*items, *_hexagon(size.head_across, -size.head_high, 0.0, pen, view)]


def _nut(size: Sizes, view: Upright) -> list[Item]:
    pen = LINE if size.nut_known else UNSURE
    return _hexagon(size.nut_across, size.stack, size.stack + size.nut_high, pen, view)


def _hexagon(across: float, top: float, bottom: float, pen: Pen, view: Upright) -> list[Item]:
    """A hexagon seen over its corners: three flats."""
    corner = across / math.sqrt(3)
    flats = [view.line((x, top), (x, bottom), pen) for x in (-corner / 2, corner / 2)]
    return [view.rectangle(-corner, top, corner, bottom, pen, WHITE), *flats]
