"""How sure a clearance is: ± (95 %) of the distance between two bodies, from how the tubes were measured.

Along the line between the two nearest places the distance changes by what one drifts more than the other:
δ = n · (δ_a(p) − δ_b(q)), each cause on its own, their squares added (JCGM 100, 5.1.2). Where an edge lies
along a tube, its far end may come nearer than its nearest place once the tube leans. So the bodies are also
set down as they lie with the likeliest errors, at the edge of 95 %, that bring one of their ends nearer, and
their distance is taken there; the ± is the one to the least distance found.

Not in it: how round, straight and thick tubes and bodies are, and the play of bolts in their holes.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot, sqrt

import numpy as np
import numpy.typing as npt

from clampwright.layout.bodies import Body, nearest
from clampwright.layout.body_ends import ends_beside, off_body
from clampwright.layout.causes import Cause
from clampwright.layout.drift import Drift
from clampwright.layout.drifts import Drifts
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, minus, unit
from clampwright.structure.uncertainty import coverage

Array = npt.NDArray[np.float64]
_TOUCH = 1e-6
"""Nearer than this, mm, there is no line between two bodies to measure along."""
_MATTERS = 0.05
"""Share of a ± that is worth another search: 95 % of a few hundred measurements is known no better."""
_NOTHING = 0.01
"""Millimetres that are not worth it."""
_TRIES = 2


@dataclass(frozen=True, slots=True)
class Clear:
    """A distance and how sure it is."""

    mm: float
    plus_minus_mm: float = 0.0
    """± (95 %); 0 where both bodies ride on the same thing, and where they touch."""
    measured_mm: float = 0.0
    """What of it comes from measured places: tubes, lines, panels, keep-outs; the rest is the clamps'."""
    most_from: str = ""
    """What to measure again, as the most of it comes from there: "where high is", "the clamps' reach"."""
    default: str = ""
    """Why that is a guess, a phrase; "" where somebody measured it or said how well."""

    @property
    def worst_mm(self) -> float:
        """The least that it may be (95 %), never below 0."""
        return max(0.0, self.mm - self.plus_minus_mm)


@dataclass(frozen=True, slots=True)
class Side:
    """One of two bodies between which a distance is known."""

    body: Body
    drift: Drift | None
    """None: a panel or keep-out, measured on its own."""
    name: str = ""
    """Of a panel or keep-out."""


def clear_between(a: Side, b: Side, drifts: Drifts) -> Clear:
    """The distance of two bodies with its ± (95 %).

    Parameters
    ----------
    a, b : Side
        The bodies, each with how it drifts.
    drifts : Drifts
        Of their layout.
    """
    apart, p, q = nearest(a.body, b.body)
    pair = _Pair(a, b, drifts)
    if pair.together or apart <= _TOUCH:
        return Clear(apart)
    row = pair.row(p, q)
    worst = apart - pair.spread(row)
    for least, leaning in pair.leaning(p, q)[:_TRIES]:
        if least < worst - max(_NOTHING, _MATTERS * (apart - worst)):
            row, worst = min(((row, worst), *pair.set_down(leaning)), key=lambda found: found[1])
    return _said(apart, worst, row, pair)


def clear_along(apart: float, p: Vec3, q: Vec3, a: Side, b: Side, drifts: Drifts) -> Clear:
    """The same where distance and both places are known from elsewhere, such as the exact solids."""
    pair = _Pair(a, b, drifts)
    if pair.together or apart <= _TOUCH:
        return Clear(apart)
    row = pair.row(p, q)
    return _said(apart, apart - pair.spread(row), row, pair)


@dataclass(frozen=True, slots=True, eq=False)
class _Pair:
    a: Side
    b: Side
    drifts: Drifts

    @property
    def together(self) -> bool:
        """Whether nothing moves one against the other."""
        return self.a.drift is not None and self.a.drift is self.b.drift

    @property
    def own(self) -> float:
        """One standard deviation of what was measured on its own."""
        return hypot(*(self.drifts.own_mm for side in (self.a, self.b) if side.drift is None))

    def row(self, p: Vec3, q: Vec3) -> Array:
        """What each cause does to the distance from a place of `a` to one of `b`, shape (causes,)."""
        found: Array = self._rows(unit(minus(p, q)), (p,), (q,))[0]
        return found

    def spread(self, row: Array) -> float:
        """± (95 %) of that distance."""
        return coverage() * hypot(float(np.linalg.norm(row)), self.own)

    def leaning(self, p: Vec3, q: Vec3) -> list[tuple[float, Array]]:
        """For every end of either body how near it may come at the least, and its row; the nearest first.

        Its distance from the other body as measured, less its ±, the other's drift taken right across.
        """
        n = unit(minus(p, q))
        found: list[tuple[float, int, Array]] = []
        for side, other, sign in ((self.a, self.b, -1.0), (self.b, self.a, 1.0)):
            places = ends_beside(side.body, other.body, (sign * n[0], sign * n[1], sign * n[2]))
            gaps = [off_body(place, other.body) for place in places]
            across = [along(place, (n, sign * gap)) for place, gap in zip(places, gaps, strict=True)]
            rows = self._rows(n, places, across) if side is self.a else self._rows(n, across, places)
            spread = coverage() * np.sqrt(np.sum(np.square(rows), axis=1) + self.own**2)
            for gap, size, row in zip(gaps, spread.tolist(), rows, strict=True):
                found.append((gap - size, len(found), row))
        return [(least, row) for least, _, row in sorted(found, key=lambda each: each[:2])]

    def set_down(self, row: Array) -> Iterator[tuple[Array, float]]:
        """The distance with both bodies where such errors put them, and again by what is nearest there."""
        for _ in range(_TRIES):
            share = coverage() ** 2 / max(self.spread(row), _TOUCH)
            a, b = (_set_down(side, -share * row) for side in (self.a, self.b))
            gap, p, q = nearest(a, b)
            if gap <= _TOUCH:
                yield row, 0.0
                return
            left = gap - share * self.own**2
            row = self.row(p, q)
            yield row, left

    def _rows(self, n: Vec3, on_a: Sequence[Vec3], on_b: Sequence[Vec3]) -> Array:
        """What each cause does to distances along n, shape (places, causes)."""
        rows = np.zeros((len(on_a), len(self.drifts.causes)))
        if self.a.drift is not None:
            rows += self.a.drift.towards(n, on_a)
        if self.b.drift is not None:
            rows -= self.b.drift.towards(n, on_b)
        return rows


def _set_down(side: Side, z: Array) -> Body:
    """A body where so many standard deviations of each cause put it; a panel or keep-out stays."""
    return side.body if side.drift is None else side.drift.moved(side.body, z)


def _said(apart: float, worst: float, row: Array, pair: _Pair) -> Clear:
    drifts = pair.drifts
    squares: dict[Cause, float] = {}
    for cause, square in zip(drifts.causes, np.square(row).tolist(), strict=True):
        squares[cause] = squares.get(cause, 0.0) + square
    for side in (pair.a, pair.b):
        if side.drift is None:
            squares[Cause(f"where {side.name} is", drifts.own_default)] = drifts.own_mm**2
    most = max((cause for cause in squares if cause.what), key=lambda c: squares[c], default=Cause(""))
    return Clear(
        mm=apart,
        plus_minus_mm=apart - worst,
        measured_mm=coverage() * sqrt(sum(square for cause, square in squares.items() if cause.place)),
        most_from=most.what,
        default=most.default,
    )
