"""A figure that a survey could be of before anything is measured: points by eye or by lot, on tubes."""

from __future__ import annotations

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.equations import Equations
from clampwright.structure.survey.frame import fixed
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.units import SEED, UP

_BAY = 400.0
"""Half the size of the box in which points are put by lot."""


def placed(survey: Survey, equations: Equations, *, by_eye: bool = True, lot: int = 2) -> Array:
    """Points where they are by eye, else by lot, and those of a tube on its axis or skin, shape (places, 3).

    Parameters
    ----------
    survey
        Gives points, tubes and datum; what was measured does not count.
    equations
        Of the survey: its conditions are met.
    by_eye
        False: all by lot, so that no special shape is looked at.
    lot
        Which lot: another number puts the points elsewhere.
    """
    drawn = np.random.default_rng(SEED + lot)
    figure = drawn.uniform(-_BAY, _BAY, size=(len(survey.points) + 1, 3))
    given = {i for i, p in enumerate(survey.points) if by_eye and p.rough is not None}
    for i in given:
        figure[i] = survey.points[i].rough
    figure[-1] = UP
    figure = fixed(survey, figure)
    _onto_tubes(survey, figure, given, drawn)
    if np.all(equations.of >= 0):
        return figure
    held = adjust(equations, figure[None], use=(equations.of < 0).astype(float), steps=60)
    return np.asarray(held.figures[0], dtype=float)


def _onto_tubes(survey: Survey, figure: Array, given: set[int], lot: np.random.Generator) -> None:
    number = {p.name: i for i, p in enumerate(survey.points)}
    datum = {survey.datum.origin, survey.datum.through, survey.datum.in_plane}
    for i, point in enumerate(survey.points):
        tube = next((survey.tube(name) for name in (*point.axis_of, point.skin_of) if name is not None), None)
        if i in given or tube is None or point.name in (tube.start, tube.end, *datum):
            continue
        start, end = figure[number[tube.start]], figure[number[tube.end]]
        figure[i] = start + lot.uniform(0.25, 0.75) * (end - start)
        if point.skin_of is not None:
            square = np.cross(end - start, lot.normal(size=3))
            figure[i] += tube.od_mm / 2 * square / np.linalg.norm(square)
