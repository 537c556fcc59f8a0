"""Every place for the bolt of a stand-off, judged: crossing, side by side or on a panel."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.pairing.closed import SIDES, Closed, Pair
from clampwright.layout.pairing.course import Course
from clampwright.layout.pairing.fitting import breaks_of
from clampwright.layout.pairing.free_station import stations_to_try
from clampwright.layout.pairing.from_spacer import (
    panel_from_spacer,
    parallel_from_spacer,
    skew_at_station,
    skew_from_spacer,
)
from clampwright.layout.pairing.known_side import side_of_crossing, side_of_parallel
from clampwright.layout.pairing.on_panel import face_distance, panel_places
from clampwright.layout.pairing.open_line import reaching_along, reaching_panel
from clampwright.layout.pairing.parallel_pair import may_lie_beside, nearly_parallel, parallel_places
from clampwright.layout.pairing.ranking import Judged, judged, ranked
from clampwright.layout.pairing.site import Site
from clampwright.layout.pairing.skew_pair import common_square, skew_places
from clampwright.quantities.directions import crossing, dot
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

Notes = tuple[tuple[str, str], ...]

_PARALLEL = 1e-9
"""Radians up to which the distance is the same all along."""
_STATION_NOT_USED = ("support.station", "not used: where the line crosses the tube decides")


@dataclass(frozen=True, slots=True)
class Found:
    """The judged places, best first, and how support and line lie to each other."""

    judged: tuple[Judged, ...]
    crossing_rad: float
    notes: Notes = ()


def places_on_tube(job: StandOffJob, course: Course, tube: Tube, site: Site) -> Found:
    """Places of a pair of clamps.

    A pair whose directions differ by more than rule `tubes-parallel-most` crosses; where no place of a
    crossing serves and the clamp may be tilted by the whole angle (rule `tilt-fail`), the pair is laid out
    as side by side too.

    Raises
    ------
    CannotLayOut
        The axes meet, or the line runs too near for any place.
    """
    assert site.on_tube is not None
    pair = Pair(tube, site.on_tube, course.line, site.on_line)
    course = reaching_along(course, pair, job.carried, job.station_mm)
    pair = replace(pair, line=course.line)
    angle = crossing(tube.direction, course.line.direction)
    if nearly_parallel(pair.tube, pair.line):
        return _side_by_side(job, course, pair, site, angle)
    found = _crossing(job, course, pair, site, angle)
    if may_lie_beside(pair.tube, pair.line) and found.judged[0].breaks:
        beside_it = _side_by_side(job, course, pair, site, angle)
        return min(found, beside_it, key=lambda each: bool(each.judged[0].breaks))
    return found


def places_on_panel(job: StandOffJob, course: Course, panel: Panel, site: Site) -> Found:
    """Places of one clamp on a panel, at the line's given point or amid its two points.

    Raises
    ------
    CannotLayOut
        The line stands too steep on the panel, or runs behind its face.
    """
    slope = math.asin(min(1.0, abs(dot(course.line.direction, panel.normal))))
    if slope > math.radians(rule("tilt-most").value):
        raise CannotLayOut(
            f"{course.line.name} stands {math.degrees(slope):.0f}° out of the plane of {panel.name}",
            f"a clamp on a panel holds a line that runs along it, to {rule('tilt-most').value:g}° at most",
            job.carried.line,
        )
    held = course.line.point(course.line.length_mm / 2) if course.ends_known else course.line.start
    line = reaching_panel(course, 0.0, job.carried).line
    station = line.station(held)
    if job.spacer_mm is not None:
        found = panel_from_spacer(panel, line, site.on_line, station, job.spacer_mm)
    else:
        _before_the_face(panel, line, station, site, job.carried.line)
        found = panel_places(panel, line, site.on_line, station)
    return Found(ranked([judged(p, breaks_of(p, site), site) for p in found]), slope)


def _before_the_face(panel: Panel, line: Tube, station: float, site: Site, at: int) -> None:
    height = face_distance(panel, line, station)
    if height <= 0:
        raise CannotLayOut(
            f"{line.name} runs {site.shown(-height)} behind the face of {panel.name}",
            "turn the panel's normal, or correct where the line runs",
            at,
        )


def _crossing(job: StandOffJob, course: Course, pair: Pair, site: Site, angle: float) -> Found:
    spacer, notes = job.spacer_mm, () if job.station_mm is None else (_STATION_NOT_USED,)
    if spacer is None:
        _apart(common_square(pair.tube, pair.line)[1], pair, site, job.carried.line)
        return Found(ranked([judged(p, breaks_of(p, site), site) for p in skew_places(pair)]), angle, notes)
    side = side_of_crossing(course, pair, job.carried.line)
    if side is None or course.passes:
        places = skew_from_spacer(pair, spacer, side)
        return Found(ranked([judged(p, breaks_of(p, site), site) for p in places]), angle, notes)
    toward = side
    return _at_best_station(job, pair, site, angle, lambda s: skew_at_station(pair, spacer, toward, s))


def _side_by_side(job: StandOffJob, course: Course, pair: Pair, site: Site, angle: float) -> Found:
    spacer = job.spacer_mm
    if spacer is None:
        found = _at_best_station(job, pair, site, angle, lambda s: parallel_places(pair, s))
    else:
        side = side_of_parallel(course, pair, job.carried.line)
        found = _at_best_station(
            job, pair, site, angle, lambda s: parallel_from_spacer(pair, spacer, side, s)
        )
    return replace(found, notes=(*found.notes, *_not_quite_parallel(angle), *_too_near(found, pair, site)))


def _too_near(found: Found, pair: Pair, site: Site) -> Notes:
    """That the line runs too near for a loop to either side of the bolt, where it does."""
    if len(found.judged) == len(SIDES):
        return ()
    reaches = site.shown(pair.on_tube.reach_mm + pair.on_line.reach_mm)
    words = f"both feet on one side: a loop to either side of the bolt needs the axes {reaches} apart"
    return (("spacer.place", words),)


def _not_quite_parallel(angle: float) -> Notes:
    degrees = math.degrees(angle)
    if degrees < 0.05:
        return ()
    return (
        (
            "line",
            f"laid out as parallel to the tube; it is {degrees:.1f}° off, and its clamp is tilted by that",
        ),
    )


def _apart(distance_mm: float, pair: Pair, site: Site, line: int) -> None:
    if distance_mm < rule("gap-nothing").value:
        raise CannotLayOut(
            f"the axes of {pair.line.name} and {pair.tube.name} meet ({site.shown(distance_mm)} apart)",
            "give where the line really runs; it cannot go through the tube",
            line,
        )


def _at_best_station(
    job: StandOffJob, pair: Pair, site: Site, angle: float, places_at: Callable[[float], tuple[Closed, ...]]
) -> Found:
    """For each choice of sides the serving station nearest to where there is most room, or the least bad."""
    if job.station_mm is not None:
        given = [judged(p, breaks_of(p, site), site) for p in places_at(job.station_mm)]
        return Found(ranked(_some(given, pair, site, job)), angle)
    tries = stations_to_try(site, pair.tube, pair.line)
    best: dict[tuple[int, int], Judged] = {}
    for station in tries:
        for place in places_at(station):
            _take_if_better(place, best, site, abs(station - tries[0]))
        if best and all(_settled(each, angle) for each in best.values()):
            break
    note = ("support.station", "where the tube has most room, clear of welds and of what stands round it")
    return Found(ranked(_some(list(best.values()), pair, site, job)), angle, (note,))


def _take_if_better(place: Closed, best: dict[tuple[int, int], Judged], site: Site, off_mm: float) -> None:
    """Into `best` by its sides, where it breaks less than what is there."""
    sides = (place.turn_tube, place.turn_line)
    breaks = () if sides in best and not best[sides].breaks else breaks_of(place, site)
    if sides not in best or len(breaks) < len(best[sides].breaks):
        best[sides] = judged(place, breaks, site, off_mm)


def _settled(each: Judged, angle: float) -> bool:
    """Whether no other station can do better: it serves, or the two are too near all along."""
    return not each.breaks or (angle < _PARALLEL and each.place.spacer_mm < -rule("gap-nothing").value)


def _some(each: Sequence[Judged], pair: Pair, site: Site, job: StandOffJob) -> Sequence[Judged]:
    """The places; CannotLayOut where there are none."""
    if each:
        return each
    differ = site.shown(abs(pair.on_tube.reach_mm - pair.on_line.reach_mm))
    raise CannotLayOut(
        f"the axis of {pair.line.name} runs nearer to that of {pair.tube.name} than the reaches of their "
        f"clamps differ ({differ})",
        "give where the line really runs, or take clamps of other sizes",
        job.carried.line,
    )
