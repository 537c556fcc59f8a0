"""The part at full size in a window of a page: outline, holes, datum edges, tubes and clamps beneath."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from clampwright.layout.placed import ClampPlace, Hole, PlateLayout
from clampwright.quantities import Vec2
from clampwright.sheets.clip import clip_segment, clipped
from clampwright.sheets.drawing import Box, Circle, Item, Path
from clampwright.sheets.ink import BAND, CROSS, DATUM, FOOTPRINT, GREY, HOLE, OUTLINE, TUBE
from clampwright.sheets.labels import Room
from clampwright.sheets.placement import Placement, along_plane, in_plane, outline_items, polygon

CROSS_ARM = 1.2
"""A hole's cross reaches so far past its circle."""

DATUM_PAST = 5.0
"""The datum edges are drawn so far past the outline."""

_ARROW = 2.6
_FOOTPRINT_WEIGHT = 1.5
_OUTLINE_WEIGHT, _TUBE_WEIGHT, _BAND_WEIGHT, _DATUM_WEIGHT = 30.0, 4.0, 2.0, 10.0


@dataclass(frozen=True, slots=True)
class View:
    """A layout as it lies on one page, and the window that it shows through."""

    layout: PlateLayout
    placement: Placement
    window: Box

    @property
    def box(self) -> Box:
        """The outline's box on the page."""
        return self.placement.box(self.layout.outline.box())

    def holes(self) -> tuple[tuple[Hole, Vec2], ...]:
        """Holes whose centre is in the window, with that centre."""
        on_page = [(hole, self.placement.page(hole.at)) for hole in self.layout.holes]
        x0, y0, x1, y1 = self.window
        return tuple((hole, (x, y)) for hole, (x, y) in on_page if x0 <= x <= x1 and y0 <= y <= y1)


def beneath(view: View) -> tuple[Item, ...]:
    """What lies under and over the plate, in grey, cut off at the window: tubes, clamps, components."""
    items: list[Item] = [item for tube in tubes_in(view) for item in _tube(tube)]
    items += [_clamp(clamp, view) for clamp in view.layout.clamps]
    return clipped([*items, *_footprints(view)], view.window)


def part_items(view: View) -> tuple[Item, ...]:
    """The part itself, cut off at the window: datum edges, outline, holes."""
    items: list[Item] = []
    items += _datum(view)
    items += outline_items(view.layout.outline, view.placement, OUTLINE)
    for hole in view.layout.holes:
        items += _hole(hole, view.placement.page(hole.at))
    return clipped(items, view.window)


def _hole(hole: Hole, centre: Vec2) -> list[Item]:
    (x, y), arm = centre, hole.diameter_mm / 2 + CROSS_ARM
    level, upright = ((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm))
    return [Circle(centre, hole.diameter_mm / 2, HOLE), Path(level, CROSS), Path(upright, CROSS)]


def datum_lines(view: View) -> list[tuple[Vec2, Vec2]]:
    """Part lines x = 0 and y = 0, past the outline at both ends."""
    _, _, wide, high = view.layout.outline.box()
    past = DATUM_PAST
    ends = (((0.0, -past), (0.0, high + past)), ((-past, 0.0), (wide + past, 0.0)))
    return [(view.placement.page(a), view.placement.page(b)) for a, b in ends]


def _datum(view: View) -> list[Item]:
    return [Path(line, DATUM) for line in datum_lines(view)]


def _footprints(view: View) -> list[Item]:
    shapes = [tuple(view.placement.page(p) for p in c.corners) for c in view.layout.components]
    return [Path(shape, FOOTPRINT, closed=True) for shape in shapes if len(shape) > 2]


