"""Whether clamps can roll together: all on one tube, or on tubes in line."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, radians, sqrt

from clampwright.layout.joined import Loop
from clampwright.quantities import Vec3
from clampwright.quantities.directions import dot
from clampwright.trade.tables import rule


def on_one_axis(loops: Sequence[Loop], near_mm: float) -> bool:
    """Whether all clamps lie round one axis: tubes within `support-line-angle` of it and so near beside it.

    Two clamps on tubes that are parallel but apart do not: they hold each other.
    """
    first = loops[0]
    most = cos(radians(rule("support-line-angle").value))
    return all(
        abs(dot(first.axis, each.axis)) >= most
        and distance_from_axis(each.centre, first.centre, first.axis) <= near_mm
        for each in loops
    )


def distance_from_axis(place: Vec3, start: Vec3, axis: Vec3) -> float:
    """Distance of a place from a line through a point along a unit vector.

    >>> distance_from_axis((5.0, 3.0, 4.0), (0.0, 0.0, 0.0), (1.0, 0.0, 0.0))
    5.0
    """
    x, y, z = (p - s for p, s in zip(place, start, strict=True))
    part = dot((x, y, z), axis)
    return sqrt(max(0.0, x * x + y * y + z * z - part * part))
