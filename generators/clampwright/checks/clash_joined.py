"""Clash where there is no plate: heads, nuts, bushings, component or line against tubes and clamps."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from clampwright.checks.added import line_bodies, tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.clash import clamp_bodies, nearest, own_names
from clampwright.checks.finding import Finding
from clampwright.checks.naming_bodies import capital, is_or_are
from clampwright.checks.wording import at_least, shown
from clampwright.layout.bodies import Body, Box, Capsule, clearance
from clampwright.layout.joined import Joined, Joint, Named
from clampwright.layout.joint_solids import bushing_bodies, head_body, nut_body
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.trade.tables import Rule, rule

_ends = partial(Finding, "CLASH-6", "bolt heads and nuts", unit="mm")
_rings = partial(Finding, "CLASH-7", "bushings against tubes and clamps", unit="mm")
_held = partial(Finding, "CLASH-8", "what is held against tubes and clamps", unit="mm")


def ends_clear(layout: Joined) -> tuple[Finding, ...]:
    """CLASH-6: every head and nut stays clear of what it holds, of tubes, and of clamps not on its bolt."""
    structure = (*tube_bodies(layout), *clamp_bodies(layout))
    held = (*layout.parts, *line_bodies(layout))
    found = []
    for joint in layout.joints:
        for word, body in (("head and washer", head_body(joint)), ("nut and bolt end", nut_body(joint))):
            found.append(_end(joint, word, body, structure, held, layout))
    return telling(found)


def covers(part: Named, joint: Joint) -> bool:
    """Whether the box given for a part covers a bolt, so that it says nothing of the room beside it."""
    return (
        isinstance(part.body, Box) and clearance(Capsule(joint.head, joint.head, 0.0), part.body) <= SAME_MM
    )


def _end(
    joint: Joint, word: str, body: Body, structure: Iterable[Named], held: Iterable[Named], layout: Joined
) -> Finding:
    limit = rule("component-clearance")
    made = partial(_ends, where=joint.label, sources=(limit.source,))
    own = own_names(joint, layout)
    over = [part for part in held if covers(part, joint)]
    touched = [b for b in structure if b.owner in own and not b.what.startswith("feet")]
    mine, touching = nearest(body, touched)
    if mine is not None and touching <= SAME_MM:
        says = f"{capital(word)} run into the {mine.what} that this bolt closes: the reach is too short."
        change = f"Measure the clamp's reach again: {shown(_reach(joint, layout), layout)} was taken."
        return made(verdict="fail", value=0.0, limit=0.0, says=says, change=change)
    others = [b for b in structure if b.owner not in own] + [part for part in held if part not in over]
    other, clear = nearest(body, others)
    bad = _too_near(
        made, f"{capital(word)} of {joint.label}", other, clear, limit, _move(joint, layout), layout
    )
    if bad is not None:
        return bad
    if over:
        return _covered(made, over[0], word, joint, layout)
    where = "everything" if other is None else f"{other.what} by {shown(clear, layout)}"
    says = f"{capital(word)} clear {where}."
    return made(
        verdict="pass", value=0.0 if other is None else clear, limit=limit.value, says=says, change=""
    )


def _covered(made: partial[Finding], part: Named, word: str, joint: Joint, layout: Joined) -> Finding:
    room = at_least(head_body(joint).radius_mm + rule("component-clearance").value, layout)
    return made(
        verdict="unknown",
        value=None,
        limit=rule("component-clearance").value,
        says=f"The box given for {part.what} covers this bolt: whether {word} clear its body is not known.",
        change=f"Give the box of the body without its lugs, or see that {room} round the bolt are free.",
    )


def _too_near(
    made: partial[Finding],
    what: str,
    other: Named | None,
    clear: float,
    limit: Rule,
    move: str,
    layout: Joined,
) -> Finding | None:
    """A finding where a clearance is not kept; None where it is."""
    if other is None or clear >= limit.value - SAME_MM:
        return None
    made = partial(made, value=clear, limit=limit.value)
    change = f"{move} {at_least(limit.value - clear, layout)} away from {_the(other)}."
    if clear <= SAME_MM:
        return made(verdict="fail", says=f"{what} run into {_the(other)}.", change=change)
    says = f"{what} {is_or_are('feet')} only {shown(clear, layout)} from {_the(other)}: it will wear."
    return made(verdict="caution", says=says, change=change)


def _the(other: Named) -> str:
    word = other.what.split(" ")[0]
    return f"the {other.what}" if word in ("loop", "feet", "tube") else other.what


def _move(joint: Joint, layout: Joined) -> str:
    if isinstance(layout, StandOffLayout):
        return f"Slide the pair along {layout.loops[0].tube}, or take another of its places:"
    return f"Move {joint.owner}"


def _reach(joint: Joint, layout: Joined) -> float:
    return next((loop.clamp.reach_mm for loop in layout.loops if loop.label in joint.clamps), 0.0)


def bushings_clear(layout: Joined) -> tuple[Finding, ...]:
    """CLASH-7: every bushing, shim and packing washer stays clear of tubes and clamps not on its bolt."""
    limit = rule("component-clearance")
    structure = (*tube_bodies(layout), *clamp_bodies(layout))
    found = []
    for joint in layout.joints:
        own = own_names(joint, layout)
        others = [b for b in structure if b.owner not in own]
        made = partial(_rings, where=joint.label, sources=(limit.source,))
        for ring in bushing_bodies(joint):
            other, clear = nearest(ring.body, others)
            if other is not None:
                found.append(_ring(made, ring, other, clear, joint, layout))
    return telling(found)


def _ring(
    made: partial[Finding], ring: Named, other: Named, clear: float, joint: Joint, layout: Joined
) -> Finding:
    limit = rule("component-clearance")
    bad = _too_near(made, f"{capital(ring.what)}", other, clear, limit, _move(joint, layout), layout)
    if bad is not None:
        return bad
    says = f"{capital(ring.what)} is {shown(clear, layout)} clear of {_the(other)}."
    return made(verdict="pass", value=clear, limit=limit.value, says=says, change="")


def held_clear(layout: Joined) -> tuple[Finding, ...]:
    """CLASH-8: the component or line stays clear of every tube and clamp.

    A component may lie on the loops of its own clamps but not reach into them.
    """
    own = {label for joint in layout.joints for label in joint.clamps}
    found = [f for part in layout.parts for f in _part_clear(part, own, layout)]
    found += [f for line in line_bodies(layout) for f in _line_clear(line, layout)]
    return telling(found)


def _part_clear(part: Named, own: set[str], layout: Joined) -> Iterable[Finding]:
    limit, tolerance = rule("component-clearance"), rule("gap-nothing").value
    made = partial(_held, where=part.what, sources=(limit.source,))
    loops = clamp_bodies(layout)
    others = (*tube_bodies(layout), *(b for b in loops if b.owner not in own))
    other, clear = nearest(part.body, others)
    if other is not None:
        bad = _too_near(made, capital(part.what), other, clear, limit, f"Move {part.what}", layout)
        says = f"{capital(part.what)} is {shown(clear, layout)} clear of {_the(other)}."
        yield bad or made(verdict="pass", value=clear, limit=limit.value, says=says, change="")
    inside = _shrunk(part.body, tolerance)
    into, left = nearest(inside, (b for b in loops if b.owner in own))
    if into is not None and left <= SAME_MM:
        says = f"The box given for {part.what} reaches into {_the(into)} under it."
        step = shown(limit.value, layout)
        change = f"Set stand_off higher, by {step} at a time, or give the box of the body alone."
        yield made(verdict="fail", value=0.0, limit=tolerance, says=says, change=change)


def _shrunk(body: Body, by_mm: float) -> Body:
    if not isinstance(body, Box):
        return body
    a, b, c = (max(0.0, half - by_mm) for half in body.half)
    return Box(body.centre, body.axes, (a, b, c))


def _line_clear(line: Named, layout: Joined) -> Iterable[Finding]:
    limit = rule("component-clearance")
    made = partial(_held, where=line.what, sources=(limit.source,))
    mine = {loop.label for loop in layout.loops if loop.tube == line.owner}
    others = (*tube_bodies(layout), *(b for b in clamp_bodies(layout) if b.owner not in mine))
    other, clear = nearest(line.body, others)
    if other is None:
        return
    bad = _too_near(made, capital(line.what), other, clear, limit, f"Lead {line.what}", layout)
    says = f"{capital(line.what)} is {shown(clear, layout)} clear of {_the(other)}."
    yield bad or made(verdict="pass", value=clear, limit=limit.value, says=says, change="")


CHECKS = (
    Check(
        "CLASH-6",
        "bolt heads and nuts",
        "Distance from each head and nut to what it holds, to tubes and to clamps that are not on its bolt.",
        ends_clear,
        rules=("component-clearance",),
    ),
    Check(
        "CLASH-7",
        "bushings against tubes and clamps",
        "Distance from each bushing, shim and packing washer to tubes and clamps that are not on its bolt.",
        bushings_clear,
        rules=("component-clearance",),
    ),
    Check(
        "CLASH-8",
        "what is held against tubes and clamps",
        "Distance from the component or line to every tube and clamp; into its own clamps it must not reach.",
        held_clear,
        rules=("component-clearance", "gap-nothing"),
    ),
)
