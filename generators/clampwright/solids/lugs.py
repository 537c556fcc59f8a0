"""Lugs of a component in its own frame: the ear round a hole beside the body, the room at its bolt."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.quantities import Vec2
from clampwright.solids.place import Place
from clampwright.solids.shapes import Shape, ring
from clampwright.trade.bolts import NoSuchBolt, bolt

EAR_DIAMETERS = 1.25
"""Radius of an ear and of the room above a screw, in hole diameters, where no tool size is known."""

TALL_MM = 1e4
"""Higher than any component."""


@dataclass(frozen=True, slots=True)
class Bore:
    """A hole of a component in its own frame: centre, diameter, and radius of the room above it, mm."""

    at: Vec2
    hole_mm: float
    room_mm: float


def room_round(fastener: str, hole_mm: float) -> float:
    """Radius that a wrench or screwdriver needs round a hole.

    >>> room_round("#8", 4.0)
    5.0
    """
    try:
        return bolt(fastener).socket_od_mm / 2
    except NoSuchBolt:
        return EAR_DIAMETERS * hole_mm


def drum(at: Vec2, diameter: float, base_z: float, height: float = TALL_MM) -> Shape:
    """A cylinder that stands on a height."""
    return ring(diameter, 0.0, height, Place((at[0], at[1], base_z)))


def covered(at: Vec2, size: Vec2, radius: float) -> bool:
    """Whether a circle lies inside a rectangle round the origin.

    >>> covered((3.0, 0.0), (10.0, 10.0), 1.0), covered((4.5, 0.0), (10.0, 10.0), 1.0)
    (True, False)
    """
    return all(abs(a) + radius <= s / 2 for a, s in zip(at, size, strict=True))


def inside(at: Vec2, size: Vec2, radius: float) -> Vec2:
    """The place half a radius inside a rectangle that is nearest to a hole: there its ear begins.

    >>> inside((9.0, 0.0), (10.0, 10.0), 2.0)
    (4.0, 0.0)
    """
    x, y = (max(radius / 2 - s / 2, min(s / 2 - radius / 2, a)) for a, s in zip(at, size, strict=True))
    return (x, y)


def ear(at: Vec2, inner: Vec2, radius: float) -> Outline:
    """An ear in plan: round the hole and round the place where it begins, straight between them."""
    distance = math.dist(at, inner)
    if distance < 1e-6:
        a, b = (at[0] + radius, at[1]), (at[0] - radius, at[1])
        return Outline((Arc(a, b, at, True), Arc(b, a, at, True)))
    nx, ny = (radius * (inner[1] - at[1]) / distance, radius * (at[0] - inner[0]) / distance)
    a, b = (inner[0] - nx, inner[1] - ny), (inner[0] + nx, inner[1] + ny)
    c, d = (at[0] + nx, at[1] + ny), (at[0] - nx, at[1] - ny)
    return Outline((Arc(a, b, inner, False), Line(b, c), Arc(c, d, at, False), Line(d, a)))
