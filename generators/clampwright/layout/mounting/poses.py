"""The equations of an assignment's pose, and the pose that leaves the least squares of misfits."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.assignments import Branches, Search

Array = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]

STARTS = np.linspace(-1.0, 1.0, 9)
_INSIDE = 0.96
"""Share of an arc that Newton's method starts in: at the ends, where two ways round meet, it stands still."""
_STEPS, _SHORTER, _SHORTEN = 40, 4, 5.0
"""Steps of Newton's method, and how often one that leads uphill is cut short, and by what."""
_STILL_RAD = 1e-14
_FLAT = 1e-13
"""Share of the larger eigenvalue below which the smaller is rounding: all lines are parallel."""


_LOOSE_MM = 1e-6
"""Misfit that a turn or a slide must make to count as making any."""


@dataclass(frozen=True, slots=True)
class Equations:
    """q(theta) = N T for each of n candidates with m holes: q = d - a cos theta - b sin theta."""

    nu: Array
    """N (n, m, 2)."""
    d: Array
    a: Array
    b: Array
    inverse: Array
    """Pseudo-inverse of N (n, 2, m)."""
    weak: Array
    """Direction of T that the lines settle least (n, 2)."""
    grip: Array
    """How many millimetres of misfit (root of the sum of squares) a millimetre along `weak` makes (n,)."""

    def shift(self, theta: Array, near: Array) -> Array:
        """T of the least squares at each theta (n,), nearest to `near` where lines leave it free."""
        left = self.settled(theta) - np.einsum("nmk,nk->nm", self.nu, near)
        shift = near + np.einsum("nkm,nm->nk", self.inverse, left)
        left = self.settled(theta) - np.einsum("nmk,nk->nm", self.nu, shift)
        found: Array = shift + np.einsum("nkm,nm->nk", self.inverse, left)
        return found

    def settled(self, theta: Array) -> Array:
        """q (n, m)."""
        cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
        found: Array = self.d - self.a * cos - self.b * sin
        return found

    def misfits(self, theta: Array, shift: Array) -> Array:
        """r = q - N T (n, m)."""
        found: Array = self.settled(theta) - np.einsum("nmk,nk->nm", self.nu, shift)
        return found

    def loose_turn(self) -> npt.NDArray[np.bool_]:
        """Whether T makes up for any turn, so that the holes fit at every angle (n,)."""
        left = np.abs(_free(self, self.a)).max(axis=1) + np.abs(_free(self, self.b)).max(axis=1)
        free: npt.NDArray[np.bool_] = left < _LOOSE_MM
        return free

    def loose_shift(self) -> npt.NDArray[np.bool_]:
        """Whether all lines are parallel, so that the component slides along them (n,)."""
        return self.grip < _LOOSE_MM

    def at(self, keep: npt.NDArray[np.bool_] | Indices) -> Equations:
        """Those of some of the candidates."""
        return Equations(
            self.nu[keep],
            self.d[keep],
            self.a[keep],
            self.b[keep],
            self.inverse[keep],
            self.weak[keep],
            self.grip[keep],
        )


def equations(group: Indices, lines: Indices, search: Search) -> Equations:
    """The equations of every candidate."""
    plans, holes = search.plans, search.pattern.holes
    nu, d = plans.nu[group[:, None], lines], plans.offset[group[:, None], lines]
    a = nu[..., 0] * holes[:, 0] + nu[..., 1] * holes[:, 1]
    b = nu[..., 1] * holes[:, 0] - nu[..., 0] * holes[:, 1]
    return with_inverse(nu, d, a, b)


