"""Where round a tube something points: its clock, counted from the tube's top."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.joined import Loop
from clampwright.quantities import Vec3
from clampwright.quantities.directions import cross, dot, square_part, unit
from clampwright.trade.tables import rule

_UP: Vec3 = (0.0, 0.0, 1.0)
_AHEAD: Vec3 = (1.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True)
class Clock:
    """An angle round a tube, clockwise as seen looking along it from its start to its end."""

    deg: float
    """0 to 360."""
    zero: Vec3
    """World direction (unit, square to the tube) that counts as 0."""
    zero_is: str
    """"top" (world z), or "+x side" where the tube stands upright."""

    @property
    def hours(self) -> str:
        """As on a clock's face, to five minutes: "4:30".

        >>> Clock(135.0, (0.0, 0.0, 1.0), "top").hours
        '4:30'
        """
        minutes = round(self.deg / 2.5) * 5 % 720
        return f"{minutes // 60 or 12}:{minutes % 60:02d}"


def clock(axis: Vec3, pointing: Vec3) -> Clock:
    """The clock of a direction round an axis (both unit, world).

    Counted from the world's z made square to the axis; from x where the axis stands nearer to upright than
    rule `clock-upright`.

    >>> clock((1.0, 0.0, 0.0), (0.0, -1.0, 0.0)).deg
    90.0
    >>> clock((0.0, 0.0, 1.0), (0.0, 1.0, 0.0)).zero_is
    '+x side'
    """
    upright = abs(axis[2]) >= math.cos(math.radians(rule("clock-upright").value))
    zero = unit(square_part(_AHEAD if upright else _UP, axis))
    right = cross(axis, zero)
    deg = math.degrees(math.atan2(dot(pointing, right), dot(pointing, zero))) % 360.0
    return Clock(0.0 if 360.0 - deg < 1e-9 else deg, zero, "+x side" if upright else "top")


def clock_of(loop: Loop) -> Clock:
    """The clock of a clamp: where its bolt lies as seen from its tube's axis, the seat side apart.

    It is that of the foot's direction, turn * (bolt_axis x axis).
    """
    x, y, z = (loop.turn * c for c in cross(loop.bolt_axis, loop.axis))
    return clock(loop.axis, (x, y, z))
