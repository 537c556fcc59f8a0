"""Bearing: what is tightened against the plate lies flat on metal, clear of edges and other holes."""

from __future__ import annotations

from functools import partial
from math import dist, sqrt

from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.edges import inside_by
from clampwright.checks.finding import Finding
from clampwright.checks.holes import bolt_holes
from clampwright.checks.stacks import single_washers
from clampwright.checks.wording import at_least, shown
from clampwright.layout.placed import Hole, PlateLayout, Stack
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

_bearing = partial(Finding, "WASHER-1", "bearing of washers")


def corners_radius(across_flats_mm: float) -> float:
    """Half the width across corners of a hexagon, mm: flats over the square root of three.

    >>> round(corners_radius(9.525), 3)
    5.499
    """
    return across_flats_mm / sqrt(3.0)


def bearing_radius(stack: Stack) -> float:
    """Radius of the largest washer, head or nut of a stack, mm."""
    size = bolt(stack.bolt)
    flats = max(size.head_across_flats_mm, stack.nut.across_flats_mm)
    return max([corners_radius(flats), *(w.od_mm / 2 for w in single_washers(stack) if w.od_mm is not None)])


def bearing(layout: PlateLayout) -> tuple[Finding, ...]:
    """WASHER-1: washer, head and nut of every bolt lie clear of edges, cut-outs and other holes."""
    radii = {b.label: bearing_radius(b.stack) for b in layout.joints}
    return telling(_borne(h, radii[h.label], layout) for h in bolt_holes(layout) if h.label in radii)


def _borne(hole: Hole, radius: float, layout: PlateLayout) -> Finding:
    clear = rule("bearing-clear")
    what, room = min(_rooms(hole, layout), key=lambda pair: pair[1])
    spare = room - radius
    found = partial(
        _bearing, where=hole.label, value=spare, limit=clear.value, unit="mm", sources=(clear.source,)
    )
    if spare >= clear.value - SAME_MM:
        says = f"Washer and head reach {shown(radius, layout)} out and {what} is {shown(room, layout)} away."
        return found(verdict="pass", says=says, change="")
    change = f"Move {hole.label} {at_least(clear.value - spare, layout)} away from {what}."
    if spare < -SAME_MM:
        says = f"Washer or head reaches {shown(radius, layout)} out, {shown(-spare, layout)} over {what}."
        return found(verdict="fail", says=says, change=change)
    says = f"Washer or head comes within {shown(spare, layout)} of {what}."
    return found(verdict="caution", says=says, change=change)


def _rooms(hole: Hole, layout: PlateLayout) -> list[tuple[str, float]]:
    others = [
        (f"hole {h.label}", dist(hole.at, h.at) - h.diameter_mm / 2) for h in layout.holes if h is not hole
    ]
    return [("the plate's edge", inside_by(layout.outline, hole.at)), *others]


CHECKS = (
    Check(
        "WASHER-1",
        "bearing of washers",
        "Room round each bolt to the nearest edge or hole, less its washer or head; the least for a pass.",
        bearing,
        rules=("bearing-clear",),
        sources=("washer-sizes", "iso-7089"),
    ),
)
