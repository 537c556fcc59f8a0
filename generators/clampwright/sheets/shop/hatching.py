"""Hatching of cut faces: lines at 45 degrees, clipped to rings with holes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.quantities import Vec2

Ring = Sequence[Vec2]
_HALF = math.sqrt(0.5)


def hatched(rings: Sequence[Ring], apart: float) -> tuple[tuple[Vec2, Vec2], ...]:
    """Pieces of parallel lines that rise to the right at 45 degrees, inside the rings.

    A point is inside where an odd number of rings goes round it. All faces hatched with the same `apart`
    lie on the same lines, as those of one part have to.

    Parameters
    ----------
    rings : Sequence[Ring]
        Outer ring and holes; closed or not.
    apart : float
        Distance of the lines.

    Examples
    --------
    >>> square = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)]
    >>> [[(abs(round(x, 9)), abs(round(y, 9))) for x, y in pair] for pair in hatched([square], _HALF)]
    [[(1.0, 0.0), (2.0, 1.0)], [(0.0, 0.0), (2.0, 2.0)], [(0.0, 1.0), (1.0, 2.0)]]
    """
    turned = [[_turned(p) for p in ring] for ring in rings]
    levels = [y for ring in turned for _, y in ring]
    first, last = math.ceil(min(levels) / apart), math.floor(max(levels) / apart)
    pieces = [
        (_back(a, n * apart), _back(b, n * apart))
        for n in range(first, last + 1)
        for a, b in _inside(turned, n * apart)
    ]
    return tuple(pieces)


def _inside(rings: Sequence[Ring], level: float) -> list[tuple[float, float]]:
    """Stretches of a level line inside the rings; an edge counts its lower end, not its upper."""
    crossings = sorted(
        ax + (level - ay) * (bx - ax) / (by - ay)
        for ring in rings
        for (ax, ay), (bx, by) in zip(ring, (*ring[1:], ring[0]), strict=True)
        if (ay <= level) != (by <= level)
    )
    pairs = zip(crossings[::2], crossings[1::2], strict=True)
    return [(a, b) for a, b in pairs if b - a > 1e-9]


def _turned(p: Vec2) -> Vec2:
    """Turned clockwise by 45 degrees, so that the hatch lines lie level."""
    return (p[0] + p[1]) * _HALF, (p[1] - p[0]) * _HALF


def _back(along: float, level: float) -> Vec2:
    return (along - level) * _HALF, (along + level) * _HALF
