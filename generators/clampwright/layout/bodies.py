"""Simple bodies for clash and clearance: capsules, cylinders and boxes, and how far apart they are."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from clampwright.quantities import Vec3
from clampwright.quantities.directions import dot, minus

_CLOSE = 1e-12
"""Gain in squared distance, relative, below which the search has arrived."""
_SQUARE = 1e-9
"""Radians from a cylinder's axis within which a direction is along it: its whole end is then as far."""
_ROUNDS = 200


@dataclass(frozen=True, slots=True)
class Capsule:
    """A straight piece of wire or hose with round ends: all places within `radius_mm` of a segment."""

    start: Vec3
    end: Vec3
    radius_mm: float

    def farthest(self, d: Vec3) -> Vec3:
        """Place of the segment that lies farthest along d; the radius is counted apart."""
        return max(self.start, self.end, key=lambda p: dot(p, d))


@dataclass(frozen=True, slots=True)
class Cylinder:
    """A flat-ended cylinder round the axis from `start` to `end`: a tube, a band, a bolt head, a socket."""

    start: Vec3
    end: Vec3
    radius_mm: float

    def farthest(self, d: Vec3) -> Vec3:
        """Place of the cylinder that lies farthest along d."""
        end = max(self.start, self.end, key=lambda p: dot(p, d))
        axis = minus(self.end, self.start)
        along = dot(d, axis) / dot(axis, axis)
        out = (d[0] - along * axis[0], d[1] - along * axis[1], d[2] - along * axis[2])
        size = math.sqrt(dot(out, out))
        if size <= _SQUARE * math.sqrt(dot(d, d)):
            return end
        scale = self.radius_mm / size
        return (end[0] + scale * out[0], end[1] + scale * out[1], end[2] + scale * out[2])


@dataclass(frozen=True, slots=True)
class Box:
    """A box round `centre` with three unit `axes` square to one another and a half size along each."""

    centre: Vec3
    axes: tuple[Vec3, Vec3, Vec3]
    half: Vec3

    def farthest(self, d: Vec3) -> Vec3:
        """Corner of the box that lies farthest along d."""
        x, y, z = self.centre
        for axis, half in zip(self.axes, self.half, strict=True):
            reach = math.copysign(half, dot(axis, d))
            x, y, z = x + reach * axis[0], y + reach * axis[1], z + reach * axis[2]
        return (x, y, z)


Body = Capsule | Cylinder | Box


def clearance(a: Body, b: Body) -> float:
    """Distance between two bodies, mm; 0 where they touch or run into each other.

    Gilbert, Johnson and Keerthi (1988): walks a simplex of differences of farthest places towards the
    origin, which works for any convex body.

    >>> wire = Capsule((0.0, 0.0, 10.0), (100.0, 0.0, 10.0), 2.0)
    >>> block = Box((50.0, 0.0, 0.0), ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), (5.0, 5.0, 3.0))
    >>> round(clearance(wire, block), 9)
    5.0
    """
    v, _ = _walked(a, b)
    return max(0.0, math.sqrt(dot(v, v)) - _rounding(a) - _rounding(b))


def nearest(a: Body, b: Body) -> tuple[float, Vec3, Vec3]:
    """Distance between two bodies, mm, and a place on each that lies so far from the other's.

    Where many places are as near (a box's edge along a tube) it is one of them; where the bodies touch or
    run into each other the two places say nothing.

    >>> wire = Capsule((0.0, 0.0, 10.0), (100.0, 0.0, 10.0), 2.0)
    >>> pin = Cylinder((30.0, 0.0, -9.0), (30.0, 0.0, 1.0), 4.0)
    >>> apart, on_wire, on_pin = nearest(wire, pin)
    >>> round(apart, 9), round(on_wire[2], 9), round(on_pin[2], 9)
    (7.0, 8.0, 1.0)
    """
    places: dict[Vec3, tuple[Vec3, Vec3]] = {}
    v, simplex = _walked(a, b, places)
    on_a, on_b = _weighed(simplex, v, places)
    apart = math.sqrt(dot(v, v))
    if apart > 0.0:
        x, y, z = (c / apart for c in v)
        r, s = _rounding(a), _rounding(b)
        on_a = (on_a[0] - r * x, on_a[1] - r * y, on_a[2] - r * z)
        on_b = (on_b[0] + s * x, on_b[1] + s * y, on_b[2] + s * z)
    return max(0.0, apart - _rounding(a) - _rounding(b)), on_a, on_b


def bound(body: Body) -> tuple[Vec3, float]:
    """Centre and radius of a ball that holds the body: a cheap first look before `clearance`.

    >>> bound(Capsule((0.0, 0.0, 0.0), (6.0, 0.0, 0.0), 1.0))
    ((3.0, 0.0, 0.0), 4.0)
    """
    if isinstance(body, Box):
        return body.centre, math.hypot(*body.half)
    (ax, ay, az), (bx, by, bz) = body.start, body.end
    middle = ((ax + bx) / 2, (ay + by) / 2, (az + bz) / 2)
    half = math.dist(body.start, body.end) / 2
    if isinstance(body, Capsule):
        return middle, half + body.radius_mm
    return middle, math.hypot(half, body.radius_mm)


