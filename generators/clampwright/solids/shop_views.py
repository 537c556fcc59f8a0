"""Views and sections of one part as a drawing needs them, by exact hidden-line removal on its solid.

The kernel's edges are taken apart into straight lines, circles and arcs seen square on, and whatever else
there is as chains; then `tidy` takes out what lies over something else.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Any

import cadquery as cq
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepLib import BRepLib
from OCP.GCPnts import GCPnts_TangentialDeflection
from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
from OCP.HLRAlgo import HLRAlgo_Projector
from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape

from clampwright.quantities import Vec2
from clampwright.solids.measure import box_mm
from clampwright.solids.no_part import NoPart
from clampwright.solids.place import Place
from clampwright.solids.shapes import Shape, location
from clampwright.solids.shop_looks import ALONG_THE_BORE, LOOKS
from clampwright.solids.tidy_lines import tidy
from clampwright.solids.view_lines import Chain, Edge, ViewArc, ViewLines

CHORD_MM = 0.005
"""Largest distance between a curve that is no arc in the picture and the chain that stands for it."""
ANGLE_RAD = 0.05
_WHOLE_DEG = 360.0


class NoSection(NoPart):
    """A plane that does not cut the part."""


def views_of(shape: Shape, names: Sequence[str], *, smooth: bool = False) -> tuple[ViewLines, ...]:
    """Views of a part, in the order asked for; where each goes on the sheet is `arranged`'s to say.

    Parameters
    ----------
    shape : Shape
        The part in its own frame: x right, y up, z towards the eye of the front view.
    names : Sequence[str]
        Of "front", "top", "right", "left", "bottom", "back".
    smooth : bool
        Whether edges between faces that pass smoothly into each other are drawn too.

    Raises
    ------
    KeyError
        For a view that has no such name.
    """
    return tuple(view_at(shape, LOOKS[name], name, smooth=smooth) for name in names)


def view_at(shape: Shape, at: Place, name: str, *, hidden: bool = True, smooth: bool = False) -> ViewLines:
    """The view in the picture `at`: its x to the right, its z towards the eye."""
    found = _without_hidden(shape, at)
    names = ["VCompound", "OutLineVCompound", *(["Rg1LineVCompound"] if smooth else [])]
    seen = [edge for each in names for edge in _edges(getattr(found, each)())]
    behind = []
    if hidden:
        behind = [
            edge for each in ("HCompound", "OutLineHCompound") for edge in _edges(getattr(found, each)())
        ]
    return ViewLines(name, at, *tidy(seen, behind))


def section_of(shape: Shape, at: Place, name: str = "section A-A", *, hidden: bool = False) -> ViewLines:
    """The part cut at the plane of the picture `at`, what lies between plane and eye taken away.

    Parameters
    ----------
    shape : Shape
        The part in its own frame.
    at : Place
        Its x-y plane cuts; the eye looks against its z.
    name : str
        What the view is called.
    hidden : bool
        Whether edges hidden behind the cut are wanted.

    Returns
    -------
    ViewLines
        `cut` has the faces laid open, each its outer ring counter-clockwise and then its holes, closed by
        their first point.

    Raises
    ------
    NoSection
        Where the plane misses the part.
    """
    kept, plane = _half(shape, at)
    faces = plane.intersect(shape).Faces()
    if not faces:
        raise NoSection(f"{name}: the plane does not cut the part")
    view = view_at(kept, at, name, hidden=hidden)
    return ViewLines(name, at, view.seen, view.hidden, tuple(sorted(_rings(face, at) for face in faces)))


def bore_section(shape: Shape, name: str = "section A-A") -> ViewLines:
    """A turned part with its bore along z, cut along the bore: the axis lies across the picture."""
    return section_of(shape, ALONG_THE_BORE, name)


def _without_hidden(shape: Shape, at: Place) -> Any:
    algorithm = HLRBRep_Algo()
    algorithm.Add(shape.wrapped)
    axes = gp_Ax2(gp_Pnt(*at.origin), gp_Dir(*at.z), gp_Dir(*at.x))
    algorithm.Projector(HLRAlgo_Projector(axes))
    algorithm.Update()
    algorithm.Hide()
    return HLRBRep_HLRToShape(algorithm)


def _edges(compound: Any) -> Iterator[Edge]:
    if compound is None or compound.IsNull():
        return
    BRepLib.BuildCurves3d_s(compound)
    for edge in cq.Shape.cast(compound).Edges():
        yield _edge(edge)


def _edge(edge: Any) -> Edge:
    """One edge of the picture's plane as the drawing has it."""
    circle = edge.geomType() == "CIRCLE"
    return _arc(BRepAdaptor_Curve(edge.wrapped)) if circle else _sampled(edge)


