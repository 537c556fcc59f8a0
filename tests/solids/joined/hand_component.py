"""A separator on bushings laid out by hand: every place in it follows from one line of arithmetic.

Tube `low` runs along x at z = 0, tube `high` parallel to it at y = 150, z = 8. The clamps' feet look up; the
holes lie a reach inside of each tube, y = 19.812 and y = 130.188. The lowest lug lies 6 mm over the higher
feet: lugs at 8 + 13.1318 + 6 = 27.1318, bushings of 14 and 6 mm.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from joined_recipes import HIGH, LOW, MEASURED, STOCK, bushing_recipe

from clampwright.layout.bodies import Box
from clampwright.layout.bushing_making import Filled, ToFill, fill
from clampwright.layout.bushing_placed import Answer, BushingLayout
from clampwright.layout.joined import Joint, Named
from clampwright.layout.placed import ClampPlace, Frame, Stack, StackItem
from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.bushing_model import Lug, MountedComponent
from clampwright.trade.clamps import loop_clamp
from clampwright.trade.hardware import nut

CLAMP = loop_clamp(
    LOW.od_mm, "CH", reach_mm=MEASURED.reach_mm, seat_mm=MEASURED.seat_mm, feet_mm=MEASURED.feet_mm
)
LUG, STAND_OFF = 3.0, 6.0
ORIGIN: Vec3 = (250.0, 75.0, HIGH.start[2] + CLAMP.seat_mm + STAND_OFF)
OUT = 75.0 - CLAMP.reach_mm
"""From the component's middle to its holes, along y."""
HOLES: dict[str, tuple[str, Vec2]] = {
    "A1": ("low", (-40.0, -OUT)),
    "A2": ("low", (40.0, -OUT)),
    "B1": ("high", (0.0, OUT)),
}
GAPS = {"A1": STAND_OFF + 8.0, "A2": STAND_OFF + 8.0, "B1": STAND_OFF}
TURN = {"low": 1, "high": -1}
"""The hole lies at turn * reach * (z cross x), which is turn * reach * y."""
BODY: Vec3 = (100.0, 130.0, 90.0)
HOLE_D = 5.2
UP: Vec3 = (0.0, 0.0, 1.0)
ALONG: Vec3 = (1.0, 0.0, 0.0)


class HandLayout(BushingLayout):
    """Its joints are written down here too."""

    @property
    def joints(self) -> tuple[Joint, ...]:
        return tuple(_joint(clamp) for clamp in self.clamps)


def component(**more: Any) -> MountedComponent:
    """The separator."""
    lugs = tuple(Lug(at, LUG, 0.0) for _, at in HOLES.values())
    made = MountedComponent("separator", 0.5, lugs, HOLE_D, BODY, 0.0, None, "mount")
    return replace(made, **more)


def hand_component(**more: Any) -> HandLayout:
    """The whole layout; `more` changes the component, without moving anything."""
    held = component(**more)
    filled = _filled()
    frame = Frame(ORIGIN, ALONG, (0.0, 1.0, 0.0), UP)
    answer = Answer(frame, (), 0.0, 0.2, True, (), 14.0, 8.0, 0.0, 0.0, "")
    box = None
    if held.body is not None:
        length, width, height = held.body
        middle = (ORIGIN[0], ORIGIN[1], ORIGIN[2] + held.body_base_mm + height / 2)
        axes = (ALONG, (0.0, 1.0, 0.0), UP)
        box = Named("separator", "separator", Box(middle, axes, (length / 2, width / 2, height / 2)))
    return HandLayout(
        recipe=bushing_recipe(component=held),
        frame=frame,
        answer=answer,
        others=(),
        examined=1,
        fitting=1,
        clamps=tuple(_clamp(label, filled) for label in HOLES),
        component=box,
        centre_of_gravity=ORIGIN,
        cg_assumed=True,
        cuts=filled.cuts,
        bushings=filled.parts,
        remedies=(),
        hardware=(),
        assumed=(),
    )


def in_world(at: Vec2, height: float = 0.0) -> Vec3:
    """A place of the component's frame in the world."""
    return (ORIGIN[0] + at[0], ORIGIN[1] + at[1], ORIGIN[2] + height)


def _filled() -> Filled:
    lug = StackItem("component lug", "separator", LUG)
    feet = StackItem("clamp feet", CLAMP.part, CLAMP.feet_mm)
    gaps = [ToFill(label, gap, (lug,), (feet,)) for label, gap in GAPS.items()]
    return fill(gaps, "AN3", nut("MS21044", "AN3"), STOCK, 90.0, "mm", nut_height_mm=6.0)


def _clamp(label: str, filled: Filled) -> ClampPlace:
    name, at = HOLES[label]
    tube = {"low": LOW, "high": HIGH}[name]
    station = ORIGIN[0] + at[0]
    return ClampPlace(
        label=label,
        tube=name,
        station_mm=station,
        side="inboard",
        turn=TURN[name],
        clamp=CLAMP,
        centre=tube.point(station),
        axis=ALONG,
        bolt_axis=UP,
        tilt_rad=0.0,
        station_given=False,
        measured=frozenset({"reach", "seat", "feet"}),
        at=at,
        at_exact=at,
        seat_z_mm=-GAPS[label],
        packing=filled.packings[label],
        gap_mm=GAPS[label],
        stack=filled.stacks[label],
    )


def _joint(clamp: ClampPlace) -> Joint:
    head = in_world(clamp.at, LUG + _over_lug(clamp.stack))
    return Joint(clamp.label, "separator", head, (0.0, 0.0, -1.0), clamp.stack, (clamp.label,))


def _over_lug(stack: Stack) -> float:
    names = [item.name for item in stack.items]
    return sum(item.thickness_mm * item.count for item in stack.items[: names.index("component lug")])
