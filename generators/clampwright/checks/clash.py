"""Clash: clamps against each other, bolt heads against components, nuts against tubes and clamps."""

from __future__ import annotations

from functools import partial
from itertools import combinations
from math import dist

from clampwright.checks.added import tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.finding import Finding
from clampwright.checks.nearest_body import FAR, nearest
from clampwright.checks.room import Room, known, known_along, most_off, one_doubt, told
from clampwright.checks.wording import at_least, shown
from clampwright.checks.worst_case import doubtful, in_doubt, short_at_worst, sure
from clampwright.layout.bodies import bound
from clampwright.layout.clearance_known import Clear
from clampwright.layout.joined import Joined, Joint, Loop, Named
from clampwright.layout.joint_solids import bearing_radius, head_body, loop_bodies, nut_body
from clampwright.layout.rides_on import head_of, nut_of
from clampwright.trade.tables import rule

_clamps = partial(Finding, "CLAMP-2", "clamps against each other")
_heads = partial(Finding, "CLAMP-3", "bolt heads against components")
_nuts = partial(Finding, "CLASH-1", "nuts against tubes and clamps")


def clamp_against_clamp(layout: Joined) -> tuple[Finding, ...]:
    """CLAMP-2: loops and feet of every two clamps stay clear of each other; the nearest two for a pass.

    Two clamps on one bolt are left out: their feet lie on each other.
    """
    limit = rule("clamp-clearance").value
    bodies = {c.label: list(loop_bodies(c)) for c in layout.loops}
    joined = {frozenset(joint.clamps) for joint in layout.joints}
    best, near = FAR, []
    for a, b in combinations(layout.loops, 2):
        if {a.label, b.label} in joined:
            continue
        if _at_least_apart(bodies[a.label], bodies[b.label]) < max(limit + 2.0 * most_off(layout), best):
            pair = _apart(a, b, bodies)
            best = min(best, pair[2])
            near.append((a, b, pair))
    found = [
        _two_clamps(a, b, _known(a, b, pair, layout), layout)
        for a, b, pair in near
        if pair[2] <= max(best, limit + 2.0 * most_off(layout))
    ]
    return telling(one_doubt(found))


def _at_least_apart(one: list[Named], other: list[Named]) -> float:
    """A distance that two clamps certainly keep, from the balls round their bodies."""
    balls = [[bound(n.body) for n in bodies] for bodies in (one, other)]
    return min(dist(p, q) - r - s for p, r in balls[0] for q, s in balls[1])


def _apart(a: Loop, b: Loop, bodies: dict[str, list[Named]]) -> tuple[Named, Named, float]:
    """The nearest bodies of two clamps, and their distance.

    On one tube it is what is free between their bands (negative where nothing is).
    """
    if a.tube == b.tube:
        free = abs(a.station_mm - b.station_mm) - (a.clamp.band_width_mm + b.clamp.band_width_mm) / 2
        return bodies[a.label][0], bodies[b.label][0], free
    pairs = ((n, *nearest(n.body, bodies[b.label])) for n in bodies[a.label])
    return min(((n, m, clear) for n, m, clear in pairs if m is not None), key=lambda pair: pair[2])


def _known(a: Loop, b: Loop, pair: tuple[Named, Named, float], layout: Joined) -> Clear:
    one, other, clear = pair
    if a.tube != b.tube:
        return known(one, other, layout)
    return known_along(one, other, clear, (a.centre, b.centre), layout)


def _two_clamps(a: Loop, b: Loop, clear: Clear, layout: Joined) -> Finding:
    limit = rule("clamp-clearance")
    found = partial(
        _clamps,
        where=f"{a.label}/{b.label}",
        value=clear.mm,
        limit=limit.value,
        unit="mm",
        sources=(limit.source,),
        plus_minus=clear.plus_minus_mm,
    )
    if clear.mm >= limit.value - SAME_MM:
        says = f"The nearest two clamps, {a.label} and {b.label}, are {sure(clear, layout)} apart"
        if in_doubt(clear, limit.value):
            other_way = f"slide {b.label} {short_at_worst(clear, limit.value, layout)} along {b.tube}"
            return doubtful(found, says, clear, limit.value, other_way, layout)
        return found(verdict="pass", says=f"{says}.", change="")
    shift = at_least(_shift(a, b, clear.mm, limit.value), layout)
    change = f"Slide {b.label} {shift} along {b.tube}, away from {a.label}."
    if clear.mm <= SAME_MM:
        return found(verdict="fail", says=f"{a.label} and {b.label} run into each other.", change=change)
    says = f"{a.label} and {b.label} are only {sure(clear, layout)} apart; cushions swell and creep."
    return found(verdict="caution", says=says, change=change)


def _shift(a: Loop, b: Loop, clear: float, limit: float) -> float:
    """How far to slide b along its tube until bands as wide as these stand clear along it."""
    along = abs(sum((q - p) * d for p, q, d in zip(a.centre, b.centre, b.axis, strict=True)))
    widths = (a.clamp.band_width_mm + b.clamp.band_width_mm) / 2
    return max(widths + limit - along, limit - clear)


def components(layout: Joined) -> tuple[Named, ...]:
    """The bodies of the components that have one: every part but the plate."""
    return tuple(part for part in layout.parts if part.owner != "plate")


def clamp_bodies(layout: Joined) -> tuple[Named, ...]:
    """Loop and feet of every clamp."""
    return tuple(body for loop in layout.loops for body in loop_bodies(loop))


def own_names(joint: Joint, layout: Joined) -> tuple[str, ...]:
    """Labels of the clamps on a joint and names of the tubes that they sit on."""
    mine = [loop for loop in layout.loops if loop.label in joint.clamps]
    return tuple(name for loop in mine for name in (loop.label, loop.tube))


