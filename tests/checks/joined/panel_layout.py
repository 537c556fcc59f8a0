"""The hose held on the firewall by one clamp, by hand.

The firewall's face is the plane x = -50, looking along +x. The hose runs along y at x = -50 + 30 = -20 and
z = 0, its clamp at y = 0: seat 13.1318, so that 30 - 13.1318 = 16.8682 are left for the spacer; the bolt at
(., 0, -19.812).
"""

from __future__ import annotations

from dataclasses import replace

import joined_recipes as given
from checks.joined.hand_layouts import (
    CLAMP,
    FEET,
    FEET_LAYER,
    HELD_OFF,
    NUT,
    ON_LINE,
    PLACE,
    REACH,
    SEAT,
)

from clampwright.layout.bushing_making import ToFill, fill
from clampwright.layout.joined import Joint
from clampwright.layout.placed import StackItem
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.structure.tubes import Tube

FACE = -50.0
AWAY = 30.0
LINE = Tube("oil hose", (FACE + AWAY, -150.0, 0.0), (FACE + AWAY, 150.0, 0.0), 19.05)
PANEL_LAYER = StackItem("panel", "firewall", 0.4826)
FILLED = fill([ToFill("A1", AWAY - SEAT, (FEET_LAYER,), (PANEL_LAYER,))], "AN3", NUT, given.STOCK, 90.0, "mm")
LOOP = replace(
    ON_LINE,
    label="A1",
    station_mm=150.0,
    turn=1,
    clamp=CLAMP,
    centre=(FACE + AWAY, 0.0, 0.0),
    axis=(0.0, 1.0, 0.0),
    bolt_axis=(-1.0, 0.0, 0.0),
)
"""(-1,0,0) x (0,1,0) = (0,0,-1): turn +1 puts the bolt at z = -19.812."""
_STACK = FILLED.stacks["A1"]
_HEAD = (
    FACE + AWAY - SEAT + FEET + (_STACK.items[0].thickness_mm if _STACK.items[0].name == "washer" else 0.0)
)
JOINT = Joint("A1", "oil hose", (_HEAD, 0.0, -REACH), (-1.0, 0.0, 0.0), _STACK, ("A1",))
ON_PANEL: StandOffLayout = replace(
    HELD_OFF,
    recipe=given.stand_off_recipe(
        tube=None,
        panel="firewall",
        carried=given.carried(od_mm=19.05, next_supports_mm=(300.0, 300.0)),
    ),
    line=LINE,
    panel=given.FIREWALL,
    panel_hole_mm=4.8514,
    crossing_rad=0.0,
    distance_mm=AWAY,
    place=replace(
        PLACE, bolt=(FACE + 8.4, 0.0, -REACH), axis=(1.0, 0.0, 0.0), turn_tube=0, spacer_mm=AWAY - SEAT
    ),
    loops=(LOOP,),
    joints=(JOINT,),
    bushings=FILLED.parts,
    cuts=FILLED.cuts,
)
