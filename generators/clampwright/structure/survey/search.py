"""The search for the figure: from any start, past blunders and past the wrong mirror image."""

from __future__ import annotations

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.blunders import Snooped, snoop
from clampwright.structure.survey.equations import Equations
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.mirrors import better_flipped
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.starts import rounds

_BY_SQUARES = ((12, 6), (40, 3))
"""Steps by least squares, and how many figures then go on."""

_BY_LOSS = ((20.0, 12), (1.0, 60))
"""How many times as wide as for normal errors Cauchy's loss is, and steps."""

_SAME = 1e-3
"""Costs nearer than this are of one figure, or of its mirror image."""

_FLIPS = 6

_DOUBT = 4.0
"""Standard deviations of a sum of squares above which the figure is looked at again."""


def searched(survey: Survey, equations: Equations) -> Snooped:
    """The figure that agrees best with the measurements, without the blunders."""
    figure = robust_figure(survey, equations)
    found = snoop(equations, figure)
    for _ in range(_FLIPS):
        if not _doubtful(found):
            break
        other = better_flipped(survey, found.fit)
        if other is None:
            break
        found = _the_better(found, snoop(equations, other))
        if found.fit.figure is not other and not np.allclose(found.fit.figure, other, atol=1.0):
            break
    return found


def _doubtful(found: Snooped) -> bool:
    """Whether the agreement is so poor that a part of the figure may stand on the wrong side."""
    more = max(found.fit.redundancy, 1)
    return bool(found.left_out) or found.fit.sum_of_squares > more + _DOUBT * np.sqrt(2.0 * more)


def robust_figure(survey: Survey, equations: Equations) -> Array:
    """The figure of least robust cost.

    No further starts where it costs no more than chance allows, or where one round after the other comes to
    the same figure, each from more than one start: then a blunder is in the readings, and not a wrong shape.
    """
    more = max(equations.rows - len(equations.free), 1)
    chance = 0.5 * more + _DOUBT * np.sqrt(0.5 * more)
    best, least, agreed = None, np.inf, False
    for starts in rounds(survey):
        figure, cost, often = descended(equations, starts)
        again = best is not None and abs(cost - least) < _SAME and often > 1
        if best is None or cost < least - 1e-6:
            best, least = figure, cost
        if least <= chance or (again and agreed):
            break
        agreed = again
    assert best is not None
    return best


def descended(equations: Equations, starts: Array) -> tuple[Array, float, int]:
    """The best figure of some starts by Cauchy's loss, its cost, and how many starts came to that cost.

    Least squares find the right shape from far away, but let a blunder bend it; Cauchy's loss leaves a
    blunder aside, but only near the right shape. So squares come first, then the loss, ever tighter; the
    poorest drop out on the way.
    """
    figures = starts
    for steps, keep in _BY_SQUARES:
        found = adjust(equations, figures, steps=steps)
        figures = found.figures[np.argsort(np.round(found.cost, 6), kind="stable")[:keep]]
    for tightness, steps in _BY_LOSS:
        found = adjust(equations, figures, robust=tightness, steps=steps)
        figures = found.figures
    best = int(np.argmin(np.round(found.cost, 6)))
    return figures[best], float(found.cost[best]), int(np.sum(found.cost < found.cost[best] + _SAME))


def _the_better(one: Snooped, other: Snooped) -> Snooped:
    """The one with fewer blunders, or with the smaller sum of squares."""
    return min(one, other, key=lambda s: (len(s.left_out), s.fit.sum_of_squares))
