"""Diameters of a finished plate's holes: within their bolts' windows, or still the pilot."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.holes import hole_size, window_of
from clampwright.checks.made_wording import Made, recoded
from clampwright.checks.wording import shown
from clampwright.layout.as_made_holes import is_pilot
from clampwright.layout.placed import Hole, PlateLayout

_SIZE = ("MADE-2", "finished holes are the right size")
_GAUGES = "use the bolt and the shank of the drill as gauges"


def sizes(made: Made) -> tuple[Finding, ...]:
    """MADE-2: every measured diameter lies in its bolt's window; a pilot is told as one."""
    layout = made.layout
    if not isinstance(layout, PlateLayout):
        return ()
    sized = {hole.label: hole.diameter_mm for hole in made.measured.holes if hole.diameter_mm is not None}
    holes = [hole for hole in layout.holes if hole.label in sized and hole.purpose != "lightening"]
    whole = [replace(h, diameter_mm=sized[h.label]) for h in holes if not is_pilot(h, sized[h.label])]
    pilots = [_pilot(hole, sized[hole.label], made) for hole in holes if is_pilot(hole, sized[hole.label])]
    found = hole_size(replace(layout, holes=tuple(whole)))
    drawn = {hole.label: hole for hole in holes}
    return (*(_sized(each, drawn[each.where], made) for each in found), *pilots)


def _sized(found: Finding, drawn: Hole, made: Made) -> Finding:
    found = replace(recoded(found, *_SIZE), plus_minus=made.size_error_mm)
    if found.verdict == "pass":
        return _doubted(found, drawn, made)
    if found.verdict != "fail" or found.value is None or found.limit is None:
        return found
    if abs(found.value - found.limit) <= made.size_error_mm:
        says = f"{found.says[:-1]}; it is {made.sized_to()}."
        return replace(found, verdict="unknown", says=says, change=f"{_gauged(found, made)}: {_GAUGES}.")
    if found.value > found.limit:
        change = f"{_gauged(found, made)}, and put a large washer under head or nut, or make the part again."
        return replace(found, change=change)
    return found


def _doubted(found: Finding, drawn: Hole, made: Made) -> Finding:
    """A pass with less to spare than the ± is none.

    A drill makes holes at the very end of some windows: half the window's width counts beyond such a hole.
    """
    window = window_of(drawn.fastener)
    if window is None or found.value is None:
        return found
    half = (window.high_mm - window.low_mm) / 2
    low = min(window.low_mm, drawn.diameter_mm - half)
    high = max(window.high_mm, drawn.diameter_mm + half)
    if min(found.value - low, high - found.value) >= made.size_error_mm - SAME_MM:
        return found
    says = f"{found.says[:-1]}; whether it does cannot be told: it is {made.sized_to()}."
    return replace(found, verdict="unknown", says=says, change=f"Measure {found.where} again: {_GAUGES}.")


def _gauged(found: Finding, made: Made) -> str:
    limit = "" if found.limit is None else f" (limit {shown(found.limit, made.layout)})"
    return f"Measure {found.where} again{limit}"


def _pilot(hole: Hole, diameter: float, made: Made) -> Finding:
    later = next((f for f in made.fit.holes if f.label == hole.label and f.transferred), None)
    window = window_of(hole.fastener)
    found = partial(
        Finding,
        *_SIZE,
        where=hole.label,
        value=diameter,
        limit=hole.diameter_mm,
        unit="mm",
        sources=(window.source if window is not None else "assumed",),
        plus_minus=made.size_error_mm,
    )
    wide = shown(diameter, made.layout)
    if later is not None:
        says = f"Hole {wide}: still the pilot ({hole.pilot}), opened to {hole.drill} in place."
        return found(verdict="pass", says=says, change="")
    final = f"{hole.drill} ({shown(hole.diameter_mm, made.layout)})"
    says = f"Hole {wide}: still the pilot ({hole.pilot}), where the plan drills it to size on the bench."
    return found(verdict="caution", says=says, change=f"Open {hole.label} to {final}.")


CHECKS = (
    Check(
        *_SIZE,
        "Measured diameter of each hole against the least and greatest published for its bolt.",
        sizes,
        rules=("hole-size-tolerance", "caliper-size-error"),
        sources=("tm-1-1520-240-bd-2-6", "asme-b18-2-8", "iso-273", "hole-window-by-analogy"),
    ),
)
