"""Clash: clamps against each other, bolt heads against components, nuts against tubes and clamps."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from itertools import combinations
from math import dist

from clampwright.checks.added import tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, shown
from clampwright.layout.bodies import Body, Box, bound, clearance
from clampwright.layout.joined import Joined, Joint, Loop, Named
from clampwright.layout.joint_solids import bearing_radius, head_body, loop_bodies, nut_body
from clampwright.quantities import Vec3
from clampwright.trade.tables import rule

_clamps = partial(Finding, "CLAMP-2", "clamps against each other")
_heads = partial(Finding, "CLAMP-3", "bolt heads against components")
_nuts = partial(Finding, "CLASH-1", "nuts against tubes and clamps")

_FAR = 1e9


def nearest(body: Body, others: Iterable[Named]) -> tuple[Named | None, float]:
    """The nearest of some bodies and its distance, mm; those that certainly lie farther are passed over."""
    ball = bound(body)
    best: tuple[Named | None, float] = (None, _FAR)
    for least, _, other in sorted((_surely(ball, o.body), i, o) for i, o in enumerate(others)):
        if least >= best[1]:
            break
        clear = clearance(body, other.body)
        best = (other, clear) if clear < best[1] else best
    return best


def _surely(ball: tuple[Vec3, float], other: Body) -> float:
    """A distance that a body certainly keeps from a ball: a cylinder lies within its own capsule."""
    centre, radius = ball
    if isinstance(other, Box):
        middle, size = bound(other)
        return dist(centre, middle) - radius - size
    along = [e - s for s, e in zip(other.start, other.end, strict=True)]
    square = sum(a * a for a in along)
    part = sum((c - s) * a for c, s, a in zip(centre, other.start, along, strict=True)) / square
    part = min(1.0, max(0.0, part))
    foot = [s + part * a for s, a in zip(other.start, along, strict=True)]
    return dist(centre, foot) - radius - other.radius_mm


def clamp_against_clamp(layout: Joined) -> tuple[Finding, ...]:
    """CLAMP-2: loops and feet of every two clamps stay clear of each other; the nearest two for a pass.

    Two clamps on one bolt are left out: their feet lie on each other.
    """
    limit = rule("clamp-clearance").value
    bodies = {c.label: list(loop_bodies(c)) for c in layout.loops}
    best, findings = _FAR, []
    joined = {frozenset(joint.clamps) for joint in layout.joints}
    for a, b in combinations(layout.loops, 2):
        if {a.label, b.label} in joined:
            continue
        if _at_least_apart(bodies[a.label], bodies[b.label]) < max(limit, best):
            clear = _apart(a, b, bodies)
            best = min(best, clear)
            findings.append(_two_clamps(a, b, clear, layout))
    return telling(findings)


def _at_least_apart(one: list[Named], other: list[Named]) -> float:
    """A distance that two clamps certainly keep, from the balls round their bodies."""
    balls = [[bound(n.body) for n in bodies] for bodies in (one, other)]
    return min(dist(p, q) - r - s for p, r in balls[0] for q, s in balls[1])


def _apart(a: Loop, b: Loop, bodies: dict[str, list[Named]]) -> float:
    """Distance between two clamps; on one tube, what is free between their bands (negative where none)."""
    if a.tube == b.tube:
        return abs(a.station_mm - b.station_mm) - (a.clamp.band_width_mm + b.clamp.band_width_mm) / 2
    return min(nearest(n.body, bodies[b.label])[1] for n in bodies[a.label])


def _two_clamps(a: Loop, b: Loop, clear: float, layout: Joined) -> Finding:
    limit = rule("clamp-clearance")
    found = partial(
        _clamps,
        where=f"{a.label}/{b.label}",
        value=clear,
        limit=limit.value,
        unit="mm",
        sources=(limit.source,),
    )
    if clear >= limit.value - SAME_MM:
        says = f"The nearest two clamps, {a.label} and {b.label}, are {shown(clear, layout)} apart."
        return found(verdict="pass", says=says, change="")
    shift = at_least(_shift(a, b, clear, limit.value), layout)
    change = f"Slide {b.label} {shift} along {b.tube}, away from {a.label}."
    if clear <= SAME_MM:
        return found(verdict="fail", says=f"{a.label} and {b.label} run into each other.", change=change)
    says = f"{a.label} and {b.label} are only {shown(clear, layout)} apart; cushions swell and creep."
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
    made = (_head(joint, [p for p in parts if p.owner != joint.owner], layout) for joint in layout.joints)
    return telling(found for found in made if found is not None)


def _head(joint: Joint, others: list[Named], layout: Joined) -> Finding | None:
    if not others:
        return None
    limit = rule("component-clearance")
    other, clear = nearest(head_body(joint), others)
    found = partial(
        _heads, where=joint.label, value=clear, limit=limit.value, unit="mm", sources=(limit.source,)
    )
    name = other.what if other is not None else ""
    if clear >= limit.value - SAME_MM:
        says = f"Head and washer are {shown(clear, layout)} clear of {name}."
        return found(verdict="pass", says=says, change="")
    need = at_least(limit.value - clear, layout)
    if clear <= SAME_MM:
        reach = at_least(limit.value + bearing_radius(joint.stack), layout)
        change = f"Move {name} or {joint.label}: the body must stay {reach} from the bolt's centre."
        says = f"The head or its washer is under {name}: the bolt cannot be fitted."
        return found(verdict="fail", says=says, change=change)
    says = f"Head and washer are only {shown(clear, layout)} from {name}."
    return found(verdict="caution", says=says, change=f"Move {name} or {joint.label} {need} apart.")


def nut_against_structure(layout: Joined) -> tuple[Finding, ...]:
    """CLASH-1: nut and bolt end of every joint stay clear of the tubes and the clamps under the plate."""
    bodies = (*tube_bodies(layout), *clamp_bodies(layout))
    return telling(_nut(joint, bodies, layout) for joint in layout.joints)


def _nut(joint: Joint, bodies: tuple[Named, ...], layout: Joined) -> Finding:
    """The own clamp of a nut may be as near as it is made; everything else keeps the clearance."""
    own = own_names(joint, layout)
    nut = nut_body(joint)
    limit = rule("component-clearance")
    found = partial(_nuts, where=joint.label, unit="mm", sources=(limit.source,))
    loop = [b for b in bodies if b.owner in own and not b.what.startswith("feet")]
    mine, touching = nearest(nut, loop)
    if mine is not None and touching <= SAME_MM:
        says = (
            f"Nut or bolt end runs into the {mine.what} it belongs to: the reach is too short for this nut."
        )
        flats = shown(joint.stack.nut.across_flats_mm, layout)
        change = f"Measure the clamp's reach again, or take a nut that is less than {flats} across flats."
        return found(verdict="fail", value=0.0, limit=0.0, says=says, change=change)
    other, clear = nearest(nut, [b for b in bodies if b.owner not in own])
    found = partial(found, value=None if other is None else clear, limit=limit.value)
    if other is None or clear >= limit.value - SAME_MM:
        where = (
            f"{shown(clear, layout)} clear of the {other.what}"
            if other is not None
            else "clear of everything"
        )
        return found(verdict="pass", says=f"Nut and bolt end are {where}.", change="")
    short = at_least(limit.value - clear, layout)
    change = f"Move {joint.owner} {short} away from the {other.what}, or set stand_off {short} higher."
    if own:
        change = f"Slide {joint.owner} along its tube, {short} away from the {other.what}."
    if clear <= SAME_MM:
        says = f"Nut or bolt end runs into the {other.what}."
        return found(verdict="fail", says=says, change=change)
    says = f"Nut or bolt end is only {shown(clear, layout)} from the {other.what}: it will wear it."
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
