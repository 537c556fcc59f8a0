"""A view being drawn: its lines, its dimensions, the labels that are still to be placed, what is taken."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box, Dimension, Item, moved
from clampwright.sheets.shop.dimensioning.callouts import Callout, Target
from clampwright.sheets.shop.dimensioning.lanes import in_lanes
from clampwright.sheets.shop.dimensioning.led import Led
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.strokes import extent
from clampwright.sheets.shop.dimensioning.style import Style
from clampwright.sheets.shop.sizes import DrawingSheet
from clampwright.sheets.shop.view_items import view_items
from clampwright.solids.view_lines import ViewLines

EVERYWHERE: Box = (-1e6, -1e6, 1e6, 1e6)


@dataclass(slots=True)
class DrawnView:
    """One view on the paper; its picture's origin lies at (0, 0) until `shift` moves everything."""

    view: ViewLines
    scale: float
    sheet: DrawingSheet
    style: Style
    items: list[Item] = field(default_factory=list)
    dimensions: list[Dimension] = field(default_factory=list)
    led: list[Led] = field(default_factory=list)
    labels: list[Callout] = field(default_factory=list)
    room: Room = field(default_factory=lambda: Room(EVERYWHERE))
    origin: Vec2 = (0.0, 0.0)

    def point(self, at: Vec2) -> Vec2:
        """A point of the picture, mm of the part, on the paper."""
        return self.origin[0] + at[0] * self.scale, self.origin[1] + at[1] * self.scale

    def box(self) -> Box:
        """Of the view's own lines on the paper, nothing beside them."""
        x0, y0, x1, y1 = self.view.box()
        return (*self.point((x0, y0)), *self.point((x1, y1)))

    def reach(self) -> Box:
        """Of everything placed so far."""
        strokes = [stroke for each in self.dimensions for stroke in each.strokes]
        return extent((*self.items, *strokes))

    def add(self, items: Iterable[Item]) -> None:
        """Lines and texts that dimensions keep clear of."""
        held = tuple(items)
        self.items += held
        self.room.add_items(held)

    def lanes(self, lengths: Sequence[Length], side: str) -> None:
        """Lengths in lanes on one side of the view."""
        if lengths:
            self.dimensions += in_lanes(lengths, side, self.box(), self.room, self.style)

    def shifted(self, by: Vec2) -> DrawnView:
        """The same elsewhere, before its labels are placed."""
        new = replace(self, origin=(self.origin[0] + by[0], self.origin[1] + by[1]))
        new.room = self.room.shifted(by)
        new.items = list(moved(self.items, by))
        new.dimensions = [shifted_dimension(each, by) for each in self.dimensions]
        new.led = [replace(each, targets=tuple(_target(t, by) for t in each.targets)) for each in self.led]
        new.labels = [
            replace(each, targets=tuple(_target(t, by) for t in each.targets)) for each in self.labels
        ]
        return new


def begun(view: ViewLines, scale: float, sheet: DrawingSheet, style: Style) -> DrawnView:
    """The view with its own lines."""
    drawn = DrawnView(view, scale, sheet, style)
    drawn.add(view_items(view, scale, (0.0, 0.0), sheet))
    return drawn


def shifted_dimension(dimension: Dimension, by: Vec2) -> Dimension:
    """A dimension elsewhere on the page.

    >>> from clampwright.sheets.drawing import Circle
    >>> there = Dimension("diameter", ((0.0, 0.0), (1.0, 0.0)), 2.0, "2", 1.0, (Circle((0.0, 0.0), 1.0),))
    >>> shifted_dimension(there, (5.0, 0.0)).points
    ((5.0, 0.0), (6.0, 0.0))
    """
    points = tuple((x + by[0], y + by[1]) for x, y in dimension.points)
    return replace(dimension, points=points, strokes=moved(dimension.strokes, by))


def _target(target: Target, by: Vec2) -> Target:
    return replace(target, centre=(target.centre[0] + by[0], target.centre[1] + by[1]))


def near(a: float, b: float, within: float = 1e-6) -> bool:
    """Whether two lengths are one."""
    return math.isclose(a, b, rel_tol=0.0, abs_tol=within)
