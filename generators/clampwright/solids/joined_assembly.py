"""Every body of a layout of any kind where it sits in the world."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

from clampwright.layout.bodies import Box, bound, nearer_than
from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.clash_bodies import tube_body as tube_cylinder
from clampwright.layout.joined import Joined, Joint, Named
from clampwright.layout.joint_solids import joint_bodies as simple_joint_bodies
from clampwright.layout.joint_solids import loop_bodies
from clampwright.layout.placed import PlateLayout
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along
from clampwright.solids.assembly import assembly
from clampwright.solids.body import Body
from clampwright.solids.bushing_in_stack import bushings_as_made
from clampwright.solids.clamp import clamp_bodies, clamp_place, wrap
from clampwright.solids.fastener import joint_bodies
from clampwright.solids.mounted import mounted_body
from clampwright.solids.surroundings import held_in, keep_out_bodies, panel_patch
from clampwright.solids.tube import SHOWN_PART_SIZES, Near, tube_body
from clampwright.structure.surroundings import KeepOut
from clampwright.trade.tables import rule

SHOWN_LOOPS = 2.5
"""Tubes are shown at least this many outside diameters of the largest loop from the part's middle."""

PATCH_SIZES = 1.1
"""Half the edge of the piece of panel that is shown, in lengths from its bolt past the clamp's loop."""


def joined_assembly(layout: Joined) -> tuple[Body, ...]:
    """Every body of a layout of any kind in the world frame.

    Component or line, clamps, everything on the bolts, tubes, panel, and what must be kept away from where it
    is near. Of a plate it is `assembly`.
    """
    if isinstance(layout, PlateLayout):
        return assembly(layout)
    near = near_joints(layout)
    return (
        *_held(layout),
        *(body for loop in layout.loops for body in clamp_bodies(loop)),
        *(body for joint in layout.joints for body in on_bolt(joint, layout)),
        *_long(layout, near),
        *_wraps(layout),
        *_panel(layout),
        *keep_out_bodies(_near_keep_outs(layout), near),
    )


def on_bolt(joint: Joint, layout: Joined) -> Iterator[Body]:
    """Everything on one bolt, with its bushings as they are made."""
    clamp = next((loop for loop in layout.loops if loop.label in joint.clamps), None)
    beside = clamp.axis if clamp is not None else (1.0, 0.0, 0.0)
    return joint_bodies(joint, beside, bushings_as_made(layout, (joint.label, *joint.clamps)))


def near_joints(layout: Joined) -> Near:
    """The ball round everything that a layout joins: what long things are shown within."""
    points = [loop.centre for loop in layout.loops]
    points += [p for joint in layout.joints for p in (joint.head, nut_face(joint))]
    points += [p for part in layout.parts for p in _corners(part)]
    lows, highs = ([pick(axis) for axis in zip(*points, strict=True)] for pick in (min, max))
    x, y, z = ((low + high) / 2 for low, high in zip(lows, highs, strict=True))
    least = SHOWN_LOOPS * max((2 * loop.clamp.outside_radius_mm for loop in layout.loops), default=0.0)
    return Near((x, y, z), max(least, SHOWN_PART_SIZES * math.dist(lows, highs)))


def nut_face(joint: Joint) -> Vec3:
    """Where the bolt's axis passes the bearing face of the nut."""
    return along(joint.head, (joint.axis, joint.stack.thickness_mm))


def _held(layout: Joined) -> Iterator[Body]:
    if isinstance(layout, BushingLayout):
        yield mounted_body(layout)


def _long(layout: Joined, near: Near) -> Iterator[Body]:
    """Tubes and carried lines; a line goes on past the points it is given by."""
    for tube in layout.recipe.structure.tubes:
        yield from tube_body(tube, near, _stations(tube.name, layout))
    for line in layout.lines:
        yield from tube_body(line, near, _stations(line.name, layout), "line", ends=False)


def _stations(name: str, layout: Joined) -> list[float]:
    return [loop.station_mm for loop in layout.loops if loop.tube == name]


def _near_keep_outs(layout: Joined) -> tuple[KeepOut, ...]:
    """Those that come near a clamp, a bolt, the component or the line."""
    near = rule("keep-out-near").value
    own = [named.body for loop in layout.loops for named in loop_bodies(loop)]
    own += [named.body for joint in layout.joints for named in simple_joint_bodies(joint)]
    own += [*(part.body for part in layout.parts), *(tube_cylinder(line) for line in layout.lines)]
    return tuple(
        body
        for body in layout.recipe.structure.keep_outs
        if any(nearer_than(held_in(body), each, near * body.distance_mm) for each in own)
    )


def _wraps(layout: Joined) -> Iterator[Body]:
    """Tape between a carried line and its clamp, as wide as the band."""
    if not isinstance(layout, StandOffLayout) or layout.wrap is None:
        return
    bore = layout.line.od_mm
    for loop in layout.loops:
        if loop.tube == layout.line.name:
            shape = wrap(bore, layout.wrap.thickness_mm, loop.clamp.band_width_mm)
            yield Body(f"wrap {loop.label}", "wrap", "wrap", shape, clamp_place(loop))


def _panel(layout: Joined) -> Iterator[Body]:
    """A piece of the panel that the line is held on, round its bolt."""
    if not isinstance(layout, StandOffLayout) or layout.panel is None:
        return
    panel, (joint, *_), (loop, *_) = layout.panel, layout.joints, layout.loops
    slope = sum(a * n for a, n in zip(joint.axis, panel.normal, strict=True))
    down = sum((p - h) * n for p, h, n in zip(panel.point, joint.head, panel.normal, strict=True))
    half = PATCH_SIZES * (loop.clamp.reach_mm + loop.clamp.outside_radius_mm)
    at = along(joint.head, (joint.axis, down / slope))
    yield panel_patch(panel, at, loop.axis, half, layout.panel_hole_mm)


def _corners(part: Named) -> list[Vec3]:
    if not isinstance(part.body, Box):
        return [bound(part.body)[0]]
    found = []
    for signs in product((-1.0, 1.0), repeat=3):
        corner = part.body.centre
        for sign, axis, half in zip(signs, part.body.axes, part.body.half, strict=True):
            corner = along(corner, (axis, sign * half))
        found.append(corner)
    return found
