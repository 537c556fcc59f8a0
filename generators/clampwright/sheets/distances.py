"""Centre distances to hold against the drilled pilots: sides and diagonals of each pattern, and ties."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from clampwright.layout.placed import Hole, PlateLayout
from clampwright.quantities import Vec2


@dataclass(frozen=True, slots=True)
class Distance:
    """The distance between two hole centres; `what` is "side", "diagonal" or "between patterns"."""

    first: str
    second: str
    mm: float
    what: str


def distances(layout: PlateLayout) -> tuple[Distance, ...]:
    """What to measure before the final drills: clamp pattern, each component's pattern, and what ties them.

    A pattern of four gives four sides and two diagonals; a larger one its sides and, for each hole, the
    farthest other one. A component is tied by two of its holes to two clamp holes.
    """
    patterns = _patterns(layout.holes)
    found: list[Distance] = []
    for pattern in patterns:
        found += _within(pattern)
    for pattern in patterns[1:]:
        found += _ties(patterns[0], pattern)
    return tuple(found)


def _patterns(holes: Sequence[Hole]) -> list[list[Hole]]:
    """Holes by what they carry: the clamps' first; lightening holes are left out."""
    patterns: dict[tuple[str, str], list[Hole]] = {}
    for hole in holes:
        if hole.purpose != "lightening":
            owner = "" if hole.purpose == "clamp" else hole.owner
            patterns.setdefault((hole.purpose, owner), []).append(hole)
    return sorted(patterns.values(), key=lambda pattern: pattern[0].purpose != "clamp")


def _within(pattern: list[Hole]) -> Iterator[Distance]:
    if len(pattern) < 2:
        return
    ring = _round_their_middle(pattern)
    pairs = list(zip(ring, [*ring[1:], ring[0]], strict=True)) if len(ring) > 2 else [(ring[0], ring[1])]
    yield from (_between(a, b, "side") for a, b in pairs)
    sides = {frozenset((a.label, b.label)) for a, b in pairs}
    if len(ring) < 4:
        return
    for hole in ring:
        far = max(ring, key=lambda other: (math.dist(hole.at, other.at), other.label))
        if len(ring) == 4:
            far = ring[(ring.index(hole) + 2) % 4]
        pair = frozenset((hole.label, far.label))
        if pair not in sides:
            sides.add(pair)
            yield _between(hole, far, "diagonal")


def _round_their_middle(pattern: list[Hole]) -> list[Hole]:
    x, y = (sum(hole.at[axis] for hole in pattern) / len(pattern) for axis in (0, 1))
    first = _bearing(pattern[0].at, (x, y))
    return sorted(pattern, key=lambda h: (_bearing(h.at, (x, y)) - first) % (2 * math.pi))


def _bearing(point: Vec2, centre: Vec2) -> float:
    return math.atan2(point[1] - centre[1], point[0] - centre[0])


def _ties(clamps: list[Hole], pattern: list[Hole]) -> Iterator[Distance]:
    """From two clamp holes to the pattern's first hole, and from one to its farthest."""
    first = pattern[0]
    yield from (_between(clamp, first, "between patterns") for clamp in clamps[:2])
    far = max(pattern, key=lambda hole: math.dist(hole.at, first.at))
    if far is not first:
        yield _between(clamps[0], far, "between patterns")


def _between(a: Hole, b: Hole, what: str) -> Distance:
    return Distance(a.label, b.label, math.dist(a.at, b.at), what)


def farthest(holes: Sequence[Hole]) -> tuple[Hole, Hole] | None:
    """The two holes that lie farthest apart; None for fewer than two."""
    return max(combinations(holes, 2), key=lambda pair: math.dist(pair[0].at, pair[1].at), default=None)
