"""Every assignment of holes to tubes and sides that misfits of a given size allow: none is lost.

A tree: hole by hole, every line of every set of tubes, keeping the arcs of the turn angle that are left (see
`arcs`). A branch ends where no arc is left, where more tubes of the set are still bare than holes are left,
or where two clamps could not but sit in each other; everything below it is ruled out with it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.arcs import (
    Condition,
    Reach,
    condition,
    may_hold,
    narrowed,
    pair_weights,
    weights,
)
from clampwright.layout.mounting.plans import Pattern, Plans, Wanted

Array = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]
Flags = npt.NDArray[np.bool_]

_BLOCK = 20_000
"""Branches that are grown at once: memory, not meaning."""


@dataclass(frozen=True, slots=True)
class Branches:
    """Assignments of the first holes: set (n,), line of each hole (n, p), arc of the turn angle."""

    group: Indices
    lines: Indices
    centre: Array
    half: Array

    def __len__(self) -> int:
        return len(self.group)

    def at(self, keep: Flags | slice | Indices) -> Branches:
        """Those that are kept."""
        return Branches(self.group[keep], self.lines[keep], self.centre[keep], self.half[keep])


@dataclass(frozen=True, slots=True)
class Search:
    """What is looked for: misfits of at most `slack` (m,) at the holes, within the limits of the pose.

    `allowed` (m,) is what hole and bolt forgive: at least that is looked at, more where that gives nothing.
    """

    plans: Plans
    pattern: Pattern
    wanted: Wanted
    allowed: Array
    slack: Array

    @property
    def slack_mm(self) -> float:
        """The largest slack."""
        return float(self.slack.max())


def assignments(search: Search) -> Branches:
    """Every assignment for which some pose within the limits leaves no hole more than the slack.

    One entry an arc of the turn angle: an assignment that can be had in two ways round is there twice.
    """
    order = anchor_order(search.pattern.holes)
    found = _roots(search)
    for depth in range(len(order)):
        blocks = [found.at(slice(i, i + _BLOCK)) for i in range(0, len(found), _BLOCK)]
        found = _joined([_grown(block, order, depth, search) for block in blocks], depth + 1)
    back = np.argsort(order)
    return Branches(found.group, found.lines[:, back], found.centre, found.half)


def anchor_order(holes: Array) -> list[int]:
    """The holes in the order in which they settle the pose best: the two farthest apart, then farthest off.

    >>> anchor_order(np.array([[0.0, 0.0], [1.0, 0.0], [40.0, 0.0], [20.0, 30.0]]))
    [0, 2, 3, 1]
    """
    apart = np.linalg.norm(holes[:, None] - holes[None], axis=2)
    i, j = divmod(int(np.argmax(np.round(apart, 6))), len(holes))
    order = [i, j]
    while len(order) < len(holes):
        areas = np.max([_areas(holes, a, b) for a, b in combinations(order, 2)], axis=0)
        areas[order] = -1.0
        order.append(int(np.argmax(np.round(areas, 6))))
    return order


def reach_of(search: Search, group: Indices, line: Indices, hole: int) -> Reach:
    """One hole on its lines."""
    plans, (hx, hy) = search.plans, search.pattern.holes[hole]
    x, y = plans.nu[group, line, 0], plans.nu[group, line, 1]
    return Reach(x, y, plans.offset[group, line], x * hx + y * hy, y * hx - x * hy)


def _areas(holes: Array, a: int, b: int) -> Array:
    along = holes[b] - holes[a]
    off = holes - holes[a]
    areas: Array = np.abs(along[0] * off[:, 1] - along[1] * off[:, 0])
    return areas


def _roots(search: Search) -> Branches:
    half = search.wanted.turn_within_rad
    if half >= math.pi:
        arcs = [(0.0, math.pi)]
    else:
        arcs = [(-half / 2, half / 2), (half / 2, half / 2)] if half > math.pi / 2 else [(0.0, half)]
    sets = len(search.plans.count)
    group = np.tile(np.arange(sets), len(arcs))
    return Branches(
        group,
        np.zeros((len(group), 0), dtype=np.intp),
        np.repeat([centre for centre, _ in arcs], sets),
        np.repeat([wide for _, wide in arcs], sets),
    )


def _grown(old: Branches, order: list[int], depth: int, search: Search) -> Branches:
    """Branches with one hole more: first the quick bound with every two holes before, then the arcs."""
    parents, line = np.nonzero(_open(old, order, depth, search))
    grown = old.at(parents)
    grown = Branches(grown.group, np.column_stack([grown.lines, line]), grown.centre, grown.half)
    if depth >= 3:
        for one, other in combinations(range(depth), 2):
            held = _three(grown, order, (one, other, depth), search)
            off = held.d - held.a * np.cos(grown.centre) - held.b * np.sin(grown.centre)
            grown = grown.at(may_hold(grown.centre, grown.half, off, np.hypot(held.a, held.b), held.e))
    for held_of in _conditions(order, depth, search):
        grown = _narrowed(grown, held_of(grown))
    return grown


def _conditions(order: list[int], depth: int, search: Search) -> Iterator[Callable[[Branches], Condition]]:
    """What the newest hole asks of the turn angle, one at a time."""
    if search.wanted.place is not None:
        yield lambda found: _near_place(found, order, depth, search)
    for one in range(depth):
        yield partial(_two, order=order, which=(one, depth), search=search)
    for one, other in combinations(range(depth), 2):
        yield partial(_three, order=order, which=(one, other, depth), search=search)


def _open(old: Branches, order: list[int], depth: int, search: Search) -> Flags:
    """Which lines (n, l) the next hole may go to at all."""
    plans = search.plans
    tubes = np.arange(plans.there.shape[1]) // 2
    used = (old.lines[:, :, None] // 2 == tubes).any(axis=1) if depth else np.zeros((len(old), len(tubes)))
    bare = plans.count[old.group] - used[:, ::2].sum(axis=1)
    left = len(order) - depth
    may = plans.there[old.group] & ((bare < left)[:, None] | (used == 0))
    for i in range(depth):
        apart = float(np.linalg.norm(search.pattern.holes[order[i]] - search.pattern.holes[order[depth]]))
        slack = search.slack[order[i]] + search.slack[order[depth]]
        near = plans.apart[old.group] > apart + slack
        may &= ~(near & (old.lines[:, i, None] // 2 == tubes))
    flags: Flags = may
    return flags


def _near_place(found: Branches, order: list[int], depth: int, search: Search) -> Condition:
    """The component's origin within reach of the place asked for, as far as this hole's line tells."""
    wanted, hole = search.wanted, _reach(found, order, depth, search)
    assert wanted.place is not None
    place = wanted.place[found.group]
    d = hole.d - hole.x * place[:, 0] - hole.y * place[:, 1]
    return Condition(d, hole.a, hole.b, np.full(len(d), wanted.within_mm + 2 * search.slack_mm))


def _two(found: Branches, order: list[int], which: tuple[int, int], search: Search) -> Condition:
    one, other = (_reach(found, order, i, search) for i in which)
    return condition(pair_weights(one, other), (one, other), [search.slack[order[i]] for i in which])


def _three(found: Branches, order: list[int], which: tuple[int, int, int], search: Search) -> Condition:
    holes = [_reach(found, order, i, search) for i in which]
    return condition(weights(holes), holes, [search.slack[order[i]] for i in which])


def _reach(found: Branches, order: list[int], depth: int, search: Search) -> Reach:
    return reach_of(search, found.group, found.lines[:, depth], order[depth])


def _narrowed(found: Branches, held: Condition) -> Branches:
    parts = []
    for centre, half, kept in narrowed(found.centre, found.half, held):
        parts.append(Branches(found.group[kept], found.lines[kept], centre[kept], half[kept]))
    return _joined(parts, found.lines.shape[1])


def _joined(parts: list[Branches], depth: int) -> Branches:
    if not parts:
        none = np.zeros(0)
        return Branches(np.zeros(0, np.intp), np.zeros((0, depth), np.intp), none, none)
    return Branches(
        np.concatenate([p.group for p in parts]),
        np.concatenate([p.lines for p in parts]),
        np.concatenate([p.centre for p in parts]),
        np.concatenate([p.half for p in parts]),
    )
