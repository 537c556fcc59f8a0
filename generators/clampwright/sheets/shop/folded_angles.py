"""Angles between the faces of a bent part where they are not square, in the view that shows them on edge."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import Vec2
from clampwright.sheets.shop.dimensioning.angular import Angle, angular
from clampwright.sheets.shop.drawn_view import DrawnView

_SAME = 1e-4
_CLOSE = 1e-3
Segment = tuple[Vec2, Vec2]


def dimension_angles(sides: Sequence[DrawnView], part: FlatPart) -> None:
    """Add the inside angle of every bend that is not square, once each."""
    wanted = [bend.angle_rad for bend in part.bends if abs(bend.angle_rad - math.pi / 2) > _SAME]
    for view in sides:
        for apart in _apart(view, part):
            found = next((one for one in wanted if abs(math.pi - one - apart.sweep()) < _CLOSE), None)
            if found is not None:
                wanted.remove(found)
                view.dimensions.append(angular(apart, view.room, view.style))


def _apart(view: DrawnView, part: FlatPart) -> Iterator[Angle]:
    """Angles between two seen straight edges that a bend of the part would join on its inside."""
    edges = list(_edges(view, part.thickness_mm))
    for bend in part.bends:
        setback = bend.inside_radius_mm * math.tan(bend.angle_rad / 2)
        for one in edges:
            for two in edges:
                vertex = _meeting(one, two)
                if vertex is None:
                    continue
                first, second = (sorted(each, key=lambda p: math.dist(p, vertex)) for each in (one, two))
                if all(abs(math.dist(each[0], vertex) - setback) < _CLOSE for each in (first, second)):
                    angle = Angle(view.point(vertex), view.point(first[1]), view.point(second[1]), view.scale)
                    if abs(angle.sweep() - (math.pi - bend.angle_rad)) < _CLOSE:
                        yield angle


def _edges(view: DrawnView, t: float) -> Iterator[Segment]:
    for edge in view.view.seen:
        if isinstance(edge, tuple):
            yield from ((a, b) for a, b in pairwise(edge) if math.dist(a, b) > 1.5 * t)


def _meeting(one: Segment, two: Segment) -> Vec2 | None:
    """Where two lines would meet; None where they are parallel."""
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = two
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    cross = ux * vy - uy * vx
    if abs(cross) < _SAME * math.hypot(ux, uy) * math.hypot(vx, vy):
        return None
    share = ((cx - ax) * vy - (cy - ay) * vx) / cross
    return ax + share * ux, ay + share * uy