def least_squares(found: Branches, held: Equations) -> Array:
    """The turn angle (n,) in each arc that leaves the least sum of squares, T being free.

    Newton's method on F(theta) = |P q(theta)|^2, P taking out what T can do; started at the best of nine
    places of the arc.
    """
    low, high = found.centre - found.half, found.centre + found.half
    starts = found.centre[:, None] + found.half[:, None] * (_INSIDE * STARTS)
    values = np.stack([_squares(held, starts[:, k]) for k in range(len(STARTS))], axis=1)
    middle = np.abs(STARTS)[None, :] * 1e-12
    theta: Array = starts[np.arange(len(starts)), np.argmin(values + middle, axis=1)]
    value = values.min(axis=1)
    for _ in range(_STEPS):
        step = _newton(held, theta)
        for _ in range(_SHORTER):
            tried = np.minimum(np.maximum(theta + step, low), high)
            next_value = _squares(held, tried)
            worse = next_value > value
            if not worse.any():
                break
            step = np.where(worse, step / _SHORTEN, step)
        moved = np.where(worse, theta, tried)
        value = np.where(worse, value, next_value)
        if not len(step) or np.abs(moved - theta).max() < _STILL_RAD:
            return moved
        theta = moved
    return theta


def nearest_shift(found: Branches, search: Search, theta: Array) -> Array:
    """Where T is looked for first: at the place asked for, else with the holes amid their tubes."""
    if search.wanted.place is not None:
        place: Array = search.wanted.place[found.group]
        return place
    plans = search.plans
    middle = plans.length[found.group[:, None], found.lines] / 2
    places = (
        plans.start[found.group[:, None], found.lines]
        + middle[..., None] * (plans.run[found.group[:, None], found.lines])
    )
    near: Array = (places - turned(search.pattern.holes, theta)).mean(axis=1)
    return near


def turned(holes: Array, theta: Array) -> Array:
    """R(theta) h for every candidate and hole (n, m, 2).

    >>> turned(np.array([[30.0, 0.0], [0.0, 10.0]]), np.array([math.pi / 2])).round(9).tolist()
    [[[0.0, 30.0], [-10.0, 0.0]]]
    """
    cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
    x, y = holes[:, 0], holes[:, 1]
    return np.stack([cos * x - sin * y, sin * x + cos * y], axis=-1)


def with_inverse(nu: Array, d: Array, a: Array, b: Array) -> Equations:
    """Equations from what they are made of."""
    values, vectors = np.linalg.eigh(np.einsum("nmi,nmj->nij", nu, nu))
    settled = values > _FLAT * values[:, 1:]
    scale = np.where(settled, 1.0 / np.where(settled, values, 1.0), 0.0)
    inverse = np.einsum("nij,nj,nkj,nmk->nim", vectors, scale, vectors, nu)
    weak = vectors[:, :, 0]
    grip = np.linalg.norm(np.einsum("nmi,ni->nm", nu, weak), axis=1)
    return Equations(nu, d, a, b, inverse, weak, grip)


def _free(held: Equations, values: Array) -> Array:
    """What of q no T can settle: P q."""
    left = values - np.einsum("nmk,nkj,nj->nm", held.nu, held.inverse, values)
    found: Array = left - np.einsum("nmk,nkj,nj->nm", held.nu, held.inverse, left)
    return found


def _squares(held: Equations, theta: Array) -> Array:
    left: Array = (_free(held, held.settled(theta)) ** 2).sum(axis=1)
    return left


def _newton(held: Equations, theta: Array) -> Array:
    cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
    left = _free(held, held.settled(theta))
    slope = _free(held, held.a * sin - held.b * cos)
    curve = _free(held, held.a * cos + held.b * sin)
    gradient, gauss = (left * slope).sum(axis=1), (slope * slope).sum(axis=1)
    bend = gauss + (left * curve).sum(axis=1)
    bend = np.where(bend > 1e-3 * gauss, bend, gauss)
    return np.where(bend > 1e-18, -gradient / np.maximum(bend, 1e-18), 0.0)


def turn_off(theta: Array) -> Array:
    """How far an angle is from 0, the direction asked for x: 0 to pi.

    >>> turn_off(np.array([0.25, -0.25, 2 * math.pi - 0.25])).round(9).tolist()
    [0.25, 0.25, 0.25]
    """
    off: Array = np.abs(np.remainder(theta + math.pi, 2 * math.pi) - math.pi)
    return off
