"""What keeps a survey from being solved at all, and figures in a special position: named, never a crash."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from clampwright.structure.survey.kinds import Array
from clampwright.structure.survey.model import CENTRE, Along, Between, Datum, Distance, Plumb, Slope, Survey
from clampwright.structure.survey.wording import length, listed, name_of
from clampwright.trade.tables import rule


def unsolvable(survey: Survey) -> tuple[str, ...]:
    """Why there is nothing to solve, one sentence each; empty where the search can begin.

    >>> unsolvable(Survey("s", "", "mm", (), (), (), Datum("A", "x", "B", True)))[0]
    'The survey has no points.'
    """
    if not survey.points:
        return ("The survey has no points.",)
    return tuple(dict.fromkeys((*_unknown(survey), *_datum(survey), *_same(survey), *_nothing(survey))))


def _unknown(survey: Survey) -> Iterator[str]:
    points, tubes = {p.name for p in survey.points}, {t.name for t in survey.tubes}
    datum = survey.datum
    asked = [(p, "the datum") for p in (datum.origin, datum.through, datum.in_plane) if p is not None]
    asked += [(p, t.name) for t in survey.tubes for p in (t.start, t.end, t.mark) if p is not None]
    asked += [(p, "sides") for side in survey.sides for p in (side.point, side.than)]
    on = [(t, p.name) for p in survey.points for t in (*p.axis_of, p.skin_of) if t is not None]
    for m in survey.measurements:
        match m:
            case Distance() | Along() | Plumb():
                asked += [(m.a, name_of(m)), (m.b, name_of(m))]
                on += [(t, name_of(m)) for t in getattr(m, "over", ()) if t]
            case Slope():
                on.append((m.tube, name_of(m)))
            case Between():
                on += [(m.one, name_of(m)), (m.other, name_of(m))]
    yield from (
        f'No point is called "{name}", which {of} asks for.' for name, of in asked if name not in points
    )
    yield from (f'No tube is called "{name}", which {of} asks for.' for name, of in on if name not in tubes)


def _datum(survey: Survey) -> Iterator[str]:
    datum = survey.datum
    if datum.origin == datum.through:
        yield f"The datum goes from {datum.origin} through {datum.through}: name two different points."
    if datum.level and datum.axis == "z":
        yield "The frame is level, so that z is plumb: the datum's axis is x or y."
    if not datum.level:
        yield from _third(datum)


def _third(datum: Datum) -> Iterator[str]:
    if datum.in_plane is None or datum.plane_axis is None:
        yield "The frame is not level, so that the datum needs a third point in a plane with its axis."
    elif datum.in_plane in (datum.origin, datum.through):
        yield f"The datum names {datum.in_plane} twice: its three points must be three."
    elif datum.plane_axis == datum.axis:
        yield f"The datum's plane is of {datum.axis} and {datum.plane_axis}: name two different axes."


def _same(survey: Survey) -> Iterator[str]:
    for tube in survey.tubes:
        if tube.start == tube.end:
            yield f"Tube {tube.name} starts and ends at {tube.start}: it has no length."
    for m in survey.measurements:
        if isinstance(m, Distance | Along | Plumb) and m.a == m.b:
            yield f"{name_of(m)} goes from {m.a} to itself."
        if isinstance(m, Distance) and m.value_mm <= 0:
            yield f"{name_of(m)} reads nothing: a distance is more than 0."


def _nothing(survey: Survey) -> Iterator[str]:
    if not survey.measurements:
        yield "Nothing was measured yet."


def special(survey: Survey, figure: Array, small_mm: float) -> Iterator[str]:
    """Special positions of a figure (places, 3) that a tape cannot hold: on a line, flat.

    Nearly flat is what is no thicker than a motion that readings hardly feel, `small_mm`.
    """
    points = figure[: len(survey.points)]
    if len(points) >= 3:
        ways = np.linalg.svd(points - points.mean(axis=0))[2]
        thick = np.ptp((points - points.mean(axis=0)) @ ways.T, axis=0)
        if thick[1] < small_mm:
            yield (
                "All points lie on one line, or nearly: nothing tells how the figure is turned round it. "
                "Measure to points well off that line."
            )
        elif len(points) > 3 and thick[2] < small_mm:
            yield (
                "All points lie in one plane, or nearly: a tape hardly feels them move square to it. "
                "Measure from all of them to one or two points well off that plane, or take heights."
            )


def datum_in_a_row(survey: Survey, figure: Array, *, rigid: bool) -> Iterator[str]:
    """A datum that gives the frame no direction; how far apart its points are means little unless `rigid`."""
    number = {p.name: i for i, p in enumerate(survey.points)}
    datum = survey.datum
    origin, through = figure[number[datum.origin]], figure[number[datum.through]]
    far = np.linalg.norm(through - origin)
    size = float(np.ptp(figure[: len(survey.points)], axis=0).max(initial=0.0))
    least = rule("survey-datum-in-a-row").value * size
    if datum.level:
        away = through - origin
        if np.hypot(away[0], away[1]) < least:
            yield (
                f"{datum.through} lies straight above or below {datum.origin}: the datum's {datum.axis} has "
                f"no direction. Take a point to the side."
            )
    elif far < least:
        if not rigid:
            return
        apart = length(float(far), survey.units)
        yield f"The datum's {datum.origin} and {datum.through} are {apart} apart: take two farther apart."
    elif datum.in_plane is not None:
        third = figure[number[datum.in_plane]] - origin
        off = float(np.linalg.norm(np.cross(third, (through - origin) / far)))
        if off < least:
            three = listed([datum.origin, datum.through, datum.in_plane])
            yield f"The datum's {three} lie in a row: take a third point well off the line of the other two."


def hung_on_few(survey: Survey, loose: tuple[str, ...], measured: dict[str, int]) -> Iterator[str]:
    """Loose points that too few measurements reach: a place in space takes three."""
    for name in loose:
        count = measured[name]
        if count == 0:
            yield f"Nothing was measured to {name}."
        elif count < 3:
            reached = "1 measurement" if count == 1 else f"{count} measurements"
            yield f"{name} hangs on {reached}: a place in space takes three."


def along_the_tube(survey: Survey, figure: Array) -> Iterator[str]:
    """Distances over walls taken nearly along the tube, where the wall has no other side."""
    number = {p.name: i for i, p in enumerate(survey.points)}
    for m in survey.measurements:
        if not isinstance(m, Distance) or m.how == CENTRE:
            continue
        away = figure[number[m.b]] - figure[number[m.a]]
        for name in m.over:
            if not name:
                continue
            tube = survey.tube(name)
            axis = figure[number[tube.end]] - figure[number[tube.start]]
            sine = np.linalg.norm(np.cross(away, axis)) / (
                np.linalg.norm(away) * np.linalg.norm(axis) + 1e-12
            )
            if sine < rule("survey-walls-sine-least").value:
                yield (
                    f"{name_of(m)} runs nearly along {name}, where walls mean little to a tape: measure "
                    f"it centre to centre between punch marks."
                )
