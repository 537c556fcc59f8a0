"""How near two bodies come, as far as that matters: long tubes are ruled out without a search."""

from __future__ import annotations

import math

from clampwright.layout.bodies import Body, Box, bound, clearance
from clampwright.quantities.directions import dot, minus


def clearance_up_to(body: Body, other: Body, most_mm: float) -> float:
    """Clearance of two bodies, or `most_mm` where it is no less.

    >>> from clampwright.layout.bodies import Capsule
    >>> near, far = (Capsule((0.0, 0.0, z), (9.0, 0.0, z), 1.0) for z in (5.0, 50.0))
    >>> middle = Capsule((0.0, 0.0, 0.0), (9.0, 0.0, 0.0), 1.0)
    >>> clearance_up_to(middle, near, 10.0), clearance_up_to(middle, far, 10.0)
    (3.0, 10.0)
    """
    if _at_least(body, other) >= most_mm:
        return most_mm
    return min(clearance(body, other), most_mm)


def _at_least(body: Body, other: Body) -> float:
    """A clearance that there is at least: from the ball round one to the other's axis, or to its ball."""
    centre, reach = bound(body)
    if isinstance(other, Box):
        there, radius = bound(other)
        return math.dist(centre, there) - reach - radius
    axis = minus(other.end, other.start)
    share = dot(minus(centre, other.start), axis) / dot(axis, axis)
    share = min(max(share, 0.0), 1.0)
    x, y, z = (s + share * a for s, a in zip(other.start, axis, strict=True))
    return math.dist(centre, (x, y, z)) - reach - other.radius_mm
