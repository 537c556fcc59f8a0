"""Bent parts made by hand: a plate with a flange up, and one down at the other end, as solid and as told."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import cadquery as cq
from sheets.shop.told_parts import hand_made

from clampwright.layout.outlines import rounded_rectangle
from clampwright.layout.shop.told import Bend, FlatPart
from clampwright.quantities import Vec2
from clampwright.solids.shop_views import views_of
from clampwright.solids.view_lines import ViewLines

K = 0.44
"""Where the neutral axis lies in the thickness: any value serves here."""


@dataclass(frozen=True)
class Flange:
    """Angle, "up" or "down", inside radius, flat length beyond the bend."""

    angle: float
    direction: str
    radius: float
    flat: float

    def allowance(self, t: float) -> float:
        """Length of flat that the bend takes up."""
        return self.angle * (self.radius + K * t)


def bent_part(
    width: float,
    base: float,
    t: float,
    top: Flange,
    bottom: Flange | None = None,
    units: str = "mm",
    standard: str = "iso",
    projection: str = "third",
) -> tuple[FlatPart, tuple[ViewLines, ...]]:
    """A plate with a flange along its top edge, perhaps one along its bottom edge; told, and its views."""
    below = bottom.flat + bottom.allowance(t) if bottom else 0.0
    high = below + base + top.allowance(t) + top.flat
    holes = [((width * 0.2, below + base * 0.3), 4.85), ((width * 0.8, below + base * 0.6), 4.85)]
    holes.append(((width * 0.5, high - top.flat / 2), 6.6))
    outline = rounded_rectangle((0.0, 0.0, width, high), 3.0)
    part = hand_made(outline, holes, units, standard, projection, t)
    bends = [_bend("B1", width, below + base + top.allowance(t) / 2, top, t)]
    if bottom:
        bends.append(_bend("B2", width, bottom.flat + bottom.allowance(t) / 2, bottom, t))
    views = views_of(_solid(width, base, t, top, bottom), ("front", "right", "top"))
    return replace(part, bends=tuple(bends), number="test-bracket", title="Test bracket"), views


def _bend(label: str, width: float, y: float, flange: Flange, t: float) -> Bend:
    direction = "up" if flange.direction == "up" else "down"
    return Bend(label, (0.0, y), (width, y), flange.angle, direction, flange.radius, flange.allowance(t))


def _solid(width: float, base: float, t: float, top: Flange, bottom: Flange | None) -> cq.Shape:
    """The profile across the bends, extruded, with its holes; corners left sharp."""
    faces = [cq.Solid.makeBox(width, base, t)]
    faces.append(_flange(width, t, top).moved(cq.Location(cq.Vector(0.0, base, 0.0))))
    if bottom:
        turned = _flange(width, t, bottom)
        turned = turned.mirror("XZ")
        faces.append(turned)
    whole = faces[0].fuse(*faces[1:]).clean()
    for x, y in ((width * 0.2, base * 0.3), (width * 0.8, base * 0.6)):
        whole = whole.cut(cq.Solid.makeCylinder(4.85 / 2, 4 * t, cq.Vector(x, y, -t)))
    whole = whole.cut(_hole(width, base, t, top))
    return whole.Solids()[0]


def _hole(width: float, base: float, t: float, flange: Flange) -> cq.Shape:
    """What a drill takes out of the middle of a flange, square to it."""
    angle, sign = flange.angle, 1.0 if flange.direction == "up" else -1.0
    turned = math.sin(angle), math.cos(angle)
    mid = flange.radius + t / 2
    y = base + mid * turned[0] + flange.flat / 2 * turned[1]
    z = t / 2 + sign * (mid * (1 - turned[1]) + flange.flat / 2 * turned[0])
    way = cq.Vector(0.0, turned[0], -sign * turned[1])
    return cq.Solid.makeCylinder(6.6 / 2, 4 * t, cq.Vector(width / 2, y, z) - way * 2 * t, way)


def _flange(width: float, t: float, flange: Flange) -> cq.Shape:
    """Bend and flat that go on from y = 0, z = 0 to t, towards +y."""
    up = flange.direction == "up"
    r, angle = flange.radius, flange.angle
    centre = t + r if up else -r

    def at(radius: float, turn: float, out: float) -> Vec2:
        y = radius * math.sin(turn) + out * math.cos(turn)
        z = radius * math.cos(turn) - out * math.sin(turn)
        return (y, centre - z) if up else (y, centre + z)

    inner, outer = r, r + t
    profile = (
        cq.Workplane("YZ")
        .moveTo(*at(inner, 0.0, 0.0))
        .threePointArc(at(inner, angle / 2, 0.0), at(inner, angle, 0.0))
        .lineTo(*at(inner, angle, flange.flat))
        .lineTo(*at(outer, angle, flange.flat))
        .lineTo(*at(outer, angle, 0.0))
        .threePointArc(at(outer, angle / 2, 0.0), at(outer, 0.0, 0.0))
        .close()
    )
    solid = profile.extrude(width).val()
    assert isinstance(solid, cq.Shape)
    return solid
