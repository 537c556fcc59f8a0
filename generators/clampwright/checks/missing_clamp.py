"""One clamp missing: what is left turns about a bolt or swings about a tube, and may reach a keep-out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from math import degrees, radians

import numpy as np

from clampwright.checks.added import added, keep_outs, tube_bodies
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.axes import on_one_axis
from clampwright.checks.displaced import displaced
from clampwright.checks.finding import Finding
from clampwright.checks.first_look import Array, Cores, Nearest, cores, from_box, nearest_to_each, surely
from clampwright.checks.keep_outs import DEFAULTS, source_of
from clampwright.checks.line_let_go import line_let_go
from clampwright.checks.room import from_fixed
from clampwright.layout.bodies import Body, Box, clearance
from clampwright.layout.clearance_known import Clear
from clampwright.layout.drift import turned as turned_drift
from clampwright.layout.drifts import drifts
from clampwright.layout.joined import Joined, Loop, Named
from clampwright.layout.joint_solids import loop_bodies
from clampwright.layout.moved_bodies import turned
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec3
from clampwright.structure.surroundings import KeepOut
from clampwright.trade.tables import rule

_lost = partial(Finding, "KEEP-4", "keep-outs with a clamp missing")
_HALF_TURN = 180.0


@dataclass(frozen=True, slots=True)
class Swing:
    """What a part can do once a clamp is gone: turn about a line, and which bodies go with it."""

    without: str
    about: Vec3
    axis: Vec3
    words: str
    """"turns about the bolt of A2"."""
    moving: tuple[Named, ...]
    on: Named
    """The tube or the clamp that the line of turning belongs to."""


@dataclass(frozen=True, slots=True)
class Reached:
    """The nearest that a swing comes to one keep-out."""

    swing: Swing
    body: Named
    clear_mm: float
    angle_rad: float


def clamp_missing(layout: Joined) -> tuple[Finding, ...]:
    """KEEP-4: with any one clamp gone, what is then free to move keeps its distance from every keep-out.

    With one bolt left the part turns about it; with all that is left on one tube it swings about that tube,
    either way until it lies against a tube; with clamps left on two tubes it stays. A line let go hangs
    between its next supports.
    """
    kept = layout.recipe.structure.keep_outs
    if not kept:
        return ()
    if isinstance(layout, StandOffLayout):
        return line_let_go(layout, _lost)
    others = keep_outs(layout)
    reached = [_swung(swing, others, layout) for swing in swings(layout)]
    if not reached:
        return (_stays(layout),)
    worst = (min(each, key=lambda r: r.clear_mm) for each in zip(*reached, strict=True))
    return telling(_found(k, other, each, layout) for k, other, each in zip(kept, others, worst, strict=True))


def _found(keep_out: KeepOut, other: Named, worst: Reached, layout: Joined) -> Finding:
    sources = tuple(dict.fromkeys((rule("missing-clamp-step").source, source_of(keep_out))))
    return displaced(
        partial(_lost, sources=sources),
        *(keep_out, worst.body.what, _known(worst, other, layout), _state(worst), layout),
        grave=keep_out.kind == "control",
        other_way="hold it on one more tube so that nothing swings",
    )


def _known(reached: Reached, other: Named, layout: Joined) -> Clear:
    """The distance with its ±: what swings goes with what it swings about, and with the part as it hung.

    Where a tube stops the swing, the angle at which it does so is taken as sure.
    """
    swing, angle = reached.swing, reached.angle_rad
    if reached.clear_mm <= SAME_MM:
        return Clear(0.0)
    all_drifts = drifts(layout)
    own, line = (all_drifts.of(each) or all_drifts.part for each in (reached.body, swing.on))
    turn = turned_all(np.eye(3), swing, np.array([angle]))[0].T
    body = turned(reached.body.body, swing.about, swing.axis, angle)
    return from_fixed(body, turned_drift(own, line, swing.about, turn), other, layout)


def _stays(layout: Joined) -> Finding:
    count = len({loop.tube for loop in layout.loops})
    return _lost(
        where="clamps",
        verdict="pass",
        value=float(count),
        limit=2.0,
        unit="tubes",
        says="Whichever clamp is lost, clamps on two tubes are left, and nothing can swing.",
        change="",
        sources=("assumed",),
    )


def swings(layout: Joined) -> Iterator[Swing]:
    """What each clamp's loss sets free; nothing for those whose loss leaves clamps on two tubes."""
    everything = added(layout)
    for lost in layout.loops:
        left = [loop for loop in layout.loops if loop is not lost]
        gone = {f"loop of {lost.label}", f"feet of {lost.label}"}
        moving = tuple(body for body in everything if body.what not in gone)
        if len(left) == 1:
            yield from _about_bolt(lost, left[0], moving, layout)
        elif left and on_one_axis(left, left[0].clamp.loop_mm / 2):
            words = f"{_part(layout)} swings about {left[0].tube}"
            tube = next(t for t in tube_bodies(layout) if t.owner == left[0].tube)
            yield Swing(lost.label, left[0].centre, left[0].axis, words, moving, tube)


