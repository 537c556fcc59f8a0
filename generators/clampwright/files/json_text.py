"""JSON that is the same everywhere: numbers rounded, without minus zero, keys in the order given."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable
from typing import Any

Json = dict[str, Any]

DECIMALS = 6
"""Of lengths in mm, angles in degrees, masses in kg: a nanometre, and exact for sixty-fourths of an inch."""

DIRECTION_DECIMALS = 9
"""Of the parts of unit vectors."""


def number(value: float | None, decimals: int = DECIMALS) -> float | None:
    """A number for the file; None stays None.

    >>> number(19.049999999999997), number(-0.0), number(None)
    (19.05, 0.0, None)
    """
    if value is None:
        return None
    if not math.isfinite(value):
        raise ValueError(f"{value} has no place in a file")
    return round(float(value), decimals) + 0.0


def numbers(values: Iterable[float], decimals: int = DECIMALS) -> list[float | None]:
    """A point, a list of numbers.

    >>> numbers((0.3968750000001, -1e-12))
    [0.396875, 0.0]
    """
    return [number(value, decimals) for value in values]


def direction(values: Iterable[float]) -> list[float | None]:
    """A unit vector."""
    return numbers(values, DIRECTION_DECIMALS)


def degrees(radians: float) -> float | None:
    """An angle in degrees."""
    return number(math.degrees(radians))


def json_bytes(value: Json) -> bytes:
    """The file: UTF-8, two spaces, one line feed at the end."""
    return (json.dumps(value, ensure_ascii=False, indent=2, allow_nan=False) + "\n").encode("utf-8")
