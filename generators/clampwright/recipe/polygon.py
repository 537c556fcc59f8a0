"""Polygons as people give them: which way round, and whether their sides cross."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.quantities import Vec2


def signed_area_mm2(points: Sequence[Vec2]) -> float:
    """Enclosed area, positive counter-clockwise: half the sum of x_i y_(i+1) - x_(i+1) y_i.

    >>> signed_area_mm2([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0)])
    6.0
    """
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in _sides(points)) / 2


def repeated_corner(points: Sequence[Vec2], apart_mm: float) -> int | None:
    """Index of the first corner nearer than `apart_mm` to the one before it (the first follows the last).

    >>> repeated_corner([(0.0, 0.0), (4.0, 0.0), (4.0, 0.1), (0.0, 3.0)], 1.0)
    2
    """
    for i, point in enumerate(points):
        if math.dist(points[i - 1], point) < apart_mm:
            return i
    return None


def on_a_line(points: Sequence[Vec2], within_mm: float) -> bool:
    """Whether all corners lie within a distance of the line from the first to the one farthest from it.

    >>> on_a_line([(0.0, 0.0), (4.0, 0.1), (8.0, 0.0)], 1.0)
    True
    >>> on_a_line([(0.0, 0.0), (4.0, 3.0), (8.0, 0.0)], 1.0)
    False
    """
    first = points[0]
    far = max(points, key=lambda point: math.dist(first, point))
    return all(abs(_turn(first, far, point)) <= within_mm * math.dist(first, far) for point in points)


def crossing_sides(points: Sequence[Vec2]) -> tuple[int, int] | None:
    """Indices of the first two sides that cross or touch; side i runs from corner i to the next one.

    Neighbouring sides touch in their corner only, or fold back on one another.

    >>> crossing_sides([(0.0, 0.0), (4.0, 3.0), (4.0, 0.0), (0.0, 3.0)])
    (0, 2)
    >>> crossing_sides([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)]) is None
    True
    """
    sides = list(_sides(points))
    for i, one in enumerate(sides):
        for j in range(i + 1, len(sides)):
            if _meet(one, sides[j], neighbours=j == i + 1 or (i == 0 and j == len(sides) - 1)):
                return i, j
    return None


def _sides(points: Sequence[Vec2]) -> list[tuple[Vec2, Vec2]]:
    return list(zip(points, [*points[1:], *points[:1]], strict=True))


def _meet(one: tuple[Vec2, Vec2], other: tuple[Vec2, Vec2], neighbours: bool) -> bool:
    if neighbours:
        return _folds_back(one, other)
    (a, b), (c, d) = one, other
    first, second = _turn(a, b, c) * _turn(a, b, d), _turn(c, d, a) * _turn(c, d, b)
    if first < 0 and second < 0:
        return True
    return any(
        _turn(*side, p) == 0 and _within(side, p) for side, p in ((one, c), (one, d), (other, a), (other, b))
    )


def _folds_back(one: tuple[Vec2, Vec2], other: tuple[Vec2, Vec2]) -> bool:
    """Whether two sides with a common corner run in the same line on the same side of it."""
    (a, b), (c, d) = (one, other) if one[1] == other[0] else (other, one)
    if _turn(a, b, d) != 0:
        return False
    return (a[0] - b[0]) * (d[0] - c[0]) + (a[1] - b[1]) * (d[1] - c[1]) > 0


def _turn(a: Vec2, b: Vec2, c: Vec2) -> float:
    """Twice the area of the triangle, positive where it turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _within(side: tuple[Vec2, Vec2], point: Vec2) -> bool:
    (ax, ay), (bx, by) = side
    return min(ax, bx) <= point[0] <= max(ax, bx) and min(ay, by) <= point[1] <= max(ay, by)