def _clamp_corners(clamp: ClampPlace, view: View) -> tuple[Vec2, ...]:
    """Outline of band and feet, seen along n: across the tube from the loop's far side to the feet's end."""
    frame, loop = view.layout.frame, clamp.clamp
    u, v = in_plane(frame, clamp.centre)
    du, dv = along_plane(frame, clamp.axis)
    half = loop.band_width_mm / 2 / (math.hypot(du, dv) or 1.0)
    a = (du * half, dv * half)
    away = (clamp.at_exact[0] - u, clamp.at_exact[1] - v)
    reach = math.hypot(*away) or 1.0
    p = (away[0] / reach, away[1] / reach)
    far, near = -loop.outside_radius_mm, reach + loop.foot_end_mm
    ends = ((far, -1), (near, -1), (near, 1), (far, 1))
    return tuple(view.placement.page((u + p[0] * r + a[0] * s, v + p[1] * r + a[1] * s)) for r, s in ends)


def _clamp(clamp: ClampPlace, view: View) -> Item:
    return Path(_clamp_corners(clamp, view), BAND, closed=True)


def clamps_box(view: View) -> Box:
    """Box of outline and clamps together, on the page."""
    points = [point for clamp in view.layout.clamps for point in _clamp_corners(clamp, view)]
    x0, y0, x1, y1 = view.box
    xs, ys = [x0, x1, *(x for x, _ in points)], [y0, y1, *(y for _, y in points)]
    return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True, slots=True)
class TubeLine:
    """A tube's axis as far as the window shows it, in its own direction from start to end."""

    name: str
    letter: str
    start: Vec2
    end: Vec2


def tubes_in(view: View) -> tuple[TubeLine, ...]:
    """The axes of the tubes with clamps, cut off at the window; those out of sight left out."""
    letters = {clamp.tube: clamp.label.rstrip("0123456789") for clamp in view.layout.clamps}
    frame, page = view.layout.frame, view.placement.page
    lines = []
    for tube in view.layout.recipe.structure.tubes:
        if tube.name not in letters:
            continue
        seen = clip_segment(page(in_plane(frame, tube.start)), page(in_plane(frame, tube.end)), view.window)
        if seen is not None and math.dist(*seen) > 4 * _ARROW:
            lines.append(TubeLine(tube.name, letters[tube.name], *seen))
    return tuple(lines)


def _tube(line: TubeLine) -> list[Item]:
    items: list[Item] = [Path((line.start, line.end), TUBE)]
    return [*items, *(_arrow(along(line.start, line.end, share), line) for share in (0.12, 0.88))]


def along(start: Vec2, end: Vec2, share: float) -> Vec2:
    """The point that lies `share` of the way from start to end."""
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def _arrow(tip: Vec2, line: TubeLine) -> Item:
    (x0, y0), (x1, y1) = line.start, line.end
    long = math.dist(line.start, line.end)
    dx, dy = (x1 - x0) / long * _ARROW, (y1 - y0) / long * _ARROW
    back = (tip[0] - dx, tip[1] - dy)
    barbs = ((back[0] - dy * 0.28, back[1] + dx * 0.28), (back[0] + dy * 0.28, back[1] - dx * 0.28))
    return Path((tip, *barbs), None, closed=True, fill=GREY)


def room_around(view: View) -> Room:
    """The window for labels: holes are hard, lines cost something to cross."""
    room = Room(view.window)
    for hole in view.layout.holes:
        x, y = view.placement.page(hole.at)
        room.circles.append((x, y, hole.diameter_mm / 2 + CROSS_ARM))
    ring = polygon(view.layout.outline, view.placement)
    _add_lines(room, [*ring, ring[0]], _OUTLINE_WEIGHT)
    for tube in tubes_in(view):
        _add_lines(room, [tube.start, tube.end], _TUBE_WEIGHT)
    for clamp in view.layout.clamps:
        corners = _clamp_corners(clamp, view)
        _add_lines(room, [*corners, corners[0]], _BAND_WEIGHT)
    for shape in view.layout.components:
        corners = tuple(view.placement.page(corner) for corner in shape.corners)
        _add_lines(room, [*corners, *corners[:1]], _FOOTPRINT_WEIGHT)
    for line in datum_lines(view):
        _add_lines(room, list(line), _DATUM_WEIGHT)
    return room


def _add_lines(room: Room, points: list[Vec2], weight: float) -> None:
    for (ax, ay), (bx, by) in pairwise(points):
        room.lines.append((ax, ay, bx, by, weight))
