"""The nearest of some bodies, few of them measured exactly."""

from __future__ import annotations

from collections.abc import Iterable
from math import dist

from clampwright.layout.bodies import Body, Box, bound, clearance
from clampwright.layout.joined import Named
from clampwright.quantities import Vec3

FAR = 1e9


def nearest(body: Body, others: Iterable[Named]) -> tuple[Named | None, float]:
    """The nearest of some bodies and its distance, mm; those that certainly lie farther are passed over."""
    best: tuple[Named | None, float] = (None, FAR)
    for least, other in nearest_first(body, others):
        if least >= best[1]:
            break
        clear = clearance(body, other.body)
        best = (other, clear) if clear < best[1] else best
    return best


def nearest_first(body: Body, others: Iterable[Named]) -> list[tuple[float, Named]]:
    """Bodies by the distance that they surely keep from one."""
    ball = bound(body)
    ordered = sorted((surely(ball, o.body), i, o) for i, o in enumerate(others))
    return [(least, other) for least, _, other in ordered]


def surely(ball: tuple[Vec3, float], other: Body) -> float:
    """A distance that a body certainly keeps from a ball: a cylinder lies within its own capsule."""
    centre, radius = ball
    if isinstance(other, Box):
        middle, size = bound(other)
        return dist(centre, middle) - radius - size
    along = [e - s for s, e in zip(other.start, other.end, strict=True)]
    square = sum(a * a for a in along)
    part = sum((c - s) * a for c, s, a in zip(centre, other.start, along, strict=True)) / square
    part = min(1.0, max(0.0, part))
    foot = [s + part * a for s, a in zip(other.start, along, strict=True)]
    return dist(centre, foot) - radius - other.radius_mm
