"""The bolt of a place: which way its head looks, and everything on it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.layout.bushing_making import Filled, ToFill, fill
from clampwright.layout.bushing_parts import BushingPart, CutList
from clampwright.layout.joined import Joint, Loop
from clampwright.layout.lock_nut import lock_nut
from clampwright.layout.pairing.closed import Closed
from clampwright.layout.placed import Stack, StackItem
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, turned_round
from clampwright.recipe.model import Recipe
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.structure.surroundings import Panel
from clampwright.trade.tables import rule

LAYERS = ("clamp feet", "panel")
"""Names of the layers that the bolt squeezes against the spacer."""


@dataclass(frozen=True, slots=True)
class Bolted:
    """The joint, and the spacer as a part to be made where there is one."""

    joint: Joint
    bushings: tuple[BushingPart, ...]
    cuts: CutList


@dataclass(frozen=True, slots=True)
class HeadSide:
    """Which end the bolt's head is on, and why."""

    on_line: bool
    why: str


def head_side(axis: Vec3) -> HeadSide:
    """Where a nut that is lost leaves the bolt in its holes: head up, else forward (common practice).

    A bolt nearer to level than rule `bolt-upright-least` has no upper end. `axis` looks from the support to
    the line; up is the world's z, forward its x.

    >>> head_side((0.0, 0.0, -1.0)).on_line, head_side((0.6, 0.8, 0.0)).on_line
    (False, True)
    """
    if abs(axis[2]) >= math.sin(math.radians(rule("bolt-upright-least").value)):
        return HeadSide(axis[2] > 0, "up, so that gravity keeps the bolt in if the nut is lost")
    if abs(axis[0]) >= math.sin(math.radians(rule("bolt-upright-least").value)):
        return HeadSide(
            axis[0] > 0, "forward (+x), so that the airstream keeps the bolt in if the nut is lost"
        )
    return HeadSide(
        False, "on the support's side: the bolt lies level and athwart, neither end is up or forward"
    )


def bolted(recipe: Recipe, place: Closed, loops: Sequence[Loop], panel: Panel | None) -> Bolted:
    """Everything on the bolt from its head: washer, feet, spacer, feet or panel, washer, nut."""
    job = recipe.asked(StandOffJob)
    support = _panel_layer(panel) if panel is not None else _feet(loops[0])
    head = head_side(place.axis)
    above, below = (_feet(loops[-1]), support) if head.on_line else (support, _feet(loops[-1]))
    label = "+".join(loop.label for loop in loops)
    gap = ToFill(label, max(place.spacer_mm, 0.0), (above,), (below,))
    filled = _filled(recipe, gap)
    stack = filled.stacks[label]
    joint = Joint(
        label=label,
        owner=job.carried.name,
        head=_head(place, support, stack, head.on_line),
        axis=turned_round(place.axis) if head.on_line else place.axis,
        stack=stack,
        clamps=tuple(loop.label for loop in loops),
        feet_measured=all("feet" in loop.measured for loop in loops),
    )
    return Bolted(joint, filled.parts, filled.cuts)


def _filled(recipe: Recipe, gap: ToFill) -> Filled:
    job = recipe.asked(StandOffJob)
    return fill(
        (gap,),
        job.fastener.bolt,
        lock_nut(recipe.asked(StandOffJob).fastener, recipe.zone),
        job.bushings,
        recipe.zone.temperature_c,
        recipe.units,
        nut_height_mm=job.fastener.nut_height_mm,
    )


def _feet(loop: Loop) -> StackItem:
    return StackItem("clamp feet", "clamp feet", loop.clamp.feet_mm)


def _panel_layer(panel: Panel) -> StackItem:
    return StackItem("panel", panel.name, panel.thickness_mm)


def _head(place: Closed, support: StackItem, stack: Stack, on_line: bool) -> Vec3:
    """Under the bolt's head, counted from the support's face, which the stack rests on."""
    first = next(i for i, item in enumerate(stack.items) if item.name in LAYERS)
    before = sum(item.thickness_mm * item.count for item in stack.items[:first])
    if not on_line:
        return along(place.foot, (place.axis, -(before + support.thickness_mm)))
    last = max(i for i, item in enumerate(stack.items) if item.name in LAYERS)
    return along(place.foot, (place.axis, sum(item.thickness_mm * item.count for item in stack.items[:last])))
