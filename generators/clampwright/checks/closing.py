"""Closing: room to open each loop over its tube, and which way each bolt goes in."""

from __future__ import annotations

from functools import partial
from math import asin, degrees, dist

from clampwright.checks.added import keep_outs, line_bodies, tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.clash import clamp_bodies
from clampwright.checks.clash_joined import covers
from clampwright.checks.finding import Finding
from clampwright.checks.nearest_body import nearest
from clampwright.checks.wording import at_least, shown
from clampwright.layout.bodies import Cylinder
from clampwright.layout.clash_bodies import band_body
from clampwright.layout.joined import Joined, Joint, Loop, Named
from clampwright.layout.joint_solids import drawn_out, drawn_out_behind
from clampwright.layout.said import from_where
from clampwright.quantities import Vec3
from clampwright.trade.tables import rule

_open = partial(Finding, "CLOSE-1", "room to open each loop", unit="mm")
_way = partial(Finding, "CLOSE-2", "bolt direction", unit="deg")


def room_to_open(layout: Joined) -> tuple[Finding, ...]:
    """CLOSE-1: round each loop there is room to open it, slip it over its tube and close it again."""
    bodies = (*tube_bodies(layout), *keep_outs(layout))
    names = layout.recipe.structure.names
    loops = [loop for loop in layout.loops if loop.tube in names]
    return telling(_opened(loop, [b for b in bodies if b.owner != loop.tube], layout) for loop in loops)


def _opened(loop: Loop, others: list[Named], layout: Joined) -> Finding:
    limit = rule("loop-opening-room")
    made = partial(_open, where=loop.label, limit=limit.value, sources=(limit.source,))
    other, clear = nearest(band_body(loop), others)
    if other is None or clear >= limit.value - SAME_MM:
        room = limit.value if other is None else clear
        by = "nothing stands near" if other is None else f"{shown(clear, layout)} to {other.what}"
        return made(verdict="pass", value=room, says=f"Room to open {loop.label}: {by}.", change="")
    need = at_least(limit.value - clear, layout)
    says = f"Only {shown(clear, layout)} from {loop.label} to {other.what}: the open band may not pass there."
    change = f"Slip the loop on where there is room and slide it to its mark, or move it {need} farther off."
    return made(verdict="caution", value=clear, says=says, change=change)


def bolt_direction(layout: Joined) -> tuple[Finding, ...]:
    """CLOSE-2: every bolt's head looks up, or forward, so that a lost nut leaves the bolt; and it can go in.

    Up is the world's z and forward its x. A bolt goes in from its head's side, along its own length.
    """
    bodies = (*tube_bodies(layout), *clamp_bodies(layout), *keep_outs(layout), *layout.parts)
    bodies = (*bodies, *line_bodies(layout))
    return tuple(_directed(joint, bodies, layout) for joint in layout.joints)


def head_looks(axis: Vec3) -> tuple[str, float]:
    """Where a bolt's head looks, and degrees above level (or ahead of athwart); `axis` is head to nut.

    >>> head_looks((0.0, 0.0, -1.0)), head_looks((0.0, 0.0, 1.0)), head_looks((0.0, 1.0, 0.0))
    (('up', 90.0), ('down', -90.0), ('level', 0.0))
    """
    least = rule("bolt-upright-least").value
    for part, words in ((-axis[2], ("up", "down")), (-axis[0], ("forward", "aft"))):
        angle = degrees(asin(max(-1.0, min(1.0, part))))
        if abs(angle) >= least:
            return words[angle < 0], angle + 0.0
    return "level", 0.0


def _directed(joint: Joint, bodies: tuple[Named, ...], layout: Joined) -> Finding:
    limit = rule("bolt-upright-least")
    looks, angle = head_looks(joint.axis)
    made = partial(
        _way, where=joint.label, value=angle, limit=limit.value, sources=("practice", limit.source)
    )
    others = [b for b in bodies if b.owner not in joint.clamps and not covers(b, joint)]
    here, there = _blocked(drawn_out(joint), others), _blocked(drawn_out_behind(joint), others)
    away = (-joint.axis[0], -joint.axis[1], -joint.axis[2])
    side, other = from_where(away), from_where(joint.axis)
    long = at_least(_length(joint), layout)
    if looks in ("down", "aft"):
        says = f"The head looks {looks}: if the nut is lost the bolt leaves too."
        change = f"Put it in {other}, where its {long} {_free(there)}."
        return made(verdict="caution", says=says, change=change)
    goes = f"It goes in {side}"
    if here is not None:
        says = f"{goes}, and {here.what} is in the way of its {long}."
        change = f"Fit this bolt before {here.what}, or put it in {other}, where its {long} {_free(there)}."
        return made(verdict="caution", says=says, change=change)
    keeps = {
        "up": "head up: a lost nut leaves it in its holes",
        "forward": "head forward: the airstream keeps it in if the nut is lost",
        "level": "neither end is up or forward, so either way round will do",
    }[looks]
    return made(verdict="pass", limit=None, says=f"{goes}, {keeps}.", change="")


def _length(joint: Joint) -> float:
    body = drawn_out(joint)
    return dist(body.start, body.end)


def _blocked(swept: Cylinder, others: list[Named]) -> Named | None:
    other, clear = nearest(swept, others)
    return other if clear <= SAME_MM else None


def _free(blocked: Named | None) -> str:
    return "are free" if blocked is None else f"are blocked by {blocked.what} until that is moved"


CHECKS = (
    Check(
        "CLOSE-1",
        "room to open each loop",
        "Distance from each loop on a tube to other tubes and keep-outs, for opening and closing it.",
        room_to_open,
        rules=("loop-opening-room",),
    ),
    Check(
        "CLOSE-2",
        "bolt direction",
        "Which way each bolt's head looks, and whether the bolt's own length is free on that side.",
        bolt_direction,
        rules=("bolt-upright-least",),
        sources=("practice",),
    ),
)
