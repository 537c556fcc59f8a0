"""Clash where there is no plate: heads, nuts, bushings, component or line against tubes and clamps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from clampwright.checks.added import line_bodies, lines_at_bolt, tube_bodies
from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.clash import clamp_bodies, own_names
from clampwright.checks.finding import Finding
from clampwright.checks.naming_bodies import capital, is_or_are, uncapital
from clampwright.checks.nearest_body import nearest
from clampwright.checks.room import Room, told
from clampwright.checks.wording import at_least, shown
from clampwright.checks.worst_case import doubtful, in_doubt, short_at_worst, sure
from clampwright.layout.bodies import Body, Box, Capsule, clearance
from clampwright.layout.clearance_known import Clear
from clampwright.layout.joined import Joined, Joint, Named
from clampwright.layout.joint_solids import bushing_bodies, head_body, nut_body
from clampwright.layout.rides_on import head_of, held_off, nut_of
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.trade.tables import rule

_ends = partial(Finding, "CLASH-6", "bolt heads and nuts", unit="mm")
_rings = partial(Finding, "CLASH-7", "bushings against tubes and clamps", unit="mm")
_held = partial(Finding, "CLASH-8", "what is held against tubes and clamps", unit="mm")


def ends_clear(layout: Joined) -> tuple[Finding, ...]:
    """CLASH-6: every head and nut stays clear of what it holds, of tubes, and of clamps not on its bolt."""
    structure = (*tube_bodies(layout), *clamp_bodies(layout))
    held = (*layout.parts, *lines_at_bolt(layout))
    found: list[Finding | Room] = []
    for joint in layout.joints:
        for end in (
            Named("head and washer", head_of(joint), head_body(joint)),
            Named("nut and bolt end", nut_of(joint), nut_body(joint)),
        ):
            found.append(_sunk(joint, end, structure, layout) or _end(joint, end, structure, held, layout))
    return told(
        (each for each in found if isinstance(each, Room)),
        layout,
        (each for each in found if isinstance(each, Finding)),
    )


def covers(part: Named, joint: Joint) -> bool:
    """Whether the box given for a part covers a bolt, so that it says nothing of the room beside it."""
    return (
        isinstance(part.body, Box) and clearance(Capsule(joint.head, joint.head, 0.0), part.body) <= SAME_MM
    )


def _sunk(joint: Joint, end: Named, structure: Sequence[Named], layout: Joined) -> Finding | None:
    """A head or nut that runs into the loop that its own bolt closes, or into the tube in that loop."""
    own = own_names(joint, layout)
    touched = [b for b in structure if b.owner in own and not b.what.startswith("feet")]
    mine, touching = nearest(end.body, touched)
    if mine is None or touching > SAME_MM:
        return None
    says = f"{capital(end.what)} run into the {mine.what} that this bolt closes: the reach is too short."
    change = f"Measure the clamp's reach again: {shown(_reach(joint, layout), layout)} was taken."
    source = rule("component-clearance").source
    return _ends(joint.label, "fail", 0.0, 0.0, says=says, change=change, sources=(source,))


def _end(
    joint: Joint, end: Named, structure: Sequence[Named], held: Sequence[Named], layout: Joined
) -> Room | Finding:
    limit = rule("component-clearance")
    own = own_names(joint, layout)
    over = [part for part in held if covers(part, joint)]
    others = [b for b in structure if b.owner not in own] + [part for part in held if part not in over]
    made = partial(_ends, where=joint.label, sources=(limit.source,))
    if over and nearest(end.body, others)[1] >= limit.value - SAME_MM:
        return _covered(made, over[0], end.what, joint, layout)

    def words(other: Named | None, clear: Clear) -> Finding:
        where = "everything" if other is None else f"{other.what} by {sure(clear, layout)}"
        what = f"{capital(end.what)} of {joint.label}"
        bad = _too_near(made, what, other, clear, _move(joint, layout), layout)
        return bad or _passed(made, f"{capital(end.what)} clear {where}.", other, clear)

    return Room(end, others, limit.value, words)


def _passed(made: partial[Finding], says: str, other: Named | None, clear: Clear) -> Finding:
    limit = rule("component-clearance").value
    value, off = (0.0, None) if other is None else (clear.mm, clear.plus_minus_mm)
    return made(verdict="pass", value=value, limit=limit, says=says, change="", plus_minus=off)


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
    made: partial[Finding], what: str, other: Named | None, clear: Clear, move: str, layout: Joined
) -> Finding | None:
    """A finding where a clearance is not kept, or not at worst; None where it is."""
    limit = rule("component-clearance").value
    if other is None:
        return None
    made = partial(made, value=clear.mm, limit=limit, plus_minus=clear.plus_minus_mm)
    if clear.mm >= limit - SAME_MM:
        if not in_doubt(clear, limit):
            return None
        says = f"{what} {is_or_are(what)} {sure(clear, layout)} clear of {_the(other)}"
        other_way = f"{uncapital(move)} {short_at_worst(clear, limit, layout)} away from {_the(other)}"
        return doubtful(made, says, clear, limit, other_way, layout)
    change = f"{move} {at_least(limit - clear.mm, layout)} away from {_the(other)}."
    if clear.mm <= SAME_MM:
        return made(verdict="fail", says=f"{what} run into {_the(other)}.", change=change)
    says = f"{what} {is_or_are(what)} only {sure(clear, layout)} from {_the(other)}: it will wear."
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
    structure = (*tube_bodies(layout), *clamp_bodies(layout))
    rooms = []
    for joint in layout.joints:
        own = own_names(joint, layout)
        others = [b for b in structure if b.owner not in own]
        made = partial(_rings, where=joint.label, sources=(rule("component-clearance").source,))
        if others:
            rooms += [
                _clear(made, ring, others, _move(joint, layout), layout) for ring in bushing_bodies(joint)
            ]
    return told(rooms, layout)


def _clear(made: partial[Finding], body: Named, others: Sequence[Named], move: str, layout: Joined) -> Room:
    """A body that keeps the usual clearance from others."""

    def words(other: Named | None, clear: Clear) -> Finding:
        what = capital(body.what)
        says = f"{what} {is_or_are(what)} {sure(clear, layout)} clear of {_the(other) if other else 'all'}."
        bad = _too_near(made, what, other, clear, move, layout)
        return bad or _passed(made, says, other, clear)

    return Room(body, others, rule("component-clearance").value, words)


def held_clear(layout: Joined) -> tuple[Finding, ...]:
    """CLASH-8: the component or line stays clear of every tube and clamp.

    A component may lie on the loops of its own clamps but not reach into them.
    """
    own = {label for joint in layout.joints for label in joint.clamps}
    into = [f for part in layout.parts if (f := _into_loops(part, own, layout)) is not None]
    rooms = (
        *(_part_clear(part, own, layout) for part in layout.parts),
        *(room for line in line_bodies(layout) for room in _line_clear(line, layout)),
    )
    return told((room for room in rooms if room.others), layout, into)


def _part_clear(part: Named, own: set[str], layout: Joined) -> Room:
    made = partial(_held, where=part.what, sources=(rule("component-clearance").source,))
    others = (*tube_bodies(layout), *(b for b in clamp_bodies(layout) if b.owner not in own))
    return _clear(made, part, others, f"Move {part.what}", layout)


def _into_loops(part: Named, own: set[str], layout: Joined) -> Finding | None:
    """A component that reaches into the loops of its own clamps by more than they may touch."""
    limit, tolerance = rule("component-clearance"), rule("gap-nothing").value
    inside = _shrunk(part.body, tolerance)
    into, left = nearest(inside, (b for b in clamp_bodies(layout) if b.owner in own))
    if into is None or left > SAME_MM:
        return None
    says = f"The box given for {part.what} reaches into {_the(into)} under it."
    step = shown(limit.value, layout)
    change = f"Set stand_off higher, by {step} at a time, or give the box of the body alone."
    return _held(part.what, "fail", 0.0, tolerance, says=says, change=change, sources=(limit.source,))


def _shrunk(body: Body, by_mm: float) -> Body:
    if not isinstance(body, Box):
        return body
    a, b, c = (max(0.0, half - by_mm) for half in body.half)
    return Box(body.centre, body.axes, (a, b, c))


def _line_clear(line: Named, layout: Joined) -> Iterator[Room]:
    """A line that gives keeps from the tube and clamp that it is held off as its spacer makes it."""
    made = partial(_held, where=line.what, sources=(rule("component-clearance").source,))
    mine = {loop.label for loop in layout.loops if loop.tube == line.owner}
    others = [b for b in (*tube_bodies(layout), *clamp_bodies(layout)) if b.owner not in mine]
    lead, off = f"Lead {line.what}", held_off(layout)
    own = () if off is None else (off.label, off.tube)
    if own:
        at_bolt = replace(line, owner=own[0])
        yield _clear(made, at_bolt, [b for b in others if b.owner in own], lead, layout)
    yield _clear(made, line, [b for b in others if b.owner not in own], lead, layout)


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
