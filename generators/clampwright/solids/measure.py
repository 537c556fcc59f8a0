"""What a solid measures: volume, area, box, and its round holes and bosses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from clampwright.quantities import Vec3
from clampwright.solids.shapes import Shape


@dataclass(frozen=True, slots=True)
class Cylinder:
    """A cylindrical face: a point and unit direction of its axis, and its diameter, mm.

    `hollow` tells a hole from a boss or a rounded corner.
    """

    at: Vec3
    axis: Vec3
    diameter_mm: float
    hollow: bool


def volume_mm3(shape: Shape) -> float:
    """Enclosed volume."""
    return float(shape.Volume())


def area_mm2(shape: Shape) -> float:
    """Area of the whole surface."""
    return float(shape.Area())


def box_mm(shape: Shape) -> tuple[Vec3, Vec3]:
    """Lowest and highest corner of the box round a shape, parallel to the axes of its frame."""
    box = shape.BoundingBox()
    return (box.xmin, box.ymin, box.zmin), (box.xmax, box.ymax, box.zmax)


def cylinders(shape: Shape) -> tuple[Cylinder, ...]:
    """Every cylindrical face that ends in a circle or an arc, in the kernel's order.

    >>> from clampwright.solids.shapes import ring
    >>> [(c.diameter_mm, c.hollow) for c in cylinders(ring(11.0, 5.0, 12.7))]
    [(11.0, False), (5.0, True)]
    """
    round_faces = (face for face in shape.Faces() if face.geomType() == "CYLINDER")
    return tuple(c for face in round_faces if (c := _cylinder(face)) is not None)


def _cylinder(face: Any) -> Cylinder | None:
    rim = next((edge for edge in face.Edges() if edge.geomType() == "CIRCLE"), None)
    if rim is None:
        return None
    centre, edge_point = rim.arcCenter(), rim.startPoint()
    hollow = face.normalAt(edge_point).dot(edge_point - centre) < 0
    return Cylinder(centre.toTuple(), rim.normal().toTuple(), 2 * float(rim.radius()), hollow)
