"""Bend lines of a flat pattern: drawn as axes, and where they lie from the datum edges."""

from __future__ import annotations

from typing import Literal

from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Path
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.wording import length
from clampwright.sheets.shop.drawn_view import DrawnView, near
from clampwright.sheets.shop.outline_told import farthest
from clampwright.sheets.shop.view_items import centre_pen


def bend_lines(main: DrawnView, part: FlatPart) -> tuple[Path, ...]:
    """Bend lines as axes."""
    ends = [(main.point(bend.start), main.point(bend.end)) for bend in part.bends]
    return tuple(Path(each, centre_pen(main.sheet)) for each in ends)


def bend_places(drawn: DrawnView, part: FlatPart) -> tuple[list[Length], list[Length]]:
    """Bend lines along an axis, from the datum edges; oblique ones stand in the bend table."""
    across: list[Length] = []
    along: list[Length] = []
    x0, y0, _, _ = part.outline.box()
    left = farthest(part.outline, (-1.0, 0.0), (0.0, -1.0))
    low = farthest(part.outline, (0.0, -1.0), (-1.0, 0.0))
    for bend in part.bends:
        ends = sorted((bend.start, bend.end))
        if near(bend.start[0], bend.end[0]):
            end = min(ends, key=lambda p: p[1])
            size = end[0] - x0
            across.append(_from(drawn, part, "horizontal", left, end, size))
        elif near(bend.start[1], bend.end[1]):
            size = ends[0][1] - y0
            along.append(_from(drawn, part, "vertical", low, ends[0], size))
    return across, along


def _from(
    drawn: DrawnView,
    part: FlatPart,
    kind: Literal["horizontal", "vertical"],
    edge: Vec2,
    at: Vec2,
    size: float,
) -> Length:
    return Length(kind, (drawn.point(edge), drawn.point(at)), size, length(size, part.units), drawn.scale)
