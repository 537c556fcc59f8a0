"""Sockets where there is no plate: room for one on every head and every nut."""

from __future__ import annotations

from functools import partial

from clampwright.checks.access import SOCKETS
from clampwright.checks.added import line_bodies, tube_bodies
from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.clash import clamp_bodies, own_names
from clampwright.checks.clash_joined import covers
from clampwright.checks.finding import Finding
from clampwright.checks.room import Room, told
from clampwright.checks.wording import at_least, shown
from clampwright.checks.worst_case import doubtful, in_doubt, sure
from clampwright.layout.clearance_known import Clear
from clampwright.layout.joined import Joined, Joint, Named
from clampwright.layout.joint_solids import head_socket, nut_socket
from clampwright.layout.rides_on import head_of, nut_of
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

_room = partial(Finding, "ACCESS-3", "room for both wrenches", unit="mm")


def both_sockets(layout: Joined) -> tuple[Finding, ...]:
    """ACCESS-3: a socket goes on every head and every nut, clear of all but the clamps on the same bolt."""
    bodies = (*tube_bodies(layout), *clamp_bodies(layout), *layout.parts, *line_bodies(layout))
    rooms = []
    for joint in layout.joints:
        own = {*joint.clamps, *(own_names(joint, layout))}
        others = [b for b in bodies if b.owner not in own and not covers(b, joint)]
        for word, end, tool in (
            ("head", head_of(joint), head_socket(joint)),
            ("nut", nut_of(joint), nut_socket(joint)),
        ):
            socket = Named("socket", end, tool)
            words = partial(_on, joint, word, layout)
            rooms.append(Room(socket, others, rule("wrench-clearance").value, words))
    return told(rooms, layout)


def _on(joint: Joint, word: str, layout: Joined, other: Named | None, clear: Clear) -> Finding:
    limit, size = rule("wrench-clearance"), bolt(joint.stack.bolt)
    made = partial(_room, where=joint.label, limit=limit.value, sources=(limit.source, SOCKETS))
    socket = f"A socket of {shown(size.socket_od_mm, layout)}"
    if other is None:
        says = f"{socket} goes on the {word} of {joint.label}."
        return made(verdict="pass", value=0.0, says=says, change="")
    made = partial(made, value=clear.mm, plus_minus=clear.plus_minus_mm)
    if clear.mm >= limit.value - SAME_MM:
        by = f"{sure(clear, layout)} clear of {other.what}"
        says = f"{socket} goes on the {word} of {joint.label}, {by}"
        if in_doubt(clear, limit.value):
            way = f"hold the {word} with an open wrench from the side"
            return doubtful(made, says, clear, limit.value, way, layout)
        return made(verdict="pass", says=f"{says}.", change="")
    says = f"{socket} does not go straight on the {word} of {joint.label}: {other.what} is in the way."
    need = at_least(limit.value - clear.mm, layout)
    change = f"Hold the {word} with an open wrench from the side, or make {need} more room to {other.what}."
    return made(verdict="caution", says=says, change=change)


CHECKS = (
    Check(
        "ACCESS-3",
        "room for both wrenches",
        "Distance from a socket on each head and nut to everything but the clamps on its own bolt.",
        both_sockets,
        rules=("wrench-clearance", "socket-length"),
        sources=(SOCKETS,),
    ),
)
