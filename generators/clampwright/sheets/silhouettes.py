"""Simple bodies as they look from one side: the outline of each, in the plane of the view."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from clampwright.layout.bodies import Body, Box, Capsule
from clampwright.quantities import Vec2, Vec3
from clampwright.quantities.directions import along, cross, dot, minus

_RIM = 48
"""Corners of a circle."""


@dataclass(frozen=True, slots=True)
class Eye:
    """A view: where its origin is, and which directions of the world (unit) look right and up in it."""

    origin: Vec3
    right: Vec3
    up: Vec3

    def seen(self, point: Vec3) -> Vec2:
        """A point of the world in the view, mm."""
        away = (point[0] - self.origin[0], point[1] - self.origin[1], point[2] - self.origin[2])
        return dot(away, self.right), dot(away, self.up)

    def way(self, direction: Vec3) -> Vec2:
        """A direction of the world in the view."""
        return dot(direction, self.right), dot(direction, self.up)


def silhouette(body: Body, eye: Eye) -> tuple[Vec2, ...]:
    """Corners of a body's outline, counter-clockwise; circles as polygons whose corners lie on them.

    Examples
    --------
    >>> block = Box((0.0, 0.0, 0.0), ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), (3.0, 2.0, 1.0))
    >>> silhouette(block, Eye((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
    ((-3.0, -2.0), (3.0, -2.0), (3.0, 2.0), (-3.0, 2.0))
    """
    return hull(eye.seen(point) for point in _corners(body, eye))


def _corners(body: Body, eye: Eye) -> list[Vec3]:
    if isinstance(body, Box):
        signs = [(a, b, c) for a in (-1, 1) for b in (-1, 1) for c in (-1, 1)]
        return [
            along(
                body.centre, *((axis, s * h) for axis, s, h in zip(body.axes, sign, body.half, strict=True))
            )
            for sign in signs
        ]
    if isinstance(body, Capsule):
        across: tuple[Vec3, Vec3] = (eye.right, eye.up)
    else:
        across = square_to(minus(body.end, body.start))
    return [
        along(end, (across[0], body.radius_mm * math.cos(t)), (across[1], body.radius_mm * math.sin(t)))
        for end in (body.start, body.end)
        for t in (2 * math.pi * n / _RIM for n in range(_RIM))
    ]


def square_to(axis: Vec3) -> tuple[Vec3, Vec3]:
    """Two unit vectors square to an axis and to each other."""
    long = math.hypot(*axis)
    a = (axis[0] / long, axis[1] / long, axis[2] / long)
    least = min(range(3), key=lambda n: abs(a[n]))
    one = cross(a, (float(least == 0), float(least == 1), float(least == 2)))
    size = math.hypot(*one)
    first = (one[0] / size, one[1] / size, one[2] / size)
    return first, cross(a, first)


def hull(points: Iterable[Vec2]) -> tuple[Vec2, ...]:
    """The convex hull, counter-clockwise (Andrew's monotone chain).

    Examples
    --------
    >>> hull([(0.0, 0.0), (2.0, 0.0), (1.0, 0.5), (1.0, 2.0)])
    ((0.0, 0.0), (2.0, 0.0), (1.0, 2.0))
    """
    ordered = sorted({(round(x, 9), round(y, 9)) for x, y in points})
    if len(ordered) < 3:
        return tuple(ordered)
    lower, upper = _chain(ordered), _chain(ordered[::-1])
    return (*lower[:-1], *upper[:-1])


def _chain(points: list[Vec2]) -> list[Vec2]:
    chain: list[Vec2] = []
    for p in points:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0:
            chain.pop()
        chain.append(p)
    return chain


def _turn(a: Vec2, b: Vec2, c: Vec2) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
