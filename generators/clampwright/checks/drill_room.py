"""Room for the drill at holes that are drilled in place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial

from clampwright.checks.added import keep_outs, tube_bodies
from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.nearest_body import nearest
from clampwright.checks.room import Room, told
from clampwright.checks.wording import at_least, shown
from clampwright.checks.worst_case import doubtful, in_doubt, sure
from clampwright.layout.bodies import Cylinder
from clampwright.layout.clash_bodies import point
from clampwright.layout.clearance_known import Clear
from clampwright.layout.fit_up import PILOT
from clampwright.layout.joined import Joined, Named
from clampwright.layout.placed import PlateLayout
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along
from clampwright.trade.tables import rule

_room = partial(Finding, "CLOSE-3", "room for the drill", unit="mm")
_KEYS = ("drill-bit-out", "drill-length", "drill-radius", "angle-drill-length", "angle-drill-radius")


@dataclass(frozen=True, slots=True)
class InPlace:
    """A hole drilled where it is: its middle on the face that the drill stands on, and the way out of it."""

    where: str
    what: str
    at: Vec3
    out: Vec3
    rides_on: str
    """"plate", or the panel's name."""


def drill_room(layout: Joined) -> tuple[Finding, ...]:
    """CLOSE-3: a drill stands square on every hole that is drilled in place, clear of tubes and keep-outs.

    Those are the hole in a panel, and a plate's holes that are transferred in place.
    """
    bodies = (*tube_bodies(layout), *keep_outs(layout))
    return told((_stands(hole, bodies, layout) for hole in holes_in_place(layout)), layout)


def holes_in_place(layout: Joined) -> Iterator[InPlace]:
    """Every hole of the layout that is drilled in place."""
    if isinstance(layout, StandOffLayout) and layout.panel is not None:
        panel = layout.panel
        for joint in layout.joints:
            off = sum((h - p) * n for h, p, n in zip(joint.head, panel.point, panel.normal, strict=True))
            yield InPlace(
                joint.label, panel.name, along(joint.head, (panel.normal, -off)), panel.normal, panel.name
            )
    if isinstance(layout, PlateLayout):
        ways = {fit.hole: fit.way for fit in layout.fit_up.holes}
        for hole in layout.holes:
            if ways.get(hole.label) == PILOT:
                at = point(layout.frame, hole.at, layout.thickness_mm)
                yield InPlace(hole.label, "the plate", at, layout.frame.n, "plate")


def drill_body(hole: InPlace) -> Cylinder:
    """Chuck and case of a pistol drill that stands on a hole."""
    start, end = rule("drill-bit-out").value, rule("drill-length").value
    return _standing(hole, start, end, rule("drill-radius").value)


def angle_drill_body(hole: InPlace) -> Cylinder:
    """Head of an angle drill that stands on a hole with a short bit."""
    return _standing(hole, 0.0, rule("angle-drill-length").value, rule("angle-drill-radius").value)


def _standing(hole: InPlace, start_mm: float, end_mm: float, radius_mm: float) -> Cylinder:
    return Cylinder(along(hole.at, (hole.out, start_mm)), along(hole.at, (hole.out, end_mm)), radius_mm)


def _stands(hole: InPlace, bodies: tuple[Named, ...], layout: Joined) -> Room:
    """A drill on a hole; it goes with the plate, and on a panel with that."""
    drill = Named("drill", hole.rides_on, drill_body(hole))
    return Room(drill, bodies, 0.0, partial(_stood, hole, bodies, layout))


def _stood(
    hole: InPlace, bodies: tuple[Named, ...], layout: Joined, other: Named | None, clear: Clear
) -> Finding:
    made = partial(_room, where=hole.where, limit=0.0, sources=(rule("drill-length").source,))
    long = shown(rule("drill-length").value, layout)
    stands = f"A drill of {long} stands square on {hole.what} at {hole.where}"
    if other is None:
        return made(verdict="pass", value=0.0, says=f"{stands}.", change="")
    made = partial(made, value=clear.mm, plus_minus=clear.plus_minus_mm)
    low = shown(rule("angle-drill-length").value, layout)
    if clear.mm > SAME_MM:
        says = f"{stands}, {sure(clear, layout)} clear of {other.what}"
        if in_doubt(clear, 0.0):
            return doubtful(made, says, clear, 0.0, f"have an angle drill of {low} ready", layout)
        return made(verdict="pass", says=f"{says}.", change="")
    stand = f"A drill of {long} does not stand square on {hole.what} at {hole.where}"
    says = f"{stand}: {other.what} is in the way."
    second, left = nearest(angle_drill_body(hole), bodies)
    if second is None or left > SAME_MM:
        change = f"Take an angle drill: {low} over the hole are free."
    else:
        need = at_least(rule("angle-drill-length").value, layout)
        change = (
            f"No angle drill goes in either ({need} are not free): drill from behind, or before the rest."
        )
    return made(verdict="caution", says=says, change=change)


CHECKS = (
    Check(
        "CLOSE-3",
        "room for the drill",
        "Distance from a drill that stands on each hole drilled in place to tubes and keep-outs.",
        drill_room,
        rules=_KEYS,
    ),
)