def _about_bolt(lost: Loop, left: Loop, moving: tuple[Named, ...], layout: Joined) -> Iterator[Swing]:
    for joint in layout.joints:
        if left.label in joint.clamps:
            free = tuple(body for body in moving if body.owner not in (left.label, joint.label))
            words = f"{_part(layout)} turns about the bolt of {left.label}"
            yield Swing(lost.label, joint.head, joint.axis, words, free, loop_bodies(left)[0])


def _part(layout: Joined) -> str:
    return layout.parts[0].what if layout.parts else "the part"


def _swung(swing: Swing, others: tuple[Named, ...], layout: Joined) -> list[Reached]:
    """The nearest that a swing comes to each keep-out, both ways round."""
    step = radians(rule("missing-clamp-step").value)
    held = cores(swing.moving)
    angles: Array = np.arange(1.0, round(radians(_HALF_TURN) / step) + 1.0) * step
    free = np.concatenate([[0.0], *(_until_stopped(swing, held, turn, layout) for turn in (angles, -angles))])
    least = _surely(swing, held, free, cores(others))
    found = nearest_to_each(swing.moving, least, others, partial(_turned_to, swing=swing, angles=free))
    return [_finer(swing, near, others[near.other], free) for near in found]


def _until_stopped(swing: Swing, held: Cores, angles: Array, layout: Joined) -> Array:
    """The angles up to the first at which something lies against a tube that it did not touch before.

    The lost clamp's own bolt does not count: it may be gone too.
    """
    tubes = tube_bodies(layout)
    least = _surely(swing, held, np.array([0.0, *angles.tolist()]), cores(tubes))
    before = {
        (b, t)
        for b, t in np.argwhere(least[0] <= 0.0).tolist()
        if clearance(swing.moving[b].body, tubes[t].body) <= SAME_MM
    }
    for state, body, tube in np.argwhere(least[1:] <= 0.0).tolist():
        if (body, tube) not in before and swing.moving[body].owner != swing.without:
            moved = turned(swing.moving[body].body, swing.about, swing.axis, float(angles[state]))
            if clearance(moved, tubes[tube].body) <= SAME_MM:
                return angles[: state + 1]
    return angles


def _surely(swing: Swing, held: Cores, angles: Array, others: Cores) -> Array:
    """Distance that each moving body surely keeps at each angle, shape (angles, bodies, others)."""
    about = np.array(swing.about)
    start, end = (about + turned_all(p - about, swing, angles) for p in (held.start, held.end))
    least = surely(Cores(start, end, held.radius, held.low, held.high, held.skin), others)
    for i, each in enumerate(swing.moving):
        if isinstance(each.body, Box):
            centre = about + turned_all(np.array([each.body.centre]) - about, swing, angles)[:, 0]
            axes = turned_all(np.array(each.body.axes), swing, angles)
            own = from_box(centre, axes, np.array(each.body.half), others)
            least[:, i] = np.maximum(least[:, i], own)
    return least


def turned_all(vectors: Array, swing: Swing, angles: Array) -> Array:
    """Vectors (n, 3) turned by every angle, shape (angles, n, 3): Rodrigues' formula for all at once."""
    k = np.array(swing.axis)
    c, s = np.cos(angles)[:, None, None], np.sin(angles)[:, None, None]
    found: Array = vectors * c + np.cross(k, vectors) * s + (vectors @ k)[:, None] * k * (1.0 - c)
    return found


def _turned_to(body: Body, state: int, swing: Swing, angles: Array) -> Body:
    return turned(body, swing.about, swing.axis, float(angles[state]))


def _finer(swing: Swing, near: Nearest, other: Named, angles: Array) -> Reached:
    """The worst place looked at again in ever smaller steps, within what the swing is free to do."""
    named = swing.moving[near.body]
    body = named.body
    low, high = float(angles.min()), float(angles.max())
    step, least = (radians(rule(f"missing-clamp-{key}").value) for key in ("step", "fine-step"))
    best = (near.clear_mm, float(angles[near.state]))
    while best[0] > 0.0 and step > least:
        step /= 2
        tries = [a for a in (best[1] - step, best[1] + step) if low <= a <= high]
        best = min([best, *((_clear_at(swing, body, other.body, a), a) for a in tries)])
    return Reached(swing, named, *best)


def _clear_at(swing: Swing, body: Body, other: Body, angle: float) -> float:
    return clearance(turned(body, swing.about, swing.axis, angle), other)


def _state(reached: Reached) -> str:
    swing, angle = reached.swing, reached.angle_rad
    by = f" by {abs(degrees(angle)):.0f}°" if abs(angle) > SAME_MM else ""
    return f"without {swing.without} {swing.words}{by}"


CHECKS = (
    Check(
        "KEEP-4",
        "keep-outs with a clamp missing",
        "Distance from each keep-out of what can turn, swing or hang once any one clamp is gone.",
        clamp_missing,
        rules=(
            "missing-clamp-step",
            "missing-clamp-fine-step",
            "line-slack-deflection",
            "hose-slack-most",
            *DEFAULTS,
        ),
        sources=("assumed",),
    ),
)
