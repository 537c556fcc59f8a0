"""The pose that leaves an assignment the least misfit: least squares, and least worst where that matters."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.arcs import PARALLEL
from clampwright.layout.mounting.assignments import Branches, Search

Array = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]

_STARTS = np.linspace(-1.0, 1.0, 9)
_STEPS = 24
_ZOOMS = 6
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
    return _with_inverse(nu, d, a, b)


def least_squares(found: Branches, held: Equations) -> Array:
    """The turn angle (n,) in each arc that leaves the least sum of squares, T being free.

    Newton's method on F(theta) = |P q(theta)|^2, P taking out what T can do; started at the best of nine
    places of the arc.
    """
    low, high = found.centre - found.half, found.centre + found.half
    starts = found.centre[:, None] + found.half[:, None] * _STARTS
    values = np.stack([_squares(held, starts[:, k]) for k in range(len(_STARTS))], axis=1)
    middle = np.abs(_STARTS)[None, :] * 1e-12
    theta = starts[np.arange(len(starts)), np.argmin(values + middle, axis=1)]
    for _ in range(_STEPS):
        step = _newton(held, theta)
        theta = np.clip(theta + step, low, high)
        if not len(step) or np.abs(step).max() < 1e-14:
            break
    return theta


def least_worst(found: Branches, held: Equations, slack: Array, near: Array) -> tuple[Array, Array]:
    """Turn angle and shift in each arc whose worst misfit, each as a share of its hole's slack, is the least.

    At a given angle that is the largest |sum w_i q_i| over the weights of all threes of holes and pairs of
    parallel lines (the dual of the linear programme); the angle is found by narrowing down on it.
    """
    held = _with_inverse(held.nu / slack[:, None], held.d / slack, held.a / slack, held.b / slack)
    balances = _balances(held)
    low, high = found.centre - found.half, found.centre + found.half
    theta = found.centre
    half = found.half
    for _ in range(_ZOOMS):
        tried = np.clip(theta[:, None] + half[:, None] * _STARTS, low[:, None], high[:, None])
        worst = np.stack([_worst(held, balances, tried[:, k])[0] for k in range(len(_STARTS))], axis=1)
        theta = tried[np.arange(len(tried)), np.argmin(np.round(worst, 12), axis=1)]
        half = half / (len(_STARTS) - 1) * 2
    return theta, _evened(held, balances, theta, near)


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
    """R(theta) h for every candidate and hole (n, m, 2)."""
    cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
    x, y = holes[:, 0], holes[:, 1]
    return np.stack([cos * x - sin * y, sin * x + cos * y], axis=-1)


def _with_inverse(nu: Array, d: Array, a: Array, b: Array) -> Equations:
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


def _balances(held: Equations) -> list[tuple[tuple[int, ...], Array]]:
    """Weights (n, k) of every three holes, and of every two on parallel lines, sizes adding up to 1."""
    x, y = held.nu[..., 0], held.nu[..., 1]
    longest = (x * x + y * y).max(axis=1, keepdims=True)
    found: list[tuple[tuple[int, ...], Array]] = []
    for i, j in combinations(range(x.shape[1]), 2):
        one, other = np.hypot(x[:, i], y[:, i]), np.hypot(x[:, j], y[:, j])
        cross, facing = x[:, i] * y[:, j] - y[:, i] * x[:, j], x[:, i] * x[:, j] + y[:, i] * y[:, j]
        w = np.stack([other, -one * np.sign(facing)], axis=1) / (one + other)[:, None]
        found.append(((i, j), np.where((np.abs(cross) <= PARALLEL * one * other)[:, None], w, 0.0)))
    for i, j, k in combinations(range(x.shape[1]), 3):
        w = np.stack([x[:, p] * y[:, q] - y[:, p] * x[:, q] for p, q in ((j, k), (k, i), (i, j))], axis=1)
        size, least = np.abs(w).sum(axis=1, keepdims=True), PARALLEL * longest
        found.append(((i, j, k), np.where(size > least, w / np.maximum(size, least), 0.0)))
    return found


def _worst(
    held: Equations, balances: list[tuple[tuple[int, ...], Array]], theta: Array
) -> tuple[Array, Indices]:
    """The least worst misfit at each angle, and which of the balances asks for it."""
    q = held.settled(theta)
    each = np.stack([np.abs((w * q[:, list(at)]).sum(axis=1)) for at, w in balances], axis=1)
    most = np.argmax(each, axis=1)
    return each[np.arange(len(each)), most], most


def _evened(
    held: Equations, balances: list[tuple[tuple[int, ...], Array]], theta: Array, near: Array
) -> Array:
    """The shift at which the holes of the deciding balance miss by the same, signed as its weights."""
    worst, most = _worst(held, balances, theta)
    q = held.settled(theta)
    shift = held.shift(theta, near)
    for number, (at, w) in enumerate(balances):
        mine = np.nonzero(most == number)[0]
        if not len(mine):
            continue
        total = (w[mine] * q[mine][:, list(at)]).sum(axis=1, keepdims=True)
        target = np.zeros((len(mine), q.shape[1]))
        weight = np.zeros_like(target)
        target[:, list(at)] = np.sign(w[mine]) * np.sign(total) * worst[mine, None]
        weight[:, list(at)] = (w[mine] != 0.0) * 1.0
        nu = held.nu[mine] * weight[..., None]
        only = _with_inverse(nu, (q[mine] - target) * weight, 0 * nu[..., 0], 0 * nu[..., 0])
        shift[mine] = only.shift(theta[mine], shift[mine])
    return shift


def turn_off(theta: Array) -> Array:
    """How far an angle is from 0, the direction asked for x: 0 to pi."""
    off: Array = np.abs(np.remainder(theta + math.pi, 2 * math.pi) - math.pi)
    return off
