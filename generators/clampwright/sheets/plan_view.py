"""The plan of a component or plate from its component side: holes, clamps and tubes beneath, to scale."""

from __future__ import annotations

import math

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.clash_bodies import band_body, feet_body, tube_body
from clampwright.layout.joined import line_named
from clampwright.layout.placed import ClampPlace, PlateLayout
from clampwright.quantities import Vec2
from clampwright.recipe.bushing_model import BushingJob
from clampwright.sheets.canvas import Drawn, Picture, framed
from clampwright.sheets.drawing import Box, Path, Pen
from clampwright.sheets.ink import ACCENT, BLACK, FOOTPRINT, GREY, HOLE, OUTLINE
from clampwright.sheets.placement import Placement, polygon
from clampwright.sheets.silhouettes import Eye, silhouette
from clampwright.trade import fasteners

Planned = PlateLayout | BushingLayout

_AROUND = 9.0
"""Room on the page round everything, for labels."""

_TUBE, AXIS = Pen(0.13, GREY), Pen(0.13, GREY, (4.0, 1.0, 0.8, 1.0))
_CLAMP = Pen(0.18, GREY)
_ARM = 9.0
_CROSS = 1.2


def plan_view(layout: Planned, box: Box) -> Drawn:
    """The plan in a box of the page, no higher than it needs."""
    frame = layout.frame
    eye = Eye(frame.origin, frame.u, frame.v)
    clamps = [silhouette(body, eye) for loop in layout.loops for body in (band_body(loop), feet_body(loop))]
    picture = framed(eye, [*clamps, *_made(layout, eye), [at for _, at, _ in _holes(layout)]], box, _AROUND)
    _tubes(layout, picture)
    for loop in layout.loops:
        picture.body(band_body(loop), _CLAMP)
        picture.body(feet_body(loop), _CLAMP)
    for shape in _made(layout, eye):
        pen = OUTLINE if isinstance(layout, PlateLayout) else FOOTPRINT
        picture.ring([picture.page(point) for point in shape], pen)
    if isinstance(layout, PlateLayout):
        for part in layout.components:
            if part.corners:
                picture.ring([picture.page(point) for point in part.corners], FOOTPRINT)
    _origin(layout, picture)
    for lines, at, diameter in _holes(layout):
        centre = picture.hole(at, diameter, HOLE)
        picture.name(lines, [(centre, picture.scale * diameter / 2 + 0.4)])
    for clamp in missed(layout):
        _bolt(picture, clamp)
    return picture.finished()


def missed(layout: Planned) -> tuple[ClampPlace, ...]:
    """The clamps of a component whose bolts come so far beside their holes that a picture shows it."""
    if isinstance(layout, PlateLayout):
        return ()
    least = layout.answer.allowed_mm
    return tuple(c for c in layout.clamps if math.dist(c.at, c.at_exact) > least)


def _bolt(picture: Picture, clamp: ClampPlace) -> None:
    """A cross where a bolt comes."""
    x, y = picture.page(clamp.at_exact)
    for rise in (-_CROSS, _CROSS):
        picture.line((x - _CROSS, y - rise), (x + _CROSS, y + rise), Pen(0.3, ACCENT))
    picture.line((x, y), picture.page(clamp.at), Pen(0.13, ACCENT, (0.8, 0.6)))


def _made(layout: Planned, eye: Eye) -> list[tuple[Vec2, ...]]:
    """The plate's outline, or the component's body."""
    if isinstance(layout, PlateLayout):
        return [polygon(layout.outline, Placement((0.0, 0.0)))]
    return [silhouette(part.body, eye) for part in layout.parts]


def _holes(layout: Planned) -> list[tuple[tuple[str, ...], Vec2, float]]:
    """Labels, place and diameter of each hole."""
    if isinstance(layout, PlateLayout):
        return [((hole.label,), hole.at, hole.diameter_mm) for hole in layout.holes]
    job = layout.recipe.asked(BushingJob)
    size = job.component.hole_mm or fasteners.nominal_mm(job.fastener.bolt)
    return [((c.label, f"hole {n}"), c.at, size) for n, c in enumerate(layout.clamps, 1)]


def _tubes(layout: Planned, picture: Picture) -> None:
    """The tubes that carry clamps: both edges, axis, an arrow from start to end, the name."""
    for name in dict.fromkeys(loop.tube for loop in layout.loops):
        tube = line_named(name, layout)
        picture.body(tube_body(tube), _TUBE)
        a, b = (picture.page(picture.eye.seen(point)) for point in (tube.start, tube.end))
        picture.line(a, b, AXIS)
        seen = [item for item in picture.items if isinstance(item, Path) and item.pen is AXIS]
        long = math.dist(a, b)
        if long > 0 and seen:
            p, q = seen[-1].points
            way = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
            picture.arrow((p[0] + 0.9 * (q[0] - p[0]), p[1] + 0.9 * (q[1] - p[1])), way)
            spots = [
                (p[0] + s * (q[0] - p[0]), p[1] + s * (q[1] - p[1])) for s in (0.5, 0.35, 0.65, 0.2, 0.8)
            ]
            reach = picture.scale * tube.od_mm / 2
            picture.name([f"tube {name}"], [(spot, reach) for spot in spots], pale=True)


def _origin(layout: Planned, picture: Picture) -> None:
    """The frame's x and y at its origin: the component's own, or the plate's datum corner."""
    names = ("X", "Y") if isinstance(layout, PlateLayout) else ("x", "y")
    x, y = picture.page((0.0, 0.0))
    for name, way in zip(names, ((1.0, 0.0), (0.0, 1.0)), strict=True):
        tip = (x + _ARM * way[0], y + _ARM * way[1])
        picture.line((x, y), tip, Pen(0.18))
        picture.arrow(tip, way, BLACK)
        picture.name([name], [(tip, 0.3)], pale=True)
