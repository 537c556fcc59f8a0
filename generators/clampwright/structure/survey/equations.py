"""Weighted equations: a row for every measurement and condition, a column for every free coordinate."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.structure.survey.kinds import Array, Reading

Numbers = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Term:
    """All rows of one kind: their numbers (m,), the places that each depends on (m, k), and the formula."""

    rows: Numbers
    places: Numbers
    reads: Callable[[Array], Reading]


@dataclass(frozen=True, slots=True)
class Equations:
    """Places are the survey's points in order, and last the upward vector."""

    terms: tuple[Term, ...]
    measured: Array
    """What each row should read, mm or rad, shape (rows,)."""
    sigma: Array
    """One standard deviation of each row."""
    of: Numbers
    """Number of the measurement that a row belongs to; -1 for a condition (a point on an axis, a skin)."""
    about: tuple[str, ...]
    """Said of each row, for a condition: "ring on the axis of upper-left"."""
    free: Numbers
    """Columns of the flattened coordinates (places x 3) that are to be found."""
    places: int
    small_mm: float
    """Motions up to this are small: they change readings in proportion, square terms stay within the ±."""

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return len(self.measured)


def evaluate(equations: Equations, figures: Array) -> tuple[Array, Array]:
    """Residuals (computed less measured) and their Jacobian, both in standard deviations.

    Parameters
    ----------
    equations
        The survey.
    figures
        Coordinates, shape (..., places, 3): one figure or many.

    Returns
    -------
    residuals (..., rows) and Jacobian (..., rows, free columns).
    """
    many = figures.shape[:-2]
    computed = np.zeros((*many, equations.rows))
    jacobian = np.zeros((*many, equations.rows, equations.places * 3))
    axes = np.arange(3)
    for term in equations.terms:
        reading, gradient = term.reads(figures[..., term.places, :])
        computed[..., term.rows] = reading
        for slot in range(term.places.shape[1]):
            columns = 3 * term.places[:, slot, None] + axes
            jacobian[..., term.rows[:, None], columns] += gradient[..., slot, :]
    residuals = (computed - equations.measured) / equations.sigma
    return residuals, jacobian[..., equations.free] / equations.sigma[:, None]


def computed(equations: Equations, figures: Array) -> Array:
    """What every row reads on figures (..., places, 3), mm or rad, shape (..., rows)."""
    reading = np.zeros((*figures.shape[:-2], equations.rows))
    for term in equations.terms:
        reading[..., term.rows] = term.reads(figures[..., term.places, :])[0]
    return reading


def stepped(equations: Equations, figures: Array, step: Array) -> Array:
    """Figures with their free coordinates moved by a step (..., free columns)."""
    flat = figures.reshape(*figures.shape[:-2], -1).copy()
    flat[..., equations.free] += step
    return flat.reshape(figures.shape)
