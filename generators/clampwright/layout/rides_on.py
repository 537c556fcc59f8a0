"""What every body of a layout rides on: the part, or a clamp."""

from __future__ import annotations

from collections.abc import Mapping

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.drift import Drift
from clampwright.layout.joined import Joined, Joint, Loop
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities.directions import along, dot, minus
from clampwright.recipe.stand_off_model import StandOffJob


def head_of(joint: Joint) -> str:
    """What a bolt's head is known by."""
    return f"bolt head of {joint.label}"


def nut_of(joint: Joint) -> str:
    """What a bolt's nut is known by."""
    return f"nut of {joint.label}"


def held_off(layout: Joined) -> Loop | None:
    """The clamp on the tube that a line which gives is held off: a hose, cable or bundle, but no tube.

    Such a line goes where its spacer puts it, and the pair moves as one, wherever its tube is.
    """
    if not isinstance(layout, StandOffLayout) or layout.recipe.asked(StandOffJob).carried.what == "tube":
        return None
    return next((loop for loop in layout.loops if loop.tube != layout.line.name), None)


def on_spacer(clamps: Mapping[str, Drift], layout: Joined) -> Mapping[str, Drift]:
    """The clamps' drifts; those of a pair that holds a line which gives are one and the same."""
    first = held_off(layout)
    return dict.fromkeys(clamps, clamps[first.label]) if first is not None else clamps


def owners_of(part: Drift, clamps: Mapping[str, Drift], layout: Joined) -> dict[str, Drift]:
    """What is in the middle of a bolt goes with its first clamp, else with the part."""
    owners = {named.owner: part for named in layout.parts}
    owners |= {line.name: part for line in layout.lines}
    for joint in layout.joints:
        owners[joint.label] = next((clamps[c] for c in joint.clamps if c in clamps), part)
    return owners | {loop.label: clamps.get(loop.label, part) for loop in layout.loops}


def ends_of(part: Drift, clamps: Mapping[str, Drift], layout: Joined) -> dict[str, Drift]:
    """A head or nut goes with the clamp whose foot is next to it, and with the part where there is no clamp.

    A head on a component on bushings goes with that: its hole is there already.
    """
    loops = {loop.label: loop for loop in layout.loops}
    ends: dict[str, Drift] = {}
    for joint in layout.joints:
        own = sorted((c for c in joint.clamps if c in clamps), key=lambda c: _down_bolt(joint, loops[c]))
        head, nut = (clamps[own[0]], clamps[own[-1]]) if own else (part, part)
        ends[head_of(joint)] = part if isinstance(layout, BushingLayout) else head
        ends[nut_of(joint)] = nut
    return ends


def _down_bolt(joint: Joint, loop: Loop) -> float:
    """How far from a bolt's head the foot of a clamp lies."""
    foot = along(loop.centre, (loop.bolt_axis, loop.clamp.seat_mm))
    return dot(minus(foot, joint.head), joint.axis)
