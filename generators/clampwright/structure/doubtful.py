"""Tubes that cannot be what somebody measured."""

from __future__ import annotations

import math

from clampwright.quantities import Vec3
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule


def same_place(one: Tube, other: Tube) -> bool:
    """Whether two tubes lie in one another over a length of at least one diameter.

    That is so where, over the stretch that both have in common, their axes stay nearer together than a
    share of the smaller diameter (rule `tubes-coincident-share`). Tubes that only meet or cross, and tubes
    welded side by side, lie apart.

    >>> main = Tube("main", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 19.05)
    >>> same_place(main, Tube("again", (500.0, 0.0, 1.0), (0.0, 0.0, 0.0), 19.05))
    True
    >>> same_place(main, Tube("brace", (0.0, 0.0, 0.0), (400.0, 0.0, 200.0), 19.05))
    False
    """
    shorter, longer = sorted((one, other), key=lambda t: t.length_mm)
    if longer.length_mm == 0:
        return one.start == other.start
    near = rule("tubes-coincident-share").value * min(one.od_mm, other.od_mm)
    common = _common(shorter, longer)
    if common is None or math.dist(*common) < max(one.od_mm, other.od_mm):
        return shorter.length_mm == 0 and distance(shorter.start, longer) < near
    return all(distance(point, longer) < near for point in common)


def distance(point: Vec3, tube: Tube) -> float:
    """Distance from a point to the nearest place of a tube's axis between its ends.

    >>> distance((-3.0, 4.0, 0.0), Tube("main", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 19.05))
    5.0
    """
    station = min(max(tube.station(point), 0.0), tube.length_mm)
    return math.dist(point, tube.point(station))


def _common(shorter: Tube, longer: Tube) -> tuple[Vec3, Vec3] | None:
    """The ends of that stretch of `shorter` which lies beside `longer`."""
    s, e = longer.station(shorter.start), longer.station(shorter.end)
    if s == e:
        return None
    at_start, at_end = sorted(((0.0 - s) / (e - s), (longer.length_mm - s) / (e - s)))
    first, last = max(0.0, at_start), min(1.0, at_end)
    if first >= last:
        return None
    return _between(shorter, first), _between(shorter, last)


def _between(tube: Tube, share: float) -> Vec3:
    (x, y, z), (ex, ey, ez) = tube.start, tube.end
    return x + share * (ex - x), y + share * (ey - y), z + share * (ez - z)
