"""Which of the mirror images it is: by what the builder says, never by guessing."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.fit import Fit, look_at
from clampwright.structure.survey.frame import AXES
from clampwright.structure.survey.kinds import Array, vec
from clampwright.structure.survey.mirrors import Flip, reflected
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.said_against import holds, said_against
from clampwright.structure.survey.solved import Mirror
from clampwright.structure.survey.wording import SIDES, axis_words, listed, place
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class Chosen:
    """The figure that agrees best with what was said, and the questions that were asked."""

    fit: Fit
    mirrors: tuple[Mirror, ...]
    against: tuple[str, ...]
    """Sentences on sides that the figure contradicts."""


def choose(survey: Survey, found: Fit, all_flips: tuple[Flip, ...]) -> Chosen:
    """Flip what has to be flipped to agree with the sides and the places by eye; ask what they leave open."""
    best = found
    for _ in range(2):
        for flip in all_flips:
            other = flipped(survey, best, flip)
            if other is not None and _misfit(survey, other.figure, flip) < _misfit(survey, best.figure, flip):
                best = other
    mirrors, images = [], []
    for flip in all_flips:
        other = flipped(survey, best, flip)
        if other is not None:
            images.append(other.figure)
            mirrors.append(_asked(survey, best.figure, other.figure, flip))
    return Chosen(best, tuple(mirrors), said_against(survey, best.figure, images))


def flipped(survey: Survey, found: Fit, flip: Flip) -> Fit | None:
    """The figure with one flip, adjusted anew; None where it falls back to the figure that it was."""
    start = reflected(survey, found.figure, flip)
    figure = adjust(found.equations, start[None], use=found.use, steps=60).figures[0]
    if np.max(np.abs(figure[:-1] - found.figure[:-1]), initial=0.0) < 1.0:
        return None
    return look_at(found.equations, figure, found.use)


def _misfit(survey: Survey, figure: Array, flip: Flip) -> tuple[int, float]:
    """Sides that a figure contradicts, and how far its points are from where they are by eye."""
    wrong = sum(not holds(survey, figure, side) for side in survey.sides)
    return wrong, round(_off(survey, figure, flip), 3)


def _off(survey: Survey, figure: Array, flip: Flip) -> float:
    """Farthest that a point of the flip is from its place by eye; 0 where none has one."""
    return max(
        (
            float(np.linalg.norm(figure[i] - np.array(survey.points[i].rough)))
            for i in flip.moves
            if survey.points[i].rough is not None
        ),
        default=0.0,
    )


def _decided(survey: Survey, one: Array, other: Array, flip: Flip) -> bool:
    """Whether a side or a place by eye tells the two figures apart."""
    wrong, wrong_other = (sum(not holds(survey, f, s) for s in survey.sides) for f in (one, other))
    if wrong != wrong_other:
        return True
    hand = rule("survey-by-eye").value
    near, far = sorted((_off(survey, one, flip), _off(survey, other, flip)))
    return far > hand and far - near > hand / 2 and near < far / 2


def _asked(survey: Survey, one: Array, other: Array, flip: Flip) -> Mirror:
    """The question about one flip."""
    numbers = sorted(flip.moves)
    away = np.linalg.norm(one[numbers] - other[numbers], axis=1)
    number = numbers[int(np.argmax(np.round(away, 6)))]
    decided = _decided(survey, one, other, flip)
    moves = tuple(survey.points[n].name for n in numbers)
    ask = _question(survey, one, other, number, flip)
    at, there = (vec(figure[number]) for figure in (one, other))
    return Mirror(survey.points[number].name, moves, at, there, ask, decided)


def _question(survey: Survey, one: Array, other: Array, number: int, flip: Flip) -> str:
    name, units = survey.points[number].name, survey.units
    rest = [survey.points[n].name for n in sorted(flip.moves) if n != number]
    with_it = f" ({listed(rest)} {'goes' if len(rest) == 1 else 'go'} with it)" if rest else ""
    found = _told_by(survey, one, other, number, flip)
    places = f"{place(vec(one[number]), units)} or {place(vec(other[number]), units)}"
    if found is None:
        return (
            f"The measurements allow {name} in two places, {places}{with_it}. Give {name} a rough place by "
            f"eye, within a hand's width."
        )
    axis, than = found
    far, near = SIDES[axis]
    return (
        f"The measurements allow {name} in two places, {places}{with_it}: is it {far} or {near} {than}? "
        f"({axis_words(survey, axis)}) "
        f'Write sides = [["{name}", "{far}", "{than}"]] or sides = [["{name}", "{near}", "{than}"]].'
    )


def _told_by(survey: Survey, one: Array, other: Array, number: int, flip: Flip) -> tuple[str, str] | None:
    """The axis and the point that stays by which the two places differ most plainly."""
    best, most = None, 1.0
    for i, point in enumerate(survey.points):
        if i in flip.moves:
            continue
        for axis, name in enumerate(AXES):
            a, b = one[number, axis] - one[i, axis], other[number, axis] - other[i, axis]
            if a * b < 0 and min(abs(a), abs(b)) > most + 1e-6:
                best, most = (name, point.name), min(abs(a), abs(b))
    return best
