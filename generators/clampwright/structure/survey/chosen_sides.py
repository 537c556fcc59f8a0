"""Which of the mirror images it is: by what the builder says, never by guessing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from clampwright.structure.survey.adjust import adjust
from clampwright.structure.survey.fit import Fit, look_at
from clampwright.structure.survey.frame import AXES
from clampwright.structure.survey.kinds import Array, vec
from clampwright.structure.survey.mirrors import Flip, elsewhere, reflected
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.nearly_flat import nearly_flat
from clampwright.structure.survey.other_figures import agreeing
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
    cautions: tuple[str, ...] = ()
    """Sentences on points that lie so near to the plane of their three that both images are one."""


def choose(survey: Survey, found: Fit, all_flips: tuple[Flip, ...]) -> Chosen:
    """Of all figures that agree, the one that was said; ask what sides and places by eye leave open."""
    every = agreeing(survey, found, all_flips)
    open_still = _as_said(survey, every)
    best = found if open_still[0] is found.figure else look_at(found.equations, open_still[0], found.use)
    mirrors, images = [], list(every)
    for flip in all_flips:
        other = flipped(survey, best, flip)
        if other is not None:
            images.append(other.figure)
            left = any(_same(other.figure, figure) for figure in open_still)
            mirrors.append(_asked(survey, best.figure, other.figure, flip.moves, resolved=not left))
    if all(mirror.resolved for mirror in mirrors):
        mirrors += _no_reflections(survey, best, open_still[1:])
    against = said_against(survey, best.figure, images)
    return Chosen(best, tuple(mirrors), against, nearly_flat(survey, best))


def _as_said(survey: Survey, every: list[Array]) -> list[Array]:
    """Figures that contradict the fewest sides, without those that places by eye speak against."""
    wrong = [sum(not holds(survey, figure, side) for side in survey.sides) for figure in every]
    as_sides = [f for f, count in zip(every, wrong, strict=True) if count == min(wrong)]
    left = [one for one in as_sides if not any(_nearer(survey, other, one) for other in as_sides)] or as_sides
    return sorted(left, key=lambda figure: _by_eye(survey, figure, range(len(survey.points))))


def _nearer(survey: Survey, one: Array, other: Array) -> bool:
    """Whether the places by eye say that it is the one figure and not the other."""
    moved = np.flatnonzero(np.linalg.norm(one[:-1] - other[:-1], axis=1) > 1.0)
    hand = rule("survey-by-eye").value
    near, far = (_by_eye(survey, figure, moved.tolist()) for figure in (one, other))
    return far > hand and far - near > hand / 2 and near < far / 2


def _same(one: Array, other: Array) -> bool:
    return bool(np.max(np.abs(one[:-1] - other[:-1]), initial=0.0) < 1.0)


def _no_reflections(survey: Survey, best: Fit, others: list[Array]) -> list[Mirror]:
    """A question about each further figure that no single flip leads to, one for a point."""
    asked: dict[str, Mirror] = {}
    for figure in others:
        moved = elsewhere(best, figure) or frozenset(range(len(survey.points)))
        mirror = _asked(survey, best.figure, figure, moved, resolved=False)
        asked.setdefault(mirror.point, mirror)
    return list(asked.values())


def flipped(survey: Survey, found: Fit, flip: Flip) -> Fit | None:
    """The figure with one flip, adjusted anew; None where it falls back to the figure that it was."""
    start = reflected(survey, found.figure, flip)
    figure = adjust(found.equations, start[None], use=found.use, steps=60).figures[0]
    if np.max(np.abs(figure[:-1] - found.figure[:-1]), initial=0.0) < 1.0:
        return None
    return look_at(found.equations, figure, found.use)


def _by_eye(survey: Survey, figure: Array, numbers: Iterable[int]) -> float:
    """Farthest that one of some points is from its place by eye; 0 where none has one."""
    return max(
        (
            float(np.linalg.norm(figure[i] - np.array(survey.points[i].rough)))
            for i in numbers
            if survey.points[i].rough is not None
        ),
        default=0.0,
    )


def _asked(survey: Survey, one: Array, other: Array, moves: frozenset[int], *, resolved: bool) -> Mirror:
    """The question about the point that the two figures have farthest apart."""
    numbers = sorted(moves)
    away = np.linalg.norm(one[numbers] - other[numbers], axis=1)
    number = numbers[int(np.argmax(np.round(away, 6)))]
    names = tuple(survey.points[n].name for n in numbers)
    ask = _question(survey, one, other, number, moves)
    at, there = (vec(figure[number]) for figure in (one, other))
    return Mirror(survey.points[number].name, names, at, there, ask, resolved)


def _question(survey: Survey, one: Array, other: Array, number: int, moves: frozenset[int]) -> str:
    name, units = survey.points[number].name, survey.units
    rest = [survey.points[n].name for n in sorted(moves) if n != number]
    with_it = f" ({listed(rest)} {'goes' if len(rest) == 1 else 'go'} with it)" if rest else ""
    found = _told_by(survey, one, other, number, moves)
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


def _told_by(
    survey: Survey, one: Array, other: Array, number: int, moves: frozenset[int]
) -> tuple[str, str] | None:
    """The axis and the point that stays by which the two places differ most plainly."""
    best, most = None, 1.0
    for i, point in enumerate(survey.points):
        if i in moves:
            continue
        for axis, name in enumerate(AXES):
            a, b = one[number, axis] - one[i, axis], other[number, axis] - other[i, axis]
            if a * b < 0 and min(abs(a), abs(b)) > most + 1e-6:
                best, most = (name, point.name), min(abs(a), abs(b))
    return best
