"""Faces that are cylinders, whatever kind of surface they were written as."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from clampwright.structure.step.kernel import of_kernel, triple
from clampwright.structure.uncertainty import Array
from clampwright.trade.tables import rule

_GRID = (49, 17)


@dataclass(frozen=True, slots=True, eq=False)
class Cylinder:
    """An endless cylinder, and how places on a face's surface become angle and height on it.

    The angle is counted from `across` about `along`, clockwise where `hand` is -1.
    """

    point: Array
    along: Array
    across: Array
    hand: float
    radius_mm: float
    gap_mm: float
    """Farthest that the face's own surface lies off it; 0 where it was written as a cylinder."""
    lift: Lift | None
    """None where the surface's own parameters are angle and height already."""

    def angle(self, points: Array) -> Array:
        """Angle of points, -π to π, shape (..., 3) to (...)."""
        out = points - self.point
        other = self.hand * np.cross(self.along, self.across)
        found: Array = np.arctan2(out @ other, out @ self.across)
        return found

    def height(self, points: Array) -> Array:
        """Distance of points along the axis from `point`, shape (..., 3) to (...)."""
        found: Array = (points - self.point) @ self.along
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Lift:
    """Angles of a surface that runs on without a jump of a full turn, on a grid of its parameters."""

    u: Array
    v: Array
    angles: Array

    def lifted(self, angles: Array, u: Array, v: Array) -> Array:
        """Angles with the full turns added that make them run on with the surface's."""
        beside = self.angles[_nearest(self.u, u), _nearest(self.v, v)]
        found: Array = angles + 2 * np.pi * np.round((beside - angles) / (2 * np.pi))
        return found


def _nearest(grid: Array, values: Array) -> Any:
    share = (values - grid[0]) / (grid[-1] - grid[0])
    return np.clip(np.round(share * (len(grid) - 1)), 0, len(grid) - 1).astype(int)


def recognised(face: Any, surface: Any) -> Cylinder | None:
    """The cylinder that a face lies on; None where it lies on none.

    A surface that was not written as a cylinder is one where the kernel's canonical recognition makes one
    of it and a grid of its points lies on that within rule `step-recognised-within`.
    """
    from OCP.GeomAbs import GeomAbs_SurfaceType

    kind = surface.GetType()
    if kind == GeomAbs_SurfaceType.GeomAbs_Cylinder and _own_parameters(face):
        return _cylinder(surface.Cylinder())
    if kind in (GeomAbs_SurfaceType.GeomAbs_Plane, GeomAbs_SurfaceType.GeomAbs_Cone):
        return None
    if kind in (GeomAbs_SurfaceType.GeomAbs_Sphere, GeomAbs_SurfaceType.GeomAbs_Torus):
        return None
    found = _canonical(face)
    return _held_against(face, surface, found) if found is not None else None


def _own_parameters(face: Any) -> bool:
    """Whether the surface is a cylinder itself, not an extrusion that only comes to one."""
    from OCP.BRep import BRep_Tool
    from OCP.Geom import Geom_CylindricalSurface, Geom_RectangularTrimmedSurface

    surface = BRep_Tool.Surface_s(face)
    while isinstance(surface, Geom_RectangularTrimmedSurface):
        surface = surface.BasisSurface()
    return isinstance(surface, Geom_CylindricalSurface)


def _canonical(face: Any) -> Any:
    from OCP.gp import gp_Cylinder
    from OCP.ShapeAnalysis import ShapeAnalysis_CanonicalRecognition

    found = gp_Cylinder()
    look = ShapeAnalysis_CanonicalRecognition(face)
    try:
        return found if look.IsCylinder(rule("step-recognised-within").value, found) else None
    except Exception as error:
        of_kernel(error)
        return None


def _cylinder(found: Any, gap_mm: float = 0.0, lift: Lift | None = None) -> Cylinder:
    at = found.Position()
    hand = 1.0 if at.Direct() else -1.0
    along, across = triple(at.Direction()), triple(at.XDirection())
    return Cylinder(triple(at.Location()), along, across, hand, found.Radius(), gap_mm, lift)


def _held_against(face: Any, surface: Any, found: Any) -> Cylinder | None:
    from OCP.BRepTools import BRepTools

    low_u, high_u, low_v, high_v = BRepTools.UVBounds_s(face)
    if not (high_u - low_u > 0 and high_v - low_v > 0):
        return None
    u, v = np.linspace(low_u, high_u, _GRID[0]), np.linspace(low_v, high_v, _GRID[1])
    points = np.array([[triple(surface.Value(a, b)) for b in v] for a in u])
    plain = _cylinder(found)
    out = points - plain.point
    off = out - (out @ plain.along)[..., None] * plain.along
    gap = float(np.max(np.abs(np.linalg.norm(off, axis=-1) - plain.radius_mm)))
    if not gap <= rule("step-recognised-within").value:
        return None
    angles = np.unwrap(np.unwrap(plain.angle(points), axis=0), axis=1)
    return _cylinder(found, gap, Lift(u, v, angles))
