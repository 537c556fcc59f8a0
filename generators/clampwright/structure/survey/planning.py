"""Which measurements to take before any were taken: enough to hold the figure, and some to check them."""

from __future__ import annotations

import math

import numpy as np

from clampwright.structure.survey.fit import Fit, look_at
from clampwright.structure.survey.model import Distance, Survey
from clampwright.structure.survey.next_best import what
from clampwright.structure.survey.placement import placed
from clampwright.structure.survey.residuals import equations
from clampwright.structure.survey.rigidity import FELT, Candidate, candidates, end_columns, with_rows, worst
from clampwright.structure.survey.solved import Next
from clampwright.structure.survey.trouble import unsolvable
from clampwright.structure.survey.wording import counted
from clampwright.trade.tables import rule


def plan(survey: Survey, spare: int | None = None) -> tuple[Next, ...]:
    """Measurements to take, in order: first what makes the figure rigid, then what checks the others.

    Points stand where they are by eye, and by lot where nothing is said: which measurements hold a figure
    hardly depends on its shape. Measurements that the survey has already count as taken.

    Parameters
    ----------
    survey
        Points, tubes and the datum; its measurements' values are not looked at.
    spare
        How many more than the figure needs; None: until each has some redundancy.

    Examples
    --------
    >>> from clampwright.structure.survey.model import Datum, SurveyPoint
    >>> points = tuple(SurveyPoint(name) for name in "ABCD")
    >>> survey = Survey("s", "", "mm", points, (), (), Datum("A", "x", "B", False, "y", "C"))
    >>> [n.what[:3] for n in plan(survey)]
    ['A-B', 'A-C', 'A-D', 'B-C', 'B-D', 'C-D']
    """
    if any("measured" not in why and "reads nothing" not in why for why in unsolvable(survey)):
        return ()
    system = equations(survey)
    found = look_at(system, placed(survey, system), np.ones(system.rows))
    offered = list(candidates(survey, found))
    chosen, still = _holding(found, offered, survey)
    told = _in_order(survey, chosen)
    if still and still[-1] > 0:
        return told
    rest = [c for c in offered if not any(c is taken for taken in chosen)]
    return (*told, *_checking(survey, found, chosen, rest, spare))


def _holding(found: Fit, offered: list[Candidate], survey: Survey) -> tuple[list[Candidate], list[int]]:
    """One measurement for each way to move, the firmest first."""
    loose, chosen, still = found.loose, list[Candidate](), list[int]()
    if not offered:
        return chosen, still
    rows = np.array([c.row for c in offered]).reshape(len(offered), -1)
    ease = np.array([_ease(survey, c) for c in offered])
    felt = FELT * np.max(np.abs(rows), axis=1, initial=0.0)
    while len(loose):
        reading = rows @ loose.T
        strength = np.linalg.norm(reading, axis=1)
        strength[strength < felt] = 0.0
        best = int(np.argmax(np.round(strength * ease, 9)))
        if strength[best] == 0.0:
            break
        loose = np.linalg.svd((reading[best] / strength[best])[None, :])[2][1:] @ loose
        chosen.append(offered[best])
        still.append(len(loose))
    return chosen, still


def _ease(survey: Survey, candidate: Candidate) -> float:
    m = candidate.measurement
    own = isinstance(m, Distance) and any({m.a, m.b} == {t.start, t.end} for t in survey.tubes)
    return rule("survey-plan-tube-first").value if own else 1.0


def _checking(
    survey: Survey, found: Fit, chosen: list[Candidate], rest: list[Candidate], spare: int | None
) -> list[Next]:
    """Measurements that raise the redundancy of those that have least, one after the other."""
    told: list[Next] = []
    by_eye = all(p.rough is not None for p in survey.points)
    ends = end_columns(survey, found.equations)
    enough = rule("survey-plan-checked").value
    share = rule("survey-plan-spare-most").value
    most = min(math.ceil(share * len(chosen)) if spare is None else spare, len(rest))
    while len(told) < most:
        taken = np.vstack([found.jacobian[found.equations.of >= 0], *(c.row for c in chosen)])
        covariance = with_rows(found, chosen)
        felt = taken @ covariance
        shares = 1.0 - np.sum(felt * taken, axis=1)
        if spare is None and np.all(shares >= enough):
            break
        rows = np.array([c.row for c in rest])
        raised = (felt @ rows.T) ** 2 / (1.0 + np.sum((rows @ covariance) * rows, axis=1))
        aim = max(enough, 2.0 * float(shares.min()))
        gain = np.sum(np.clip(shares[:, None] + raised, None, aim) - np.minimum(shares[:, None], aim), axis=0)
        best = int(np.argmax(np.round(gain, 9)))
        if spare is None and gain[best] <= 1e-9:
            break
        chosen = [*chosen, rest.pop(best)]
        after = worst(with_rows(found, chosen), ends) if by_eye else None
        helped = int(np.sum(raised[:, best] > enough / 10))
        told.append(_next(chosen[-1], f"checks {counted(helped, 'other measurement')}", after))
    return told


def _next(candidate: Candidate, does: str, after: float | None) -> Next:
    m = candidate.measurement
    return Next(m.a, m.b, what(m), does, after)  # type: ignore[union-attr]


def _in_order(survey: Survey, chosen: list[Candidate]) -> tuple[Next, ...]:
    """By point, as a person goes round the structure; every one of them is needed."""
    number = {p.name: i for i, p in enumerate(survey.points)}
    told = [_next(candidate, "holds the figure", None) for candidate in chosen]
    return tuple(sorted(told, key=lambda n: (number[n.a], number[n.b])))
