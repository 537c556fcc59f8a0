"""Ends of simple bodies, where one that lies along another comes nearest once either leans."""

from __future__ import annotations

from itertools import product
from math import hypot, sqrt

from clampwright.layout.bodies import Body, Box, Capsule
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, dot, minus, square_part, unit

_SQUARE = 1e-6
"""Of a unit vector, what is left square to an axis that it runs along."""


def ends_beside(body: Body, other: Body, way: Vec3) -> tuple[Vec3, ...]:
    """Corners of a box; of a round body's skin that looks along a unit vector, both ends of the part which
    lies beside another body.

    >>> from clampwright.layout.bodies import Capsule
    >>> long, short = (Capsule((0.0, y, 0.0), (x, y, 0.0), 1.0) for x, y in ((90.0, 0.0), (40.0, 9.0)))
    >>> ends_beside(long, short, (0.0, 1.0, 0.0))
    ((0.0, 1.0, 0.0), (40.0, 1.0, 0.0))
    """
    if isinstance(body, Box):
        return corners(body)
    axis = minus(body.end, body.start)
    square = dot(axis, axis)
    if square == 0.0:
        return (along(body.start, (way, body.radius_mm)),)
    shares = [dot(minus(place, body.start), axis) / square for place in _outline(other)]
    low, high = (min(max(share, 0.0), 1.0) for share in (min(shares), max(shares)))
    out = way if isinstance(body, Capsule) else square_part(way, unit(axis))
    size = hypot(*out)
    step = body.radius_mm / size if size > _SQUARE else 0.0
    return tuple(along(body.start, (axis, share), (out, step)) for share in (low, high))


def corners(box: Box) -> tuple[Vec3, ...]:
    """The eight corners of a box."""
    (x, y, z), (i, j, k) = box.axes, box.half
    signs = product((-1.0, 1.0), repeat=3)
    return tuple(along(box.centre, (x, s * i), (y, t * j), (z, u * k)) for s, t, u in signs)


def off_body(place: Vec3, body: Body) -> float:
    """Distance of a place from a body, mm; 0 within it.

    >>> from clampwright.layout.bodies import Capsule, Cylinder
    >>> wire, pin = (kind((0.0, 0.0, 0.0), (9.0, 0.0, 0.0), 2.0) for kind in (Capsule, Cylinder))
    >>> off_body((3.0, 6.0, 0.0), wire), off_body((13.0, 0.0, 0.0), wire), off_body((3.0, 6.0, 0.0), pin)
    (4.0, 2.0, 4.0)
    """
    if isinstance(body, Box):
        out = minus(place, body.centre)
        return hypot(*(max(0.0, abs(dot(out, a)) - h) for a, h in zip(body.axes, body.half, strict=True)))
    axis, away = minus(body.end, body.start), minus(place, body.start)
    square = dot(axis, axis)
    share = dot(away, axis) / square if square else 0.0
    beyond = max(0.0, -share, share - 1.0) * sqrt(square)
    beside = hypot(*minus(away, along((0.0, 0.0, 0.0), (axis, share))))
    if isinstance(body, Capsule):
        return max(0.0, hypot(beyond, beside) - body.radius_mm)
    return hypot(beyond, max(0.0, beside - body.radius_mm))


def _outline(body: Body) -> tuple[Vec3, ...]:
    return corners(body) if isinstance(body, Box) else (body.start, body.end)
