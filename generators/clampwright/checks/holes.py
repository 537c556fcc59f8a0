"""Holes: size against the bolt's window, the drill that makes them, the hole in the clamp's own feet."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import Check
from clampwright.checks.finding import Finding
from clampwright.checks.wording import shown
from clampwright.layout.placed import ClampPlace, Hole, PlateLayout
from clampwright.trade.bolts import bolt
from clampwright.trade.holes import Drill, HoleWindow, drill, hole_window, nearest_drill
from clampwright.trade.tables import rule

FOOT_HOLE = "clamp-foot-hole"
"""Source of the hole in the feet of every clamp of the family."""

_size = partial(Finding, "HOLE-1", "hole size")
_drill = partial(Finding, "HOLE-2", "drill")
_foot = partial(Finding, "HOLE-3", "hole in the clamp's feet")


def bolt_holes(layout: PlateLayout) -> tuple[Hole, ...]:
    """The holes that take a bolt or screw: all but the lightening holes."""
    return tuple(h for h in layout.holes if h.purpose != "lightening")


def window_of(fastener: str) -> HoleWindow | None:
    """The fastener's hole window, or None where no document gives one."""
    try:
        return hole_window(fastener)
    except LookupError:
        return None


def hole_size(layout: PlateLayout) -> tuple[Finding, ...]:
    """HOLE-1: every bolt hole lies in the window that is published for its bolt."""
    return tuple(_sized(h, layout) for h in bolt_holes(layout))


def _sized(hole: Hole, layout: PlateLayout) -> Finding:
    window = window_of(hole.fastener)
    if window is None:
        return _no_window(hole, layout)
    found = partial(_size, where=hole.label, value=hole.diameter_mm, unit="mm", sources=(window.source,))
    between = f"{shown(window.low_mm, layout)} to {shown(window.high_mm, layout)} for {hole.fastener}"
    wide = f"Hole {shown(hole.diameter_mm, layout)}"
    advice = f"Drill {window.drill.size} ({shown(window.drill.diameter_mm, layout)})."
    slack = rule("hole-size-tolerance").value
    if hole.diameter_mm < window.low_mm - slack:
        says = f"{wide} is too small: {between}; the bolt would have to be forced."
        return found(verdict="fail", limit=window.low_mm, says=says, change=advice)
    if hole.diameter_mm > window.high_mm + slack:
        says = f"{wide} is too large: {between}; the bolt can work loose in it."
        return found(verdict="fail", limit=window.high_mm, says=says, change=advice)
    return found(verdict="pass", limit=window.high_mm, says=f"{wide} lies within {between}.", change="")


def _no_window(hole: Hole, layout: PlateLayout) -> Finding:
    nearest = nearest_drill(hole.diameter_mm)
    return _size(
        where=hole.label,
        verdict="unknown",
        value=hole.diameter_mm,
        limit=None,
        unit="mm",
        says=f"No document in the tables gives a hole window for {hole.fastener}.",
        change=f"Measure the bolt's shank and compare it with the hole, {shown(hole.diameter_mm, layout)}.",
        sources=(nearest.source,),
    )


def hole_drill(layout: PlateLayout) -> tuple[Finding, ...]:
    """HOLE-2: a drill that can be bought makes every bolt hole."""
    return tuple(_drilled(h, layout) for h in bolt_holes(layout))


def _drilled(hole: Hole, layout: PlateLayout) -> Finding:
    named = _named(hole)
    nearest = nearest_drill(hole.diameter_mm)
    taken = named or nearest
    off = abs(taken.diameter_mm - hole.diameter_mm)
    found = partial(_drill, where=hole.label, value=off, limit=rule("hole-size-tolerance").value, unit="mm")
    wide = shown(hole.diameter_mm, layout)
    if off <= rule("hole-size-tolerance").value:
        says = f"Drill {taken.size} makes the hole of {wide}."
        return found(verdict="pass", says=says, change="", sources=(taken.source,))
    window = window_of(hole.fastener)
    if named is not None:
        says = f"Drill {named.size} is {shown(named.diameter_mm, layout)}, and the hole is drawn {wide}."
        verdict = "fail"
    else:
        says = f"No drill is {wide}: the nearest is {nearest.size}, {shown(nearest.diameter_mm, layout)}."
        inside = window is not None and window.low_mm <= nearest.diameter_mm <= window.high_mm
        verdict = "caution" if inside else "fail"
    better = window.drill if window is not None else nearest
    change = f'Ask for a drill by name: hole = "{better.size}" ({shown(better.diameter_mm, layout)}).'
    return found(verdict=verdict, says=says, change=change, sources=(taken.source,))


def _named(hole: Hole) -> Drill | None:
    try:
        return drill(hole.drill)
    except LookupError:
        return None


def foot_hole(layout: PlateLayout) -> tuple[Finding, ...]:
    """HOLE-3: the bolt passes the hole that the clamp's own feet have."""
    return tuple(_footed(c, layout) for c in layout.clamps)


def _footed(place: ClampPlace, layout: PlateLayout) -> Finding:
    size = bolt(place.stack.bolt)
    hole = place.clamp.foot_hole_mm
    found = partial(
        _foot,
        where=place.label,
        value=hole,
        limit=size.shank_max_mm,
        unit="mm",
        sources=(size.shank_source, FOOT_HOLE),
    )
    widths = f"{shown(size.shank_max_mm, layout)}, the feet's hole {shown(hole, layout)}"
    if hole >= size.shank_max_mm:
        says = f"{size.name} passes the clamp's feet: its shank is at most {widths}."
        return found(verdict="pass", says=says, change="")
    says = f"{size.name} does not go through the clamp's feet: its shank is up to {widths}."
    change = f"Take a bolt whose shank is at most {shown(hole, layout)}, or a clamp with a larger hole."
    return found(verdict="fail", says=says, change=change)


CHECKS = (
    Check(
        "HOLE-1",
        "hole size",
        "Diameter of every bolt hole against the least and greatest published for its bolt.",
        hole_size,
        rules=("hole-size-tolerance",),
        sources=("tm-1-1520-240-bd-2-6", "asme-b18-2-8", "iso-273", "hole-window-by-analogy"),
    ),
    Check(
        "HOLE-2",
        "drill",
        "Diameter of every bolt hole against the drill named for it, or the nearest in the drill list.",
        hole_drill,
        rules=("hole-size-tolerance",),
        sources=("number-drills", "letter-drills", "fraction-drills", "metric-drills"),
    ),
    Check(
        "HOLE-3",
        "hole in the clamp's feet",
        "Largest shank of the clamp bolt against the hole in the clamp's own feet.",
        foot_hole,
        sources=("an-bolt-shank", "iso-4014-shank", FOOT_HOLE),
    ),
)
