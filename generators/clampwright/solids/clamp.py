"""A cushioned loop clamp as a reference body: loop, cushion, feet and the hole in the feet.

Loop radius, reach, seat, thickness of the feet, band width and hole are the clamp's own. How the band
leaves the loop differs between makes: here each face of the feet runs straight on to the loop, and where
it would pass above it, along the tangent.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise

from clampwright.layout.joined import Loop
from clampwright.layout.outline import Arc, Line, Outline
from clampwright.quantities import Vec2
from clampwright.quantities.directions import cross
from clampwright.solids.body import Body
from clampwright.solids.place import Place
from clampwright.solids.shapes import Shape, cut, prism, ring
from clampwright.trade.clamps import LoopClamp


def clamp_bodies(clamp: Loop) -> Iterator[Body]:
    """Band and cushion of a clamp where it is closed; no cushion where the band leaves no room for one."""
    place, part_number = clamp_place(clamp), clamp.clamp.part
    yield Body(f"clamp {clamp.label} band", f"{part_number} band", "band", band(clamp.clamp), place)
    lined = clamp.clamp.outside_radius_mm - clamp.clamp.band_mm > clamp.clamp.loop_mm / 2
    if lined:
        yield Body(
            f"clamp {clamp.label} cushion", f"{part_number} cushion", "cushion", cushion(clamp.clamp), place
        )


def clamp_place(clamp: Loop) -> Place:
    """The clamp's own frame in the world: origin on the tube's axis, x towards its bolt, z along it."""
    x, y, z = (clamp.turn * c for c in cross(clamp.bolt_axis, clamp.axis))
    return Place(clamp.centre, (x, y, z), clamp.bolt_axis)


@lru_cache(maxsize=64)
def band(clamp: LoopClamp) -> Shape:
    """Loop and feet in the clamp's own frame, as one solid with the hole at x = reach."""
    half = clamp.band_width_mm / 2
    side = Place((0.0, half, 0.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
    loop = ((0.0, 0.0), 2 * (clamp.outside_radius_mm - clamp.band_mm))
    strap = prism(side_view(clamp), [loop], clamp.band_width_mm, side)
    under = Place((0.0, 0.0, clamp.seat_mm - 2 * clamp.feet_mm))
    through = 3 * clamp.feet_mm
    hole = ring(clamp.foot_hole_mm, 0.0, through, Place((clamp.reach_mm, 0.0, under.origin[2])))
    return cut(strap, [hole, prism(_round_end(clamp), [], through, under)])


@lru_cache(maxsize=64)
def cushion(clamp: LoopClamp) -> Shape:
    """The lining of the loop in the clamp's own frame."""
    across = Place((0.0, clamp.band_width_mm / 2, 0.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
    return ring(2 * (clamp.outside_radius_mm - clamp.band_mm), clamp.loop_mm, clamp.band_width_mm, across)


@lru_cache(maxsize=64)
def wrap(line_mm: float, thickness_mm: float, width_mm: float) -> Shape:
    """Tape round a line under a clamp, in the clamp's own frame."""
    across = Place((0.0, width_mm / 2, 0.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
    return ring(line_mm + 2 * thickness_mm, line_mm, width_mm, across)


def side_view(clamp: LoopClamp) -> Outline:
    """Outside of loop and feet seen along the tube: x towards the bolt, y along it, origin on the axis."""
    radius, end = clamp.outside_radius_mm, clamp.reach_mm + clamp.foot_end_mm
    top, below = clamp.seat_mm, clamp.seat_mm - clamp.feet_mm
    flat = clamp.reach_mm - clamp.foot_end_mm
    upper = _leave(radius, top, flat, upper=True)
    lower = _leave(radius, below, flat, upper=False)
    corners = [*lower, (end, below), (end, top), *reversed(upper)]
    lines = tuple(Line(a, b) for a, b in pairwise(corners))
    return Outline((*lines, Arc(corners[-1], corners[0], (0.0, 0.0), ccw=True)))


def _leave(radius: float, height: float, flat: float, upper: bool) -> tuple[Vec2, ...]:
    """Where a face of the feet at this height meets the loop, from the loop outwards."""
    if abs(height) <= radius:
        return ((math.sqrt(radius**2 - height**2), height),)
    swing = math.acos(radius / math.hypot(flat, height))
    angle = math.atan2(height, flat) + (swing if upper else -swing)
    return ((radius * math.cos(angle), radius * math.sin(angle)), (flat, height))


def _round_end(clamp: LoopClamp) -> Outline:
    """What the rounded end leaves off the square one, in plan."""
    half, end = clamp.band_width_mm / 2, clamp.reach_mm + clamp.foot_end_mm
    radius = min(half, clamp.foot_end_mm)
    start, out, over = end - radius, end + clamp.foot_end_mm, 2 * half
    upper, lower = (start, half - radius), (start, radius - half)
    corners: list[Vec2] = [
        (start, -half),
        (start, -over),
        (out, -over),
        (out, over),
        (start, over),
        (start, half),
    ]
    lines = [Line(a, b) for a, b in pairwise(corners)]
    first = Arc((start, half), (end, upper[1]), upper, ccw=False)
    last = Arc((end, lower[1]), (start, -half), lower, ccw=False)
    straight = [Line(first.end, last.start)] if half - radius > 1e-9 else []
    return Outline((*lines, first, *straight, last))
