"""Reader of a direction in space."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.quantities import Vec3
from clampwright.quantities.directions import square_part, unit
from clampwright.recipe.measures import Schema
from clampwright.recipe.written import Entry

_MOST = 1e6
_LEAST = 1e-6
"""Numbers of a direction: only their ratio counts, and it must not drown in noise."""


@dataclass(frozen=True, slots=True)
class Direction:
    """Three plain numbers along the world's x, y and z; only their ratio counts."""

    kind: str = "direction"

    def expected(self, units: str) -> str:
        return "a direction [x, y, z] of three numbers, not all 0, such as [0, 0, 1]"

    def read(self, entry: Entry) -> Vec3:
        value = entry.value
        if not isinstance(value, list) or len(value) != 3 or not all(_plain(v) for v in value):
            raise entry.wrong(self.expected(entry.units))
        x, y, z = (float(v) + 0.0 for v in value)
        if math.hypot(x, y, z) < _LEAST:
            raise entry.wrong(self.expected(entry.units), said="[0, 0, 0]")
        return x, y, z

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, tuple)
        return "[" + ", ".join(f"{v:g}" for v in value) + "]"

    def schema(self) -> Schema:
        return {"type": "array", "items": {"type": "number"}, "minItems": 3, "maxItems": 3}


def square_to(direction: Vec3, axis: Vec3) -> Vec3:
    """The part of a direction that is square to an axis (unit), made one long.

    >>> square_to((1.0, 0.0, 1.0), (0.0, 0.0, 1.0))
    (1.0, 0.0, 0.0)
    """
    return unit(square_part(direction, axis))


def off_line_deg(one: Vec3, other: Vec3) -> float:
    """Angle between the lines that two directions (of any length) lie on, 0 to 90 degrees.

    >>> round(off_line_deg((0.0, 0.0, 2.0), (0.0, 1.0, -1.0)), 6)
    45.0
    """
    (ax, ay, az), (bx, by, bz) = unit(one), unit(other)
    across = math.hypot(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx)
    return math.degrees(math.atan2(across, abs(ax * bx + ay * by + az * bz)))


def _plain(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= _MOST
