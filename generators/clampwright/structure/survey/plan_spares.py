"""Spares: so many that every reading of a plan is checked by others."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.generic import Generic, rows_at
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import Between, Measurement, Slope, Survey
from clampwright.structure.survey.plan_order import Wanted
from clampwright.trade.tables import rule


class Checked:
    """Redundancy of each reading of a plan at one place, as spares are added."""

    def __init__(self, found: Fit, rows: Array) -> None:
        normal = found.jacobian.T @ found.jacobian + rows.T @ rows
        self.covariance = np.linalg.pinv(normal, rcond=1e-14, hermitian=True)
        self.rows = np.vstack([found.jacobian[found.equations.of >= 0], rows])
        self.shares = 1.0 - np.sum((self.rows @ self.covariance) * self.rows, axis=1)

    def add(self, row: Array) -> None:
        """One more reading."""
        felt = self.covariance @ row
        more = 1.0 + float(row @ felt)
        self.shares = np.append(self.shares + (self.rows @ felt) ** 2 / more, 1.0 - (more - 1.0) / more)
        self.covariance = self.covariance - np.outer(felt, felt) / more
        self.rows = np.vstack([self.rows, row])


def checking(figure: Generic, taken: Sequence[Wanted], offered: Sequence[Wanted], most: int) -> list[Wanted]:
    """Of what is offered, in order, what reaches points whose readings have too little redundancy.

    Redundancies are means over the places by lot: of any one place they would say nothing of the builder's.
    """
    survey = figure.survey
    places = [Checked(f, rows_at(survey, [w.measurement for w in taken], f)) for f in figure.found]
    rows = [rows_at(survey, [w.measurement for w in offered], f) for f in figure.found]
    system = figure.found[0].equations
    ends = [_points(survey, survey.measurements[number]) for number in system.of if number >= 0]
    ends += [_points(survey, w.measurement) for w in taken]
    enough, chosen = rule("survey-plan-checked").value, list[Wanted]()
    for number, wanted in enumerate(offered):
        shares = np.mean([place.shares for place in places], axis=0)
        poor = set().union(*(e for e, share in zip(ends, shares, strict=True) if share < enough))
        if len(chosen) >= most or not poor:
            break
        if not poor & _points(survey, wanted.measurement):
            continue
        chosen.append(wanted)
        ends.append(_points(survey, wanted.measurement))
        for place, row in zip(places, rows, strict=True):
            place.add(row[number])
    return chosen


def _points(survey: Survey, m: Measurement) -> set[str]:
    """Points whose places a measurement feels."""
    if isinstance(m, Slope | Between):
        tubes = [survey.tube(name) for name in ((m.tube,) if isinstance(m, Slope) else (m.one, m.other))]
        return {end for tube in tubes for end in (tube.start, tube.end)}
    return {m.a, m.b}
