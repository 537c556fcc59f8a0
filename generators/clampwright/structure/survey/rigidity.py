"""Which points can still move, and which measurement to take next."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.structure.survey.equations import Equations, evaluate
from clampwright.structure.survey.fit import Fit, look_at
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import Along, Distance, Measurement, Survey
from clampwright.structure.survey.placement import placed
from clampwright.structure.survey.residuals import finds_up, rows_of
from clampwright.structure.uncertainty import coverage
from clampwright.trade.tables import rule

FELT = 0.02
"""A reading that changes by less than this per mm of motion does not hold it."""

_UP_ALONE = 0.99
"""Share of a way to move above which it is gravity's direction that turns, and the points stay."""

_BENT = 0.05
"""Most that a distance changes per mm of a way to move (all points together) in which the shape stays."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A measurement that could be taken: its row of the Jacobian in standard deviations."""

    measurement: Measurement
    row: Array


def moving(fit: Fit, survey: Survey) -> tuple[str, ...]:
    """Names of the points that can still move, in the survey's order."""
    share = np.zeros(fit.equations.places * 3)
    share[fit.equations.free] = np.sum(fit.loose**2, axis=0)
    by_point = np.sqrt(np.sum(share.reshape(-1, 3), axis=1))
    felt = 0.05 / np.sqrt(max(len(survey.points), 1))
    return tuple(p.name for p, much in zip(survey.points, by_point, strict=False) if much > felt)


def turning_up(survey: Survey, fit: Fit) -> int:
    """Ways to move in which nothing but gravity's direction turns in the figure."""
    ups = fit.equations.free >= 3 * len(survey.points)
    return int(np.sum(np.sum(fit.loose[:, ups] ** 2, axis=1) > _UP_ALONE))


def keeps_its_shape(survey: Survey, fit: Fit) -> bool:
    """Whether no distance of two points changes to speak of in any way that is left to move."""
    count = len(survey.points)
    ways = np.zeros((len(fit.loose), fit.equations.places * 3))
    ways[:, fit.equations.free] = fit.loose
    moved = ways.reshape(len(ways), -1, 3)[:, :count]
    one, other = np.triu_indices(count, 1)
    away = fit.figure[one] - fit.figure[other]
    away /= np.maximum(np.linalg.norm(away, axis=1), 1e-9)[:, None]
    change = np.sum(away * (moved[:, one] - moved[:, other]), axis=2)
    return bool(np.max(np.abs(change), initial=0.0) < _BENT)


def generic_freedoms(survey: Survey, fit: Fit) -> int:
    """Ways to move of a figure built the same in no special position: points by lot, conditions met."""
    figure = placed(survey, fit.equations, by_eye=False)
    found = look_at(fit.equations, figure, fit.use)
    return int(np.sum(np.isinf(found.spread)))


def candidates(survey: Survey, fit: Fit) -> tuple[Candidate, ...]:
    """Every distance of two points that was not measured, and heights where the frame is level."""
    taken = {frozenset((m.a, m.b)) for m in survey.measurements if isinstance(m, Distance)}
    error = usual_error(survey)
    wanted: list[Measurement] = [
        Distance(one.name, other.name, 0.0, error)
        for one, other in combinations(survey.points, 2)
        if frozenset((one.name, other.name)) not in taken
    ]
    if survey.datum.level or finds_up(survey):
        wanted += _heights(survey)
    if not wanted:
        return ()
    rows = rows_of(survey, tuple(wanted), fit.equations.free)
    _, jacobian = evaluate(rows, fit.figure)
    return tuple(Candidate(m, row) for m, row in zip(wanted, jacobian, strict=True))


def usual_error(survey: Survey) -> float:
    """± of a tape reading in this survey: the median of those given, or the rule's where there is none."""
    given = [m.error_mm for m in survey.measurements if isinstance(m, Distance)]
    if given:
        return float(np.median(given))
    return rule("survey-tape-inch" if survey.units == "in" else "survey-tape-metric").value


