"""What to measure next: first what makes the figure rigid, then what narrows the worst ± most."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.model import Along, Distance, Measurement, Survey
from clampwright.structure.survey.rigidity import (
    Candidate,
    candidates,
    end_columns,
    gains,
    making_fast,
    turning_up,
    with_rows,
    worst,
)
from clampwright.structure.survey.solved import Next
from clampwright.structure.survey.wording import counted, name_of, told_apart
from clampwright.trade.tables import rule


def to_make_fast(survey: Survey, found: Fit) -> tuple[tuple[Next, ...], int]:
    """Measurements that hold a loose figure, and how many ways to move none of them holds."""
    chosen, left = making_fast(found, candidates(survey, found))
    rows = [candidate for candidate, _ in chosen]
    told = []
    for candidate, still in chosen:
        m = candidate.measurement
        after = None
        if still == 0 and not len(left):
            after = worst(with_rows(found, rows), end_columns(survey, found.equations))
        does = "makes the figure rigid" if still == 0 else f"leaves {counted(still, 'way')} to move"
        if turning_up(survey, found) == len(found.loose):
            does = "says which way is up"
        told.append(Next(m.a, m.b, what(m), f"{does}", after))  # type: ignore[union-attr]
    return tuple(told), len(left)


def to_narrow(survey: Survey, found: Fit, scale: float) -> tuple[Next, ...]:
    """Single measurements that narrow the worst ± of a rigid figure most, best first."""
    offered, ends = candidates(survey, found), end_columns(survey, found.equations)
    now = scale * worst(found.covariance, ends)
    after = gains(found, ends, offered, scale)
    where = _worst_point(survey, found, ends)
    told = []
    for number in np.argsort(np.round(after, 6), kind="stable")[: int(rule("survey-next-most").value)]:
        narrowed = float(after[number])
        if narrowed <= rule("survey-next-worth").value * now:
            told.append(_narrowing(survey, offered[number], where, now, narrowed))
    return tuple(told)


def _narrowing(survey: Survey, candidate: Candidate, where: str, now: float, after: float) -> Next:
    m = candidate.measurement
    assert isinstance(m, Distance | Along)
    before, behind = told_apart(now, after, survey.units)
    return Next(m.a, m.b, what(m), f"narrows the worst ±, at {where}, from {before} to {behind}", after)


def _worst_point(survey: Survey, found: Fit, ends: npt.NDArray[np.bool_]) -> str:
    variance = np.where(ends, np.diag(found.covariance), -1.0)
    return survey.points[int(found.equations.free[int(np.argmax(variance))]) // 3].name


def what(m: Measurement) -> str:
    """A measurement to take, as a person says it: "A-C, centre to centre"."""
    return f"{name_of(m)}, centre to centre" if isinstance(m, Distance) else name_of(m)
