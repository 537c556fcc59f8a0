"""A figure that can still move: how many ways, which points, why, and what would hold it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.model import Along, Plumb, Slope, Survey
from clampwright.structure.survey.next_best import to_make_fast
from clampwright.structure.survey.rigidity import (
    generic_freedoms,
    keeps_its_shape,
    measured_at,
    moving,
    turning_up,
)
from clampwright.structure.survey.solved import Next
from clampwright.structure.survey.trouble import datum_in_a_row, hung_on_few, special
from clampwright.structure.survey.wording import counted, length, listed


@dataclass(frozen=True, slots=True)
class Looseness:
    """What a loose figure's owner has to know."""

    freedoms: int
    points: tuple[str, ...]
    take_next: tuple[Next, ...]
    says: tuple[str, ...]


def looseness(survey: Survey, found: Fit) -> Looseness:
    """Why a figure is loose, and what to measure."""
    freedoms, points = len(found.loose), moving(found, survey)
    take_next, beyond = to_make_fast(survey, found)
    free = int(np.sum(np.isinf(found.spread)))
    up = turning_up(survey, found)
    says = [_up_unknown(up)] if up else []
    if freedoms > up:
        held = length(found.held_poorly_mm, survey.units) if free < freedoms else ""
        says.append(_moves(max(free - up, 0), freedoms - up, points, held))
    says += hung_on_few(survey, points, {name: measured_at(survey, name) for name in points})
    if _nothing_plumb(survey):
        says.append(
            "The frame is level, but nothing was measured plumb or level, so nothing says which way is up: "
            "take the heights of two points that are not in line with the datum's origin."
        )
    usual = generic_freedoms(survey, found)
    if usual < free and freedoms > up:
        says.append(_special(usual))
    says += special(survey, found.figure, found.equations.small_mm)
    says += datum_in_a_row(survey, found.figure, rigid=keeps_its_shape(survey, found))
    if take_next:
        says.append(f"Measure {listed([n.what for n in take_next])}.")
    if beyond:
        says.append(
            f"{counted(beyond, 'way')} to move no further distance between these points holds: add a point "
            f"off the plane or line of the others, and measure to it."
        )
    return Looseness(freedoms, points, take_next, tuple(says))


def _moves(free: int, freedoms: int, points: tuple[str, ...], held: str) -> str:
    few = listed(points) if len(points) <= 8 else f"{len(points)} points"
    if free == freedoms:
        return f"The figure is loose: {few} can still move in {counted(freedoms, 'way')}."
    poorly = f"{counted(freedoms - free, 'way')} to move {_is(freedoms - free)} held only to about ± {held}"
    more = f" Further, {counted(free, 'way')} to move {_is(free)} not held at all." if free else ""
    return f"The figure is loose: {few} can still move. {poorly}, which readings hardly feel.{more}"


def _up_unknown(ways: int) -> str:
    return (
        f"What was taken by level or plumb does not say which way is up: gravity's direction can still turn "
        f"in {counted(ways, 'way')}. Take another height, or write level = true in the datum if z is plumb."
    )


def _is(count: int) -> str:
    return "is" if count == 1 else "are"


def _special(usual: int) -> str:
    otherwise = "would be rigid" if usual == 0 else f"would move in {counted(usual, 'way')} only"
    return (
        f"A figure measured like this {otherwise} in most shapes, but this one stands so that small motions "
        f"change no measured length to speak of."
    )


def _nothing_plumb(survey: Survey) -> bool:
    felt = any(
        isinstance(m, Plumb | Slope) or (isinstance(m, Along) and m.axis == "z") for m in survey.measurements
    )
    return survey.datum.level and not felt
