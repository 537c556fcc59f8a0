"""Access: room for a socket on every head, and for one on every nut."""

from __future__ import annotations

from functools import partial

from clampwright.checks.added import tube_bodies
from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.clash import clamp_bodies, components, own_names
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

SOCKETS = "sockets"
"""Source of the sockets' outside diameters."""

_head = partial(Finding, "ACCESS-1", "socket on the head")
_nut = partial(Finding, "ACCESS-2", "socket on the nut")


def head_access(layout: Joined) -> tuple[Finding, ...]:
    """ACCESS-1: a socket goes straight down on every head, clear of the components it does not hold."""
    parts = components(layout)
    rooms = (
        Room(
            Named("socket", head_of(joint), head_socket(joint)),
            [part for part in parts if part.owner != joint.owner],
            rule("wrench-clearance").value,
            partial(_on_head, joint, layout),
        )
        for joint in layout.joints
    )
    return told((room for room in rooms if room.others), layout)


def _on_head(joint: Joint, layout: Joined, other: Named | None, clear: Clear) -> Finding:
    limit, size = rule("wrench-clearance"), bolt(joint.stack.bolt)
    found = partial(
        _head,
        where=joint.label,
        value=clear.mm,
        limit=limit.value,
        unit="mm",
        sources=(limit.source, SOCKETS),
        plus_minus=clear.plus_minus_mm,
    )
    name = other.what if other is not None else ""
    socket = shown(size.socket_od_mm, layout)
    if clear.mm >= limit.value - SAME_MM:
        says = f"A socket of {socket} on the head is {sure(clear, layout)} clear of {name}"
        if in_doubt(clear, limit.value):
            return doubtful(found, says, clear, limit.value, "fit this bolt before it", layout)
        return found(verdict="pass", says=f"{says}.", change="")
    says = (
        f"A socket of {socket} on the head does not pass {name} with {shown(limit.value, layout)} to spare."
    )
    room = at_least(size.socket_od_mm / 2 + limit.value, layout)
    change = f"Keep {name} {room} from the bolt's centre, or fit this bolt before it."
    return found(verdict="caution", says=says, change=change)


def nut_access(layout: Joined) -> tuple[Finding, ...]:
    """ACCESS-2: a socket goes on every nut from below, clear of all tubes and clamps but its own."""
    bodies = (*tube_bodies(layout), *clamp_bodies(layout))
    rooms = (
        Room(
            Named("socket", nut_of(joint), nut_socket(joint)),
            [b for b in bodies if b.owner not in own_names(joint, layout)],
            rule("wrench-clearance").value,
            partial(_on_nut, joint, layout),
        )
        for joint in layout.joints
    )
    return told(rooms, layout)


def _on_nut(joint: Joint, layout: Joined, other: Named | None, clear: Clear) -> Finding:
    limit, size = rule("wrench-clearance"), bolt(joint.stack.bolt)
    found = partial(_nut, where=joint.label, limit=limit.value, unit="mm", sources=(limit.source, SOCKETS))
    socket = shown(size.socket_od_mm, layout)
    goes = f"A socket of {socket} goes on the nut from below"
    if other is None:
        return found(verdict="pass", value=None, says=f"{goes}.", change="")
    found = partial(found, value=clear.mm, plus_minus=clear.plus_minus_mm)
    if clear.mm >= limit.value - SAME_MM:
        if in_doubt(clear, limit.value):
            says = f"{goes}, {sure(clear, layout)} clear of the {other.what}"
            way = "hold the nut with an open wrench from the side"
            return doubtful(found, says, clear, limit.value, way, layout)
        return found(verdict="pass", says=f"{goes}.", change="")
    says = (
        f"A socket of {socket} does not go on the nut from below: the {other.what} {_is(other)} in the way."
    )
    change = (
        f"Hold the nut with an open wrench from the side, or move {joint.owner} "
        f"{at_least(limit.value - clear.mm, layout)} away from the {other.what}."
    )
    return found(verdict="caution", says=says, change=change)


def _is(other: Named) -> str:
    return "are" if other.what.startswith("feet") else "is"


CHECKS = (
    Check(
        "ACCESS-1",
        "socket on the head",
        "Distance from a socket on each head to the bodies of the components that the bolt does not hold.",
        head_access,
        rules=("wrench-clearance", "socket-length"),
        sources=(SOCKETS,),
    ),
    Check(
        "ACCESS-2",
        "socket on the nut",
        "Distance from a socket on each nut to every tube and clamp but its own.",
        nut_access,
        rules=("wrench-clearance", "socket-length"),
        sources=(SOCKETS,),
    ),
)
