"""Stations for the columns of a sheet: from the tube's start, or from its mark where it has one."""

from __future__ import annotations

from clampwright.layout.from_mark import from_mark_mm, mark_note, signed_from_mark
from clampwright.layout.joined import Joined, Loop, line_named
from clampwright.sheets.both_units import both
from clampwright.sheets.figures import distance
from clampwright.structure.tubes import Tube


def station_of(loop: Loop, layout: Joined) -> str:
    """A clamp's station without its unit: "182.18", "mark + 106.68"."""
    return along_tube(line_named(loop.tube, layout), loop.station_mm, layout.recipe.units)


def along_tube(tube: Tube, station_mm: float, units: str) -> str:
    """A station on a tube without its unit.

    Examples
    --------
    >>> marked = Tube("t", (0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 19.05, mark_mm=50.8)
    >>> along_tube(marked, 76.2, "in"), along_tube(marked, 76.2, "mm")
    ('mark + 1.000', 'mark + 25.40')
    """
    off = from_mark_mm(tube, station_mm)
    if off is None:
        return distance(station_mm, units)
    return signed_from_mark(off, distance(abs(off), units))


def marks_said(layout: Joined) -> str:
    """What "mark +" in a column means; "" where no tube with a clamp has a mark."""
    return mark_note(line_named(loop.tube, layout) for loop in layout.loops)


def from_the_mark(tube: Tube, station_mm: float, units: str) -> str:
    """Where a station lies from the tube's mark, in both units; "" for a tube without one.

    Examples
    --------
    >>> marked = Tube("t", (0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 19.05, mark_mm=50.8)
    >>> from_the_mark(marked, 25.4, "in")
    '1.000 in (25.40 mm) from the mark towards the start'
    """
    off = from_mark_mm(tube, station_mm)
    if off is None:
        return ""
    if not float(distance(off, units)):
        return "at the mark"
    return f"{both(abs(off), units)} from the mark towards the {'start' if off < 0 else 'end'}"
