"""The strokes a dimension is made of, told apart: what may cross what depends on what it is."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Box, Circle, Item, Path, Pen, Text
from clampwright.sheets.ink import BLACK
from clampwright.sheets.lettering import corners
from clampwright.sheets.shop.dimensioning.style import ARROW, SLIM

Segment = tuple[float, float, float, float]
"""(x0, y0, x1, y1)."""

_CHORD_DEG = 12.0
"""An arc counts as chords over so many degrees."""


@dataclass(frozen=True, slots=True)
class Strokes:
    """Extension lines, dimension lines (or a leader), arrow heads and texts of one dimension."""

    extension: tuple[Path, ...]
    lines: tuple[Path | ArcPath, ...]
    heads: tuple[Path, ...]
    texts: tuple[Text, ...]

    def items(self) -> tuple[Item, ...]:
        """All of them, in the order in which they are drawn."""
        return (*self.extension, *self.lines, *self.heads, *self.texts)


def arrow(tip: Vec2, way: Vec2) -> Path:
    """A filled arrow head that points along a unit vector.

    >>> arrow((0.0, 0.0), (1.0, 0.0)).points[0]
    (0.0, 0.0)
    """
    (x, y), (dx, dy), half = tip, way, ARROW * SLIM
    bx, by = x - ARROW * dx, y - ARROW * dy
    points = (tip, (bx - half * dy, by + half * dx), (bx + half * dy, by - half * dx))
    return Path(points, None, closed=True, fill=BLACK)


def line(a: Vec2, b: Vec2, pen: Pen) -> Path:
    """A straight line."""
    return Path((a, b), pen)


def box_of(text: Text) -> Box:
    """The upright box round a text."""
    xs, ys = zip(*corners(text), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def segments(items: Iterable[Item]) -> Iterator[Segment]:
    """Straight pieces of lines and arcs; chords of arcs; circles and texts are left out."""
    for item in items:
        if isinstance(item, Path):
            points = (*item.points, item.points[0]) if item.closed else item.points
            yield from ((*a, *b) for a, b in pairwise(points))
        elif isinstance(item, ArcPath):
            yield from ((*a, *b) for a, b in pairwise(_chords(item)))


def circles(items: Iterable[Item]) -> Iterator[tuple[float, float, float]]:
    """Centre and radius of every whole circle."""
    for item in items:
        if isinstance(item, Circle):
            yield (*item.centre, item.radius)


def extent(items: Iterable[Item]) -> Box:
    """The box round everything, line widths left out."""
    boxes = [_box(item) for item in items]
    left, low, right, high = zip(*boxes, strict=True)
    return min(left), min(low), max(right), max(high)


def _box(item: Item) -> Box:
    if isinstance(item, Text):
        return box_of(item)
    if isinstance(item, Circle):
        (x, y), r = item.centre, item.radius
        return x - r, y - r, x + r, y + r
    points = item.points if isinstance(item, Path) else _chords(item)
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _chords(arc: ArcPath) -> list[Vec2]:
    sweep = (arc.end_deg - arc.start_deg) % 360 or 360.0
    count = max(1, math.ceil(sweep / _CHORD_DEG))
    turns = [math.radians(arc.start_deg + sweep * n / count) for n in range(count + 1)]
    (x, y), r = arc.centre, arc.radius
    return [(x + r * math.cos(a), y + r * math.sin(a)) for a in turns]
