"""The outline of a face on its cylinder: angle and height of its edges, and its reach along the axis."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from clampwright.structure.step.kernel import explored, triple
from clampwright.structure.step.recognised import Cylinder
from clampwright.structure.uncertainty import Array

_SAMPLES = 65
_HALVINGS = 80
_GOLDEN = (5**0.5 - 1) / 2


@dataclass(frozen=True, slots=True, eq=False)
class Outline:
    """Edges as straight pieces, shape (n, 4): angle, height, angle, height; and the span of their heights."""

    pieces: Array
    low_mm: float
    high_mm: float


@dataclass(frozen=True, slots=True, eq=False)
class _Edge:
    at: Array
    angles: Array
    heights: Array
    height: Callable[[float], float]


def outline(face: Any, cylinder: Cylinder) -> Outline | None:
    """The outline of a face; None where it has no edges (or no length)."""
    edges = list(_edges(face, cylinder))
    if not edges:
        return None
    low = -_highest([_upside_down(edge) for edge in edges], cylinder.radius_mm)
    high = _highest(edges, cylinder.radius_mm)
    pieces = [np.stack((e.angles[:-1], e.heights[:-1], e.angles[1:], e.heights[1:]), axis=1) for e in edges]
    return Outline(np.concatenate(pieces), low, high) if high > low else None


def _edges(face: Any, cylinder: Cylinder) -> Any:
    from OCP.BRep import BRep_Tool
    from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Curve2d
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopoDS import TopoDS

    for shape in explored(face, TopAbs_ShapeEnum.TopAbs_EDGE):
        edge = TopoDS.Edge_s(shape)
        if not BRep_Tool.Degenerated_s(edge):
            yield _edge(BRepAdaptor_Curve(edge), BRepAdaptor_Curve2d(edge, face), cylinder)


def _edge(curve: Any, on_surface: Any, cylinder: Cylinder) -> _Edge:
    from OCP.GeomAbs import GeomAbs_CurveType

    straight = cylinder.lift is None and on_surface.GetType() == GeomAbs_CurveType.GeomAbs_Line
    at = np.linspace(curve.FirstParameter(), curve.LastParameter(), 2 if straight else _SAMPLES)
    points = np.array([triple(curve.Value(t)) for t in at])
    places = [on_surface.Value(t) for t in at]
    u, v = np.array([p.X() for p in places]), np.array([p.Y() for p in places])
    angles = u if cylinder.lift is None else cylinder.lift.lifted(cylinder.angle(points), u, v)

    def height(t: float) -> float:
        return float(cylinder.height(triple(curve.Value(t))))

    return _Edge(at, angles, cylinder.height(points), height)


def _upside_down(edge: _Edge) -> _Edge:
    return _Edge(edge.at, edge.angles, -edge.heights, lambda t: -edge.height(t))


def _highest(edges: list[_Edge], radius: float) -> float:
    """Greatest height of any edge: only those that come near the highest sample are looked at closely."""
    rough = max(float(np.max(edge.heights)) for edge in edges)
    near = (edge for edge in edges if np.max(edge.heights) > rough - 0.05 * radius)
    return max(_top(edge) for edge in near)


def _top(edge: _Edge) -> float:
    """Greatest height of an edge, by golden section between the neighbours of its highest sample."""
    best = int(np.argmax(edge.heights))
    top = float(edge.heights[best])
    if len(edge.at) == 2:
        return top
    low, high = edge.at[max(best - 1, 0)], edge.at[min(best + 1, len(edge.at) - 1)]
    for _ in range(_HALVINGS):
        a, b = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        if edge.height(a) > edge.height(b):
            high = b
        else:
            low = a
        if high - low < 1e-12 * (abs(low) + abs(high) + 1e-9):
            break
    return max(top, edge.height((low + high) / 2))
