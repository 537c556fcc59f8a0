"""How far two solids are apart, and where they are nearest, by the kernel."""

from __future__ import annotations

from OCP.BRepExtrema import BRepExtrema_DistShapeShape

from clampwright.quantities import Vec3
from clampwright.solids.shapes import Shape

Places = tuple[tuple[Vec3, Vec3], ...]
"""A place on either solid, once or more often: where many are as near the kernel names several."""

Apart = tuple[float, Places]
"""A distance, mm, and those places."""


def apart_mm(a: Shape, b: Shape) -> Apart:
    """Least distance of two solids, mm, and the places that lie so far apart.

    >>> from clampwright.solids.place import Place
    >>> from clampwright.solids.shapes import moved, ring
    >>> disc = ring(4.0, 0.0, 1.0)
    >>> apart, places = apart_mm(disc, moved(disc, Place(origin=(9.0, 0.0, 0.0))))
    >>> round(apart, 9), round(places[0][0][0], 6), round(places[0][1][0], 6)
    (5.0, 2.0, 7.0)
    """
    found = BRepExtrema_DistShapeShape(a.wrapped, b.wrapped)
    pairs = range(1, found.NbSolution() + 1)
    places = tuple((_place(found.PointOnShape1(i)), _place(found.PointOnShape2(i))) for i in pairs)
    return float(found.Value()), places


def _place(point: object) -> Vec3:
    x, y, z = point.X(), point.Y(), point.Z()  # type: ignore[attr-defined]
    return (float(x), float(y), float(z))
