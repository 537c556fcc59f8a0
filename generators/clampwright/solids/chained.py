"""Straight pieces that meet two and two, as chains: a pen turns the corner without a notch."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.quantities import Vec2
from clampwright.solids.view_lines import Chain


def chained(pieces: Sequence[tuple[Vec2, Vec2]], same_mm: float) -> tuple[Chain, ...]:
    """Pieces as chains that run on where exactly two ends meet; a closed one ends where it began.

    Examples
    --------
    >>> chained([((0, 0), (1, 0)), ((1, 1), (1, 0)), ((5, 5), (6, 5))], 1e-6)
    (((0, 0), (1, 0), (1, 1)), ((5, 5), (6, 5)))
    """
    ordered = sorted((min(piece), max(piece)) for piece in pieces)
    points = _meeting_points([p for piece in ordered for p in piece], same_mm)
    ends = [(points[2 * k], points[2 * k + 1]) for k in range(len(ordered))]
    at: dict[Vec2, list[int]] = {}
    for k, pair in enumerate(ends):
        for p in pair:
            at.setdefault(p, []).append(k)
    left = set(range(len(ends)))
    found = [_run(k, ends, at, left) for k in _starts(ends, at) if k in left]
    return tuple(sorted(found))


def _starts(ends: Sequence[tuple[Vec2, Vec2]], at: dict[Vec2, list[int]]) -> list[int]:
    """Pieces with a loose end first, so that a chain is walked from its end."""
    loose = [k for k, pair in enumerate(ends) if any(len(at[p]) != 2 for p in pair)]
    return [*loose, *range(len(ends))]


def _run(k: int, ends: Sequence[tuple[Vec2, Vec2]], at: dict[Vec2, list[int]], left: set[int]) -> Chain:
    """The chain from one piece on, from its loose end where it has one."""
    first, last = ends[k]
    if len(at[first]) == 2 and len(at[last]) != 2:
        first, last = last, first
    chain = [first, last]
    left.discard(k)
    while len(at[chain[-1]]) == 2:
        following = next((n for n in at[chain[-1]] if n in left), None)
        if following is None:
            break
        left.discard(following)
        a, b = ends[following]
        chain.append(b if a == chain[-1] else a)
    return tuple(chain)


def _meeting_points(points: Sequence[Vec2], same_mm: float) -> list[Vec2]:
    """Each point, or the earlier one that it coincides with."""
    cells: dict[tuple[int, int], list[Vec2]] = {}
    found: list[Vec2] = []
    for p in points:
        i, j = math.floor(p[0] / same_mm / 4), math.floor(p[1] / same_mm / 4)
        near = (q for a in (i - 1, i, i + 1) for b in (j - 1, j, j + 1) for q in cells.get((a, b), ()))
        same = next((q for q in near if math.dist(p, q) <= same_mm), None)
        if same is None:
            cells.setdefault((i, j), []).append(p)
        found.append(same or p)
    return found
