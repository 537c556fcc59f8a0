"""What a part takes of a sheet: a polygon that holds all of it and half a kerf round it, in convex pieces.

The polygon is never smaller than the part: it goes along the tangents of arcs that bulge out and along the
chords of hollow ones. So parts whose polygons keep apart keep apart themselves.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.nesting.nested import turning
from clampwright.nesting.on_sheet import Box, turned_box
from clampwright.quantities import Vec2
from clampwright.trade.tables import rule

Points = NDArray[np.float64]

SLACK_MM = 2.5e-7
"""Taken off half a kerf, so that parts that fill their room to the last bit still fit into it."""
_MITRE = 1.5
"""Corners are drawn out to a point up to this many offsets: right angles are, sharper ones are cut off."""
_CONVEX = 1e-9
_ALIKE_MM = 1e-5


@dataclass(frozen=True, slots=True)
class Shape:
    """A part's polygon, turned: where it may lie depends on nothing else."""

    part: int
    turn_rad: float
    box: Box
    """Of the part itself, turned about its datum corner, mm."""
    middle: Vec2
    """Centroid of the part, turned likewise."""
    pieces: tuple[Points, ...]
    """Convex, counter-clockwise, not turned; together they hold the part and half a kerf round it."""


def shapes_of(part: int, outline: Outline, kerf_mm: float, turns_rad: Sequence[float]) -> tuple[Shape, ...]:
    """The shapes of a part at its turns; those that look the same as an earlier one are left out."""
    polygon = widened(holding(outline), kerf_mm / 2 - SLACK_MM)
    pieces, corners = convex_pieces(polygon), shapely.get_coordinates(polygon)
    found: list[Shape] = []
    seen: list[Any] = []
    for turn in turns_rad:
        box = turned_box(outline, turn)
        looks = shapely.Polygon(turned(corners, turn) - box[:2])
        if all(looks.hausdorff_distance(other) > _ALIKE_MM for other in seen):
            seen.append(looks)
            u, v = turned(np.array((outline.centroid(),)), turn)[0]
            found.append(Shape(part, turn, box, (float(u), float(v)), pieces))
    return tuple(found)


def turned(points: Points, by_rad: float) -> Points:
    """Points turned about the origin."""
    c, s = turning(by_rad)
    turn: Points = np.stack(
        (c * points[:, 0] - s * points[:, 1], s * points[:, 0] + c * points[:, 1]), axis=1
    )
    return turn


def holding(outline: Outline) -> list[Vec2]:
    """A polygon that holds the outline and touches it at every pole of an arc that bulges out.

    >>> disc = Outline((Arc((9.0, 0.0), (9.0, 0.0), (0.0, 0.0), True),))
    >>> corners = holding(disc)
    >>> all(9.0 <= math.hypot(*corner) < 9.051 for corner in corners), corners[0]
    (True, (9.0, 0.0))
    """
    points = [point for piece in outline.pieces for point in _followed(piece)]
    kept = [p for p, q in zip(points, points[1:] + points[:1], strict=True) if math.dist(p, q) > SLACK_MM]
    return kept or points


def widened(points: Sequence[Vec2], by_mm: float) -> Any:
    """The polygon with a rim round it, its corners drawn out so that straight sides stay straight."""
    polygon = shapely.Polygon(points)
    wider = polygon.buffer(by_mm, join_style="mitre", mitre_limit=_MITRE)
    return shapely.Polygon(wider.exterior)


def convex_pieces(polygon: Any) -> tuple[Points, ...]:
    """Convex pieces of a polygon, each counter-clockwise: triangles, joined while the result stays convex."""
    hull = polygon.convex_hull
    if hull.area - polygon.area <= _CONVEX * hull.area:
        return (_corners(hull),)
    pieces = [_corners(t) for t in shapely.constrained_delaunay_triangles(polygon).geoms]
    joined = True
    while joined:
        joined = False
        for i in range(len(pieces)):
            for j in range(len(pieces) - 1, i, -1):
                both = _joined(pieces[i], pieces[j])
                if both is not None:
                    pieces[i], joined = both, True
                    del pieces[j]
    return tuple(pieces)


def _joined(a: Points, b: Points) -> Points | None:
    """Both as one convex piece, where they share a side and leave no hollow."""
    sides = {(tuple(a[k - 1]), tuple(a[k])) for k in range(len(a))}
    if not any((tuple(b[k]), tuple(b[k - 1])) in sides for k in range(len(b))):
        return None
    hull = shapely.MultiPoint(np.concatenate((a, b))).convex_hull
    area = _area(a) + _area(b)
    return _corners(hull) if hull.area - area <= _CONVEX * area else None


def _corners(polygon: Any) -> Points:
    points: Points = shapely.get_coordinates(shapely.orient_polygons(polygon))[:-1]
    return points


def _area(points: Points) -> float:
    x, y = points[:, 0], points[:, 1]
    return float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2


def _followed(piece: Line | Arc) -> Iterator[Vec2]:
    """Points from the start of a piece up to, without, its end."""
    yield piece.start
    if isinstance(piece, Line):
        return
    ends = _split_at_poles(piece)
    for first, last in pairwise(ends):
        if first != ends[0]:
            yield _on(piece, first)
        yield from _between(piece, first, last)


def _split_at_poles(arc: Arc) -> list[float]:
    """Angles at which the arc starts, passes a pole, and ends, in the way that it runs."""
    start = arc.start_angle
    end = start + (arc.sweep if arc.ccw else -arc.sweep)
    low, high = sorted((start, end))
    quarter = math.pi / 2
    poles = (k * quarter for k in range(math.ceil(low / quarter), math.floor(high / quarter) + 1))
    inner = sorted(a for a in poles if low + 1e-9 < a < high - 1e-9)
    return [start, *(inner if arc.ccw else reversed(inner)), end]


def _between(arc: Arc, first: float, last: float) -> Iterator[Vec2]:
    """Corners of the tangents of an arc that bulges out, or points on a hollow one."""
    radius = arc.radius_mm
    if arc.ccw:
        step = 2 * math.acos(radius / (radius + rule("nest-arc-allowance").value))
    else:
        step = 2 * math.acos(max(0.0, 1 - rule("nest-hollow-allowance").value / radius))
    count = max(1, math.ceil(abs(last - first) / step - 1e-9))
    each = (last - first) / count
    for k in range(count):
        if arc.ccw:
            yield _on(arc, first + (k + 0.5) * each, 1 / math.cos(each / 2))
        elif k:
            yield _on(arc, first + k * each)


def _on(arc: Arc, angle: float, out: float = 1.0) -> Vec2:
    radius = arc.radius_mm * out
    # The cosine of a pole is not quite nought: a box must not be wider than its disc.
    c, s = turning(angle)
    return arc.centre[0] + radius * c, arc.centre[1] + radius * s
