"""One adjusted figure, and what its Jacobian tells: what is held, how well, and which row checks which."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.equations import Equations, evaluate
from clampwright.structure.survey.kinds import Array
from clampwright.structure.uncertainty import coverage
from clampwright.trade.tables import rule

_RANK = 1e-10
"""Singular values below this share of the greatest are zero."""

_NO_HOLD = 100.0
"""So many times a small motion: a mode with a greater standard deviation is not held at all."""


@dataclass(frozen=True, slots=True)
class Fit:
    """A figure that agrees best with the rows in use, all in standard deviations of these."""

    equations: Equations
    figure: Array
    """Coordinates, shape (places, 3)."""
    use: Array
    """1.0 for rows in use, 0.0 for those left out, shape (rows,)."""
    residuals: Array
    """Computed less measured, of every row, left out or not."""
    jacobian: Array
    """Of every row, shape (rows, free columns)."""
    modes: Array
    """Ways to move, a row each, square to each other, the best held first, shape (free, free)."""
    spread: Array
    """One standard deviation of each mode, mm; infinite where nothing holds it."""
    redundancies: Array
    """Share of each row's error that the others show, 0 to 1; 0 for rows left out."""

    @property
    def loose(self) -> Array:
        """Modes that nothing holds, or nothing to speak of, shape (loose, free columns)."""
        most = np.max(np.abs(self.modes), axis=1, initial=0.0)
        with np.errstate(invalid="ignore"):
            wide = np.isinf(self.spread) | (coverage() * most * self.spread > self.equations.small_mm)
        return np.asarray(self.modes[wide], dtype=float)

    @property
    def held_poorly_mm(self) -> float:
        """± (95 %) of the best held of the loose modes; infinite where none of them is held at all."""
        loose = len(self.loose)
        return coverage() * float(np.min(self.spread[len(self.spread) - loose :], initial=np.inf))

    @property
    def held(self) -> Array:
        """Each held mode times its standard deviation, a column each: a factor of the covariance."""
        fast = np.isfinite(self.spread)
        return np.asarray((self.modes[fast] * self.spread[fast, None]).T, dtype=float)

    @property
    def covariance(self) -> Array:
        """Of the free coordinates; what nothing holds at all counts for nothing here."""
        return np.asarray(self.held @ self.held.T, dtype=float)

    @property
    def sum_of_squares(self) -> float:
        """Of the residuals of the rows in use."""
        return float(np.sum(self.use * self.residuals**2))

    @property
    def redundancy(self) -> int:
        """Rows in use more than the ways to move that they hold."""
        return int(np.sum(self.use > 0)) - int(np.sum(np.isfinite(self.spread)))

    def tests(self) -> Array:
        """Baarda's w of every row: |residual| in its own standard deviations; nan where nothing checks it."""
        checked = self.redundancies >= rule("survey-checked-at-all").value
        return np.where(
            checked, np.abs(self.residuals) / np.sqrt(np.where(checked, self.redundancies, 1)), np.nan
        )


def fit(equations: Equations, starts: Array, use: Array | None = None) -> Fit:
    """The plain least squares figure from the best of some starts, shape (many, places, 3)."""
    rows = np.ones(equations.rows) if use is None else use
    adjusted = adjust(equations, starts, use=rows)
    return look_at(equations, adjusted.figures[int(np.argmin(adjusted.cost))], rows)


def look_at(equations: Equations, figure: Array, use: Array) -> Fit:
    """A figure as it is, with what its Jacobian tells."""
    residuals, jacobian = evaluate(equations, figure)
    in_use = jacobian * use[:, None]
    width = jacobian.shape[1]
    left, values, modes = np.linalg.svd(in_use, full_matrices=True)
    left = left[:, : len(values)]
    limit = _RANK * float(np.max(values, initial=0.0))
    spread = np.full(width, np.inf)
    fast = (values > limit) & (values * equations.small_mm * _NO_HOLD > 1.0)
    spread[: len(values)][fast] = 1.0 / values[fast]
    redundancies = np.clip(1.0 - np.sum(left[:, fast] ** 2, axis=1), 0.0, 1.0) * (use > 0)
    return Fit(equations, figure, use, residuals, jacobian, modes, spread, redundancies)


def scales(found: Fit) -> tuple[float, float]:
    """Root of the mean squared residual, and the most that chance makes of it (chi square, 95 %)."""
    from scipy.special import gammaincinv

    more = found.redundancy
    if more <= 0:
        return 1.0, 1.0
    chi_square = 2.0 * float(gammaincinv(more / 2.0, rule("survey-chi-square").value))
    most = math.sqrt(chi_square / more)
    return math.sqrt(found.sum_of_squares / more), most
