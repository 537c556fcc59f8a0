"""A picture of bodies in a box of the page: drawn to a scale, with labels where they touch nothing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from clampwright.layout.bodies import Body
from clampwright.quantities import Vec2
from clampwright.sheets.clip import clip_segment, clipped
from clampwright.sheets.drawing import Box, Circle, Item, Path, Pen
from clampwright.sheets.ink import GREY
from clampwright.sheets.labels import Label, Line, Room, place
from clampwright.sheets.scales import scale_to_fit
from clampwright.sheets.silhouettes import Eye, silhouette

_EDGE_WEIGHT = 6.0
_NAME, _SMALL = 2.7, 2.25
_ARROW = 2.4
_SHORT = 3.0
"""Edges shorter than this, mm on the page, count for the labels together with their neighbours."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A finished picture: its items, its scale, its height, and the names that found no room."""

    items: tuple[Item, ...]
    scale: float
    high: float
    left: tuple[str, ...]


@dataclass(slots=True)
class Picture:
    """A view of bodies in a box: `window` is the part of the view (mm, real) that is to be seen."""

    eye: Eye
    box: Box
    scale: float
    middle: Vec2
    """Of the window, in the view."""
    items: list[Item] = field(default_factory=list)
    labels: list[Label] = field(default_factory=list)
    circles: list[tuple[float, float, float]] = field(default_factory=list)
    boxes: list[Box] = field(default_factory=list)
    lines: list[tuple[float, float, float, float, float]] = field(default_factory=list)

    def page(self, point: Vec2) -> Vec2:
        """A point of the view on the page."""
        x0, y0, x1, y1 = self.box
        return (
            (x0 + x1) / 2 + self.scale * (point[0] - self.middle[0]),
            (y0 + y1) / 2 + self.scale * (point[1] - self.middle[1]),
        )

    def body(self, body: Body, pen: Pen, fill: str | None = None) -> tuple[Vec2, ...]:
        """Draw a body's outline, cut off at the box; its corners on the page are handed back."""
        return self.ring([self.page(point) for point in silhouette(body, self.eye)], pen, fill)

    def ring(self, corners: Sequence[Vec2], pen: Pen, fill: str | None = None) -> tuple[Vec2, ...]:
        """Draw a closed shape of the page, cut off at the box; filled ones are cut as a shape."""
        shape = _cut(corners, self.box) if fill is not None else list(corners)
        if fill is not None and len(shape) > 2:
            self.items.append(Path(tuple(shape), None, closed=True, fill=fill))
        drawn = clipped([Path(tuple(corners), pen, closed=True)], self.box)
        self.items += drawn
        for a, b in pairwise(_few([*corners, corners[0]])):
            self.lines.append((*a, *b, _EDGE_WEIGHT))
        return tuple(corners)

    def line(self, a: Vec2, b: Vec2, pen: Pen) -> None:
        """Draw a line of the page, cut off at the box."""
        seen = clip_segment(a, b, self.box)
        if seen is not None and seen[0] != seen[1]:
            self.items.append(Path(seen, pen))
            self.lines.append((*seen[0], *seen[1], _EDGE_WEIGHT))

    def hole(self, centre: Vec2, diameter_mm: float, pen: Pen) -> Vec2:
        """Draw a hole of the view; its centre on the page is handed back."""
        at, radius = self.page(centre), self.scale * diameter_mm / 2
        self.items.append(Circle(at, radius, pen))
        self.circles.append((*at, radius + 0.6))
        return at

    def arrow(self, tip: Vec2, way: Vec2, colour: str = GREY) -> None:
        """Draw an arrow's head on the page that points along a unit vector."""
        dx, dy = way[0] * _ARROW, way[1] * _ARROW
        back = (tip[0] - dx, tip[1] - dy)
        barbs = ((back[0] - dy * 0.28, back[1] + dx * 0.28), (back[0] + dy * 0.28, back[1] - dx * 0.28))
        self.items += clipped([Path((tip, *barbs), None, closed=True, fill=colour)], self.box)

    def name(
        self, lines: Sequence[str], targets: Sequence[tuple[Vec2, float]], *, pale: bool = False
    ) -> None:
        """Have a label placed for one of its targets: its first line bold unless it is pale."""
        colour = GREY if pale else "#000000"
        first, *rest = lines
        said = (Line(first, _SMALL if pale else _NAME, not pale, colour), *(Line(t, _SMALL) for t in rest))
        self.labels.append(Label(said, tuple(targets), said[:1]))

    def finished(self) -> Drawn:
        """Everything drawn, with its labels."""
        room = Room(self.box, self.boxes, self.circles, self.lines)
        placed = place(self.labels, room)
        left = tuple(n.lines[0].text for n, p in zip(self.labels, placed, strict=True) if p is None)
        labels = (item for one in placed if one is not None for item in one.items())
        return Drawn((*self.items, *labels), self.scale, self.box[3] - self.box[1], left)


def framed(eye: Eye, shapes: Sequence[Sequence[Vec2]], box: Box, around_mm: float) -> Picture:
    """A picture of the part of the view that holds some shapes, with room on the page around them.

    Its box is no higher than it needs, from the top of the one that is given.
    """
    points = [point for shape in shapes for point in shape]
    x0, x1 = min(x for x, _ in points), max(x for x, _ in points)
    y0, y1 = min(y for _, y in points), max(y for _, y in points)
    room = (box[2] - box[0] - 2 * around_mm, box[3] - box[1] - 2 * around_mm)
    scale = scale_to_fit((max(x1 - x0, 1.0), max(y1 - y0, 1.0)), room)
    low = max(box[1], box[3] - scale * (y1 - y0) - 2 * around_mm)
    return Picture(eye, (box[0], low, box[2], box[3]), scale, ((x0 + x1) / 2, (y0 + y1) / 2))


def _few(corners: Sequence[Vec2]) -> list[Vec2]:
    """A chain without its short edges; first and last corner stay."""
    kept = [corners[0]]
    for corner, following in pairwise(corners[1:]):
        if math.dist(kept[-1], corner) > _SHORT or math.dist(corner, following) > _SHORT:
            kept.append(corner)
    return [*kept, corners[-1]]


def _cut(corners: Sequence[Vec2], box: Box) -> list[Vec2]:
    """A convex shape cut off at a box (Sutherland and Hodgman 1974)."""
    shape = list(corners)
    for axis, limit, sign in ((0, box[0], 1), (0, box[2], -1), (1, box[1], 1), (1, box[3], -1)):
        kept: list[Vec2] = []
        for a, b in pairwise([*shape, *shape[:1]]):
            inside_a, inside_b = sign * (a[axis] - limit) >= 0, sign * (b[axis] - limit) >= 0
            if inside_a:
                kept.append(a)
            if inside_a != inside_b:
                share = (limit - a[axis]) / (b[axis] - a[axis])
                kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
        shape = kept
    return shape
