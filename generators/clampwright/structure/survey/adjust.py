"""Least squares on many figures at once: damped Gauss-Newton steps, robust or plain."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from clampwright.structure.survey.equations import Equations, evaluate, stepped
from clampwright.structure.survey.kinds import Array

_TUNING = 2.385
"""Cauchy's tuning constant for 95 % efficiency where all errors are normal."""

_DAMPING = 1e-3
_MOST_DAMPING = 1e12
_STILL = 1e-7
"""A search ends where no coordinate moves more than this (mm), or the sum changes by less than its share."""


@dataclass(frozen=True, slots=True)
class Adjusted:
    """Figures found, shape (many, places, 3), and their costs: half the (robust) sums of squares."""

    figures: Array
    cost: Array
    settled: Array
    """1.0 where the search came to rest, 0.0 where it ran out of steps."""


def adjust(
    equations: Equations,
    figures: Array,
    *,
    use: Array | None = None,
    robust: float | None = None,
    steps: int = 200,
) -> Adjusted:
    """The figures nearest to the given ones that agree best with the equations.

    Each step solves (JᵀWJ + λD) δ = -JᵀWr; λ falls where a step helped and rises where it did not (Levenberg,
    Marquardt). Robust, a residual r weighs 1/(1 + (r/c)²) (Cauchy), so that a blunder pulls hardly at all.

    Parameters
    ----------
    equations
        The survey.
    figures
        Starts, shape (many, places, 3).
    use
        Weight of each row, 0 to leave it out, shape (rows,) or (many, rows).
    robust
        Cauchy's loss instead of squares, with c this many times that for normal errors.
    steps
        Most steps taken.
    """
    found = np.array(figures, dtype=float)
    many = len(found)
    weight = np.broadcast_to(np.ones(equations.rows) if use is None else use, (many, equations.rows))
    cost, settled, busy = np.full(many, np.inf), np.zeros(many), np.arange(many)
    damping = np.full(many, _DAMPING)
    residuals, jacobian = evaluate(equations, found)
    cost[:] = _cost(residuals, weight, robust)
    for _ in range(steps):
        step = _step(residuals, jacobian, _weights(residuals, weight[busy], robust), damping[busy])
        trial = stepped(equations, found[busy], step)
        new_residuals, new_jacobian = evaluate(equations, trial)
        new_cost = _cost(new_residuals, weight[busy], robust)
        better = new_cost <= cost[busy]
        still = np.max(np.abs(step), axis=-1, initial=0.0) < _STILL
        still |= better & (cost[busy] - new_cost <= _STILL**2 * cost[busy] + 1e-18)
        found[busy[better]], cost[busy[better]] = trial[better], new_cost[better]
        residuals[better], jacobian[better] = new_residuals[better], new_jacobian[better]
        damping[busy] = np.where(better, damping[busy] / 8, damping[busy] * 6)
        ended = still | (damping[busy] > _MOST_DAMPING)
        settled[busy[ended]] = 1.0
        busy, residuals, jacobian = busy[~ended], residuals[~ended], jacobian[~ended]
        if not len(busy):
            break
    return Adjusted(found, cost, settled)


def _step(residuals: Array, jacobian: Array, weights: Array, damping: Array) -> Array:
    weighted = np.swapaxes(jacobian * weights[..., None], -1, -2)
    normal = weighted @ jacobian
    width = normal.shape[-1]
    if width == 0:
        return np.zeros((len(residuals), 0))
    diagonal = np.einsum("...ii->...i", normal)
    floor = 1e-9 * np.max(diagonal, axis=-1, initial=0.0) + 1e-12
    diagonal += damping[:, None] * (diagonal + floor[:, None]) + 1e-3 * floor[:, None]
    gradient = weighted @ residuals[..., None]
    return np.asarray(-np.linalg.solve(normal, gradient)[..., 0], dtype=float)


def _weights(residuals: Array, weight: Array, robust: float | None) -> Array:
    return weight if robust is None else weight / (1.0 + (residuals / (robust * _TUNING)) ** 2)


def _cost(residuals: Array, weight: Array, robust: float | None) -> Array:
    each = residuals**2
    if robust is not None:
        tuning = robust * _TUNING
        each = tuning**2 * np.log1p((residuals / tuning) ** 2)
    return np.asarray(0.5 * np.sum(weight * each, axis=-1), dtype=float)
