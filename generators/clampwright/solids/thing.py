"""A thing that clearances are measured from, and how far apart two of them surely are.

Every solid has a convex body round it (its box in its own frame, or the very cylinder), by which most pairs
are told to be far apart without the kernel.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from clampwright.layout.bodies import Body as Simple
from clampwright.layout.bodies import Box, Cylinder, bound
from clampwright.quantities import Vec3
from clampwright.solids.shapes import Shape

Ball = tuple[Vec3, float]
"""Centre and radius."""


@dataclass(frozen=True, slots=True)
class Solid:
    """A solid where it sits, and a convex body that holds it."""

    shape: Shape
    held_in: Simple


@dataclass(frozen=True, slots=True)
class Thing:
    """Something that must keep clear of others."""

    sort: str
    """"clamp", "bolt", "part", "line", "tube", "panel" or "keep-out"."""
    label: str
    what: str
    """In words, for people."""
    solids: tuple[Solid, ...]
    simple: tuple[Simple, ...]
    stack: frozenset[str]
    """Keys of what it is bolted to or closed on: it touches these by design."""
    drum: Cylinder | None = None
    """A clamp's loop as a drum."""
    asked_mm: float | None = None
    """Distance that a keep-out asks for."""

    ball: Ball = field(init=False)
    """A ball that holds all its solids: centre and radius."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "ball", _ball(self.solids))

    @property
    def key(self) -> str:
        """Its sort and label."""
        return f"{self.sort} {self.label}"

    def adjoins(self, other: Thing) -> bool:
        """Whether the two touch by design."""
        return self.key in other.stack or other.key in self.stack


def surely_apart(a: Thing, b: Thing) -> float:
    """A distance that two things certainly keep, at little cost: from the ball round each to the other."""
    return max(_off_ball(a.ball, b), _off_ball(b.ball, a))


def _off_ball(ball: Ball, other: Thing) -> float:
    centre, radius = ball
    return min(_off_point(centre, solid.held_in) for solid in other.solids) - radius


def _off_point(point: Vec3, body: Simple) -> float:
    """Distance from a point that a body certainly keeps; that of a round one is counted from its axis."""
    if isinstance(body, Box) or body.start == body.end:
        middle, size = bound(body)
        return math.dist(point, middle) - size
    along_it = [e - s for s, e in zip(body.start, body.end, strict=True)]
    part = sum((p - s) * a for p, s, a in zip(point, body.start, along_it, strict=True))
    part = min(1.0, max(0.0, part / sum(a * a for a in along_it)))
    foot = [s + part * a for s, a in zip(body.start, along_it, strict=True)]
    return math.dist(point, foot) - body.radius_mm


def _ball(solids: Sequence[Solid]) -> Ball:
    """A ball round solids."""
    balls = [bound(solid.held_in) for solid in solids]
    lows = [min(c[k] - r for c, r in balls) for k in range(3)]
    highs = [max(c[k] + r for c, r in balls) for k in range(3)]
    x, y, z = ((low + high) / 2 for low, high in zip(lows, highs, strict=True))
    return (x, y, z), max(math.dist((x, y, z), c) + r for c, r in balls)