def head_against_component(layout: Joined) -> tuple[Finding, ...]:
    """CLAMP-3: the head and washer of every bolt stay clear of the components that it does not hold."""
    parts = components(layout)
    limit = rule("component-clearance").value
    rooms = (
        Room(
            Named("head and washer", head_of(joint), head_body(joint)),
            [part for part in parts if part.owner != joint.owner],
            limit,
            partial(_head, joint, layout),
        )
        for joint in layout.joints
    )
    return told((room for room in rooms if room.others), layout)


def _head(joint: Joint, layout: Joined, other: Named | None, clear: Clear) -> Finding:
    limit = rule("component-clearance")
    found = partial(
        _heads,
        where=joint.label,
        value=clear.mm,
        limit=limit.value,
        unit="mm",
        sources=(limit.source,),
        plus_minus=clear.plus_minus_mm,
    )
    name = other.what if other is not None else ""
    if clear.mm >= limit.value - SAME_MM:
        says = f"Head and washer are {sure(clear, layout)} clear of {name}"
        if in_doubt(clear, limit.value):
            other_way = f"move {name} or {joint.label} {short_at_worst(clear, limit.value, layout)} apart"
            return doubtful(found, says, clear, limit.value, other_way, layout)
        return found(verdict="pass", says=f"{says}.", change="")
    need = at_least(limit.value - clear.mm, layout)
    if clear.mm <= SAME_MM:
        reach = at_least(limit.value + bearing_radius(joint.stack), layout)
        change = f"Move {name} or {joint.label}: the body must stay {reach} from the bolt's centre."
        says = f"The head or its washer is under {name}: the bolt cannot be fitted."
        return found(verdict="fail", says=says, change=change)
    says = f"Head and washer are only {sure(clear, layout)} from {name}."
    return found(verdict="caution", says=says, change=f"Move {name} or {joint.label} {need} apart.")


def nut_against_structure(layout: Joined) -> tuple[Finding, ...]:
    """CLASH-1: nut and bolt end of every joint stay clear of the tubes and the clamps under the plate.

    The own clamp of a nut may be as near as it is made; everything else keeps the clearance.
    """
    bodies = (*tube_bodies(layout), *clamp_bodies(layout))
    sunk = {joint.label: f for joint in layout.joints if (f := _into_own(joint, bodies, layout)) is not None}
    rooms = (
        Room(
            Named("nut and bolt end", nut_of(joint), nut_body(joint)),
            [body for body in bodies if body.owner not in own_names(joint, layout)],
            rule("component-clearance").value,
            partial(_nut, joint, layout),
        )
        for joint in layout.joints
        if joint.label not in sunk
    )
    return told(rooms, layout, sunk.values())


def _into_own(joint: Joint, bodies: tuple[Named, ...], layout: Joined) -> Finding | None:
    """A nut that runs into its own clamp's loop or that clamp's tube."""
    own = own_names(joint, layout)
    loop = [b for b in bodies if b.owner in own and not b.what.startswith("feet")]
    mine, touching = nearest(nut_body(joint), loop)
    if mine is None or touching > SAME_MM:
        return None
    says = f"Nut or bolt end runs into the {mine.what} it belongs to: the reach is too short for this nut."
    flats = shown(joint.stack.nut.across_flats_mm, layout)
    change = f"Measure the clamp's reach again, or take a nut that is less than {flats} across flats."
    source = rule("component-clearance").source
    return _nuts(joint.label, "fail", 0.0, 0.0, "mm", says, change, (source,))


def _nut(joint: Joint, layout: Joined, other: Named | None, clear: Clear) -> Finding:
    limit = rule("component-clearance")
    found = partial(_nuts, where=joint.label, limit=limit.value, unit="mm", sources=(limit.source,))
    if other is None:
        says = "Nut and bolt end are clear of everything."
        return found(verdict="pass", value=None, says=says, change="")
    found = partial(found, value=clear.mm, plus_minus=clear.plus_minus_mm)
    if clear.mm >= limit.value - SAME_MM:
        says = f"Nut and bolt end are {sure(clear, layout)} clear of the {other.what}"
        if in_doubt(clear, limit.value):
            short = short_at_worst(clear, limit.value, layout)
            other_way = f"move {joint.owner} {short} away from the {other.what}"
            return doubtful(found, says, clear, limit.value, other_way, layout)
        return found(verdict="pass", says=f"{says}.", change="")
    short = at_least(limit.value - clear.mm, layout)
    change = f"Move {joint.owner} {short} away from the {other.what}, or set stand_off {short} higher."
    if own_names(joint, layout):
        change = f"Slide {joint.owner} along its tube, {short} away from the {other.what}."
    if clear.mm <= SAME_MM:
        says = f"Nut or bolt end runs into the {other.what}."
        return found(verdict="fail", says=says, change=change)
    says = f"Nut or bolt end is only {sure(clear, layout)} from the {other.what}: it will wear it."
    return found(verdict="caution", says=says, change=change)


CLAMPS = (
    Check(
        "CLAMP-2",
        "clamps against each other",
        "Distance between loops and feet of every two clamps; the nearest two stand for a pass.",
        clamp_against_clamp,
        rules=("clamp-clearance",),
    ),
)
CHECKS = (
    *CLAMPS,
    Check(
        "CLAMP-3",
        "bolt heads against components",
        "Distance from each head and washer to components that the bolt does not hold; the least for a pass.",
        head_against_component,
        rules=("component-clearance",),
    ),
    Check(
        "CLASH-1",
        "nuts against tubes and clamps",
        "Distance from each nut and bolt end to tubes and clamps other than its own; the least for a pass.",
        nut_against_structure,
        rules=("component-clearance",),
    ),
)
