"""Faults of where a line runs: through what holds it, or away from it."""

from __future__ import annotations

import math

from clampwright.quantities import Vec3, show_length
from clampwright.quantities.directions import unit
from clampwright.recipe.direction import off_line_deg
from clampwright.recipe.fields import Values
from clampwright.recipe.written import Entry
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

_UP: Vec3 = (0.0, 0.0, 1.0)
_THROUGH = 1e-6
"""Share of both radii below which a line passes through the axis of its tube."""


def line_place(entry: Entry, line: Values, support: Tube | Panel, od_mm: float | None) -> bool:
    """Whether the line, whose course is said in one way, has a direction; where it cannot be held is noted.

    `od_mm` None: how thick the line is or how far off it runs is not known, so that distances are not judged.
    """
    least = rule("recipe-hole-apart-least").value
    if line["to"] is not None and math.dist(line["point"], line["to"]) < least:
        hint = "two places along its axis, some way apart"
        entry.inside("to").wrong("a second point of its axis", hint, said="the first again")
        return False
    if isinstance(support, Tube):
        _sideways(entry, line, support)
        if od_mm is not None:
            _clear_of_tube(entry, line, support, od_mm)
    else:
        _along_panel(entry, line, support, od_mm)
    return True


def _sideways(entry: Entry, line: Values, tube: Tube) -> None:
    """A parallel line lies to one side of the tube, and `toward` says to which."""
    if line["point"] is not None or line["direction"] is not None:
        return
    toward = line["toward"]
    if off_line_deg(toward or _UP, tube.direction) >= rule("recipe-directions-apart-least").value:
        return
    said = "one along the tube" if toward is not None else "nothing, and the tube runs upwards"
    hint = f"such as the direction from {tube.name} to where the line is to run"
    entry.inside("toward").wrong("a direction across the tube", hint, said=said)


def _clear_of_tube(entry: Entry, line: Values, tube: Tube, od_mm: float) -> None:
    least = (od_mm + tube.od_mm) / 2
    shown = show_length(least, entry.units)
    if line["beside"] is not None:
        if line["beside"] <= least:
            entry.inside("beside").wrong(f"more than both radii, {shown}", "it counts from axis to axis")
        return
    apart = _apart(tube, line["point"], _direction(line))
    if apart >= least:
        return
    said = show_length(apart, entry.units) if apart > least * _THROUGH else "one through its axis"
    hint = "measure again; both are axes: the middle of the line, the middle of the tube"
    expected = f"a line that passes {tube.name}, its axis at least {shown} off"
    entry.inside("point").wrong(expected, hint, said=said)


def crosses(line: Values, tube: Tube) -> bool:
    """Whether a line that is given by a point crosses the tube, so that its own place says where."""
    if line["point"] is None:
        return False
    return off_line_deg(_direction(line), tube.direction) > rule("tubes-parallel-most").value


def _direction(line: Values) -> Vec3:
    if line["direction"] is not None:
        return unit(line["direction"])
    (x, y, z), (tx, ty, tz) = line["point"], line["to"]
    return unit((tx - x, ty - y, tz - z))


def _apart(tube: Tube, point: Vec3, direction: Vec3) -> float:
    """Distance of the endless axes; of lines that run nearly side by side, that of the line's point."""
    (ax, ay, az), (bx, by, bz) = tube.direction, direction
    if off_line_deg(tube.direction, direction) < rule("recipe-directions-apart-least").value:
        return math.dist(point, tube.point(tube.station(point)))
    across = unit((ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx))
    return abs(sum((p - s) * c for p, s, c in zip(point, tube.start, across, strict=True)))


def _along_panel(entry: Entry, line: Values, panel: Panel, od_mm: float | None) -> None:
    off_face = 90.0 - off_line_deg(_direction(line), panel.normal)
    most = rule("recipe-directions-apart-least").value
    if off_face > most:
        key = "to" if line["direction"] is None else "direction"
        hint = f"a clamp on {panel.name} holds what runs along it; this is {off_face:.0f} deg off its face"
        expected = f"a line within {most:g} deg of the panel's face"
        entry.inside(key).wrong(expected, hint, said="one that leaves it")
        return
    if od_mm is None:
        return
    for key in ("beside",) if line["beside"] is not None else ("point", "to"):
        if line[key] is not None:
            _off_face(entry.inside(key), line[key], panel, od_mm)


def _off_face(entry: Entry, place: float | Vec3, panel: Panel, od_mm: float) -> None:
    height = place
    if isinstance(place, tuple):
        height = sum((p - o) * n for p, o, n in zip(place, panel.point, panel.normal, strict=True))
    assert not isinstance(height, tuple)
    if height >= od_mm / 2:
        return
    half = show_length(od_mm / 2, entry.units)
    said = show_length(height, entry.units) if height > 0 else "one in or behind the panel"
    hint = "the panel's normal looks to the side that the line is on"
    entry.wrong(f"its axis at least half its diameter, {half}, off {panel.name}", hint, said=said)
