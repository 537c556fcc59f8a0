"""Where a clamp sits, in words: station from both ends of its tube, clock of feet and flat face, wrap."""

from __future__ import annotations

from clampwright.layout.clock import Clock, clock, clock_of
from clampwright.layout.joined import Joined, Loop, line_named
from clampwright.quantities import Vec3, show_length
from clampwright.sheets.both_units import both
from clampwright.sheets.figures import distance
from clampwright.sheets.stations import from_the_mark
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

COUNTED = (
    "Clock: clockwise as seen looking along the tube from its start to its end. 12:00 is the tube's top "
    "(world z); on a tube that stands upright it is the side of the world's +x, and said so."
)


def place_words(point: Vec3, units: str) -> str:
    """A point of the world.

    Examples
    --------
    >>> place_words((0.0, -279.4, 228.6), "in")
    '[0, -11, 9] in'
    """
    return f"[{', '.join(_plain(value, units) for value in point)}] {units}"


def _plain(mm: float, units: str) -> str:
    """A coordinate as short as the recipe may have written it."""
    text = distance(mm, units).rstrip("0").rstrip(".")
    return "0" if float(text) == 0 else text


def station_words(loop: Loop, layout: Joined) -> tuple[str, str]:
    """Its station: from the start, with where that is, and from the other end.

    From the tube's mark, and where that lies, on a tube that has one: where axes meet there is a weld.
    """
    units, tube = layout.recipe.units, line_named(loop.tube, layout)
    rest = tube.length_mm - loop.station_mm
    chosen = "" if loop.station_given or loop.tube in _lines(layout) else ", chosen by the layout"
    if tube.mark_mm is not None:
        marked = (
            f"the mark lies {both(tube.mark_mm, units)} from the start at {place_words(tube.start, units)}"
        )
        return f"{from_the_mark(tube, loop.station_mm, units)}{chosen}", marked
    first = f"{both(loop.station_mm, units)} from the start at {place_words(tube.start, units)}{chosen}"
    return first, f"{both(rest, units)} from the end at {place_words(tube.end, units)}"


def _lines(layout: Joined) -> frozenset[str]:
    return frozenset(line.name for line in layout.lines)


def feet_clock(loop: Loop) -> Clock:
    """Where the bolt lies, seen from the tube's axis."""
    return clock_of(loop)


def face_clock(loop: Loop) -> Clock:
    """Where the flat face looks: the outer face of the foot that its part or packing meets."""
    return clock(loop.axis, loop.bolt_axis)


def clock_words(found: Clock) -> str:
    """Hours and degrees, and what counts as zero where that is not the top.

    Examples
    --------
    >>> clock_words(Clock(135.0, (0.0, 0.0, 1.0), "top"))
    '4:30 (135°)'
    """
    zero = "" if found.zero_is == "top" else f", 12:00 is the {found.zero_is}"
    return f"{found.hours} ({found.deg:.0f}°{zero})"


def wrap_words(loop: Loop, layout: Joined) -> str:
    """The tape that the clamp needs under it, or that it needs none."""
    units, tube = layout.recipe.units, line_named(loop.tube, layout)
    loose = loop.clamp.loop_mm - tube.od_mm
    if loose > rule("clamp-loop-under-most").value:
        outside = show_length(loop.clamp.loop_mm, units)
        return f"wrap of tape, {show_length(loose / 2, units)} all round, up to {outside}"
    if loose < -rule("clamp-loop-under-most").value:
        return f"the loop is too small by {show_length(-loose, units)}"
    return "no wrap"


def tube_size(tube: Tube, units: str) -> str:
    """A tube's outside diameter as the recipe gives it."""
    return f"OD {both(tube.od_mm, units)}"
