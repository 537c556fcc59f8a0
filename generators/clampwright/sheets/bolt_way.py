"""Which way round a bolt goes in, in words."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from clampwright.layout.joined import Joint
from clampwright.quantities import Vec3
from clampwright.quantities.directions import dot

_WAYS: tuple[tuple[str, Vec3], ...] = (
    ("up", (0.0, 0.0, 1.0)),
    ("down", (0.0, 0.0, -1.0)),
    ("to +x", (1.0, 0.0, 0.0)),
    ("to -x", (-1.0, 0.0, 0.0)),
    ("to +y", (0.0, 1.0, 0.0)),
    ("to -y", (0.0, -1.0, 0.0)),
)
_OUTSIDE = {"washer", "washers"}


def way_words(direction: Vec3) -> str:
    """A direction of the world by the nearest of its six, and how far off that it is.

    Examples
    --------
    >>> way_words((0.0, 0.0, 1.0)), way_words((0.6, 0.0, 0.8))
    ('up', 'up, 37° towards +x')
    """
    name, way = max(_WAYS, key=lambda each: dot(each[1], direction))
    off = math.degrees(math.acos(min(1.0, dot(way, direction) / math.hypot(*direction))))
    if off < 0.5:
        return name
    rest = [(n, w) for n, w in _WAYS if abs(dot(w, way)) < 0.5]
    aside = max(rest, key=lambda each: dot(each[1], direction))[0].removeprefix("to ")
    return f"{name}, {off:.0f}° towards {aside}"


def bolt_way(joint: Joint, clamps: Sequence[str] = ()) -> str:
    """Where head and nut are: on what, and in which direction of the world the head looks.

    `clamps` are the labels of the clamps on it, from the head.
    """
    x, y, z = joint.axis
    whose = iter(clamps)
    layers = [_layer(item.name, whose) for item in joint.stack.items if item.name not in _OUTSIDE]
    over, under = (layers[0], layers[-1]) if layers else ("stack", "stack")
    return f"head on the {over}, nut on the {under}; the head looks {way_words((0.0 - x, 0.0 - y, 0.0 - z))}"


def _layer(name: str, whose: Iterator[str]) -> str:
    label = next(whose, "") if name == "clamp feet" else ""
    return f"feet of {label}" if label else name
