"""The solved points as tubes, with their covariance."""

from __future__ import annotations

from dataclasses import replace

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
    tubes: list[Tube] = []
    outer: list[tuple[float, float]] = []
    for tube in survey.tubes:
        start, end = (vec(found.figure[number[p]]) for p in (tube.start, tube.end))
        before, after = tube.beyond_mm or (0.0, 0.0)
        rings = Tube(tube.name, start, end, tube.od_mm)
        whole = Tube(tube.name, rings.point(-before), rings.point(rings.length_mm + after), tube.od_mm)
        mark = whole.station(vec(found.figure[number[tube.mark]])) if tube.mark else before or None
        outer += [(before / rings.length_mm, after / rings.length_mm)]
        tubes.append(replace(whole, mark_mm=mark))
    known = uncertainty(survey, found, scale)
    factor = tuple(tuple(float(v) for v in row) for row in _run_on(np.array(known.factor_mm), outer))
    return Structure(tuple(tubes), uncertainty=replace(known, factor_mm=factor))


def _run_on(factor: Array, outer: list[tuple[float, float]]) -> Array:
    """Rows of tubes' ends that lie beyond their rings by shares of the length between the rings.

    A straight axis moves as its two rings do: -b from the start, (1 + b/L) start - (b/L) end.
    """
    if not factor.size:
        return factor
    rows = factor.reshape(len(outer), 2, 3, -1)
    weights = np.array([[[1 + before, -before], [-after, 1 + after]] for before, after in outer])
    return np.asarray(np.einsum("tep,tpak->teak", weights, rows).reshape(factor.shape))


def uncertainty(survey: Survey, found: Fit, scale: float) -> Uncertainty:
    """How the ends of the tubes err together: a column for each measurement or condition.

    The adjustment is x = J⁺ l to first order, so that the columns of J⁺, each row's error taken as one
    standard deviation, are a factor of the covariance (JᵀJ)⁻¹.
    """
    number = {point.name: i for i, point in enumerate(survey.points)}
    every = np.zeros((found.equations.places * 3, found.equations.rows))
    every[found.equations.free] = scale * found.covariance @ (found.jacobian * found.use[:, None]).T
    ends = [3 * number[p] + axis for t in survey.tubes for p in (t.start, t.end) for axis in range(3)]
    marks = mark_rows(survey, found, every)
    factor, kept = without_least(np.vstack([every[ends], *marks.values()]))
    called = (*names(survey), "")
    said = [called[of] or about for of, about in zip(found.equations.of, found.equations.about, strict=True)]
    return Uncertainty(
        survey_names(survey),
        tuple(tuple(float(v) for v in row) for row in factor[: len(ends)]),
        f"tape survey {survey.name}, {counted(len(survey.measurements), 'measurement')}",
        given=not any(key.startswith("measuring.") for key, _ in survey.assumed),
        causes_are=tuple(said[column] for column in kept),
        marks_mm=tuple(
            (name, tuple(float(v) for v in row)) for name, row in zip(marks, factor[len(ends) :], strict=True)
        ),
    )


def mark_rows(survey: Survey, found: Fit, every: Array) -> dict[str, Array]:
    """What each cause does along its tube to the place of the axis abreast of each mark, by tube.

    With start s, direction a, mark m at q beside the axis: a·dm + q·da, for the place is s + ((m - s)·a) a.
    """
    number = {point.name: i for i, point in enumerate(survey.points)}
    rows = {}
    for tube in survey.tubes:
        if tube.mark is None:
            continue
        s, e, m = (number[point] for point in (tube.start, tube.end, tube.mark))
        run = found.figure[e] - found.figure[s]
        length = float(np.linalg.norm(run))
        a, off = run / length, found.figure[m] - found.figure[s]
        beside = off - (off @ a) * a
        turned = (every[3 * e : 3 * e + 3] - every[3 * s : 3 * s + 3]) / length
        rows[tube.name] = a @ every[3 * m : 3 * m + 3] + beside @ turned
    return rows


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
