"""Clamps and stacks as simple bodies for the pictures: band and feet of a loop, the layers on a bolt."""

from __future__ import annotations

from clampwright.layout.bodies import Box, Cylinder
from clampwright.layout.clash_bodies import along
from clampwright.layout.joined import Joint, Loop
from clampwright.quantities import Vec3
from clampwright.sheets.silhouettes import cross
from clampwright.sheets.stack_shapes import sizes


def outward(loop: Loop) -> Vec3:
    """Unit vector from the tube's axis towards the bolt: turn * (bolt axis x tube axis)."""
    x, y, z = cross(loop.bolt_axis, loop.axis)
    return (loop.turn * x, loop.turn * y, loop.turn * z)


def band(loop: Loop) -> Cylinder:
    """The loop with its cushion, as a drum of the band's width."""
    half = loop.clamp.band_width_mm / 2
    return Cylinder(
        along(loop.centre, (loop.axis, -half)),
        along(loop.centre, (loop.axis, half)),
        loop.clamp.outside_radius_mm,
    )


def feet(loop: Loop) -> Box:
    """Both feet, from abreast of the tube's axis to their free end."""
    clamp, out = loop.clamp, outward(loop)
    long = clamp.reach_mm + clamp.foot_end_mm
    inside = clamp.seat_mm - clamp.feet_mm / 2
    centre = along(loop.centre, (out, long / 2), (loop.bolt_axis, inside))
    axes = (loop.axis, out, loop.bolt_axis)
    return Box(centre, axes, (clamp.band_width_mm / 2, long / 2, clamp.feet_mm / 2))


def layers(joint: Joint) -> tuple[tuple[str, Cylinder], ...]:
    """(name, body) of bolt and round layers, in the order in which to draw them: bolt, layers, head, nut."""
    size, pieces = sizes(joint.stack), []
    depth = 0.0
    for item in joint.stack.items:
        thick = item.thickness_mm * item.count
        if item.od_mm and thick > 0:
            pieces.append((item.name, _piece(joint, depth, depth + thick, item.od_mm)))
        depth += thick
    bolt = _piece(joint, 0.0, max(size.end, size.stack), size.shank)
    head = _piece(joint, 0.0 - size.head_high, 0.0, size.head_across)
    nut = _piece(joint, size.stack, size.stack + size.nut_high, size.nut_across)
    return (("bolt", bolt), *pieces, ("head", head), ("nut", nut))


def _piece(joint: Joint, top: float, bottom: float, od_mm: float) -> Cylinder:
    return Cylinder(along(joint.head, (joint.axis, top)), along(joint.head, (joint.axis, bottom)), od_mm / 2)
