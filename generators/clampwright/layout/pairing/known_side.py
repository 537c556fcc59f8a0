"""On which side of its tube a line runs whose distance follows from the spacer."""

from __future__ import annotations

import math

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.pairing.closed import Pair
from clampwright.layout.pairing.course import UP, Course
from clampwright.layout.pairing.parallel_pair import beside
from clampwright.layout.pairing.skew_pair import common_square
from clampwright.quantities import Vec3
from clampwright.quantities.directions import dot, square_part, turned_round, unit

_FLAT = 1e-6
"""Part of a unit direction below which it says no side."""


def side_of_crossing(course: Course, pair: Pair, line: int) -> Vec3 | None:
    """Direction square to both axes from the tube to the line; None where the line's rough place says it.

    Raises
    ------
    CannotLayOut
        What is said of the side lies in the plane of both directions, and so says neither.
    """
    if course.toward is None and course.passes:
        return None
    toward = UP if course.toward is None else course.toward
    n, _ = common_square(pair.tube, pair.line)
    if abs(dot(n, toward)) < _FLAT:
        raise _no_side(pair, line)
    return n if dot(n, toward) > 0 else turned_round(n)


def side_of_parallel(course: Course, pair: Pair, line: int) -> Vec3:
    """Direction square to the tube from it to the line: as said, else from the line's rough place, else up.

    Raises
    ------
    CannotLayOut
        It points along the tube, or the rough place lies on the tube's axis.
    """
    if course.toward is None and course.passes:
        try:
            return beside(pair, pair.tube.length_mm / 2)[0]
        except ZeroDivisionError:
            raise _no_side(pair, line) from None
    across = square_part(UP if course.toward is None else course.toward, pair.tube.direction)
    if math.sqrt(dot(across, across)) < _FLAT:
        raise _no_side(pair, line)
    return unit(across)


def _no_side(pair: Pair, line: int) -> CannotLayOut:
    return CannotLayOut(
        f"nothing says on which side of {pair.tube.name} {pair.line.name} runs",
        "give toward: the direction from the tube to where the line is to run",
        line,
    )
