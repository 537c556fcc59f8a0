"""Bearing: what is tightened against the plate lies flat on metal, clear of edges and other holes."""

from __future__ import annotations

from functools import partial
from math import dist

from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.edges import inside_by
from clampwright.checks.finding import Finding
from clampwright.checks.holes import bolt_holes
from clampwright.checks.wording import at_least, shown
from clampwright.layout.joint_solids import bearing_radius
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.trade.tables import rule

_bearing = partial(Finding, "WASHER-1", "bearing of washers")


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
