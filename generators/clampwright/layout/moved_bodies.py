"""Simple bodies set down somewhere else: shifted, or turned about an axis."""

from __future__ import annotations

from math import cos, sin

from clampwright.layout.bodies import Body, Box
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along


def shifted(body: Body, by: Vec3) -> Body:
    """The body moved by a vector.

    >>> from clampwright.layout.bodies import Capsule
    >>> shifted(Capsule((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), 2.0), (0.0, 3.0, 0.0))
    Capsule(start=(0.0, 3.0, 0.0), end=(1.0, 3.0, 0.0), radius_mm=2.0)
    """
    if isinstance(body, Box):
        return Box(along(body.centre, (by, 1.0)), body.axes, body.half)
    return type(body)(along(body.start, (by, 1.0)), along(body.end, (by, 1.0)), body.radius_mm)


def turned(body: Body, about: Vec3, axis: Vec3, angle_rad: float) -> Body:
    """The body turned about the line through a point along a unit vector, right-handed.

    >>> from clampwright.layout.bodies import Capsule
    >>> wire = Capsule((1.0, 0.0, 0.0), (2.0, 0.0, 5.0), 2.0)
    >>> half_turn = turned(wire, (0.0, 0.0, 0.0), (0.0, 0.0, 1.0), 3.141592653589793)
    >>> [round(c, 6) for c in half_turn.end]
    [-2.0, 0.0, 5.0]
    """
    if isinstance(body, Box):
        x, y, z = (turned_vector(each, axis, angle_rad) for each in body.axes)
        return Box(turned_point(body.centre, about, axis, angle_rad), (x, y, z), body.half)
    start, end = (turned_point(p, about, axis, angle_rad) for p in (body.start, body.end))
    return type(body)(start, end, body.radius_mm)


def turned_point(point: Vec3, about: Vec3, axis: Vec3, angle_rad: float) -> Vec3:
    """A place turned about the line through `about` along the unit vector `axis`."""
    x, y, z = (p - a for p, a in zip(point, about, strict=True))
    return along(about, (turned_vector((x, y, z), axis, angle_rad), 1.0))


def turned_vector(v: Vec3, axis: Vec3, angle_rad: float) -> Vec3:
    """A direction turned about a unit vector: v cos t + (k x v) sin t + k (k . v)(1 - cos t) (Rodrigues).

    >>> [round(c, 9) + 0.0 for c in turned_vector((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), 1.5707963267948966)]
    [0.0, 1.0, 0.0]
    """
    c, s = cos(angle_rad), sin(angle_rad)
    (x, y, z), (a, b, d) = v, axis
    part = (a * x + b * y + d * z) * (1.0 - c)
    return (
        x * c + (b * z - d * y) * s + a * part,
        y * c + (d * x - a * z) * s + b * part,
        z * c + (a * y - b * x) * s + d * part,
    )
