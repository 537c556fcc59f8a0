"""Places on a solid that a dimension can start from, measured: corners, centres, ends of circles."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
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
    """Vertices, centres of circles and arcs, and where whole circles reach farthest along an axis."""
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
    centre, normal, radius = edge.arcCenter().toTuple(), edge.normal().toTuple(), float(edge.radius())
    yield centre
    if not edge.IsClosed():
        return
    for axis in AXES:
        across = cross(normal, axis)
        if abs(sum(n * a for n, a in zip(normal, axis, strict=True))) < _SQUARE and any(across):
            yield along(centre, (axis, radius))
            yield along(centre, (axis, -radius))


def _rounded(at: Vec3) -> Vec3:
    x, y, z = (round(float(each), 9) + 0.0 for each in at)
    return x, y, z
