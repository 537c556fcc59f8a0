"""The sides that a structure is looked at from, each said by its axes, so that it is true in any frame."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.quantities import Vec3
from clampwright.quantities.directions import cross
from clampwright.sheets.silhouettes import Eye

ORIGIN = (0.0, 0.0, 0.0)

HANDED = (
    "The frame is right-handed: with x forward, out of the firewall, and z up, y runs to your right as you "
    "stand before the nose looking aft. Left and right on this paper are yours as you stand there; in the "
    "trade they are the pilot's, and the pilot's right is at your left."
)
"""x forward, y to the right and z up is right-handed only so; from the seat it would be a mirror image."""

OWN_AXES = "The axes x, y and z are the file's own: nothing here says which way is up, forward or left."


@dataclass(frozen=True, slots=True)
class Side:
    """A view square to an axis: what it is called, and the letters of the axes to the right and up in it."""

    title: str
    right: str
    up: str
    eye: Eye

    @property
    def toward(self) -> Vec3:
        """Unit vector from the structure to whoever looks."""
        return cross(self.eye.right, self.eye.up)

    def depth(self, point: Vec3) -> float:
        """How near a point is to whoever looks: larger is nearer."""
        return sum(p * t for p, t in zip(point, self.toward, strict=True))


TOP = Side("from +z, above", "x", "y", Eye(ORIGIN, (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))
LEFT = Side("from -y", "x", "z", Eye(ORIGIN, (1.0, 0.0, 0.0), (0.0, 0.0, 1.0)))
FRONT = Side("from +x", "y", "z", Eye(ORIGIN, (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)))
SIDES = (TOP, LEFT, FRONT)
"""Third angle (ISO 5456-2, as recalled): from +z over from -y, from +x at the right of that."""


def oblique(turn_deg: float = 35.0, tilt_deg: float = 22.0) -> Side:
    """Looking down on the corner between +x and -y: turned from +x towards -y, and tilted down.

    >>> side = oblique(0.0, 0.0)
    >>> side.eye.right, side.eye.up
    ((0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    """
    a, b = math.radians(turn_deg), math.radians(tilt_deg)
    right = (math.sin(a), math.cos(a), 0.0)
    up = (-math.sin(b) * math.cos(a) + 0.0, math.sin(b) * math.sin(a), math.cos(b))
    return Side("at a slant, from +x, -y and above", "", "", Eye(ORIGIN, right, up))