def _heights(survey: Survey) -> list[Measurement]:
    """Height of every point over the datum's origin that was not taken."""
    taken = {frozenset((m.a, m.b)) for m in survey.measurements if isinstance(m, Along) and m.axis == "z"}
    origin = survey.datum.origin
    error = rule("survey-height-inch" if survey.units == "in" else "survey-height-metric").value
    return [
        Along(origin, p.name, "z", 0.0, error, plumb=True)
        for p in survey.points
        if p.name != origin and frozenset((origin, p.name)) not in taken
    ]


def making_fast(fit: Fit, offered: tuple[Candidate, ...]) -> tuple[list[tuple[Candidate, int]], Array]:
    """Measurements that make a loose figure fast, one freedom each, the firmest first, and what stays loose.

    Each is the one whose reading changes most, in its own standard deviations, as the figure moves
    in the ways that are still open. The number beside it counts the freedoms left after it.
    """
    chosen: list[tuple[Candidate, int]] = []
    if not offered:
        return chosen, fit.loose
    rows = np.array([c.row for c in offered])
    felt = FELT * np.max(np.abs(rows), axis=1, initial=0.0)
    loose = fit.loose
    while len(loose):
        reading = rows @ loose.T
        strength = np.linalg.norm(reading, axis=1)
        strength[strength < felt] = 0.0
        best = int(np.argmax(np.round(strength / max(float(strength.max()), 1e-300), 9)))
        if strength[best] == 0.0:
            break
        along = reading[best] / strength[best]
        _, _, turned = np.linalg.svd(along[None, :])
        loose = turned[1:] @ loose
        chosen.append((offered[best], len(loose)))
    return chosen, loose


def with_rows(fit: Fit, added: list[Candidate]) -> Array:
    """Covariance of the free coordinates with further measurements, shape (free, free)."""
    normal = (fit.jacobian * fit.use[:, None]).T @ fit.jacobian
    for candidate in added:
        normal = normal + np.outer(candidate.row, candidate.row)
    return np.asarray(np.linalg.pinv(normal, rcond=1e-14, hermitian=True), dtype=float)


def end_columns(survey: Survey, equations: Equations) -> npt.NDArray[np.bool_]:
    """Which free columns belong to an end of a tube; to any point where there are no tubes. Booleans."""
    number = {point.name: i for i, point in enumerate(survey.points)}
    ends = {number[end] for tube in survey.tubes for end in (tube.start, tube.end)}
    ends = ends or set(number.values())
    return np.isin(equations.free // 3, list(ends))


def worst(covariance: Array, ends: npt.NDArray[np.bool_]) -> float:
    """Worst ± (95 %) of the coordinates marked in `ends`, mm."""
    return coverage() * float(np.sqrt(np.max(np.diag(covariance)[ends], initial=0.0)))


def gains(fit: Fit, ends: npt.NDArray[np.bool_], offered: tuple[Candidate, ...], scale: float) -> Array:
    """Worst ± (95 %) of the tubes' ends with each candidate, mm: Q' = Q - Qc cᵀQ / (1 + cᵀQc)."""
    if not offered:
        return np.zeros(0)
    covariance = fit.covariance
    rows = np.array([c.row for c in offered])
    felt = rows @ covariance
    drop = felt**2 / (1.0 + np.sum(felt * rows, axis=1))[:, None]
    left = np.diag(covariance)[None, ends] - drop[:, ends]
    most = np.max(np.maximum(left, 0.0), axis=1, initial=0.0)
    return np.asarray(coverage() * scale * np.sqrt(most), dtype=float)


def measured_at(survey: Survey, name: str) -> int:
    """How many measurements a point takes part in."""
    tubes = {tube.name for tube in survey.tubes if name in (tube.start, tube.end)}
    return sum(
        name in (getattr(m, "a", None), getattr(m, "b", None))
        or bool(tubes & {getattr(m, "tube", ""), getattr(m, "one", ""), getattr(m, "other", "")})
        for m in survey.measurements
    )
