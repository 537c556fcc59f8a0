"""Reader of a direction in space."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.quantities import Vec3
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


def _plain(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and abs(value) <= _MOST
