"""From a survey to coordinates with their ±, and everything a person has to know about them."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from clampwright.structure.survey.blunders import Snooped
from clampwright.structure.survey.cautions import cautions
from clampwright.structure.survey.chosen_sides import Chosen, choose
from clampwright.structure.survey.fit import Fit, look_at, scales
from clampwright.structure.survey.gravity_open import set_aside, without_gravity
from clampwright.structure.survey.judging import blunders, judged
from clampwright.structure.survey.kinds import vec
from clampwright.structure.survey.looseness import Looseness, looseness
from clampwright.structure.survey.mirrors import flips
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.next_best import to_narrow
from clampwright.structure.survey.planning import freedoms, plan
from clampwright.structure.survey.residuals import equations
from clampwright.structure.survey.rigidity import end_columns, worst
from clampwright.structure.survey.search import searched
from clampwright.structure.survey.solved import Blunder, Next, Placed, SolvedSurvey
from clampwright.structure.survey.to_structure import to_structure
from clampwright.structure.survey.trouble import along_the_tube, unsolvable
from clampwright.structure.uncertainty import coverage


def solve(survey: Survey, step: Callable[[str], None] = lambda words: None) -> SolvedSurvey:
    """Solve a survey by least squares, and say what is missing, wrong or left open.

    Parameters
    ----------
    survey
        What was measured.
    step
        Is told what is being done, a few words at a time.

    Returns
    -------
    Coordinates (mm) in the datum's frame with ± (95 %); `structure` is None while the figure is loose, a
    measurement is contradicted, or a mirror image is not settled. The same survey gives the same answer.

    Examples
    --------
    >>> from clampwright.structure.survey.model import Datum, Distance, SurveyPoint
    >>> points = tuple(SurveyPoint(name) for name in "ABC")
    >>> tape = [Distance(*ends, mm, 1.0) for *ends, mm in (("A", "B", 300), ("B", "C", 400), ("A", "C", 500))]
    >>> found = solve(Survey("s", "", "mm", points, (), tuple(tape), Datum("B", "x", "A", False, "y", "C")))
    >>> [tuple(round(c, 3) + 0.0 for c in p.at) for p in found.points], found.freedoms
    ([(300.0, 0.0, 0.0), (0.0, 0.0, 0.0), (0.0, 400.0, 0.0)], 0)
    """
    why = unsolvable(survey)
    if why:
        return _nothing_solved(survey, why)
    step("looking for the figure")
    snooped = searched(survey, equations(survey))
    if not len(snooped.fit.loose):
        step("looking for mirror images")
        return _rigid(survey, snooped)
    by_tape = without_gravity(survey)
    if by_tape is not None and not unsolvable(by_tape):
        held = searched(by_tape, equations(by_tape))
        if not len(held.fit.loose):
            solved = _rigid(by_tape, held)
            return replace(solved, cautions=(set_aside(survey), *solved.cautions))
    step("looking for what is missing")
    return _loose(survey, snooped)


def _nothing_solved(survey: Survey, why: tuple[str, ...]) -> SolvedSurvey:
    every = tuple(p.name for p in survey.points)
    ways = max(3 * len(every) - (4 if survey.datum.level else 6), 0)
    take_next: tuple[Next, ...] = ()
    if not survey.measurements:
        take_next = plan(survey)
        ways = freedoms(survey) if take_next else ways
    return SolvedSurvey(survey, (), (), (), every, ways, (), take_next, 0, 1.0, 1.0, None, None, why)


def _loose(survey: Survey, snooped: Snooped) -> SolvedSurvey:
    scale, most = scales(snooped.fit)
    found = look_at(snooped.fit.equations, snooped.fit.figure, np.ones(snooped.fit.equations.rows))
    doubted = bool(snooped.left_out)
    wrong: tuple[Blunder, ...] = ()
    if not len(found.loose):
        found, wrong, doubted = snooped.fit, blunders(survey, snooped, _widened(scale, most)), False
    why = looseness(survey, found)
    return SolvedSurvey(
        survey,
        _placed(survey, found, _widened(scale, most), why),
        judged(survey, found),
        wrong,
        why.points,
        why.freedoms,
        (),
        why.take_next,
        max(found.redundancy, 0),
        scale,
        most,
        None,
        None,
        (*(b.says for b in wrong), *why.says, *_slips_later(doubted)),
        tuple(along_the_tube(survey, found.figure)),
    )


def _slips_later(doubted: bool) -> tuple[str, ...]:
    if not doubted:
        return ()
    return (
        "The readings disagree more than their stated ± allows, but which one is wrong shows only once the "
        "figure is rigid.",
    )


def _rigid(survey: Survey, snooped: Snooped) -> SolvedSurvey:
    chosen = choose(survey, snooped.fit, flips(survey, snooped.fit))
    found = chosen.fit
    scale, most = scales(found)
    widened = _widened(scale, most)
    settled = Snooped(found, snooped.left_out, snooped.limit, snooped.doubles)
    wrong = blunders(survey, settled, widened)
    held = judged(survey, found)
    says = (*(b.says for b in wrong), *chosen.against, *_asked(chosen))
    return SolvedSurvey(
        survey,
        _placed(survey, found, widened, None),
        held,
        wrong,
        (),
        0,
        chosen.mirrors,
        to_narrow(survey, found, widened),
        found.redundancy,
        scale,
        most,
        widened * worst(found.covariance, end_columns(survey, found.equations)),
        None if says else to_structure(survey, found, widened),
        says,
        (*cautions(survey, settled, held, scale, most), *chosen.cautions),
    )


def _widened(scale: float, most: float) -> float:
    return scale if scale > most else 1.0


def _placed(survey: Survey, found: Fit, scale: float, loose: Looseness | None) -> tuple[Placed, ...]:
    spread = np.zeros(found.equations.places * 3)
    spread[found.equations.free] = coverage() * scale * np.sqrt(np.sum(found.held**2, axis=1))
    rows = spread.reshape(-1, 3)
    moving = loose.points if loose else ()
    return tuple(
        Placed(p.name, vec(found.figure[i]), (math.inf,) * 3 if p.name in moving else vec(rows[i]))
        for i, p in enumerate(survey.points)
    )


def _asked(chosen: Chosen) -> tuple[str, ...]:
    """That there are mirror images; the question itself is the mirror's own."""
    names = [mirror.point for mirror in chosen.mirrors if not mirror.resolved]
    return tuple(
        f"Two figures agree with every measurement: answer the question about {name}." for name in names
    )