def nearer_than(a: Body, b: Body, limit_mm: float) -> bool:
    """Whether two bodies come nearer than a limit, without the full search where they are far apart.

    >>> near = Capsule((0.0, 0.0, 0.0), (6.0, 0.0, 0.0), 1.0)
    >>> nearer_than(near, Capsule((0.0, 9.0, 0.0), (6.0, 9.0, 0.0), 1.0), 8.0)
    True
    """
    (p, r), (q, s) = bound(a), bound(b)
    return math.dist(p, q) - r - s < limit_mm and clearance(a, b) < limit_mm


def _rounding(body: Body) -> float:
    return body.radius_mm if isinstance(body, Capsule) else 0.0


def _walked(a: Body, b: Body, places: dict[Vec3, tuple[Vec3, Vec3]] | None = None) -> tuple[Vec3, list[Vec3]]:
    """Difference of the nearest places of two cores (0 where they meet), and the simplex that holds it.

    `places` keeps, for each difference that the search looked at, the two places that it came from.
    """
    p, q = a.farthest((1.0, 0.0, 0.0)), b.farthest((-1.0, 0.0, 0.0))
    v = minus(p, q)
    if places is not None:
        places[v] = (p, q)
    simplex: list[Vec3] = []
    for _ in range(_ROUNDS):
        square = dot(v, v)
        away = (-v[0], -v[1], -v[2])
        p, q = a.farthest(away), b.farthest(v)
        w = minus(p, q)
        if places is not None:
            places[w] = (p, q)
        if square - dot(v, w) <= _CLOSE * square or w in simplex:
            break
        nearer, kept = _nearest_to_origin([*simplex, w])
        if dot(nearer, nearer) >= square and simplex:
            break
        v, simplex = nearer, kept
        if len(simplex) == 4:
            return (0.0, 0.0, 0.0), simplex
    return v, simplex or [v]


def _weighed(simplex: list[Vec3], v: Vec3, places: dict[Vec3, tuple[Vec3, Vec3]]) -> tuple[Vec3, Vec3]:
    """The two places whose difference is v: those of the simplex's points, weighed as they make v up."""
    first, *rest = simplex
    edges = [minus(w, first) for w in rest]
    to_v = minus(v, first)
    weights = _solved([[dot(e, f) for f in edges] for e in edges], [dot(e, to_v) for e in edges]) or []
    shares = [1.0 - sum(weights), *weights]
    sums = [0.0] * 6
    for share, w in zip(shares, simplex, strict=False):
        on_a, on_b = places[w]
        sums = [have + share * c for have, c in zip(sums, (*on_a, *on_b), strict=True)]
    return (sums[0], sums[1], sums[2]), (sums[3], sums[4], sums[5])


def _nearest_to_origin(points: list[Vec3]) -> tuple[Vec3, list[Vec3]]:
    """Place of the simplex nearest to the origin, and the fewest of its points that hold that place.

    Only faces with the newest point, the last, are looked at: the others were in the round before.
    All four only where they hold the origin itself: else the place lies on a face, and four points are
    so nearly flat that the weights were noise.
    """
    best: tuple[float, Vec3, list[Vec3]] | None = None
    *older, newest = points
    for size in range(len(points)):
        for others in combinations(older, size):
            face = (*others, newest)
            place = _foot(face)
            if place is None:
                continue
            square = dot(place, place)
            if len(face) == 4 and square > _CLOSE * dot(face[0], face[0]):
                continue
            if best is None or square < best[0]:
                best = (square, place, list(face))
    assert best is not None
    return best[1], best[2]


def _foot(face: tuple[Vec3, ...]) -> Vec3 | None:
    """Foot of the origin on the flat through a face's points; None where it falls outside the face."""
    p, *rest = face
    if not rest:
        return p
    edges = [minus(q, p) for q in rest]
    weights = _solved([[dot(e, f) for f in edges] for e in edges], [-dot(e, p) for e in edges])
    if weights is None or min(weights) < 0 or sum(weights) > 1:
        return None
    x, y, z = p
    for share, e in zip(weights, edges, strict=True):
        x, y, z = x + share * e[0], y + share * e[1], z + share * e[2]
    return (x, y, z)


def _solved(rows: list[list[float]], right: list[float]) -> list[float] | None:
    """Solution of none to three linear equations; None where they have none (a flat simplex)."""
    if not rows:
        return []
    if len(rows) == 1:
        return [right[0] / rows[0][0]] if rows[0][0] > 0 else None
    if len(rows) == 2:
        (a, b), (c, d) = rows
        whole = a * d - b * c
        if whole <= _CLOSE * a * d:
            return None
        return [(right[0] * d - b * right[1]) / whole, (a * right[1] - right[0] * c) / whole]
    columns = [tuple(row[i] for row in rows) for i in range(3)]
    whole = _triple(*columns)
    if whole <= _CLOSE * rows[0][0] * rows[1][1] * rows[2][2]:
        return None
    values = (right[0], right[1], right[2])
    return [_triple(*[values if i == k else c for i, c in enumerate(columns)]) / whole for k in range(3)]


def _triple(a: tuple[float, ...], b: tuple[float, ...], c: tuple[float, ...]) -> float:
    return (
        a[0] * (b[1] * c[2] - b[2] * c[1])
        + a[1] * (b[2] * c[0] - b[0] * c[2])
        + a[2] * (b[0] * c[1] - b[1] * c[0])
    )
