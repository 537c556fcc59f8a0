"""A figure at several places by lot: what holds it there holds it in any shape but special ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from clampwright.structure.survey.equations import Equations, evaluate
from clampwright.structure.survey.fit import Fit, look_at
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import Measurement, Survey
from clampwright.structure.survey.placement import placed
from clampwright.structure.survey.residuals import rows_of

_FELT = 1e-6
"""Share of a row's own length below which it depends on the others."""


@dataclass(slots=True)
class Generic:
    """What can still move at each of the places, as more is measured."""

    survey: Survey
    found: tuple[Fit, ...]
    loose: list[Array]

    @property
    def freedoms(self) -> int:
        """Ways to move that are left where most are left."""
        return max(len(ways) for ways in self.loose)

    def take(self, rows: Sequence[Array]) -> bool:
        """Hold one more way to move by a measurement's row at each place; False: it depends on others."""
        readings = [ways @ row for ways, row in zip(self.loose, rows, strict=True)]
        if any(
            np.linalg.norm(reading) <= _FELT * np.linalg.norm(row)
            for reading, row in zip(readings, rows, strict=True)
        ):
            return False
        self.loose = [_without(w, reading) for w, reading in zip(self.loose, readings, strict=True)]
        return True


def generic(survey: Survey, equations: Equations, lots: Sequence[int]) -> Generic:
    """The survey as it was measured so far, at a place for each number of a lot."""
    found = tuple(
        look_at(equations, placed(survey, equations, by_eye=False, lot=lot), np.ones(equations.rows))
        for lot in lots
    )
    return Generic(survey, found, [each.modes[np.isinf(each.spread)] for each in found])


def rows_at(survey: Survey, measurements: Sequence[Measurement], found: Fit) -> Array:
    """Rows of the Jacobian of measurements to take on a figure, shape (measurements, free columns)."""
    if not measurements:
        return np.zeros((0, len(found.equations.free)))
    return evaluate(rows_of(survey, tuple(measurements), found.equations.free), found.figure)[1]


def _without(ways: Array, reading: Array) -> Array:
    """Ways to move that leave a reading as it is: those square to it, by Householder's reflection."""
    mirror = reading / np.linalg.norm(reading)
    mirror[0] += 1.0 if mirror[0] >= 0 else -1.0
    mirror /= np.linalg.norm(mirror)
    return np.asarray((ways - 2.0 * np.outer(mirror, mirror @ ways))[1:], dtype=float)
