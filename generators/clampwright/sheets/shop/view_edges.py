"""Straight seen edges of a view, and where two of them would meet."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from clampwright.quantities import Vec2
from clampwright.solids.view_lines import ViewLines

CLOSE = 1e-3
"""Ends nearer than this are one, mm."""
_SAME = 1e-4
Segment = tuple[Vec2, Vec2]


def straight(view: ViewLines, least: float) -> Iterator[Segment]:
    """Pieces of seen edges that are longer than `least`."""
    for edge in view.seen:
        if isinstance(edge, tuple):
            yield from ((a, b) for a, b in pairwise(edge) if math.dist(a, b) > least)


def meeting(one: Segment, two: Segment) -> Vec2 | None:
    """Where two lines would meet; None where they are parallel.

    >>> meeting(((0.0, 0.0), (1.0, 0.0)), ((3.0, 2.0), (3.0, 1.0)))
    (3.0, 0.0)
    """
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = two
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    cross = ux * vy - uy * vx
    if abs(cross) < _SAME * math.hypot(ux, uy) * math.hypot(vx, vy):
        return None
    share = ((cx - ax) * vy - (cy - ay) * vx) / cross
    return ax + share * ux, ay + share * uy


def from_vertex(vertex: Vec2, edge: Segment, edges: Sequence[Segment]) -> Segment:
    """An edge with its end near a vertex first, and drawn on by the pieces that go on straight from it."""
    first, last = sorted(edge, key=lambda p: math.dist(p, vertex))
    way = math.atan2(last[1] - first[1], last[0] - first[0])
    for _ in edges:
        more = next((end for end in _next(last, edges) if _turn(last, end, way) < _SAME), None)
        if more is None:
            break
        last = more
    return first, last


def _next(at: Vec2, edges: Sequence[Segment]) -> Iterator[Vec2]:
    for a, b in edges:
        if math.dist(a, at) < CLOSE:
            yield b
        elif math.dist(b, at) < CLOSE:
            yield a


def _turn(a: Vec2, b: Vec2, way: float) -> float:
    return abs(math.remainder(math.atan2(b[1] - a[1], b[0] - a[0]) - way, 2 * math.pi))
