"""A carried component as a reference body: a box on its lug, open above each of its bolts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

from clampwright.layout.placed import Hole, PlacedComponent, PlateLayout
from clampwright.quantities import Vec2, Vec3
from clampwright.solids.body import Body
from clampwright.solids.lugs import Bore, covered, drum, ear, inside, room_round
from clampwright.solids.place import Place, place_of
from clampwright.solids.shapes import NotASolid, Shape, cut, fuse, polygon, prism, ring

EAR_SHARE = 0.15
"""Thickness of an ear in heights of the body, where the lug's is not known."""


def component_bodies(layout: PlateLayout) -> Iterator[Body]:
    """Every component with a body; one without shows the lug round each hole, where its lug is known."""
    part = place_of(layout.frame)
    holes = {hole.label: hole for hole in layout.holes}
    for component in layout.components:
        own = own_place(component, layout.thickness_mm)
        mine = [(_in_own_frame(component, holes[label].at), holes[label]) for label in component.holes]
        shape = component_shape(component, mine)
        if shape is not None:
            name = f"component {component.name}"
            yield Body(name, name, "component", shape, own.within(part))


def component_shape(component: PlacedComponent, holes: list[tuple[Vec2, Hole]]) -> Shape | None:
    """The component in its own frame, base at z = 0; None where neither body nor lug is known."""
    bores = tuple(Bore(_same_each_time(at), hole.diameter_mm, room_mm(hole)) for at, hole in holes)
    return _shape(component.body, lug_thickness(component), bores)


@lru_cache(maxsize=64)
def _shape(body: Vec3 | None, lug: float, bores: tuple[Bore, ...]) -> Shape | None:
    if body is None:
        rings = [_ear_ring(bore, lug) for bore in bores] if lug > 0 else []
        return fuse(rings[0], rings[1:]) if rings else None
    length, width, height = body
    base = polygon([(sx * length / 2, sy * width / 2) for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1))])
    block = prism(base, [], height)
    try:
        shape = _with_ears(block, (length, width), lug or EAR_SHARE * height, lug, bores)
    except NotASolid:
        return block
    return shape if shape.isValid() else block


def _same_each_time(at: Vec2) -> Vec2:
    """A place without the last digits, which come from where the part sits: alike components share shapes."""
    return (round(at[0], 9) + 0.0, round(at[1], 9) + 0.0)


def lug_thickness(component: PlacedComponent) -> float:
    """Thickness of the lug in the component's stacks, mm; 0 where it has none."""
    lugs = (i.thickness_mm for s in component.stacks for i in s.items if i.name == "component lug")
    return next(lugs, 0.0)


def _with_ears(block: Shape, size: Vec2, thickness: float, lug: float, bores: tuple[Bore, ...]) -> Shape:
    ears = [
        prism(ear(bore.at, inside(bore.at, size, bore.room_mm), bore.room_mm), [], thickness)
        for bore in bores
        if not covered(bore.at, size, bore.hole_mm)
    ]
    rooms = [drum(bore.at, 2 * bore.room_mm, lug) for bore in bores] if lug > 0 else []
    holes = [drum(bore.at, bore.hole_mm, -1.0) for bore in bores]
    return cut(fuse(block, ears), [*rooms, *holes])


def _ear_ring(bore: Bore, lug: float) -> Shape:
    return ring(2 * bore.room_mm, bore.hole_mm, lug, Place((*bore.at, 0.0)))


def room_mm(hole: Hole) -> float:
    """Radius that a wrench or screwdriver needs round the hole."""
    return room_round(hole.fastener, hole.diameter_mm)


def own_place(component: PlacedComponent, thickness: float) -> Place:
    """A component's own frame in the part's, its base on the far face."""
    x = (math.cos(component.turn_rad), math.sin(component.turn_rad), 0.0)
    return Place((*component.at, thickness), x)


def _in_own_frame(component: PlacedComponent, at: Vec2) -> Vec2:
    du, dv = at[0] - component.at[0], at[1] - component.at[1]
    cos, sin = math.cos(component.turn_rad), math.sin(component.turn_rad)
    return (cos * du + sin * dv, cos * dv - sin * du)
