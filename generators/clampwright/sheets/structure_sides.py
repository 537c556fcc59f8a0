"""Rods and spots from three sides and at a slant, to one scale, with names that touch nothing."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from clampwright.quantities import Vec2
from clampwright.sheets.canvas import Drawn, Picture
from clampwright.sheets.drawing import Box, Path, Pen, Text
from clampwright.sheets.ink import ACCENT, BLACK, GREY, SMALL, WHITE
from clampwright.sheets.lettering import width
from clampwright.sheets.structure_eyes import FRONT, LEFT, TOP, Side, oblique
from clampwright.sheets.structure_shapes import Rod, Spot, ellipse, half_length

_SKIN, _FAINT, _SURE = Pen(0.25), Pen(0.18, GREY), Pen(0.22, ACCENT)
_AROUND, _TITLE, _AXES = 13.0, 4.5, 11.0
_LARGEST, _LEAST = 5.0, 40.0
_TIMES = (500, 200, 100, 50, 20, 10, 5, 2, 1)
_SHARES = (0.5, 0.38, 0.62, 0.25, 0.75, 0.12, 0.88)
"""Places along a rod that its name may stand at."""
_DOT, _CLEAR = 0.45, 1.2
"""Half a point's diamond, and least distance of a rod's name from its axis: past the diamonds on it."""


@dataclass(frozen=True, slots=True)
class Thing:
    """What is drawn: rods, spots, and how many times as large as the rods the ± of the spots."""

    rods: tuple[Rod, ...]
    spots: tuple[Spot, ...] = ()
    times: int = 1


@dataclass(frozen=True, slots=True)
class Sides:
    """Finished pictures hung from (0, 0): their items, height, scale, how the ± was drawn, names left out."""

    drawn: Drawn
    times: int
    marked: bool
    """Whether a tube has a mark."""

    @property
    def sure(self) -> bool:
        """Whether any ± was drawn."""
        return self.times > 0


def three_sides(thing: Thing, room: Vec2, slanted: bool = True, upright: bool = True) -> Sides:
    """Views from +z, -y and +x in third angle, the same scale, no wider and higher than `room`, mm.

    `slanted`: a view at a slant in the free corner, with the rods' names only; `upright`: z is up, and may be
    said to be.
    """
    spans = {side.title: _span(thing, side) for side in (TOP, LEFT, FRONT)}
    across = (spans[TOP.title][0], spans[FRONT.title][0])
    down = (spans[TOP.title][1], spans[LEFT.title][1])
    free = (room[0] - 4 * _AROUND, room[1] - 4 * _AROUND - 2 * _TITLE)
    scale = min(free[0] / max(sum(across), 1.0), free[1] / max(sum(down), 1.0))
    wide = [max(scale * each + 2 * _AROUND, _LEAST) for each in across]
    high = [max(scale * each + 2 * _AROUND, _LEAST) + _TITLE for each in down]
    aside = (room[0] - sum(wide)) / 2
    left, middle, right = aside, aside + wide[0], aside + sum(wide)
    boxes = {
        TOP: (left, -high[0], middle, 0.0),
        LEFT: (left, -sum(high), middle, -high[0]),
        FRONT: (middle, -sum(high), right, -high[0]),
    }
    thing = replace(thing, times=_times(thing, (TOP, LEFT, FRONT), scale))
    views = [one_side(thing, _told(side, upright), box, scale) for side, box in boxes.items()]
    if slanted:
        corner = (middle, -high[0], right, 0.0)
        views.append(slant(replace(thing, spots=()), corner, upright=upright))
    items = tuple(item for view in views for item in view.items)
    marked = any(rod.mark is not None for rod in thing.rods)
    return Sides(Drawn(items, scale, sum(high), _missing(thing, views[:3])), thing.times, marked)


def _told(side: Side, upright: bool) -> Side:
    """Its title without what is true only of a frame whose z is up."""
    if upright:
        return side
    return replace(side, title=side.title.replace(", above", "").replace("above", "+z"))


def _missing(thing: Thing, views: Sequence[Drawn]) -> tuple[str, ...]:
    """Names of rods that one of the views has no room for, and of spots that none of them has."""
    held = [rod.name for rod in thing.rods if any(rod.name in view.left for view in views)]
    spots = [spot.name for spot in thing.spots if all(spot.name in view.left for view in views)]
    return tuple(dict.fromkeys([*held, *spots]))


def one_side(thing: Thing, side: Side, box: Box, scale: float) -> Drawn:
    """One view in the middle of a box, its title at the upper left, its axes at the lower left corner."""
    x, y = _extent(thing, side)
    picture = Picture(side.eye, _below(box), scale, ((x[0] + x[1]) / 2, (y[0] + y[1]) / 2))
    _corner(picture, box, side)
    _rods(picture, thing, side)
    marks = _spots(picture, thing, side)
    _names(picture, thing, marks)
    return picture.finished()


def slant(thing: Thing, box: Box, upright: bool = True) -> Drawn:
    """The structure from +x, -y and above, as large as the box allows."""
    side = _told(oblique(), upright)
    x, y = _extent(thing, side)
    spare = 2 * _AROUND
    room = (box[2] - box[0] - spare, box[3] - box[1] - spare - _TITLE)
    scale = min(room[0] / max(x[1] - x[0], 1.0), room[1] / max(y[1] - y[0], 1.0))
    return one_side(thing, side, box, scale)


def _below(box: Box) -> Box:
    return (box[0], box[1], box[2], box[3] - _TITLE)


def _extent(thing: Thing, side: Side) -> tuple[Vec2, Vec2]:
    """Least and most across and up of everything in a view."""
    points = [point for rod in thing.rods for point in rod.outline(side.eye)]
    points += [side.eye.seen(spot.at) for spot in thing.spots]
    xs, ys = ([point[axis] for point in points] or [0.0] for axis in (0, 1))
    return (min(xs), max(xs)), (min(ys), max(ys))


def _span(thing: Thing, side: Side) -> Vec2:
    x, y = _extent(thing, side)
    return x[1] - x[0], y[1] - y[0]


def _times(thing: Thing, sides: Sequence[Side], scale: float) -> int:
    """How many times as large as the rods the ± is drawn, to be seen; 0: there is none."""
    most = max((half_length(spot, side.eye) for spot in thing.spots for side in sides), default=0.0)
    if most <= 0:
        return 0
    return next((times for times in _TIMES if times * most * scale <= _LARGEST), 1)


def _corner(picture: Picture, box: Box, side: Side) -> None:
    """Title, and an arrow along each of the view's axes with its letter."""
    at = (box[0] + 1.0, box[3] - 3.2)
    picture.items.append(Text(at, side.title, SMALL, bold=True))
    for letter, way in _arrows(side):
        foot = (box[0] + 3.5, box[1] + 3.5)
        tip = (foot[0] + 5.5 * way[0], foot[1] + 5.5 * way[1])
        picture.items.append(Path((foot, tip), _FAINT))
        if math.hypot(*way) > 0.2:
            picture.arrow(tip, (way[0] / math.hypot(*way), way[1] / math.hypot(*way)))
        past = (foot[0] + 7.8 * way[0], foot[1] + 7.8 * way[1])
        size = width(letter, SMALL)
        picture.items.append(Text((past[0] - size / 2, past[1] - 0.8), letter, SMALL, colour=GREY))
    picture.boxes.append((box[0], box[1], box[0] + _AXES, box[1] + _AXES))


