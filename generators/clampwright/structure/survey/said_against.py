"""Sides that were said and that the figure contradicts: in every image, or in one of two."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from clampwright.structure.survey.frame import AXES
from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import Side, Survey
from clampwright.structure.survey.wording import SIDES, length, listed


def holds(survey: Survey, figure: Array, side: Side) -> bool:
    """Whether a figure agrees with what was said of a side."""
    return _along(survey, figure, side) > 0.0


def said_against(survey: Survey, figure: Array, images: Sequence[Array]) -> tuple[str, ...]:
    """Sentences on sides that a figure contradicts.

    Parameters
    ----------
    survey
        What was said.
    figure
        The figure that agrees best with it, shape (places, 3).
    images
        Its mirror images, of the whole or of a part, that agree with the measurements as well.
    """
    against = [side for side in survey.sides if not holds(survey, figure, side)]
    return tuple(dict.fromkeys(_sentence(survey, figure, images, side) for side in against))


def _sentence(survey: Survey, figure: Array, images: Sequence[Array], side: Side) -> str:
    for image in images:
        if holds(survey, image, side):
            return _either_or(survey, figure, image)
    short = abs(_along(survey, figure, side))
    return (
        f"sides{_line(side)} says that {_said(side)}, but whichever way the figure is mirrored it lies "
        f"{length(short, survey.units)} on the other side: look at it again, and at the frame."
    )


def _either_or(survey: Survey, one: Array, other: Array) -> str:
    """What holds in the one image and what in the other."""
    here = [s for s in survey.sides if holds(survey, one, s) and not holds(survey, other, s)]
    there = [s for s in survey.sides if holds(survey, other, s) and not holds(survey, one, s)]
    if not here:
        return f"sides contradict one another: {_each(there)} in an image that the others do not hold in."
    return (
        f"sides contradict one another. The measurements allow two mirror images: in the one {_each(here)}, "
        f"in the other {_each(there)}, and in none both. Look at them again."
    )


def _each(sides: list[Side]) -> str:
    return listed([f"{_said(side)}{_line(side)}" for side in sides])


def _said(side: Side) -> str:
    axis = int(np.argmax(np.abs(side.toward)))
    far, near = SIDES[AXES[axis]]
    return f"{side.point} is {far if side.toward[axis] > 0 else near} {side.than}"


def _line(side: Side) -> str:
    return f" (line {side.line})" if side.line else ""


def _along(survey: Survey, figure: Array, side: Side) -> float:
    number = {p.name: i for i, p in enumerate(survey.points)}
    return float((figure[number[side.point]] - figure[number[side.than]]) @ np.array(side.toward))
