"""What stands round the part as reference bodies: the panel that holds it, and bodies to keep away from."""

from __future__ import annotations

import math
from collections.abc import Iterator

from clampwright.layout.bodies import Box, Capsule
from clampwright.layout.outline import Arc, Line, Outline
from clampwright.quantities import Vec2, Vec3
from clampwright.quantities.directions import along, unit
from clampwright.solids.body import Body
from clampwright.solids.place import Place, standing
from clampwright.solids.shapes import Shape, polygon, prism, revolved
from clampwright.solids.tube import Near
from clampwright.structure.surroundings import KeepOut, Panel

_EVERYWHERE = 1e9

SHOWN_MM = 1e-6
"""A body of which less than this would be left is not shown."""


def panel_patch(panel: Panel, at: Vec3, beside: Vec3, half_mm: float, hole_mm: float | None) -> Body:
    """A square of a panel round a point of its face, with the hole there; its own frame's z looks out of it.

    Parameters
    ----------
    panel : Panel
        The panel.
    at : Vec3
        Where the bolt passes its face, world.
    beside : Vec3
        World direction that two of its edges run along, as far as that lies in the face.
    half_mm : float
        Half the length of its edges.
    hole_mm : float | None
        Diameter of the hole; None: no hole.
    """
    h = half_mm
    square = polygon([(-h, -h), (h, -h), (h, h), (-h, h)])
    holes = [((0.0, 0.0), hole_mm)] if hole_mm else []
    shape = prism(square, holes, panel.thickness_mm, Place((0.0, 0.0, -panel.thickness_mm)))
    name = f"panel {panel.name}, only round the hole"
    return Body(name, f"panel {panel.name}", "panel", shape, standing(at, panel.normal, beside))


def keep_out_bodies(keep_outs: tuple[KeepOut, ...], near: Near) -> Iterator[Body]:
    """Bodies to keep away from, each cut off abreast of the ball's ends; for reference only."""
    for body in keep_outs:
        found = near_part(body, near)
        if found is not None:
            shape, place = found
            name = f"keep-out {body.name}, reference only"
            yield Body(name, f"keep-out {body.name}", "keep-out", shape, place)


def near_part(body: KeepOut, near: Near) -> tuple[Shape, Place] | None:
    """The piece of a body abreast of the ball, cut off square; None where nothing of it is."""
    return _box(body, near) if body.od_mm is None else _round(body, body.od_mm / 2, near)


def whole(body: KeepOut) -> tuple[Shape, Place]:
    """The whole body in its own frame, and where it sits."""
    found = near_part(body, Near(body.start, _EVERYWHERE))
    if found is None:
        raise ValueError(f"the keep-out {body.name} has no size")
    return found


def held_in(body: KeepOut) -> Box | Capsule:
    """The body as `check` looks at it."""
    if body.od_mm is not None:
        return Capsule(body.start, body.end, body.od_mm / 2)
    x, y, z = ((a + b) / 2 for a, b in zip(body.start, body.end, strict=True))
    length, width, height = (abs(b - a) / 2 for a, b in zip(body.start, body.end, strict=True))
    return Box((x, y, z), ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), (length, width, height))


def _box(body: KeepOut, near: Near) -> tuple[Shape, Place] | None:
    reach = near.reach_mm + body.distance_mm
    lows = [max(min(a, b), m - reach) for a, b, m in zip(body.start, body.end, near.middle, strict=True)]
    highs = [min(max(a, b), m + reach) for a, b, m in zip(body.start, body.end, near.middle, strict=True)]
    sizes = [high - low for low, high in zip(lows, highs, strict=True)]
    if min(sizes) < SHOWN_MM:
        return None
    base = polygon([(0.0, 0.0), (sizes[0], 0.0), (sizes[0], sizes[1]), (0.0, sizes[1])])
    return prism(base, [], sizes[2]), Place((lows[0], lows[1], lows[2]))


def _round(body: KeepOut, radius: float, near: Near) -> tuple[Shape, Place] | None:
    """Round ends where the body itself ends within the ball, flat where it is only cut off."""
    length = math.dist(body.start, body.end)
    x, y, z = (e - s for s, e in zip(body.start, body.end, strict=True))
    axis = unit((x, y, z)) if length > 0 else (0.0, 0.0, 1.0)
    abreast = sum((m - s) * a for m, s, a in zip(near.middle, body.start, axis, strict=True))
    low, high = max(0.0, abreast - near.reach_mm), min(length, abreast + near.reach_mm)
    if high < low:
        return None
    shape = capsule(high - low, radius, low <= 0.0, high >= length)
    return shape, standing(along(body.start, (axis, low)), axis, (1.0, 0.0, 0.0))


def capsule(length_mm: float, radius_mm: float, round_low: bool = True, round_high: bool = True) -> Shape:
    """A cylinder along z from z = 0, with a half ball on each end that is round.

    >>> round(capsule(6.0, 3.0).Volume() / math.pi, 6)
    90.0
    """
    r, top = radius_mm, length_mm + radius_mm
    foot: Vec2 = (0.0, -r if round_low else 0.0)
    crown: Vec2 = (0.0, top if round_high else length_mm)
    pieces: list[Line | Arc] = [
        Arc(foot, (r, 0.0), (0.0, 0.0), ccw=True) if round_low else Line(foot, (r, 0.0))
    ]
    if length_mm > SHOWN_MM:
        pieces.append(Line((r, 0.0), (r, length_mm)))
    last: Vec2 = pieces[-1].end
    pieces.append(Arc(last, crown, (0.0, length_mm), ccw=True) if round_high else Line(last, crown))
    return revolved(Outline((*pieces, Line(crown, foot))))
