"""Figures that agree with every measurement as well as the solved one: points that flip through planes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.equations import Equations, computed
from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.residuals import finds_up
from clampwright.structure.uncertainty import coverage
from clampwright.trade.tables import rule

_CHUNK = 16
_EACH = 2
_TRIED = 48
"""Flips that are adjusted: so many of each set of points, so many in all."""
_FAR = 1.0
"""Mean squared residual by which a flipped figure, hardly adjusted yet, may be worse and still be tried."""

_HOLDING = {6: 2}
"""Of how many places a reading ties only the first: over walls its two points, not the tubes' ends."""

_SLIM = 0.02
"""A triangle whose height is less than this share of its longest side spans no plane."""


@dataclass(frozen=True, slots=True)
class Flip:
    """Points that can change sides, by number, and the points whose plane they flip through."""

    moves: frozenset[int]
    hinge: tuple[int, ...]
    """Empty: the upright plane through the datum's origin and `through`."""
    up: bool = False
    """Whether the upward direction, where it is found along with the points, is mirrored with them."""


def flips(survey: Survey, found: Fit) -> tuple[Flip, ...]:
    """Every flip after which the figure, adjusted anew, agrees with the measurements as well as before."""
    possible = _likely(survey, found)
    kept: dict[frozenset[int], Flip] = {}
    for flip, figure, sum_of_squares in _flipped(survey, found, possible):
        if flip.moves in kept or sum_of_squares > found.sum_of_squares + undecided():
            continue
        if _apart(found, figure, flip.moves):
            kept[flip.moves] = flip
    return tuple(sorted(kept.values(), key=lambda f: (-len(f.moves), sorted(f.moves))))


def undecided() -> float:
    """Two figures whose sums of squares differ by less than this are told apart by no measurement."""
    return rule("survey-blunder-limit").value ** 2


def better_flipped(survey: Survey, found: Fit) -> Array | None:
    """A flipped figure that agrees clearly better than the found one; None where there is none."""
    best, least = None, found.sum_of_squares - undecided()
    if found.sum_of_squares <= undecided():
        return None
    for _, figure, sum_of_squares in _flipped(survey, found, _likely(survey, found)):
        if sum_of_squares < least:
            best, least = figure, sum_of_squares
    return best


def reflected(survey: Survey, figure: Array, flip: Flip) -> Array:
    """The figure with the flip's points on the other side of its plane, not adjusted."""
    point, normal = _plane(survey, figure, flip.hinge)
    moved, numbers = figure.copy(), sorted(flip.moves)
    heights = (figure[numbers] - point) @ normal
    moved[numbers] -= 2.0 * heights[:, None] * normal
    if flip.up:
        moved[-1] -= 2.0 * (figure[-1] @ normal) * normal
    return moved


def _flipped(survey: Survey, found: Fit, possible: list[Flip]) -> Iterator[tuple[Flip, Array, float]]:
    """Flips that come to agree well when adjusted anew, each with its figure and sum of squares."""
    for first in range(0, len(possible), _CHUNK):
        some = possible[first : first + _CHUNK]
        figures = np.stack([reflected(survey, found.figure, flip) for flip in some])
        for steps in (6, 60):
            adjusted = adjust(found.equations, figures, use=found.use, steps=steps)
            near = 2.0 * adjusted.cost < found.sum_of_squares + _FAR * found.equations.rows
            some = [flip for flip, keep in zip(some, near, strict=True) if keep]
            figures, cost = adjusted.figures[near], adjusted.cost[near]
            if not some:
                break
        for flip, figure, half in zip(some, figures, cost, strict=True):
            yield flip, figure, 2.0 * float(half)


def _likely(survey: Survey, found: Fit) -> list[Flip]:
    """Flips to try: of each set of points the two that agree best unadjusted, the best sets first."""
    possible = list(dict.fromkeys(_possible(survey, found)))
    if finds_up(survey):
        possible += [replace(flip, up=True) for flip in possible]
    if not possible:
        return []
    starts = np.stack([reflected(survey, found.figure, flip) for flip in possible])
    off = (computed(found.equations, starts) - found.equations.measured) / found.equations.sigma
    sums = np.sum(found.use * off**2, axis=-1)
    often, kept = Counter[tuple[frozenset[int], bool]](), list[Flip]()
    for number in np.argsort(np.round(sums, 6), kind="stable"):
        flip = possible[number]
        often[flip.moves, flip.up] += 1
        near = sums[number] < found.sum_of_squares + 100 * _FAR * found.equations.rows
        if often[flip.moves, flip.up] <= _EACH and len(kept) < _TRIED and near:
            kept.append(flip)
    return kept


def _apart(found: Fit, figure: Array, moves: frozenset[int]) -> bool:
    """Whether the two places of a point are farther apart than its ±."""
    return bool(moves & elsewhere(found, figure))


def elsewhere(found: Fit, figure: Array) -> frozenset[int]:
    """The points that stand farther from where they are in the found figure than their ±, and than 1 mm."""
    away = np.linalg.norm(figure[:-1] - found.figure[:-1], axis=1)
    return frozenset(int(n) for n in np.flatnonzero(away > np.maximum(known_to(found), 1.0)))


