"""Every face of a file that is round: cylinders seen from outside or inside, and bends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from clampwright.structure.step.kernel import explored, of_kernel, triple
from clampwright.structure.step.opened import Part
from clampwright.structure.step.outlines import outline
from clampwright.structure.step.recognised import Cylinder, recognised
from clampwright.structure.uncertainty import Array


@dataclass(frozen=True, slots=True, eq=False)
class Skin:
    """One cylindrical face."""

    part: str
    solid: int
    """Number of the solid that it belongs to, from 0 through the whole file."""
    outer: bool
    cylinder: Cylinder
    pieces: Array
    """Its outline, shape (n, 4): angle, height, angle, height of every straight piece."""
    low_mm: float
    high_mm: float

    @property
    def ends(self) -> Array:
        """The two points of the axis that it reaches from and to, shape (2, 3)."""
        heights = np.array((self.low_mm, self.high_mm))
        found: Array = self.cylinder.point + heights[:, None] * self.cylinder.along
        return found


@dataclass(frozen=True, slots=True, eq=False)
class Bend:
    """One face of a bent tube seen from outside: part of a torus."""

    part: str
    centre: Array
    axis: Array
    bend_radius_mm: float
    tube_radius_mm: float
    swept_rad: float
    """Angle round the bend's axis."""
    round_rad: float
    """Angle round the tube."""


@dataclass(frozen=True, slots=True, eq=False)
class Faces:
    """What the faces of a file came to."""

    skins: tuple[Skin, ...]
    bends: tuple[Bend, ...]
    looked_at: int
    free_form: int
    """Faces of free form that are no cylinder."""
    broken: int
    """Faces that the kernel could not work with."""
    triangles: int
    """Flat faces with three edges."""


def faces_of(parts: Sequence[Part]) -> Faces:
    """Every face of the parts' solids, as what it is."""
    found: list[Any] = []
    solid = 0
    for part in parts:
        for shape in part.solids:
            found += [_face(face, part.name, solid) for face in _faces(shape)]
            solid += 1
    return Faces(
        tuple(f for f in found if isinstance(f, Skin)),
        tuple(f for f in found if isinstance(f, Bend)),
        len(found),
        found.count("free form"),
        found.count("broken"),
        found.count("triangle"),
    )


def _faces(solid: Any) -> Iterator[Any]:
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopoDS import TopoDS

    for shape in explored(solid, TopAbs_ShapeEnum.TopAbs_FACE):
        yield TopoDS.Face_s(shape)


def _face(face: Any, part: str, solid: int) -> Skin | Bend | str:
    from OCP.BRepAdaptor import BRepAdaptor_Surface
    from OCP.GeomAbs import GeomAbs_SurfaceType

    try:
        surface = BRepAdaptor_Surface(face)
        kind = surface.GetType()
        if kind == GeomAbs_SurfaceType.GeomAbs_Plane:
            return "triangle" if _edge_count(face) == 3 else "flat"
        if kind == GeomAbs_SurfaceType.GeomAbs_Torus:
            return _bend(face, surface, part) or "inner bend"
        if kind in (GeomAbs_SurfaceType.GeomAbs_Cone, GeomAbs_SurfaceType.GeomAbs_Sphere):
            return "cone or ball"
        return _skin(face, surface, part, solid) or "free form"
    except Exception as error:
        of_kernel(error)
        return "broken"


def _edge_count(face: Any) -> int:
    from OCP.TopAbs import TopAbs_ShapeEnum

    return sum(1 for _ in explored(face, TopAbs_ShapeEnum.TopAbs_EDGE))


def _skin(face: Any, surface: Any, part: str, solid: int) -> Skin | None:
    cylinder = recognised(face, surface)
    edges = outline(face, cylinder) if cylinder is not None else None
    if cylinder is None or edges is None:
        return None
    at, outwards = _middle(face, surface)
    out = at - cylinder.point
    off = out - (out @ cylinder.along) * cylinder.along
    return Skin(part, solid, bool(outwards @ off > 0), cylinder, edges.pieces, edges.low_mm, edges.high_mm)


def _bend(face: Any, surface: Any, part: str) -> Bend | None:
    from OCP.BRepTools import BRepTools

    torus = surface.Torus()
    centre, axis = triple(torus.Position().Location()), triple(torus.Position().Direction())
    at, outwards = _middle(face, surface)
    out = (at - centre) - ((at - centre) @ axis) * axis
    core = centre + torus.MajorRadius() * out / np.linalg.norm(out)
    if outwards @ (at - core) <= 0:
        return None
    low_u, high_u, low_v, high_v = BRepTools.UVBounds_s(face)
    return Bend(part, centre, axis, torus.MajorRadius(), torus.MinorRadius(), high_u - low_u, high_v - low_v)


def _middle(face: Any, surface: Any) -> tuple[Array, Array]:
    """A point amid a face's surface, and the way out of the solid there."""
    from OCP.BRepTools import BRepTools
    from OCP.gp import gp_Pnt, gp_Vec
    from OCP.TopAbs import TopAbs_Orientation

    low_u, high_u, low_v, high_v = BRepTools.UVBounds_s(face)
    at, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
    surface.D1((low_u + high_u) / 2, (low_v + high_v) / 2, at, along_u, along_v)
    normal = np.cross(triple(along_u), triple(along_v))
    turned = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    return triple(at), -normal if turned else normal
