"""A component on three bushings and a hose on a pair of clamps, built by hand so that a pencil can follow.

Two tubes of 19.05 mm run along x: "low" at y = 0, z = 0 and "high" at y = 150, z = 8. Reach 19.812,
seat 13.1318, feet 3.2131. The separator's lugs (3 mm) lie at z = 27.1318: over A1 and A2 on "low", 14 mm
above their feet, and over B1 on "high", 6 mm above its foot. Bolts at (200, 19.812), (280, 19.812) and
(240, 130.188), heads up.

The hose of 19.05 mm runs along y over "low" at x = 300, z = 60: 60 - 2 x 13.1318 = 33.7364 mm are between
the two feet. The bolt stands upright at (300 + 19.812, 19.812), its head up, on the hose's clamp.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import joined_recipes as given

from clampwright.layout.bodies import Box
from clampwright.layout.bushing_making import Filled, ToFill, fill
from clampwright.layout.bushing_placed import Answer, BushingLayout, HoleHeld
from clampwright.layout.joined import Joint, Loop, Named
from clampwright.layout.placed import ClampPlace, Frame, StackItem
from clampwright.layout.stand_off_placed import BoltPlace, StandOffLayout
from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.bushing_model import Lug
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.clamps import LoopClamp, loop_clamp
from clampwright.trade.hardware import nut_for

REACH, SEAT, FEET = 19.812, 13.1318, 3.2131
ALL = frozenset({"reach", "seat", "feet"})
CLAMP: LoopClamp = loop_clamp(19.05, "CJ", reach_mm=REACH, seat_mm=SEAT, feet_mm=FEET)
UP: Vec3 = (0.0, 0.0, 1.0)
DOWN: Vec3 = (0.0, 0.0, -1.0)
ALONG: Vec3 = (1.0, 0.0, 0.0)
NUT = nut_for("AN3", 90.0)
FEET_LAYER = StackItem("clamp feet", "clamp feet", FEET)
LUG_LAYER = StackItem("component lug", "separator", 3.0)

LUG_Z = 8.0 + SEAT + 6.0
ORIGIN: Vec3 = (240.0, 75.0, LUG_Z)
FRAME = Frame(ORIGIN, ALONG, (0.0, 1.0, 0.0), UP)
BOLTS: dict[str, Vec2] = {"A1": (200.0, REACH), "A2": (280.0, REACH), "B1": (240.0, 150.0 - REACH)}
GAPS = {"A1": LUG_Z - SEAT, "A2": LUG_Z - SEAT, "B1": 6.0}
BODY = Box((240.0, 75.0, LUG_Z + 45.0), (ALONG, (0.0, 1.0, 0.0), UP), (30.0, 40.0, 45.0))
"""60 x 80 x 90 mm, standing on the plane of the lugs between its bolts."""


def filled() -> Filled:
    """Bushings of 14, 14 and 6 mm under the lugs."""
    gaps = [ToFill(label, gap, (LUG_LAYER,), (FEET_LAYER,)) for label, gap in GAPS.items()]
    return fill(gaps, "AN3", NUT, given.STOCK, 90.0, "mm")


FILLED = filled()


def place(label: str, tube: str, station: float, turn: int) -> ClampPlace:
    """One clamp under a lug; (0,0,1) x (1,0,0) = (0,1,0), so turn +1 puts its bolt towards +y."""
    y, z = (0.0, 0.0) if tube == "low" else (150.0, 8.0)
    x, bolt_y = BOLTS[label]
    at = (x - ORIGIN[0], bolt_y - ORIGIN[1])
    return ClampPlace(
        label=label,
        tube=tube,
        station_mm=station,
        side="inboard",
        turn=turn,
        clamp=CLAMP,
        centre=(station, y, z),
        axis=ALONG,
        bolt_axis=UP,
        tilt_rad=0.0,
        station_given=False,
        measured=ALL,
        at=at,
        at_exact=at,
        seat_z_mm=z + SEAT - LUG_Z,
        packing=FILLED.packings[label],
        gap_mm=GAPS[label],
        stack=FILLED.stacks[label],
    )


CLAMPS = (
    place("A1", "low", 200.0, 1),
    place("A2", "low", 280.0, 1),
    place("B1", "high", 240.0, -1),
)


def held(hole: int, clamp: ClampPlace, misfit: Vec2 = (0.0, 0.0)) -> HoleHeld:
    """How the answer holds a hole."""
    return HoleHeld(hole, clamp.tube, clamp.turn, clamp.station_mm, misfit, clamp.gap_mm, 0.0)


ANSWER = Answer(
    frame=FRAME,
    holes=tuple(held(i, c) for i, c in enumerate(CLAMPS, 1)),
    worst_misfit_mm=0.0,
    allowed_mm=0.37,
    fits=True,
    breaks=(),
    longest_mm=14.0,
    spread_mm=8.0,
    worst_tilt_rad=0.0,
    off_mm=0.0,
    says="On low and high.",
)


def job(**more: Any) -> Any:
    """The separator with its lugs where the bolts are."""
    made = given.bushing_job()
    lugs = tuple(Lug((x - ORIGIN[0], y - ORIGIN[1]), 3.0, 0.0) for x, y in BOLTS.values())
    component = replace(made.component, lugs=lugs, body=(60.0, 80.0, 90.0), **more)
    return replace(made, component=component)


BUSHED = BushingLayout(
    recipe=given.recipe("component bushings", job(), given.structure()),
    frame=FRAME,
    answer=ANSWER,
    others=(),
    examined=1,
    fitting=1,
    clamps=CLAMPS,
    component=Named("separator", "separator", BODY),
    centre_of_gravity=(240.0, 75.0, LUG_Z + 45.0),
    cg_assumed=True,
    cuts=FILLED.cuts,
    bushings=FILLED.parts,
    remedies=(),
    hardware=(),
    assumed=(),
)


def holding(*labels: str) -> BushingLayout:
    """The separator with only some of its lugs, and their clamps."""
    chosen = [clamp for clamp in CLAMPS if clamp.label in labels]
    made = job()
    lugs = tuple(Lug(clamp.at, 3.0, 0.0) for clamp in chosen)
    made = replace(made, component=replace(made.component, lugs=lugs))
    return replace(
        BUSHED,
        recipe=given.recipe("component bushings", made, given.structure()),
        clamps=tuple(chosen),
        answer=replace(ANSWER, holes=tuple(held(i, c) for i, c in enumerate(chosen, 1))),
    )


HOSE = Tube("oil hose", (300.0, -150.0, 60.0), (300.0, 150.0, 60.0), 19.05)
BOLT: Vec2 = (300.0 + REACH, REACH)
SPACER = 60.0 - 2 * SEAT
PAIR = fill([ToFill("A1+B1", SPACER, (FEET_LAYER,), (FEET_LAYER,))], "AN3", NUT, given.STOCK, 90.0, "mm")
ON_TUBE = Loop(
    label="A1",
    tube="low",
    station_mm=BOLT[0],
    side="left",
    turn=1,
    clamp=CLAMP,
    centre=(BOLT[0], 0.0, 0.0),
    axis=ALONG,
    bolt_axis=UP,
    tilt_rad=0.0,
    station_given=False,
    measured=ALL,
)
ON_LINE = Loop(
    label="B1",
    tube="oil hose",
    station_mm=150.0 + REACH,
    side="left",
    turn=1,
    clamp=CLAMP,
    centre=(300.0, BOLT[1], 60.0),
    axis=(0.0, 1.0, 0.0),
    bolt_axis=DOWN,
    tilt_rad=0.0,
    station_given=False,
    measured=ALL,
)
"""(0,0,-1) x (0,1,0) = (1,0,0): turned to +x of the hose."""


def _pair_joint() -> Joint:
    stack = PAIR.stacks["A1+B1"]
    head_washer = stack.items[0].thickness_mm if stack.items[0].name == "washer" else 0.0
    top = 60.0 - SEAT + FEET + head_washer
    return Joint("A1+B1", "oil hose", (*BOLT, top), DOWN, stack, ("A1", "B1"))


PLACE = BoltPlace(
    number=1,
    bolt=(*BOLT, 30.0),
    axis=UP,
    turn_tube=1,
    turn_line=1,
    spacer_mm=SPACER,
    station_tube_mm=BOLT[0],
    station_line_mm=150.0 + REACH,
    tilt_rad=0.0,
    fits=True,
    breaks=(),
    says="Spacer of 33.74 mm.",
)

HELD_OFF = StandOffLayout(
    recipe=given.stand_off_recipe(
        carried=given.carried(od_mm=19.05, next_supports_mm=(300.0, 300.0), point=HOSE.start, to=HOSE.end)
    ),
    line=HOSE,
    line_solved=False,
    bundle=None,
    wrap=None,
    panel=None,
    panel_hole_mm=None,
    crossing_rad=1.5707963267948966,
    distance_mm=60.0,
    places=(PLACE,),
    place=PLACE,
    loops=(ON_TUBE, ON_LINE),
    joints=(_pair_joint(),),
    cuts=PAIR.cuts,
    bushings=PAIR.parts,
    hardware=(),
    assumed=(),
)


def within(layout: Any, **changes: Any) -> Any:
    """The layout with its structure changed."""
    structure: Structure = replace(layout.recipe.structure, **changes)
    return replace(layout, recipe=replace(layout.recipe, structure=structure))


def asking(layout: Any, **changes: Any) -> Any:
    """The layout with what its recipe asks for changed."""
    return replace(layout, recipe=replace(layout.recipe, job=replace(layout.recipe.job, **changes)))


def in_zone(layout: Any, **changes: Any) -> Any:
    """The layout with its zone changed."""
    return replace(layout, recipe=replace(layout.recipe, zone=replace(layout.recipe.zone, **changes)))