def known_to(found: Fit) -> Array:
    """± (95 %) of each point, mm: of its worst coordinate, shape (points,)."""
    spread = np.zeros(found.equations.places * 3)
    spread[found.equations.free] = np.sqrt(np.sum(found.held**2, axis=1))
    return np.asarray(coverage() * np.max(spread.reshape(-1, 3)[:-1], axis=1), dtype=float)


def _possible(survey: Survey, found: Fit) -> Iterator[Flip]:
    """Flips to try: what hangs together on one side of a plane of points, points over nearly flat ones."""
    count = len(survey.points)
    points, links = found.figure[:count], linked(found.equations, found.use, count)
    for moves in _parts(links, _on_datum_plane(survey, found), count):
        yield Flip(moves, _datum_hinge(survey))
    datum = {p.name: i for i, p in enumerate(survey.points)}
    held = [
        datum[n] for n in (survey.datum.origin, survey.datum.through, survey.datum.in_plane) if n is not None
    ]
    for hinge, on_plane in _planes(points, _tolerance(found, count)):
        parts = list(_parts(links, on_plane, count))
        if len(parts) > 1:
            anchor = max(parts, key=lambda part: (sum(h in part for h in held), len(part), -min(part)))
            for part in parts:
                if part is not anchor:
                    yield Flip(part, hinge)
    for number in range(count):
        near = tuple(n for n in range(count) if links[number] >> n & 1)
        if len(near) >= 3 and number not in held:
            yield Flip(frozenset((number,)), near)


def linked(equations: Equations, use: Array, count: int) -> list[int]:
    """For each point, the points that it shares an undirected measurement or a tube with, as bits."""
    links = [0] * count
    for term in equations.terms:
        for row, places in zip(term.rows, term.places, strict=True):
            inside = {int(p) for p in places[: _HOLDING.get(len(places))] if p < count}
            if not use[row] or len(inside) < 2:
                continue
            bits = sum(1 << p for p in inside)
            for p in inside:
                links[p] |= bits & ~(1 << p)
    return links


def _parts(links: list[int], left_out: int, count: int) -> Iterator[frozenset[int]]:
    """What hangs together when some points (bits) are taken away."""
    rest = ((1 << count) - 1) & ~left_out
    while rest:
        part = edge = rest & -rest
        while edge:
            number = edge.bit_length() - 1
            edge &= ~(1 << number)
            new = links[number] & rest & ~part
            part |= new
            edge |= new
        rest &= ~part
        yield frozenset(n for n in range(count) if part >> n & 1)


def _planes(points: Array, tolerance: Array) -> Iterator[tuple[tuple[int, ...], int]]:
    """Planes through three points, with all points that lie on each as bits; none twice."""
    triples = np.array(list(combinations(range(len(points)), 3)), dtype=np.intp).reshape(-1, 3)
    a, b, c = (points[triples[:, i]] for i in range(3))
    normals = np.cross(b - a, c - a)
    wide = np.linalg.norm(normals, axis=1)
    longest = np.max(np.stack([np.linalg.norm(v, axis=1) for v in (b - a, c - a, c - b)]), axis=0, initial=0)
    spans = wide > _SLIM * longest**2 + 1e-9
    triples, normals = triples[spans], normals[spans] / wide[spans, None]
    heights = np.abs(points @ normals.T - np.sum(points[triples[:, 0]] * normals, axis=1))
    on_plane = heights < tolerance[:, None]
    on_plane[triples.T, np.arange(len(triples))] = True
    seen: set[int] = set()
    for column, triple in enumerate(triples.tolist()):
        bits = sum(1 << int(n) for n in np.flatnonzero(on_plane[:, column]))
        if bits not in seen:
            seen.add(bits)
            yield tuple(triple), bits


def _tolerance(found: Fit, count: int) -> Array:
    return np.maximum(known_to(found)[:count], 0.5)


def _datum_hinge(survey: Survey) -> tuple[int, ...]:
    number = {p.name: i for i, p in enumerate(survey.points)}
    datum = survey.datum
    if datum.level or datum.in_plane is None:
        return ()
    return number[datum.origin], number[datum.through], number[datum.in_plane]


def _on_datum_plane(survey: Survey, found: Fit) -> int:
    count = len(survey.points)
    point, normal = _plane(survey, found.figure, _datum_hinge(survey))
    heights = np.abs((found.figure[:count] - point) @ normal)
    return sum(1 << int(n) for n in np.flatnonzero(heights < _tolerance(found, count)))


def _plane(survey: Survey, figure: Array, hinge: tuple[int, ...]) -> tuple[Array, Array]:
    """A point and the unit normal of a flip's plane: of three points, or the nearest to more of them."""
    number = {p.name: i for i, p in enumerate(survey.points)}
    if not hinge:
        along = np.zeros(3)
        along["xyz".index(survey.datum.axis)] = 1.0
        return figure[number[survey.datum.origin]], np.cross((0.0, 0.0, 1.0), along)
    points = figure[list(hinge)]
    middle = points.mean(axis=0)
    return middle, np.linalg.svd(points - middle)[2][-1]
