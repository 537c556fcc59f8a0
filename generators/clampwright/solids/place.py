"""Where a body sits: a right-handed frame, in plain numbers."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.placed import Frame
from clampwright.quantities import Vec3
from clampwright.quantities.directions import cross, square_part, unit

_ALONG = 1e-6
"""Sine of the angle below which two directions count as one."""


@dataclass(frozen=True, slots=True)
class Place:
    """A frame: `origin`, unit `x` and unit `z` square to it; y follows. All in the outer frame, mm."""

    origin: Vec3 = (0.0, 0.0, 0.0)
    x: Vec3 = (1.0, 0.0, 0.0)
    z: Vec3 = (0.0, 0.0, 1.0)

    @property
    def y(self) -> Vec3:
        """Unit y: z cross x."""
        return cross(self.z, self.x)

    def direction(self, d: Vec3) -> Vec3:
        """A direction of this frame in the outer one."""
        a, b, c = (d[0] * x + d[1] * y + d[2] * z for x, y, z in zip(self.x, self.y, self.z, strict=True))
        return (a, b, c)

    def point(self, p: Vec3) -> Vec3:
        """A point of this frame in the outer one.

        >>> Place(origin=(10.0, 0.0, 0.0), x=(0.0, 1.0, 0.0)).point((1.0, 2.0, 3.0))
        (8.0, 1.0, 3.0)
        """
        a, b, c = (o + d for o, d in zip(self.origin, self.direction(p), strict=True))
        return (a, b, c)

    def within(self, outer: Place) -> Place:
        """This place, given in `outer`, as seen from outside it."""
        return Place(outer.point(self.origin), outer.direction(self.x), outer.direction(self.z))


def standing(origin: Vec3, z: Vec3, beside: Vec3) -> Place:
    """The frame at a point with this unit z, its x as near to `beside` as is square to z.

    Where `beside` lies along z, the world's axis that lies least along z serves.

    >>> standing((1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (2.0, 0.0, 5.0)).x
    (1.0, 0.0, 0.0)
    """
    least = min(range(3), key=lambda k: abs(z[k]))
    for direction in (beside, (float(least == 0), float(least == 1), float(least == 2))):
        across = square_part(direction, z)
        if math.hypot(*across) > _ALONG * math.hypot(*direction):
            break
    return Place(origin, unit(across), z)


def place_of(frame: Frame) -> Place:
    """The part's frame in the world."""
    return Place(frame.origin, frame.u, frame.n)