def _arc(curve: Any) -> ViewArc:
    circle = curve.Circle()
    first, last = curve.FirstParameter(), curve.LastParameter()
    position = circle.Position()
    x, up = position.XDirection(), position.Direction().Z() > 0
    base = math.atan2(x.Y(), x.X())
    ends = (base + first, base + last) if up else (base - last, base - first)
    start = math.degrees(ends[0]) % _WHOLE_DEG
    middle = circle.Location()
    centre = (middle.X(), middle.Y())
    return ViewArc(centre, circle.Radius(), start, start + math.degrees(ends[1] - ends[0]))


def _half(shape: Shape, at: Place) -> tuple[Shape, Shape]:
    """What is left behind the cutting plane, and a face of the plane larger than the part."""
    low, high = box_mm(shape)
    reach = math.dist(low, high) + max(math.dist(at.origin, low), math.dist(at.origin, high))
    tool = cq.Solid.makeBox(2 * reach, 2 * reach, reach, cq.Vector(-reach, -reach, 0.0)).moved(location(at))
    plane = cq.Face.makePlane(2 * reach, 2 * reach, (0.0, 0.0, 0.0), (0.0, 0.0, 1.0)).moved(location(at))
    return shape.cut(tool), plane


def _rings(face: Any, at: Place) -> tuple[Chain, ...]:
    """Outer ring counter-clockwise, then the holes, clockwise."""
    holes = sorted(_ring(wire, at, ccw=False) for wire in face.innerWires())
    return (_ring(face.outerWire(), at, ccw=True), *holes)


def _ring(wire: Any, at: Place, *, ccw: bool) -> Chain:
    """A closed wire as points of the picture from its lowest on the left, closed by it again."""
    turned = wire.moved(location(at).inverse)
    points = [p for chain in _end_to_end([_sampled(edge) for edge in turned]) for p in chain[:-1]]
    if (_doubled_area(points) > 0) != ccw:
        points.reverse()
    first = points.index(min(points))
    return (*points[first:], *points[:first], points[first])


def _sampled(edge: Any) -> Chain:
    """Points of an edge, either way."""
    if edge.geomType() == "LINE":
        return tuple((p.x, p.y) for p in (edge.startPoint(), edge.endPoint()))
    found = GCPnts_TangentialDeflection(BRepAdaptor_Curve(edge.wrapped), ANGLE_RAD, CHORD_MM)
    return tuple((p.X(), p.Y()) for p in map(found.Value, range(1, found.NbPoints() + 1)))


def _end_to_end(chains: list[Chain]) -> list[Chain]:
    """The edges of a wire in their order, each turned so that it starts where the last one ended."""
    first, *rest = chains
    if rest and min(math.dist(first[-1], p) for p in (rest[0][0], rest[0][-1])) > min(
        math.dist(first[0], p) for p in (rest[0][0], rest[0][-1])
    ):
        first = first[::-1]
    turned = [first]
    for chain in rest:
        end = turned[-1][-1]
        turned.append(chain if math.dist(end, chain[0]) <= math.dist(end, chain[-1]) else chain[::-1])
    return turned


def _doubled_area(points: Sequence[Vec2]) -> float:
    return math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, (*points[1:], points[0]), strict=True))
