"""How much of a line is looked at that is given by a point and a direction only."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from clampwright.layout.pairing.closed import Pair
from clampwright.layout.pairing.course import Course
from clampwright.layout.pairing.parallel_pair import may_lie_beside, nearly_parallel
from clampwright.layout.pairing.skew_pair import skew_places
from clampwright.quantities.directions import dot, minus
from clampwright.recipe.stand_off_model import CarriedLine
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule


def reaching_along(
    course: Course, pair: Pair, carried: CarriedLine, station_tube_mm: float | None = None
) -> Course:
    """The course by a tube with its line long enough to be held and looked at wherever the clamp may go.

    Beside the tube that is anywhere along it, or at the station that is asked for. A line with known ends
    stays as it is. Stations count from the line's start: from the given point, or
    from where the piece that is looked at begins before it.
    """
    if course.ends_known:
        return course
    stations: list[float] = []
    if may_lie_beside(pair.tube, pair.line):
        ends = (0.0, pair.tube.length_mm) if station_tube_mm is None else (station_tube_mm,)
        stations += [_abreast(pair, end) for end in ends]
    if not nearly_parallel(pair.tube, pair.line):
        places = skew_places(pair)
        on_tube = [p for p in places if 0.0 <= p.station_tube_mm <= pair.tube.length_mm]
        stations += [p.station_line_mm for p in (on_tube if stations else on_tube or places)]
    return replace(course, line=lengthened(course.line, stations, carried))


def reaching_clamp(line: Tube, station_mm: float, carried: CarriedLine) -> tuple[Tube, float]:
    """The line drawn as far as its next supports about the clamp, and what that adds to every station."""
    usual = rule("line-looked-at").value
    before, after = carried.next_supports_mm or (usual, usual)
    low, high = min(0.0, station_mm - before), max(line.length_mm, station_mm + after)
    return replace(line, start=line.point(low), end=line.point(high)), -low


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
