"""Where the datum of one part may not lie because of another: Minkowski sums of their convex pieces."""

from __future__ import annotations

import math
from functools import partial
from typing import Any

import numpy as np
import shapely

from clampwright.nesting.polygons import sound
from clampwright.nesting.shapes import Points, Shape, turned

_FULL_TURN = 2 * math.pi
_SAME_TURN = 1e-9
_TURN_DECIMALS = 12

Ordered = tuple[Points, Points, Points]
"""A convex polygon from its lowest corner on: that corner, its sides, their directions, radians from 0."""


class NoFit:
    """No-fit polygons of shapes, each worked out once.

    The no-fit polygon of a fixed part A and a moving part B is A + (-B): with B's datum inside it they would
    overlap, on its rim they touch. It turns with both, so only the turn between them makes another one.
    """

    def __init__(self) -> None:
        self._between: dict[tuple[int, int, float], Any] = {}
        self._turned: dict[tuple[int, int, float, float], Any] = {}
        self._ordered: dict[tuple[int, float], list[Ordered]] = {}

    def of(self, fixed: Shape, moving: Shape) -> Any:
        """The polygon, for a fixed shape whose datum lies at the origin."""
        key = (fixed.part, moving.part, fixed.turn_rad, moving.turn_rad)
        if key not in self._turned:
            about = self._seen_from(fixed, moving)
            self._turned[key] = shapely.transform(about, partial(turned, by_rad=fixed.turn_rad))
        return self._turned[key]

    def _seen_from(self, fixed: Shape, moving: Shape) -> Any:
        between = round((moving.turn_rad - fixed.turn_rad) % _FULL_TURN, _TURN_DECIMALS)
        key = (fixed.part, moving.part, between)
        if key not in self._between:
            still = self._in_order(fixed, 0.0)
            mirrored = self._in_order(moving, moving.turn_rad - fixed.turn_rad + math.pi)
            self._between[key] = sound([_sum(a, b) for a in still for b in mirrored])
        return self._between[key]

    def _in_order(self, shape: Shape, turn_rad: float) -> list[Ordered]:
        key = (shape.part, round(turn_rad % _FULL_TURN, _TURN_DECIMALS))
        if key not in self._ordered:
            self._ordered[key] = [_from_lowest(turned(piece, turn_rad)) for piece in shape.pieces]
        return self._ordered[key]


def _sum(a: Ordered, b: Ordered) -> Any:
    """Minkowski sum of two convex, counter-clockwise polygons: their sides, in order of direction."""
    sides = np.concatenate((a[1], b[1]))
    order = np.argsort(np.concatenate((a[2], b[2])), kind="stable")
    return shapely.Polygon(a[0] + b[0] + np.cumsum(sides[order], axis=0))


def _from_lowest(points: Points) -> Ordered:
    """From the lowest corner on, of two as low the left one: then directions of sides only grow."""
    low = np.flatnonzero(points[:, 1] <= points[:, 1].min() + _SAME_TURN)
    first = int(low[np.argmin(points[low, 0])])
    after = np.concatenate((points[first + 1 :], points[: first + 1]))
    sides = after - np.concatenate((points[first:], points[:first]))
    heading = np.arctan2(sides[:, 1], sides[:, 0]) % _FULL_TURN
    heading[heading > _FULL_TURN - _SAME_TURN] = 0.0
    return points[first], sides, heading
