"""Round faces of a solid as their surfaces say: axis, diameter, how far round and how long."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepClass3d import BRepClass3d_SolidClassifier
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.gp import gp_Pnt
from OCP.TopAbs import TopAbs_Orientation, TopAbs_State

from clampwright.quantities import Vec3
from clampwright.quantities.directions import along
from clampwright.solids.shapes import Shape

_TURN = 1e-9
"""Radians by which a whole turn may be short."""
_ON_MM = 1e-7
"""A point nearer to a face than this lies on it."""
_PAST = 1e-3
"""Share of its length by which a hole's axis is followed past its ends."""


@dataclass(frozen=True, slots=True)
class RoundFace:
    """A face of a cylinder, mm."""

    diameter_mm: float
    start: Vec3
    """Where its axis passes one end, and the other."""
    end: Vec3
    hollow: bool
    """The solid lies outside it: a hole, or a corner filled out."""
    whole: bool
    """It goes all the way round."""

    @property
    def length_mm(self) -> float:
        """Along the axis."""
        return math.dist(self.start, self.end)


def round_faces(shape: Shape) -> tuple[RoundFace, ...]:
    """Every face of a cylinder, in the kernel's order.

    >>> from clampwright.solids.shapes import ring
    >>> [(f.diameter_mm, f.length_mm, f.hollow, f.whole) for f in round_faces(ring(11.0, 5.0, 12.5))]
    [(11.0, 12.5, False, True), (5.0, 12.5, True, True)]
    """
    return tuple(found for face in shape.Faces() if (found := _round(face.wrapped)) is not None)


def open_holes(shape: Shape, holes: Sequence[RoundFace]) -> list[bool]:
    """Whether each hole is open at both ends: past either of them its axis does not run into the solid.

    >>> from clampwright.solids.shapes import ring
    >>> washer = ring(11.0, 5.0, 1.0)
    >>> open_holes(washer, round_faces(washer)[1:])
    [True]
    """
    solid = BRepClass3d_SolidClassifier(shape.wrapped)
    return [not any(_inside(solid, point) for point in _past_ends(hole)) for hole in holes]


def _past_ends(hole: RoundFace) -> tuple[Vec3, Vec3]:
    a, b = hole.start, hole.end
    ahead: Vec3 = (b[0] - a[0], b[1] - a[1], b[2] - a[2])
    return along(a, (ahead, -_PAST)), along(b, (ahead, _PAST))


def _inside(solid: Any, point: Vec3) -> bool:
    solid.Perform(gp_Pnt(*point), _ON_MM)
    return bool(solid.State() == TopAbs_State.TopAbs_IN)


def vertex_box(shape: Shape) -> tuple[Vec3, Vec3]:
    """Lowest and highest corner round a shape's vertices.

    >>> from clampwright.solids.shapes import polygon, prism
    >>> vertex_box(prism(polygon([(0.0, 0.0), (2.0, 0.0), (2.0, 1.0)]), [], 4.0))
    ((0.0, 0.0, 0.0), (2.0, 1.0, 4.0))
    """
    points = [_plain(BRep_Tool.Pnt_s(vertex.wrapped)) for vertex in shape.Vertices()]
    x, y, z = zip(*points, strict=True)
    return (min(x), min(y), min(z)), (max(x), max(y), max(z))


def _round(face: Any) -> RoundFace | None:
    surface = BRepAdaptor_Surface(face)
    if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_Cylinder:
        return None
    cylinder = surface.Cylinder()
    axis = cylinder.Axis()
    origin, ahead = _plain(axis.Location()), _plain(axis.Direction())
    low, high = surface.FirstVParameter(), surface.LastVParameter()
    turn = surface.LastUParameter() - surface.FirstUParameter()
    outward = face.Orientation() == TopAbs_Orientation.TopAbs_FORWARD
    return RoundFace(
        2 * float(cylinder.Radius()),
        along(origin, (ahead, low)),
        along(origin, (ahead, high)),
        outward != bool(cylinder.Direct()),
        turn > 2 * math.pi - _TURN,
    )


def _plain(of: Any) -> Vec3:
    return float(of.X()), float(of.Y()), float(of.Z())
