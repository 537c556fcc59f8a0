"""Every figure that agrees with the measurements: flips one by one and together, and starts by lot."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.fit import Fit, look_at
from clampwright.structure.survey.frame import AXES, into_frame
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.mirrors import Flip, elsewhere, flips, reflected, undecided
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.units import SEED

_TOGETHER = 6
"""Up to so many flips are tried in every combination; of more of them, all singles and pairs."""

_SPARE = 0.6
"""Readings more than needed, as a share of the coordinates, below which starts by lot are tried as well."""

_LOTS = 48
_DISTURBED = (0.15, 0.4, 0.8)
"""Starts by lot, and by how much of the figure's size some of its points are moved."""

_FIRST, _THEN = 15, 60
_FAR = 100.0
"""Steps, and the mean squared residual above which a figure is let go after the first."""

_FLIPPED_AGAIN = 4
"""So many of the further figures are looked at for flips of their own."""


def agreeing(survey: Survey, found: Fit, known: Sequence[Flip]) -> list[Array]:
    """Figures that agree with the measurements as well as the found one, which comes first.

    Parameters
    ----------
    survey
        What was measured.
    found
        The figure of least squares.
    known
        Flips of it after which it agrees as well.

    Returns
    -------
    Figures of which each has a point that stands farther away than its ± from where it is in the others.
    """
    kept = [found.figure]
    if known:
        _add(survey, found, kept, [_combined(survey, found, some) for some in _combinations(known)])
    if found.redundancy < _SPARE * len(found.equations.free):
        before = len(kept)
        _add(survey, found, kept, _by_lot(survey, found))
        for figure in kept[before : before + _FLIPPED_AGAIN]:
            other = look_at(found.equations, figure, found.use)
            again = flips(survey, other)
            _add(survey, found, kept, [_combined(survey, other, some) for some in _combinations(again)])
    return kept


def _combinations(known: Sequence[Flip]) -> list[tuple[Flip, ...]]:
    most = len(known) if len(known) <= _TOGETHER else 2
    return [some for many in range(1, most + 1) for some in combinations(known, many)]


def _combined(survey: Survey, found: Fit, some: Sequence[Flip]) -> Array:
    figure = found.figure
    for flip in some:
        figure = reflected(survey, figure, flip)
    return figure


def _add(survey: Survey, found: Fit, kept: list[Array], starts: Sequence[Array]) -> None:
    """Adjust the starts, and keep what agrees and stands elsewhere than all that is kept already."""
    if not starts:
        return
    figures, cost = _adjusted(found, np.stack(starts))
    for number in np.argsort(np.round(cost, 6), kind="stable"):
        figure = figures[number]
        if 2.0 * cost[number] > found.sum_of_squares + undecided():
            break
        if _in_frame(survey, figure) and all(_another(found, one, figure) for one in kept):
            kept.append(figure)


def _in_frame(survey: Survey, figure: Array) -> bool:
    """Whether the datum's points are on the sides that it has them on."""
    number, datum = {p.name: i for i, p in enumerate(survey.points)}, survey.datum
    away = figure[number[datum.through], AXES.index(datum.axis)]
    if datum.level or datum.in_plane is None or datum.plane_axis is None:
        return bool(away > 0.0)
    return bool(away > 0.0 and figure[number[datum.in_plane], AXES.index(datum.plane_axis)] > 0.0)


def _another(found: Fit, one: Array, other: Array) -> bool:
    """Whether a point stands elsewhere; by its ± in the first figure where that is one of the two."""
    if one is not found.figure and np.max(np.abs(one - other)[:-1], initial=0.0) < 1.0:
        return False
    return bool(elsewhere(found, one + found.figure - other))


def _adjusted(found: Fit, starts: Array) -> tuple[Array, Array]:
    """The starts adjusted in two goes, those far off left out after the first."""
    first = adjust(found.equations, starts, use=found.use, steps=_FIRST)
    near = 2.0 * first.cost < found.sum_of_squares + _FAR * found.equations.rows
    if not np.any(near):
        return starts[:0], first.cost[:0]
    last = adjust(found.equations, first.figures[near], use=found.use, steps=_THEN)
    return last.figures, last.cost


def _by_lot(survey: Survey, found: Fit) -> list[Array]:
    """The found figure with some of its points moved far away; the same survey gives the same starts."""
    lot = np.random.default_rng(SEED)
    count = len(survey.points)
    size = float(np.max(np.ptp(found.figure[:count], axis=0), initial=1.0))
    starts = []
    for turn in range(_LOTS):
        moved = lot.random(count) < (0.3, 0.6, 1.0)[turn % 3]
        points = found.figure[:count].copy()
        noise = _DISTURBED[turn // 3 % 3] * size * lot.normal(size=(count, 3))
        points += noise * moved[:, None]
        starts.append(into_frame(survey, points, keep=True))
    return starts
