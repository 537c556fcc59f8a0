"""Access: room for a socket on every head, and for one on every nut."""

from __future__ import annotations

from functools import partial

from clampwright.checks.added import tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.clash import clamp_bodies, components, nearest, own_names
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, shown
from clampwright.layout.joined import Joined, Joint, Named
from clampwright.layout.joint_solids import head_socket, nut_socket
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

SOCKETS = "sockets"
"""Source of the sockets' outside diameters."""

_head = partial(Finding, "ACCESS-1", "socket on the head")
_nut = partial(Finding, "ACCESS-2", "socket on the nut")


def head_access(layout: Joined) -> tuple[Finding, ...]:
    """ACCESS-1: a socket goes straight down on every head, clear of the components it does not hold."""
    parts = components(layout)
    made = (_on_head(j, [p for p in parts if p.owner != j.owner], layout) for j in layout.joints)
    return telling(found for found in made if found is not None)


def _on_head(joint: Joint, others: list[Named], layout: Joined) -> Finding | None:
    if not others:
        return None
    limit, size = rule("wrench-clearance"), bolt(joint.stack.bolt)
    other, clear = nearest(head_socket(joint), others)
    found = partial(
        _head,
        where=joint.label,
        value=clear,
        limit=limit.value,
        unit="mm",
        sources=(limit.source, SOCKETS),
    )
    name = other.what if other is not None else ""
    socket = shown(size.socket_od_mm, layout)
    if clear >= limit.value - SAME_MM:
        says = f"A socket of {socket} on the head is {shown(clear, layout)} clear of {name}."
        return found(verdict="pass", says=says, change="")
    says = (
        f"A socket of {socket} on the head does not pass {name} with {shown(limit.value, layout)} to spare."
    )
    room = at_least(size.socket_od_mm / 2 + limit.value, layout)
    change = f"Keep {name} {room} from the bolt's centre, or fit this bolt before it."
    return found(verdict="caution", says=says, change=change)


def nut_access(layout: Joined) -> tuple[Finding, ...]:
    """ACCESS-2: a socket goes on every nut from below, clear of all tubes and clamps but its own."""
    bodies = (*tube_bodies(layout), *clamp_bodies(layout))
    return telling(_on_nut(j, bodies, layout) for j in layout.joints)


def _on_nut(joint: Joint, bodies: tuple[Named, ...], layout: Joined) -> Finding:
    own = own_names(joint, layout)
    limit, size = rule("wrench-clearance"), bolt(joint.stack.bolt)
    other, clear = nearest(nut_socket(joint), [b for b in bodies if b.owner not in own])
    found = partial(
        _nut,
        where=joint.label,
        value=None if other is None else clear,
        limit=limit.value,
        unit="mm",
        sources=(limit.source, SOCKETS),
    )
    socket = shown(size.socket_od_mm, layout)
    if other is None or clear >= limit.value - SAME_MM:
        says = f"A socket of {socket} goes on the nut from below."
        return found(verdict="pass", says=says, change="")
    says = (
        f"A socket of {socket} does not go on the nut from below: the {other.what} {_is(other)} in the way."
    )
    change = (
        f"Hold the nut with an open wrench from the side, or move {joint.owner} "
        f"{at_least(limit.value - clear, layout)} away from the {other.what}."
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
