"""Stretches of the turn angle in which clamp bolts can reach their holes at once, in closed form.

With the component turned by theta and shifted by T, hole i misses line i by
r_i = d_i - nu_i . (T + R(theta) h_i). Weights w with sum w_i nu_i = 0 take T out:
sum w_i r_i = D - A cos theta - B sin theta. So every |r_i| can be at most e_i only where
|D - A cos theta - B sin theta| <= sum |w_i| e_i: two arcs of theta. For a given theta the T that suit one
hole are a strip of the plane, and strips all meet where every three of them do (Helly's theorem):
with the arcs of all threes, and of all pairs of parallel lines, the condition is not only necessary but
sufficient.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Flags = npt.NDArray[np.bool_]

PARALLEL = 1e-10
"""Sine of an angle below which two lines have the same direction."""
_POINT = 1e-9
"""Half an arc that is only a point, radians."""
_NOISE = 1e-9
"""Millimetres of misfit that are only rounding."""


@dataclass(frozen=True, slots=True)
class Reach:
    """A hole on its line, for many candidates at once (arrays of one shape): r = d - nu . T - a cos - b sin.

    a = nu . h and b = nu . Jh, with Jh the hole's place turned by a right angle.
    """

    x: Array
    y: Array
    d: Array
    a: Array
    b: Array

    def at(self, keep: Flags) -> Reach:
        """Those that are kept."""
        return Reach(self.x[keep], self.y[keep], self.d[keep], self.a[keep], self.b[keep])


@dataclass(frozen=True, slots=True)
class Condition:
    """|d - a cos theta - b sin theta| <= e."""

    d: Array
    a: Array
    b: Array
    e: Array


def weights(holes: Sequence[Reach]) -> tuple[Array, ...]:
    """Weights that take the shift out of three holes' misfits, sum of their sizes 1; zeros where all three
    lines are parallel.

    w = (nu2 x nu3, nu3 x nu1, nu1 x nu2).
    """
    one, two, three = holes
    w = (_cross(two, three), _cross(three, one), _cross(one, two))
    size = np.abs(w[0]) + np.abs(w[1]) + np.abs(w[2])
    scale = np.where(size > PARALLEL, 1.0 / np.maximum(size, PARALLEL), 0.0)
    return tuple(each * scale for each in w)


def pair_weights(one: Reach, other: Reach) -> tuple[Array, Array]:
    """The same for two holes on parallel lines; zeros where they are not parallel."""
    same = np.abs(_cross(one, other)) <= PARALLEL
    facing = np.sign(one.x * other.x + one.y * other.y)
    return np.where(same, 0.5, 0.0), np.where(same, -0.5 * facing, 0.0)


def condition(w: Sequence[Array], holes: Sequence[Reach], slacks: Sequence[float]) -> Condition:
    """What misfits of at most these slacks, one a hole, ask of theta."""
    d, a, b, e = (np.zeros(w[0].shape) for _ in range(4))
    for weight, hole, slack in zip(w, holes, slacks, strict=True):
        d, a, b = d + weight * hole.d, a + weight * hole.a, b + weight * hole.b
        e = e + slack * np.abs(weight)
    return Condition(d, a, b, e + _NOISE)


def narrowed(centre: Array, half: Array, held: Condition) -> tuple[tuple[Array, Array, Flags], ...]:
    """Both parts of the arcs centre ± half in which the condition holds: centre, half, whether there is one.

    An arc is a whole turn (half = pi) or at most half a turn. Where the condition holds all round, or
    says nothing, the first part is the arc as it was.

    >>> half_turns = Condition(np.array([0.5]), np.array([1.0]), np.array([0.0]), np.array([1e-6]))
    >>> parts = narrowed(np.zeros(1), np.full(1, math.pi), half_turns)
    >>> [round(math.degrees(centre[0])) for centre, _, kept in parts if kept[0]]
    [60, -60]
    """
    size = np.hypot(held.a, held.b)
    safe = np.maximum(size, 1e-300)
    low, high = (held.d - held.e) / safe, (held.d + held.e) / safe
    flat = size <= 1e-12
    holds = np.where(flat, np.abs(held.d) <= held.e, (low <= 1.0) & (high >= -1.0))
    whole = holds & (flat | ((low <= -1.0) & (high >= 1.0)))
    near, far = np.arccos(np.clip(high, -1.0, 1.0)), np.arccos(np.clip(low, -1.0, 1.0))
    middle, wide, phi = (near + far) / 2, (far - near) / 2, np.arctan2(held.b, held.a)
    first = _overlap(centre, half, phi + middle, wide)
    second = _overlap(centre, half, phi - middle, wide)
    one, other = whole | (holds & first[2]), ~whole & holds & second[2]
    touch = _touch(first, second)
    other &= ~(one & touch & (second[1] <= _POINT))
    one &= ~(other & touch & (first[1] <= _POINT))
    return (
        (np.where(whole, centre, first[0]), np.where(whole, half, first[1]), one),
        (second[0], second[1], other),
    )


def may_hold(centre: Array, half: Array, off: Array, size: Array, slack: Array) -> Flags:
    """Whether |g| <= slack can hold somewhere on the arcs, from g = `off` at their centres and its steepest
    slope `size`: a quick bound that never rules out what the arcs themselves would keep."""
    kept: Flags = np.abs(off) <= slack + size * half + _NOISE
    return kept


def _touch(one: tuple[Array, Array, Flags], other: tuple[Array, Array, Flags]) -> Flags:
    """Whether two arcs have an end in common, so that one that is only a point adds nothing."""
    away = np.remainder(one[0] - other[0] + math.pi, 2 * math.pi) - math.pi
    touch: Flags = np.abs(away) <= one[1] + other[1] + _POINT
    return touch


def _overlap(centre: Array, half: Array, other: Array, wide: Array) -> tuple[Array, Array, Flags]:
    """What two arcs have in common; of a whole turn the other arc itself."""
    away = np.remainder(other - centre + math.pi, 2 * math.pi) - math.pi
    low, high = np.maximum(-half, away - wide), np.minimum(half, away + wide)
    all_round = half >= math.pi
    low, high = np.where(all_round, away - wide, low), np.where(all_round, away + wide, high)
    return centre + (low + high) / 2, np.maximum((high - low) / 2, 0.0), high >= low - 1e-12


def _cross(one: Reach, other: Reach) -> Array:
    found: Array = one.x * other.y - one.y * other.x
    return found
