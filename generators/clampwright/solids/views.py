"""Views of bodies: exact hidden-line removal, with the direction to the right of the picture given.

What is drawn are the edges that an eye far away sees, each tied to its body, as chains of points in the
plane of the picture. Two bodies in contact hide each other as solids do.

The kernel's bindings are used directly here. CadQuery's own drawing, its SVG export, runs the same removal
of hidden lines but takes no direction for the right of the picture, so the view comes out rolled; its
edges no longer belong to bodies; and it cuts every curve into short lines of its own choice.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

import cadquery as cq
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepLib import BRepLib
from OCP.GCPnts import GCPnts_TangentialDeflection
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

from clampwright.layout.placed import Frame
from clampwright.quantities import Vec2, Vec3
from clampwright.quantities.directions import unit
from clampwright.solids.body import Body
from clampwright.solids.place import Place

ANGLE_RAD = 0.1
"""Largest turn between two points of a curve in a picture."""

Chain = tuple[Vec2, ...]
"""Points of one edge in the picture, mm: x to the right, y up."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """The edges of one body in a view: sharp edges and outlines that are seen, and those that are hidden.

    `smooth` are seen edges between faces that pass smoothly into each other.
    """

    body: str
    role: str
    ink: str
    seen: tuple[Chain, ...]
    smooth: tuple[Chain, ...]
    hidden: tuple[Chain, ...]


def look(towards: Vec3, right: Vec3) -> Place:
    """The frame of a picture: the eye looks along `towards`, and `right` is to the right.

    `right` is made square to `towards` first.

    >>> look((0.0, 0.0, -1.0), (1.0, 0.0, 0.2)).x
    (1.0, 0.0, 0.0)
    """
    z = unit((-towards[0], -towards[1], -towards[2]))
    along_z = sum(a * b for a, b in zip(right, z, strict=True))
    x, y, w = (a - along_z * b for a, b in zip(right, z, strict=True))
    return Place((0.0, 0.0, 0.0), unit((x, y, w)), z)


def standard_looks(frame: Frame) -> dict[str, Place]:
    """The usual pictures of a part by name: "far face", "near face", "edge" and "oblique".

    "far face" is the template's view: u to the right, v up, seen from +n.
    """
    part = Place(frame.origin, frame.u, frame.n)
    looks = {
        "far face": ((0.0, 0.0, -1.0), (1.0, 0.0, 0.0)),
        "near face": ((0.0, 0.0, 1.0), (-1.0, 0.0, 0.0)),
        "edge": ((0.0, 1.0, 0.0), (1.0, 0.0, 0.0)),
        "oblique": ((-0.5, 0.75, -0.55), (0.83, 0.55, 0.0)),
    }
    return {name: _at(part, look(part.direction(t), part.direction(r))) for name, (t, r) in looks.items()}


def draw(
    bodies: Sequence[Body], at: Place, *, hidden: bool = False, chord_mm: float = 0.05
) -> tuple[Drawn, ...]:
    """Edges of bodies as seen in the picture `at`, body by body in the order given.

    Parameters
    ----------
    bodies : Sequence[Body]
        What is to be drawn, and what hides it.
    at : Place
        Frame of the picture, from `look` or `standard_looks`: its origin is the picture's.
    hidden : bool
        Whether hidden edges are wanted too.
    chord_mm : float
        Largest distance between a curve and the chain that stands for it.
    """
    shapes = [body.placed().wrapped for body in bodies]
    algorithm = HLRBRep_Algo()
    for shape in shapes:
        algorithm.Add(shape)
    axes = gp_Ax2(gp_Pnt(*at.origin), gp_Dir(*at.z), gp_Dir(*at.x))
    algorithm.Projector(HLRAlgo_Projector(axes))
    algorithm.Update()
    algorithm.Hide()
    found = HLRBRep_HLRToShape(algorithm)
    return tuple(
        _drawn(body, found, shape, hidden, chord_mm) for body, shape in zip(bodies, shapes, strict=True)
    )


def role_by_role(bodies: Iterable[Body]) -> tuple[Body, ...]:
    """The bodies of each role as one: drawn three times as fast, for pictures that need no more.

    The time for hiding grows with the square of the number of bodies.
    """
    alike: dict[str, list[Body]] = {}
    for body in bodies:
        alike.setdefault(body.role, []).append(body)
    return tuple(_as_one(role, held) for role, held in alike.items())


def extent(drawn: Iterable[Drawn]) -> tuple[float, float, float, float]:
    """(left, bottom, right, top) of everything seen in a view, mm."""
    points = [p for d in drawn for chain in d.seen for p in chain]
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _as_one(role: str, bodies: Sequence[Body]) -> Body:
    return Body(role, role, role, cq.Compound.makeCompound([body.placed() for body in bodies]), Place())


def _at(part: Place, turned: Place) -> Place:
    return Place(part.origin, turned.x, turned.z)


def _drawn(body: Body, found: Any, shape: Any, hidden: bool, chord: float) -> Drawn:
    seen = (*_chains(found.VCompound(shape), chord), *_chains(found.OutLineVCompound(shape), chord))
    smooth = _chains(found.Rg1LineVCompound(shape), chord)
    behind: tuple[Chain, ...] = ()
    if hidden:
        behind = (*_chains(found.HCompound(shape), chord), *_chains(found.OutLineHCompound(shape), chord))
    return Drawn(body.name, body.role, body.ink, seen, tuple(smooth), behind)


def _chains(edges: Any, chord: float) -> tuple[Chain, ...]:
    return tuple(_chain(edge, chord) for edge in _edges(edges))


def _edges(compound: Any) -> list[Any]:
    if compound is None or compound.IsNull():
        return []
    BRepLib.BuildCurves3d_s(compound)
    edges: list[Any] = cq.Shape.cast(compound).Edges()
    return edges


def _chain(edge: Any, chord: float) -> Chain:
    if edge.geomType() == "LINE":
        return tuple((p.x, p.y) for p in (edge.startPoint(), edge.endPoint()))
    points = GCPnts_TangentialDeflection(BRepAdaptor_Curve(edge.wrapped), ANGLE_RAD, chord)
    found = (points.Value(k) for k in range(1, points.NbPoints() + 1))
    return tuple((p.X(), p.Y()) for p in found)
