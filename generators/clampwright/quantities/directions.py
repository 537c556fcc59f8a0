"""Places and directions in space: products, steps, and a direction made square to another."""

from __future__ import annotations

import math

from clampwright.quantities import Vec3


def dot(a: Vec3, b: Vec3) -> float:
    """a · b."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec3, b: Vec3) -> Vec3:
    """a × b."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def minus(a: Vec3, b: Vec3) -> Vec3:
    """a − b."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def along(start: Vec3, *steps: tuple[Vec3, float]) -> Vec3:
    """A place reached from another by steps along unit vectors.

    >>> along((0.0, 0.0, 0.0), ((1.0, 0.0, 0.0), 3.0), ((0.0, 1.0, 0.0), -2.0))
    (3.0, -2.0, 0.0)
    """
    x, y, z = start
    for (ax, ay, az), length in steps:
        x, y, z = x + length * ax, y + length * ay, z + length * az
    return (x, y, z)


def turned_round(a: Vec3) -> Vec3:
    """−a, without negative zeros."""
    return (0.0 - a[0], 0.0 - a[1], 0.0 - a[2])


def unit(a: Vec3) -> Vec3:
    """a over its length; ZeroDivisionError for a vector without length.

    >>> unit((0.0, 3.0, 4.0))
    (0.0, 0.6, 0.8)
    """
    size = math.hypot(*a)
    return (a[0] / size, a[1] / size, a[2] / size)


def square_part(a: Vec3, axis: Vec3) -> Vec3:
    """What of a is square to a unit axis: a − (a·axis) axis.

    >>> square_part((1.0, 2.0, 0.0), (1.0, 0.0, 0.0))
    (0.0, 2.0, 0.0)
    """
    part = dot(a, axis)
    return (a[0] - part * axis[0], a[1] - part * axis[1], a[2] - part * axis[2])


def angle(a: Vec3, b: Vec3) -> float:
    """Angle between two unit vectors, 0 to π; exact near both ends.

    >>> angle((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)) == math.pi / 2
    True
    """
    c = cross(a, b)
    return math.atan2(math.sqrt(dot(c, c)), dot(a, b))


def crossing(a: Vec3, b: Vec3) -> float:
    """Angle between two undirected lines, 0 to π/2.

    >>> crossing((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0))
    0.0
    """
    c = cross(a, b)
    return math.atan2(math.sqrt(dot(c, c)), abs(dot(a, b)))
