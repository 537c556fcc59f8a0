"""Where the line runs, from what the recipe says of it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.cannot import CannotLayOut
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, dot, minus, square_part, unit
from clampwright.recipe.stand_off_model import CarriedLine
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

UP: Vec3 = (0.0, 0.0, 1.0)
"""Side that a line runs on where the recipe says none."""
_FLAT = 1e-6
"""Part of a unit direction below which it has no part square to an axis."""


@dataclass(frozen=True, slots=True)
class Course:
    """The line as far as the recipe gives it."""

    line: Tube
    """From its first point; where only a point and a direction are given, of nominal length."""
    ends_known: bool
    """Whether it is known to run straight from the line's start to its end, and no farther."""
    toward: Vec3 | None
    """Direction (unit) from the support of the side that it runs on, as far as the recipe says it."""
    passes: bool
    """Whether the line passes, at least roughly, where `line` says: not only its direction is known."""


def course_by_tube(carried: CarriedLine, tube: Tube, od_mm: float) -> Course:
    """Where a line on a tube runs; parallel to the tube where neither a direction nor two points are given.

    Raises
    ------
    CannotLayOut
        `toward` points along the tube, so it says no side.
    """
    if carried.point is not None and (carried.to is not None or carried.direction is not None):
        return _given(carried, od_mm)
    if carried.direction is not None:
        line = _from(carried.name, tube.start, carried.direction, od_mm)
        return Course(line, False, carried.toward, False)
    side = _side(carried, tube)
    shift = 0.0 if carried.beside_mm is None else carried.beside_mm
    start, end = along(tube.start, (side, shift)), along(tube.end, (side, shift))
    return Course(Tube(carried.name, start, end, od_mm), True, side, True)


def course_by_panel(carried: CarriedLine, panel: Panel, od_mm: float) -> Course:
    """Where a line held on a panel runs: as given, or along the panel at a distance from its face.

    Raises
    ------
    CannotLayOut
        Its direction stands square on the panel.
    """
    if carried.point is not None and carried.to is not None:
        return _given(carried, od_mm)
    if carried.direction is None:
        raise CannotLayOut(
            f"nothing says which way {carried.name} runs along {panel.name}",
            "give carried.direction, or two points",
            carried.line,
        )
    if carried.beside_mm is None and carried.point is not None:
        return _given(carried, od_mm)
    point = panel.point if carried.point is None else carried.point
    onto = dot(minus(point, panel.point), panel.normal)
    away = carried.beside_mm if carried.beside_mm is not None else onto
    start = along(point, (panel.normal, away - onto))
    flat = square_part(carried.direction, panel.normal)
    if math.sqrt(dot(flat, flat)) < _FLAT:
        raise CannotLayOut(
            f"{carried.name} stands square on {panel.name}", "a loop clamp holds a line that runs along it"
        )
    return Course(_from(carried.name, start, unit(flat), od_mm), False, panel.normal, True)


def _given(carried: CarriedLine, od_mm: float) -> Course:
    assert carried.point is not None
    if carried.to is not None:
        return Course(Tube(carried.name, carried.point, carried.to, od_mm), True, carried.toward, True)
    assert carried.direction is not None
    line = _from(carried.name, carried.point, carried.direction, od_mm)
    return Course(line, False, carried.toward, True)


def _from(name: str, start: Vec3, direction: Vec3, od_mm: float) -> Tube:
    return Tube(name, start, along(start, (direction, rule("line-looked-at").value)), od_mm)


def _side(carried: CarriedLine, tube: Tube) -> Vec3:
    """Direction from the tube, square to it, of the side that a parallel line runs on."""
    if carried.toward is not None:
        wanted = carried.toward
    elif carried.point is not None:
        wanted = minus(carried.point, tube.start)
    else:
        wanted = UP
    side = square_part(wanted, tube.direction)
    if math.sqrt(dot(side, side)) < _FLAT:
        raise CannotLayOut(
            f"the side that {carried.name} runs on points along {tube.name}",
            "give carried.toward as a direction across the tube",
            carried.line,
        )
    return unit(side)
