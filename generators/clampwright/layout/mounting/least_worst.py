"""The pose that leaves an assignment the least worst misfit."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.arcs import PARALLEL
from clampwright.layout.mounting.assignments import Branches
from clampwright.layout.mounting.poses import STARTS, Equations, with_inverse

Array = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]

FINE, COARSE = 12, 2
"""How often the steps of an angle are made four times smaller."""
_FAR_MM = 1e9
"""Farther than anything."""
_BLOCK = 2_000_000
"""Numbers that are worked on at once: memory, not meaning."""


@dataclass(frozen=True, slots=True)
class _Balances:
    """Weights that take T out of three holes' misfits, or of two on parallel lines, sizes adding up to 1.

    `at` (k, 3) are the holes, `w` (n, k, 3) the weights: of pairs the third is 0. What the weighted misfits
    come to is d - a cos theta - b sin theta (n, k).
    """

    at: Indices
    w: Array
    d: Array
    a: Array
    b: Array


def least_worst(
    found: Branches, held: Equations, slack: Array, near: Array, zooms: int = FINE
) -> tuple[Array, Array]:
    """Turn angle and shift in each arc whose worst misfit, each as a share of its hole's slack, is the least.

    At a given angle that is the largest |sum w_i q_i| over the weights of all threes of holes and pairs of
    parallel lines (the dual of the linear programme); the angle is found by narrowing down on it.
    """
    theta, shift = np.zeros(len(found)), np.zeros((len(found), 2))
    block = max(1, _BLOCK // (len(STARTS) * max(1, held.nu.shape[1]) ** 3))
    for start in range(0, len(found), block):
        rows = np.arange(start, min(start + block, len(found)))
        slacks = slack[rows] if slack.ndim == 2 else slack
        some = held.at(rows)
        scaled = with_inverse(some.nu / slacks[..., None], some.d / slacks, some.a / slacks, some.b / slacks)
        theta[rows], shift[rows] = _least_worst(found.at(rows), scaled, near[rows], zooms)
    return theta, shift


def _least_worst(found: Branches, held: Equations, near: Array, zooms: int) -> tuple[Array, Array]:
    balances = _balances(held)
    low, high = found.centre - found.half, found.centre + found.half
    theta, half = found.centre, found.half
    for _ in range(zooms):
        tried = np.clip(theta[:, None] + half[:, None] * STARTS, low[:, None], high[:, None])
        worst = np.stack([_worst(balances, tried[:, k])[0] for k in range(len(STARTS))], axis=1)
        theta = tried[np.arange(len(tried)), np.argmin(np.round(worst, 12), axis=1)]
        half = half / (len(STARTS) - 1) * 2
    return theta, _evened(held, balances, theta, near)


def _balances(held: Equations) -> _Balances:
    x, y = held.nu[..., 0], held.nu[..., 1]
    size = np.hypot(x, y)
    i, j = (np.array(each, dtype=np.intp) for each in zip(*combinations(range(x.shape[1]), 2), strict=True))
    cross, facing = x[:, i] * y[:, j] - y[:, i] * x[:, j], x[:, i] * x[:, j] + y[:, i] * y[:, j]
    parallel = np.abs(cross) <= PARALLEL * size[:, i] * size[:, j]
    pairs = np.stack([size[:, j], -size[:, i] * np.sign(facing), np.zeros_like(cross)], axis=-1)
    pairs = np.where(parallel[..., None], pairs / (size[:, i] + size[:, j])[..., None], 0.0)
    if x.shape[1] < 3:
        return _weighed(held, np.stack([i, j, i], axis=1), pairs)
    a, b, c = (
        np.array(each, dtype=np.intp) for each in zip(*combinations(range(x.shape[1]), 3), strict=True)
    )
    turns = [x[:, p] * y[:, q] - y[:, p] * x[:, q] for p, q in ((b, c), (c, a), (a, b))]
    threes = np.stack(turns, axis=-1)
    total = np.abs(threes).sum(axis=-1, keepdims=True)
    least = PARALLEL * np.max(size, axis=1)[:, None, None] ** 2
    threes = np.where(total > least, threes / np.maximum(total, least), 0.0)
    at = np.concatenate([np.stack([i, j, i], axis=1), np.stack([a, b, c], axis=1)])
    return _weighed(held, at, np.concatenate([pairs, threes], axis=1))


def _weighed(held: Equations, at: Indices, w: Array) -> _Balances:
    """Balances without those that weigh nothing in any candidate."""
    some = np.any(w != 0.0, axis=(0, 2))
    at, w = at[some], w[:, some]
    d, a, b = ((w * each[:, at]).sum(axis=-1) for each in (held.d, held.a, held.b))
    return _Balances(at, w, d, a, b)


def _worst(balances: _Balances, theta: Array) -> tuple[Array, Indices]:
    """The least worst misfit at each angle, and which of the balances asks for it."""
    cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
    each = np.abs(balances.d - balances.a * cos - balances.b * sin)
    most = np.argmax(each, axis=1)
    return each[np.arange(len(each)), most], most


def _evened(held: Equations, balances: _Balances, theta: Array, near: Array) -> Array:
    """The shift at which the holes of the deciding balance miss by the same, signed as its weights."""
    worst, most = _worst(balances, theta)
    q, rows = held.settled(theta), np.arange(len(theta))
    at, w = balances.at[most], balances.w[rows, most]
    those = q[rows[:, None], at]
    total = (w * those).sum(axis=1, keepdims=True)
    counts = (w != 0.0) * 1.0
    target = those - np.sign(w) * np.sign(total) * worst[:, None]
    nu = held.nu[rows[:, None], at]
    none = np.zeros_like(those)
    only = with_inverse(nu * counts[..., None], target * counts, none, none)
    shift = only.shift(theta, held.shift(theta, near))
    two = np.nonzero(counts.sum(axis=1) == 2)[0]
    if len(two):
        deciding = np.argmax(np.abs(w[two]), axis=1)
        shift[two] = _middled(held.at(two), q[two], worst[two], shift[two], nu[two, deciding])
    return shift


def _middled(held: Equations, q: Array, worst: Array, shift: Array, nu: Array) -> Array:
    """The shift moved along the two parallel lines that decide (normal nu), to the middle of where the other
    holes miss by no more than those two."""
    along = np.stack([-nu[:, 1], nu[:, 0]], axis=1)
    rate = np.einsum("nmk,nk->nm", held.nu, along)
    left = q - np.einsum("nmk,nk->nm", held.nu, shift)
    crosswise = np.abs(rate) > PARALLEL * np.linalg.norm(held.nu, axis=2)
    safe = np.where(crosswise, rate, 1.0)
    ends = np.sort(np.stack([(left - worst[:, None]) / safe, (left + worst[:, None]) / safe]), axis=0)
    low = np.where(crosswise, ends[0], -_FAR_MM).max(axis=1)
    high = np.where(crosswise, ends[1], _FAR_MM).min(axis=1)
    moved: Array = shift + ((low + high) / 2)[:, None] * along
    return moved