def _arrows(side: Side) -> Iterator[tuple[str, Vec2]]:
    if side.right:
        yield side.right, (1.0, 0.0)
        yield side.up, (0.0, 1.0)
        return
    for letter, way in zip("xyz", ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), strict=True):
        yield letter, side.eye.way(way)


def _rods(picture: Picture, thing: Thing, side: Side) -> None:
    """The farthest first, each over those behind it."""
    for rod in sorted(thing.rods, key=lambda rod: side.depth(rod.at(0.5))):
        corners = [picture.page(point) for point in rod.outline(side.eye)]
        picture.ring(corners, _SKIN, WHITE)
        a, b = (picture.page(side.eye.seen(point)) for point in (rod.start, rod.end))
        long = math.dist(a, b)
        if long > 8.0:
            way = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
            tip = (a[0] + 0.68 * (b[0] - a[0]), a[1] + 0.68 * (b[1] - a[1]))
            picture.arrow(tip, way)
        if rod.mark is not None:
            _tick(picture, picture.page(side.eye.seen(rod.mark)), a, b, rod.radius_mm)


def _tick(picture: Picture, at: Vec2, a: Vec2, b: Vec2, radius_mm: float) -> None:
    """A short bold line across a tube: the mark that stations are counted from."""
    long = math.dist(a, b)
    if long < 1e-6:
        return
    half = picture.scale * radius_mm + 0.8
    x, y = -(b[1] - a[1]) / long * half, (b[0] - a[0]) / long * half
    picture.line((at[0] - x, at[1] - y), (at[0] + x, at[1] + y), Pen(0.5, BLACK))


def _spots(picture: Picture, thing: Thing, side: Side) -> list[tuple[str, Vec2, float]]:
    """Points with their ±; name, place and room on the page of each."""
    found = []
    for spot in thing.spots:
        at = picture.page(side.eye.seen(spot.at))
        ring = [picture.page(p) for p in ellipse(spot, side.eye, thing.times)] if thing.times else []
        if ring:
            picture.ring(ring, _SURE)
        dot = [(at[0] + _DOT * c, at[1] + _DOT * s) for c, s in ((1, 0), (0, 1), (-1, 0), (0, -1))]
        picture.items.append(Path(tuple(dot), None, closed=True, fill=BLACK))
        found.append((spot.name, at, max([_DOT, *(math.dist(at, p) for p in ring)])))
    return found


def _names(picture: Picture, thing: Thing, marks: Sequence[tuple[str, Vec2, float]]) -> None:
    """Names to be placed: points pale and small beside themselves, rods anywhere along themselves."""
    eye = picture.eye
    for name, at, _ in marks:
        picture.circles.append((*at, _DOT))
        if name:
            picture.name([name], [(at, _DOT)], pale=True)
    for rod in thing.rods:
        half = max(picture.scale * rod.radius_mm, _CLEAR)
        picture.name([rod.name], [(picture.page(eye.seen(rod.at(share))), half) for share in _SHARES])
