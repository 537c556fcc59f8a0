"""Legs of a bent part: from the outside mould line of a bend to the edge, as a brake measures them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, MutableMapping, Sequence
from dataclasses import dataclass

from clampwright.layout.shop.told import Bend, FlatPart
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box, Path
from clampwright.sheets.shop.dimensioning.lanes import beside
from clampwright.sheets.shop.dimensioning.linear import Kind, Length
from clampwright.sheets.shop.dimensioning.wording import length
from clampwright.sheets.shop.drawn_view import DrawnView, near
from clampwright.sheets.shop.view_edges import CLOSE, Segment, from_vertex, meeting, straight
from clampwright.solids.view_lines import ViewArc

_AXES = {"right": "zy", "left": "zy", "top": "xz", "bottom": "xz"}
"""Axes of the part that lie across and up a view."""


@dataclass(frozen=True, slots=True)
class Corner:
    """A bend on edge: where its outer faces would meet, its centre, and those faces, near end first."""

    mould: Vec2
    centre: Vec2
    faces: tuple[Segment, Segment]


def dimension_legs(
    sides: Sequence[DrawnView],
    part: FlatPart,
    said: MutableMapping[str, float],
    rays: Mapping[str, Sequence[Box]],
) -> None:
    """Add every leg that ends in an edge, once.

    Parameters
    ----------
    sides : Sequence[DrawnView]
        Views that may show bends on edge.
    part : FlatPart
        What is bent.
    said : MutableMapping[str, float]
        Overall sizes by axis of the part; each may be one leg, and is taken away with it.
    rays : Mapping[str, Sequence[Box]]
        By view, extension lines that are still to come: (x0, y0, x1, y1).
    """
    planes: set[str] = set()
    for view in sides:
        plane, done = _AXES.get(view.view.name, ""), list[Vec2]()
        if plane in planes:
            continue
        planes.add(plane)
        for bend in part.bends:
            for corner in corners(view, bend, part.thickness_mm):
                if all(math.dist(corner.mould, other) > CLOSE for other in done):
                    done.append(corner.mould)
                    _dimension(view, corner, part, said, rays.get(view.view.name, ()))


def corners(view: DrawnView, bend: Bend, t: float) -> Iterator[Corner]:
    """Places of a view where a bend like that is seen on edge."""
    edges = list(straight(view.view, 1.5 * t))
    outer = bend.inside_radius_mm + t
    setback, away = outer * math.tan(bend.angle_rad / 2), outer / math.cos(bend.angle_rad / 2)
    for n, one in enumerate(edges):
        for two in edges[n + 1 :]:
            mould = meeting(one, two)
            if mould is None:
                continue
            faces = from_vertex(mould, one, edges), from_vertex(mould, two, edges)
            if not all(near(math.dist(mould, face[0]), setback, CLOSE) for face in faces):
                continue
            (ax, ay), (bx, by) = (_way(mould, face[1]) for face in faces)
            if not near(math.acos(max(-1.0, min(1.0, ax * bx + ay * by))), math.pi - bend.angle_rad, CLOSE):
                continue
            long = math.hypot(ax + bx, ay + by)
            centre = mould[0] + away * (ax + bx) / long, mould[1] + away * (ay + by) / long
            if _has_arc(view, centre, bend.inside_radius_mm):
                yield Corner(mould, centre, faces)


def _dimension(
    view: DrawnView, corner: Corner, part: FlatPart, said: MutableMapping[str, float], rays: Sequence[Box]
) -> None:
    free = [face for face in corner.faces if _is_edge(view, face[1], part.thickness_mm)]
    wanted = []
    for _, end in free:
        size = math.dist(corner.mould, end)
        axis = _axis(view, corner.mould, end)
        if near(said.get(axis, -1.0), size, CLOSE):
            del said[axis]
        else:
            wanted.append((end, size))
    if not wanted:
        return
    mould, pen = view.point(corner.mould), view.style.pen
    view.add(Path((view.point(face[0]), mould), pen) for face in corner.faces)
    for end, size in wanted:
        ends = mould, view.point(end)
        leg = Length(_kind(*ends), ends, size, length(size, part.units), view.scale)
        ux, uy = leg.along()
        out = view.point(corner.centre)
        depth = (out[1] - mould[1]) * ux - (out[0] - mould[0]) * uy
        view.dimensions.append(beside(leg, -math.copysign(1.0, depth), view.room, view.style, rays))


def _kind(a: Vec2, b: Vec2) -> Kind:
    if near(a[1], b[1], CLOSE):
        return "horizontal"
    return "vertical" if near(a[0], b[0], CLOSE) else "aligned"


def _axis(view: DrawnView, a: Vec2, b: Vec2) -> str:
    """Axis of the part along which a leg lies; none where it is oblique."""
    kind, axes = _kind(a, b), _AXES.get(view.view.name, "")
    return "" if kind == "aligned" or not axes else axes[0 if kind == "horizontal" else 1]


def _is_edge(view: DrawnView, at: Vec2, t: float) -> bool:
    """Whether a face ends there in an edge as thick as the sheet."""
    return any(
        near(math.dist(a, b), t, CLOSE) and min(math.dist(a, at), math.dist(b, at)) < CLOSE
        for a, b in straight(view.view, 0.0)
    )


def _has_arc(view: DrawnView, centre: Vec2, radius: float) -> bool:
    arcs = (edge for edge in view.view.seen if isinstance(edge, ViewArc))
    return any(near(arc.radius, radius, CLOSE) and math.dist(arc.centre, centre) < CLOSE for arc in arcs)


def _way(a: Vec2, b: Vec2) -> Vec2:
    long = math.dist(a, b)
    return (b[0] - a[0]) / long, (b[1] - a[1]) / long
