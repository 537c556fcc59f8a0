"""The answers to a recipe on some tubes: best first, with the bodies looked at too."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.bushing_placed import Answer
from clampwright.layout.mounting.answers import answer
from clampwright.layout.mounting.clashes import clashes
from clampwright.layout.mounting.fixed_pose import fixed_ways
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.mounting.solving import Solved, allowed_misfit, solve
from clampwright.layout.mounting.ways import Way, way_of
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Recipe
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

_LOOKED_AT = 40
"""Ranked answers whose bodies are looked at beyond those wanted, before the least bad is taken."""
_COUNTED = 300
"""Fitting answers whose bodies are looked at to count them; of more, bodies are not counted against."""


@dataclass(frozen=True, slots=True)
class Found:
    """Answers, best first, each with its way, and how many there were."""

    answers: tuple[tuple[Answer, Way], ...]
    examined: int
    fitting: int


def find(
    recipe: Recipe,
    held: Sequence[Holder],
    count: int,
    *,
    wider: bool = True,
    allowed: Array | None = None,
) -> Found:
    """The best `count` answers; those that do not fit come after those that do.

    Parameters
    ----------
    recipe
        Of a component on bushings.
    held
        The tubes.
    count
        How many answers are wanted.
    wider
        Whether near misses are looked for where nothing fits.
    allowed
        Misfit forgiven at each hole (m,), mm; left out, what hole and bolt forgive.
    """
    job = recipe.asked(BushingJob)
    examined = int((2 * len(held)) ** len(job.component.lugs))
    each = _each_allowed(job, held, allowed)
    if job.pose.fixed:
        ways = fixed_ways(job, held, each)[: count + _LOOKED_AT]
        made = [(answer(way, recipe, each), way) for way in ways]
        fits = sum(one.fits for one, _ in made)
        first = _first(made, count)
        return Found(first[:1] + tuple(one for one in first[1:] if _near(one[0])), examined, fits)
    solved = solve(job, held, wider=wider, allowed=allowed)
    if solved is None or not len(solved.ranked.tried):
        return Found((), examined, 0)
    made = _looked_at(solved, recipe, each, count, fits_only=not wider)
    fitting = sum(one.fits for one, _ in made)
    if wider:
        fitting += _further(solved, recipe, len(made))
    return Found(_first([one for one in made if _near(one[0])], count), examined, fitting)


def _further(solved: Solved, recipe: Recipe, start: int) -> int:
    """How many of the ranked ways that were not looked at fit: bodies looked at up to a number of them."""
    fits = int(solved.ranked.fits.sum())
    component = recipe.asked(BushingJob).component
    last = max(start, min(fits, _COUNTED))
    clear = sum(
        not clashes(way_of(solved, number), component, recipe.structure) for number in range(start, last)
    )
    return clear + max(0, fits - last)


def _near(found: Answer) -> bool:
    """Whether it fits or is a near miss: rule `mounting-miss-most`."""
    return found.worst_misfit_mm - found.allowed_mm <= rule("mounting-miss-most").value


def first_fit(
    recipe: Recipe, held: Sequence[Holder], allowed: Array | None = None
) -> tuple[Answer, Way] | None:
    """The best answer that fits; None where there is none."""
    answers = find(recipe, held, 1, wider=False, allowed=allowed).answers
    return answers[0] if answers and answers[0][0].fits else None


def _each_allowed(job: BushingJob, held: Sequence[Holder], allowed: Array | None) -> list[float]:
    if allowed is not None:
        return [float(one) for one in allowed]
    return [allowed_misfit(job, held)] * len(job.component.lugs)


def _looked_at(
    solved: Solved, recipe: Recipe, allowed: list[float], count: int, *, fits_only: bool
) -> list[tuple[Answer, Way]]:
    """Answers until enough of them fit; one that is no near miss only where it is the best."""
    made: list[tuple[Answer, Way]] = []
    for number in range(min(len(solved.ranked.tried), count + _LOOKED_AT)):
        if number and solved.ranked.short[number] > rule("mounting-miss-most").value:
            break
        if fits_only and not solved.ranked.fits[number]:
            break
        way = way_of(solved, number)
        made.append((answer(way, recipe, allowed), way))
        if sum(one.fits for one, _ in made) >= count:
            break
    return made


def _first(made: list[tuple[Answer, Way]], count: int) -> tuple[tuple[Answer, Way], ...]:
    return tuple(sorted(made, key=lambda each: not each[0].fits)[:count])
