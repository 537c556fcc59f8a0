"""The solved points as tubes, with their covariance."""

from __future__ import annotations

import numpy as np

from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.kinds import Array, vec
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.wording import counted, names
from clampwright.structure.tubes import Structure, Tube
from clampwright.structure.uncertainty import Uncertainty

_NEGLIGIBLE = 1e-4
"""Share of every coordinate's variance that may be left out with the least causes."""


def to_structure(survey: Survey, found: Fit, scale: float) -> Structure:
    """Tubes in the survey's order, with marks and with what each measurement's error does to their ends."""
    number = {point.name: i for i, point in enumerate(survey.points)}
    tubes = []
    for tube in survey.tubes:
        start, end = (vec(found.figure[number[p]]) for p in (tube.start, tube.end))
        plain = Tube(tube.name, start, end, tube.od_mm)
        mark = plain.station(vec(found.figure[number[tube.mark]])) if tube.mark else None
        tubes.append(Tube(tube.name, start, end, tube.od_mm, mark))
    return Structure(tuple(tubes), uncertainty=uncertainty(survey, found, scale))


def uncertainty(survey: Survey, found: Fit, scale: float) -> Uncertainty:
    """How the ends of the tubes err together: a column for each measurement or condition.

    The adjustment is x = J⁺ l to first order, so that the columns of J⁺, each row's error taken as one
    standard deviation, are a factor of the covariance (JᵀJ)⁻¹.
    """
    number = {point.name: i for i, point in enumerate(survey.points)}
    every = np.zeros((found.equations.places * 3, found.equations.rows))
    every[found.equations.free] = scale * found.covariance @ (found.jacobian * found.use[:, None]).T
    ends = [3 * number[p] + axis for t in survey.tubes for p in (t.start, t.end) for axis in range(3)]
    factor, kept = without_least(every[ends])
    called = (*names(survey), "")
    said = [called[of] or about for of, about in zip(found.equations.of, found.equations.about, strict=True)]
    return Uncertainty(
        survey_names(survey),
        tuple(tuple(float(v) for v in row) for row in factor),
        f"tape survey {survey.name}, {counted(len(survey.measurements), 'measurement')}",
        given=not any(key.startswith("measuring.") for key, _ in survey.assumed),
        causes_are=tuple(said[column] for column in kept),
    )


def survey_names(survey: Survey) -> tuple[str, ...]:
    """Names of the tubes, in order."""
    return tuple(tube.name for tube in survey.tubes)


def without_least(factor: Array) -> tuple[Array, list[int]]:
    """A factor without the causes that hardly matter to any of its rows, and the columns kept.

    >>> without_least(np.array([[1.0, 1e-3, 0.0], [0.0, 0.0, 2.0]]))[1]
    [0, 2]
    """
    if not factor.size:
        return factor, []
    variance = np.sum(factor**2, axis=1, keepdims=True)
    share = np.max(factor**2 / np.where(variance > 0, variance, 1.0), axis=0)
    order = np.argsort(share, kind="stable")
    dropped = np.cumsum((factor**2 / np.where(variance > 0, variance, 1.0))[:, order], axis=1)
    few = int(np.sum(np.max(dropped, axis=0) <= _NEGLIGIBLE))
    kept = sorted(int(column) for column in order[few:])
    return factor[:, kept], kept
