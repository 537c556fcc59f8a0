"""Turning: what keeps a component or line from turning about one bolt, one tube or one line of bolts."""

from __future__ import annotations

from functools import partial

import numpy as np

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.axes import on_one_axis
from clampwright.checks.finding import Finding
from clampwright.checks.forces import force
from clampwright.checks.supports import spread
from clampwright.checks.wording import at_least, shown
from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.joined import Joined
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.trade.line_supports import support_spacing
from clampwright.trade.tables import rule

_turns = partial(Finding, "TURN-1", "what keeps it from turning")
_KEYS = ("support-spread-least", "support-apart", "support-line-angle")
_GRIP = ("clamp-slips-from", "clamp-slips-by")


def held_against_turning(layout: Joined) -> tuple[Finding, ...]:
    """TURN-1: two supports or more, not on one tube and not on one line.

    One bolt alone turns; clamps on one tube swing about it as soon as the cushions slip; bolts on one
    line let the part rock about it. A line on one bolt must be held at another place too.
    """
    if isinstance(layout, StandOffLayout):
        return (_line(layout),)
    if isinstance(layout, BushingLayout):
        return (_component(layout),)
    return ()


def _line(layout: StandOffLayout) -> Finding:
    carried = layout.recipe.asked(StandOffJob).carried
    most = support_spacing(carried.what, layout.line.od_mm)
    found = partial(
        _turns, where=layout.line.name, unit="mm", limit=most.most_mm, sources=_sources(most.source)
    )
    one = "One bolt joins the two: on its own the pair can turn about it"
    supports = carried.next_supports_mm
    if supports is None:
        says = f"{one}; whether {carried.name} is held elsewhere the recipe does not say."
        within = shown(most.most_mm, layout)
        change = f"Hold {carried.name} at another place within {within} and write next_supports."
        return found(verdict="unknown", value=None, says=says, change=change)
    nearest = min(supports)
    says = f"{one}; {carried.name} is held again {shown(nearest, layout)} away, and that keeps it"
    if nearest <= most.most_mm + SAME_MM:
        return found(verdict="pass", value=nearest, says=f"{says}.", change="")
    change = f"Add a support within {shown(most.most_mm, layout)} of this one."
    return found(verdict="caution", value=nearest, says=f"{says} only loosely.", change=change)


def _component(layout: BushingLayout) -> Finding:
    name = layout.parts[0].what if layout.parts else "the component"
    least = rule("support-spread-least").value
    found = partial(_turns, where=name, unit="", limit=least)
    points = np.array([clamp.at for clamp in layout.clamps], dtype=float).reshape(-1, 2)
    length, width = spread(points) if len(points) > 1 else (0.0, 0.0)
    apart = at_least(rule("support-apart").value, layout)
    if length <= SAME_MM:
        says = f"One bolt alone holds {name}: it can turn about that bolt."
        change = f"Add a second clamp at least {apart} away, on another tube."
        return found(verdict="fail", value=0.0, says=says, change=change, sources=_sources())
    ratio = width / length
    if on_one_axis(layout.clamps, max(SAME_MM, least * length)):
        return _on_one_tube(found, ratio, name, apart, layout)
    found = partial(found, value=ratio, sources=_sources())
    if ratio >= least:
        says = (
            f"{len(points)} bolts spread over {shown(length, layout)} by {shown(width, layout)} on more than "
            f"one tube: {name} can neither turn nor rock."
        )
        return found(verdict="pass", says=says, change="")
    off = at_least(least * length, layout)
    says = (
        f"The bolts lie on one line (within {shown(width, layout)} over {shown(length, layout)}): {name} can "
        "rock about it as far as the bands give."
    )
    change = f"Hold one more of its holes, at least {off} off that line, or stay it to another tube."
    return found(verdict="caution", says=says, change=change)


def _on_one_tube(
    found: partial[Finding], ratio: float, name: str, apart: str, layout: BushingLayout
) -> Finding:
    low, high = (force(rule(key).value, layout) for key in _GRIP)
    says = f"All clamps sit on one tube: only the grip of their cushions keeps {name} from swinging about it"
    says += (
        f"; along its tube a sister clamp holds {low} and slips by {high}, about it no figure is published."
    )
    change = f"Add a clamp on another tube, or move one there, {apart} away or more."
    return found(
        verdict="fail", value=ratio, says=says, change=change, sources=_sources(rule(_GRIP[0]).source)
    )


def _sources(*more: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*(rule(key).source for key in _KEYS), *more)))


CHECKS = (
    Check(
        "TURN-1",
        "what keeps it from turning",
        "Width over length of the pattern of bolts and whether all sit on one tube; a line's next supports.",
        held_against_turning,
        rules=(*_KEYS, *_GRIP, "support-spacing-most", "hose-support-spacing-most"),
        sources=("mil-h-8891a-recalled",),
    ),
)
