"""Solids made in CadQuery from plain numbers: prisms, rings, hexagons, and their sums.

A prism is one extrusion of one face that already has every hole in it: nothing is cut afterwards, so
there is no sliver, no second face where one belongs, and each round hole is one true cylinder.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from typing import Any

import cadquery as cq
from OCP.StdFail import StdFail_NotDone  # the kernel's refusal, which CadQuery passes on as it is

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.quantities import Vec2
from clampwright.solids.no_part import NoPart
from clampwright.solids.place import Place

Shape = Any
"""A `cadquery.Shape`; the library is imported without its types."""

Round = tuple[Vec2, float]
"""A round hole: centre and diameter, mm."""

ORIGIN = Place()
_MEET_MM = 1e-6
"""Pieces of an outline meet, and the ends of an arc lie on its circle, within this."""


class NotASolid(NoPart):
    """An outline or a cut that gives no valid solid."""


def location(place: Place) -> Any:
    """A place as CadQuery's `Location`."""
    return cq.Location(cq.Plane(place.origin, place.x, place.z))


def moved(shape: Shape, place: Place) -> Shape:
    """The same shape at another place (the geometry is shared, not copied).

    >>> moved(ring(4.0, 0.0, 1.0), Place(origin=(0.0, 0.0, 5.0))).BoundingBox().zmax
    6.0
    """
    return shape.moved(location(place))


def prism(outer: Outline, holes: Iterable[Round], height: float, place: Place = ORIGIN) -> Shape:
    """One extrusion of an outline with round holes, from the place's plane along its z, mm.

    Raises `NotASolid` where the outline's pieces do not meet.
    """
    return _extruded(_wire(outer), [_circle(at, d) for at, d in holes], height, place)


def ring(outer_d: float, inner_d: float, height: float, place: Place = ORIGIN) -> Shape:
    """A cylinder with a bore: washer, bushing, loop. `inner_d` 0 leaves the bore out."""
    bores = [_circle((0.0, 0.0), inner_d)] if inner_d > 0 else []
    return _extruded(_circle((0.0, 0.0), outer_d), bores, height, place)


def revolved(half: Outline) -> Shape:
    """A full turn round z of an outline in the half-plane x >= 0: its x is the radius, its y the height.

    >>> round(revolved(polygon([(2.0, 0.0), (3.0, 0.0), (3.0, 4.0), (2.0, 4.0)])).Volume() / math.pi, 9)
    20.0
    """
    upright = _wire(half).moved(cq.Location(cq.Plane((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0))))
    axis = cq.Vector(0.0, 0.0, 0.0), cq.Vector(0.0, 0.0, 1.0)
    return _done(lambda: cq.Solid.revolve(upright, [], 360.0, *axis))


def hexagon(across_flats: float, bore_d: float, height: float, place: Place = ORIGIN) -> Shape:
    """A hexagonal prism: bolt head or nut. `bore_d` 0 leaves the bore out."""
    radius = across_flats / math.sqrt(3)
    corners = [(radius * math.cos(k * math.pi / 3), radius * math.sin(k * math.pi / 3)) for k in range(6)]
    return prism(polygon(corners), [((0.0, 0.0), bore_d)] if bore_d > 0 else [], height, place)


def polygon(corners: Sequence[Vec2]) -> Outline:
    """The closed outline through corners given counter-clockwise.

    >>> len(polygon([(0, 0), (2, 0), (2, 1)]).pieces)
    3
    """
    turned = [*corners[1:], corners[0]]
    return Outline(tuple(Line(a, b) for a, b in zip(corners, turned, strict=True)))


def cut(body: Shape, tools: Sequence[Shape]) -> Shape:
    """A body less its tools."""
    return _done(lambda: body.cut(*tools)) if tools else body


def fuse(body: Shape, others: Sequence[Shape]) -> Shape:
    """A body and others as one, without seams between faces that lie in one surface."""
    return _done(lambda: body.fuse(*others).clean()) if others else body


def _extruded(outer: Any, bores: Sequence[Any], height: float, place: Place) -> Shape:
    solid = _done(lambda: cq.Solid.extrudeLinear(outer, list(bores), cq.Vector(0, 0, height)))
    return solid if place == ORIGIN else moved(solid, place)


def _done(make: Callable[[], Shape]) -> Shape:
    try:
        return make()
    except (ValueError, StdFail_NotDone) as refused:
        raise NotASolid(f"the kernel makes no solid of this: {refused}") from refused


def _circle(at: Vec2, diameter: float) -> Any:
    return cq.Wire.makeCircle(diameter / 2, (*at, 0.0), (0.0, 0.0, 1.0))


def _wire(outline: Outline) -> Any:
    pieces = outline.pieces
    ends = [piece.start for piece in (*pieces[1:], pieces[0])]
    for k, (piece, end) in enumerate(zip(pieces, ends, strict=True), 1):
        if math.dist(piece.end, end) > _MEET_MM:
            raise NotASolid(f"piece {k} of the outline ends at {piece.end}, not where the next one starts")
    edges = [_edge(piece, end) for piece, end in zip(pieces, ends, strict=True)]
    return _done(lambda: cq.Wire.assembleEdges(edges))


def _edge(piece: Line | Arc, end: Vec2) -> Any:
    """A piece as an edge that ends exactly where the next one starts."""
    start, last = (*piece.start, 0.0), (*end, 0.0)
    if isinstance(piece, Line):
        return cq.Edge.makeLine(start, last)
    radius, (x, y) = piece.radius_mm, piece.centre
    if abs(math.dist(piece.end, piece.centre) - radius) > _MEET_MM:
        raise NotASolid(f"an arc round {piece.centre} that does not pass through its own ends")
    if piece.sweep >= 2 * math.pi:
        return cq.Edge.makeCircle(radius, (x, y, 0.0))
    middle = piece.start_angle + (piece.sweep if piece.ccw else -piece.sweep) / 2
    over = (x + radius * math.cos(middle), y + radius * math.sin(middle), 0.0)
    return _done(lambda: cq.Edge.makeThreePointArc(start, over, last))
