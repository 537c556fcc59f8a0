"""How much of a line is looked at that is given by a point and a direction only."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from clampwright.layout.pairing.closed import Pair
from clampwright.layout.pairing.course import Course
from clampwright.layout.pairing.directions import dot, minus
from clampwright.layout.pairing.parallel_pair import may_lie_beside, nearly_parallel
from clampwright.layout.pairing.skew_pair import skew_places
from clampwright.recipe.stand_off_model import CarriedLine
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule


def reaching_along(course: Course, pair: Pair, carried: CarriedLine) -> Course:
    """The course by a tube with its line long enough to be held and looked at wherever the clamp may go.

    A line with known ends stays as it is. Stations count from the line's start: from the given point, or
    from where the piece that is looked at begins before it.
    """
    if course.ends_known:
        return course
    stations: list[float] = []
    if may_lie_beside(pair.tube, pair.line):
        stations += [_abreast(pair, end) for end in (0.0, pair.tube.length_mm)]
    if not nearly_parallel(pair.tube, pair.line):
        places = skew_places(pair)
        on_tube = [p for p in places if 0.0 <= p.station_tube_mm <= pair.tube.length_mm]
        stations += [p.station_line_mm for p in (on_tube if stations else on_tube or places)]
    return replace(course, line=lengthened(course.line, stations, carried))


def reaching_panel(course: Course, station_mm: float, carried: CarriedLine) -> Course:
    """The same for a line on a panel, whose clamp is at a known station."""
    if course.ends_known:
        return course
    return replace(course, line=lengthened(course.line, (station_mm,), carried))


def lengthened(line: Tube, stations: Iterable[float], carried: CarriedLine) -> Tube:
    """The line from its next support before the first station to the one after the last, or rule
    `line-looked-at` that way; never starting after the point that the recipe gives."""
    usual = rule("line-looked-at").value
    before, after = carried.next_supports_mm or (usual, usual)
    reached = sorted(stations)
    low, high = min(0.0, reached[0] - before), reached[-1] + after
    return replace(line, start=line.point(low), end=line.point(high))


def _abreast(pair: Pair, station_tube_mm: float) -> float:
    a, b = pair.tube.direction, pair.line.direction
    return dot(minus(pair.tube.point(station_tube_mm), pair.line.start), a) / dot(b, a)
