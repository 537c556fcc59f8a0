"""Sockets where there is no plate: room for one on every head and every nut."""

from __future__ import annotations

from functools import partial

from clampwright.checks.access import SOCKETS
from clampwright.checks.added import line_bodies, tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.clash import clamp_bodies, nearest, own_names
from clampwright.checks.clash_joined import covers
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, shown
from clampwright.layout.bodies import Body
from clampwright.layout.joined import Joined, Joint, Named
from clampwright.layout.joint_solids import head_socket, nut_socket
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

_room = partial(Finding, "ACCESS-3", "room for both wrenches", unit="mm")


def both_sockets(layout: Joined) -> tuple[Finding, ...]:
    """ACCESS-3: a socket goes on every head and every nut, clear of all but the clamps on the same bolt."""
    bodies = (*tube_bodies(layout), *clamp_bodies(layout), *layout.parts, *line_bodies(layout))
    found = []
    for joint in layout.joints:
        own = {*joint.clamps, *(own_names(joint, layout))}
        others = [b for b in bodies if b.owner not in own and not covers(b, joint)]
        for word, tool in (("head", head_socket(joint)), ("nut", nut_socket(joint))):
            found.append(_on(joint, word, tool, others, layout))
    return telling(found)


def _on(joint: Joint, word: str, tool: Body, others: list[Named], layout: Joined) -> Finding:
    limit, size = rule("wrench-clearance"), bolt(joint.stack.bolt)
    made = partial(_room, where=joint.label, limit=limit.value, sources=(limit.source, SOCKETS))
    socket = f"A socket of {shown(size.socket_od_mm, layout)}"
    other, clear = nearest(tool, others)
    if other is None or clear >= limit.value - SAME_MM:
        by = "" if other is None else f", {shown(clear, layout)} clear of {other.what}"
        says = f"{socket} goes on the {word} of {joint.label}{by}."
        return made(verdict="pass", value=0.0 if other is None else clear, says=says, change="")
    says = f"{socket} does not go straight on the {word} of {joint.label}: {other.what} is in the way."
    change = (
        f"Hold the {word} with an open wrench from the side, or make {at_least(limit.value - clear, layout)} "
        f"more room to {other.what}."
    )
    return made(verdict="caution", value=clear, says=says, change=change)


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
