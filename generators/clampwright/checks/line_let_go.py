"""A line whose clamp is lost: it hangs, with its slack, between the supports before and after."""

from __future__ import annotations

from functools import partial
from math import sqrt

from clampwright.checks.added import added, keep_out_body
from clampwright.checks.asked import telling
from clampwright.checks.axes import distance_from_axis
from clampwright.checks.displaced import displaced
from clampwright.checks.finding import Finding
from clampwright.checks.keep_outs import source_of
from clampwright.checks.room import from_fixed
from clampwright.checks.wording import shown
from clampwright.layout.bodies import Capsule, bound, clearance
from clampwright.layout.clearance_known import Clear
from clampwright.layout.drifts import drifts
from clampwright.layout.joined import Loop, Named
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities.directions import along
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.structure.surroundings import KeepOut
from clampwright.trade.tables import rule

PIECES = 12
"""Straight pieces that the hanging line is looked at in."""


def sag(what: str, before_mm: float, after_mm: float) -> tuple[float, str]:
    """How far a line hangs midway between two supports once the one between them is gone; and the source.

    A flat parabola of sag s over a span L is longer than L by 8 s²/(3 L). A bundle or cable that hung
    1/2 in in each of its two spans brings the slack of both: s = s₀ √((1/L₁ + 1/L₂)(L₁ + L₂)). A hose
    with a share k of slack: s = L √(3 k/8). A rigid tube does not hang.

    >>> round(sag("bundle", 300.0, 300.0)[0], 3), round(sag("hose", 300.0, 300.0)[0], 2)
    (25.4, 103.92)
    """
    span = before_mm + after_mm
    if what == "tube":
        return 0.0, "assumed"
    if what == "hose":
        slack = rule("hose-slack-most")
        return span * sqrt(3.0 * slack.value / 8.0), slack.source
    slack = rule("line-slack-deflection")
    return slack.value * sqrt((1.0 / before_mm + 1.0 / after_mm) * span), slack.source


def line_let_go(layout: StandOffLayout, made: partial[Finding]) -> tuple[Finding, ...]:
    """The line hung between its next supports, the open clamps on it, against every keep-out."""
    carried = layout.recipe.asked(StandOffJob).carried
    kept = layout.recipe.structure.keep_outs
    if carried.next_supports_mm is None:
        return (_not_known(made, layout, kept[0]),)
    sags, source = sag(carried.what, *carried.next_supports_mm)
    bodies = hanging(layout, carried.next_supports_mm, sags)
    span = sum(carried.next_supports_mm)
    free = f"free to move {shown(sags, layout)} over the {shown(span, layout)} between its next supports"
    state = f"with this clamp lost and {layout.line.name} {free}"
    found = (
        displaced(
            partial(made, sources=tuple(dict.fromkeys((source, source_of(k))))),
            *(k, *_nearest(bodies, Named(k.name, k.name, keep_out_body(k)), layout), state, layout),
            grave=k.kind == "control",
            other_way="bring its next supports nearer",
        )
        for k in kept
    )
    return telling(found)


def hanging(layout: StandOffLayout, supports: tuple[float, float], sags: float) -> tuple[Named, ...]:
    """Where the line can be, any way round, as capsules thickened by its sag; and the pair hung on it."""
    before, after = supports
    loop = layout.loops[-1]
    radius = layout.line.od_mm / 2

    def hangs(u: float) -> float:
        """Parabola through both supports, u from the lost clamp."""
        return 4.0 * sags * max(0.0, (u + before) * (after - u)) / (before + after) ** 2

    step = (before + after) / PIECES
    pieces = []
    for i in range(PIECES):
        u, v = -before + i * step, -before + (i + 1) * step
        middle = min(max(u, (after - before) / 2), v)
        body = Capsule(_on(loop, u), _on(loop, v), radius + hangs(middle))
        pieces.append(Named(layout.line.name, layout.line.name, body))
    return (*pieces, _pair(layout, loop, hangs(0.0)))


def _pair(layout: StandOffLayout, loop: Loop, sags: float) -> Named:
    """Both clamps and the bolt, hung on the line and free to turn about it."""
    balls = [bound(b.body) for b in added(layout) if b.owner != layout.line.name]
    out = max(distance_from_axis(centre, loop.centre, loop.axis) + r for centre, r in balls)
    half = loop.clamp.band_width_mm / 2
    return Named("the open clamp", loop.label, Capsule(_on(loop, -half), _on(loop, half), out + sags))


def _on(loop: Loop, u: float) -> tuple[float, float, float]:
    return along(loop.centre, (loop.axis, u))


def _nearest(bodies: tuple[Named, ...], other: Named, layout: StandOffLayout) -> tuple[str, Clear]:
    """The nearest; what hangs goes with the line where the tubes are not where they were measured."""
    _, i = min((clearance(b.body, other.body), i) for i, b in enumerate(bodies))
    return bodies[i].what, from_fixed(bodies[i].body, drifts(layout).part, other, layout)


def _not_known(made: partial[Finding], layout: StandOffLayout, keep_out: KeepOut) -> Finding:
    most = rule("line-slack-deflection")
    return made(
        where=layout.line.name,
        verdict="unknown",
        value=None,
        limit=keep_out.distance_mm,
        unit="mm",
        says=(
            f"Where {layout.line.name} hangs when this clamp is lost is not known: the recipe does not say "
            "where its next supports are."
        ),
        change=(
            "Measure along the line to the supports before and after this one and write next_supports; it "
            f"may then hang {shown(most.value, layout)} or more."
        ),
        sources=(most.source,),
    )
