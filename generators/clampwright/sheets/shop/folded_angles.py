"""Angles between the faces of a bent part where they are not square, in the view that shows them on edge."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from clampwright.layout.shop.told import FlatPart
from clampwright.sheets.shop.dimensioning.angular import Angle, angular
from clampwright.sheets.shop.drawn_view import DrawnView
from clampwright.sheets.shop.view_edges import CLOSE, meeting, straight

_SAME = 1e-4


def dimension_angles(sides: Sequence[DrawnView], part: FlatPart) -> None:
    """Add the included angle of every bend that is not square, once each."""
    wanted = [bend.angle_rad for bend in part.bends if abs(bend.angle_rad - math.pi / 2) > _SAME]
    for view in sides:
        for apart in _apart(view, part):
            found = next((one for one in wanted if abs(math.pi - one - apart.sweep()) < CLOSE), None)
            if found is not None:
                wanted.remove(found)
                view.dimensions.append(angular(apart, view.room, view.style))


def _apart(view: DrawnView, part: FlatPart) -> Iterator[Angle]:
    """Angles between two seen straight edges that a bend of the part would join on its inside."""
    edges = list(straight(view.view, 1.5 * part.thickness_mm))
    for bend in part.bends:
        setback = bend.inside_radius_mm * math.tan(bend.angle_rad / 2)
        for one in edges:
            for two in edges:
                vertex = meeting(one, two)
                if vertex is None:
                    continue
                first, second = (sorted(each, key=lambda p: math.dist(p, vertex)) for each in (one, two))
                if all(abs(math.dist(each[0], vertex) - setback) < CLOSE for each in (first, second)):
                    points = view.point(vertex), view.point(first[1]), view.point(second[1])
                    angle = Angle(*points, view.scale, "included")
                    if abs(angle.sweep() - (math.pi - bend.angle_rad)) < CLOSE:
                        yield angle
