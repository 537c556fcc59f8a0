"""Which bodies a picture can do without, as the plate and the components hide all of them.

Only what is sure to be hidden is left out. The picture stays the same without it: whatever it hides is
behind those larger bodies too.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import product

from clampwright.layout.placed import Hole, PlacedComponent, PlateLayout
from clampwright.quantities import Vec2, Vec3
from clampwright.solids.body import Body
from clampwright.solids.component import own_place, room_mm
from clampwright.solids.measure import box_mm
from clampwright.solids.place import Place, place_of

HARDWARE = ("bolt", "nut", "washer", "bushing")
"""Roles of the bodies that may be left out."""


def without_hidden(bodies: Sequence[Body], layout: PlateLayout, at: Place) -> tuple[Body, ...]:
    """The bodies of an assembly less the hardware that surely cannot be seen in the picture `at`.

    Parameters
    ----------
    bodies : Sequence[Body]
        All bodies of the assembly.
    layout : PlateLayout
        What they are made from.
    at : Place
        Frame of the picture; its z points to the eye. From below, nothing is left out.
    """
    world = place_of(layout.frame)
    eye = _turned(at.z, world)
    bolted = {body.name for body in bodies if body.role == "bolt"}
    open_holes = [hole for hole in layout.holes if f"bolt {hole.label}" not in bolted]
    if eye[2] <= 0:
        return tuple(bodies)

    def seen(body: Body) -> bool:
        corners = [_within(body.place.point(corner), world) for corner in _corners(body)]
        over = [(x, y, max(z, layout.thickness_mm)) for x, y, z in corners]
        under = [(x, y, min(z, 0.0)) for x, y, z in corners]
        return not (_covered(over, layout, eye) and _behind_plate(under, layout, open_holes, eye))

    return tuple(body for body in bodies if body.role not in HARDWARE or seen(body))


def _behind_plate(under: Sequence[Vec3], layout: PlateLayout, open_holes: Sequence[Hole], eye: Vec3) -> bool:
    """Whether the shadow on the near face of all that these corners hold meets no edge and no open hole.

    A bolted hole counts as closed: the head covers it.
    """
    middle, radius = _disc([(x - z / eye[2] * eye[0], y - z / eye[2] * eye[1]) for x, y, z in under])
    outline = layout.outline
    return (
        outline.contains(middle)
        and outline.distance(middle) >= radius
        and all(math.dist(hole.at, middle) >= radius + hole.diameter_mm / 2 for hole in open_holes)
    )


def _covered(over: Sequence[Vec3], layout: PlateLayout, eye: Vec3) -> bool:
    """Whether nothing stands over the plate, or a component has all of it inside and hides it."""
    if max(z for _, _, z in over) <= layout.thickness_mm:
        return True
    return any(_inside(over, component, layout, eye) for component in layout.components)


def _inside(over: Sequence[Vec3], component: PlacedComponent, layout: PlateLayout, eye: Vec3) -> bool:
    """Whether a component's body holds these corners behind side walls that no bolt's room breaks.

    A look leaves the body `after` so many lengths of `eye` at the latest, below the top.
    """
    if component.body is None:
        return False
    length, width, height = component.body
    place, half = own_place(component, layout.thickness_mm), (length / 2, width / 2)
    x, y, z = zip(*(_within(corner, place) for corner in over), strict=True)
    reach = [(h - max(map(abs, side))) for h, side in zip(half, (x, y), strict=True)]
    if min(reach) < 0 or not _walls_whole(component, layout, place, half):
        return False
    to_eye = _turned(eye, place)
    after = min(
        (
            (h - min(math.copysign(1.0, e) * p for p in side)) / abs(e)
            for h, side, e in zip(half, (x, y), to_eye[:2], strict=True)
            if abs(e) > 1e-9
        ),
        default=math.inf,
    )
    return bool(max(z) + after * to_eye[2] < height)


def _walls_whole(component: PlacedComponent, layout: PlateLayout, place: Place, half: Vec2) -> bool:
    for hole in layout.holes:
        if hole.label in component.holes:
            x, y, _ = _within((*hole.at, layout.thickness_mm), place)
            if abs(x) + room_mm(hole) >= half[0] or abs(y) + room_mm(hole) >= half[1]:
                return False
    return True


def _corners(body: Body) -> list[Vec3]:
    (x0, y0, z0), (x1, y1, z1) = box_mm(body.shape)
    return list(product((x0, x1), (y0, y1), (z0, z1)))


def _turned(direction: Vec3, frame: Place) -> Vec3:
    """A direction in a frame's own terms."""
    x, y, z = (
        sum(a * b for a, b in zip(direction, axis, strict=True)) for axis in (frame.x, frame.y, frame.z)
    )
    return (x, y, z)


def _within(point: Vec3, frame: Place) -> Vec3:
    """A point in a frame's own terms."""
    x, y, z = (p - o for p, o in zip(point, frame.origin, strict=True))
    return _turned((x, y, z), frame)


def _disc(points: Sequence[Vec2]) -> tuple[Vec2, float]:
    """Centre and radius of a disc that holds all points."""
    xs, ys = zip(*points, strict=True)
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    return middle, max(math.dist(middle, point) for point in points)
