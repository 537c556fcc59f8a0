"""Places on a solid that a dimension can start from, measured: corners, centres, ends of circles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, hypot
from typing import Any

from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, cross
from clampwright.solids.shapes import Shape

AXES: tuple[Vec3, Vec3, Vec3] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
_SQUARE = 1e-9


@dataclass(frozen=True, slots=True)
class Features:
    """Points in mm and unit directions, in the solid's own frame."""

    points: tuple[Vec3, ...]
    """Vertices, centres of circles and arcs, and where either reaches farthest along an axis."""
    directions: tuple[Vec3, ...]
    """Of straight edges, each once."""


def features_of(shape: Shape) -> Features:
    """Where dimensions of a solid can start.

    >>> from clampwright.solids.shapes import ring
    >>> found = features_of(ring(11.0, 5.0, 12.5))
    >>> sorted({x for x, _, _ in found.points}), sorted({z for _, _, z in found.points})
    ([-5.5, -2.5, 0.0, 2.5, 5.5], [0.0, 12.5])
    """
    points = {_rounded(vertex.toTuple()) for vertex in shape.Vertices()}
    directions = set()
    for edge in shape.Edges():
        kind = edge.geomType()
        if kind == "CIRCLE":
            points |= {_rounded(point) for point in _of_circle(edge)}
        elif kind == "LINE":
            directions.add(_rounded(edge.tangentAt(0).toTuple()))
    return Features(tuple(sorted(points)), tuple(sorted(directions)))


def _of_circle(edge: Any) -> Iterator[Vec3]:
    """The centre, and each point where the circle or arc turns back along an axis."""
    centre, normal, radius = edge.arcCenter().toTuple(), edge.normal().toTuple(), float(edge.radius())
    yield centre
    for axis in AXES:
        across = cross(normal, axis)
        if abs(sum(n * a for n, a in zip(normal, axis, strict=True))) < _SQUARE and any(across):
            for point in (along(centre, (axis, radius)), along(centre, (axis, -radius))):
                if edge.IsClosed() or _on_arc(edge, centre, point):
                    yield point


def _on_arc(edge: Any, centre: Vec3, point: Vec3) -> bool:
    """Whether a point of an arc's whole circle is no farther from its middle than its ends are."""
    middle = edge.positionAt(0.5).toTuple()
    far = max(_between(middle, end.toTuple(), centre) for end in (edge.startPoint(), edge.endPoint()))
    return _between(middle, point, centre) <= far + _SQUARE


def _between(a: Vec3, b: Vec3, centre: Vec3) -> float:
    """Angle at a centre between two points, 0 to pi."""
    one, other = ([p - c for p, c in zip(at, centre, strict=True)] for at in (a, b))
    square = cross((one[0], one[1], one[2]), (other[0], other[1], other[2]))
    return atan2(hypot(*square), sum(p * q for p, q in zip(one, other, strict=True)))


def _rounded(at: Vec3) -> Vec3:
    x, y, z = (round(float(each), 9) + 0.0 for each in at)
    return x, y, z
