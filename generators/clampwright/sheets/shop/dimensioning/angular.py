"""Angles: an arc between two rays with arrow heads, the text outside it, read from below."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Dimension, Path
from clampwright.sheets.shop.dimensioning.lanes import NoRoom
from clampwright.sheets.shop.dimensioning.linear import stacked, text_size
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.strokes import Strokes, arrow, line
from clampwright.sheets.shop.dimensioning.style import ARROW, GAP, OVER, Style
from clampwright.sheets.shop.dimensioning.wording import Wording, angle

_RADII = (14.0, 18.0, 11.0, 23.0, 29.0, 36.0, 44.0)
_ROOM_FOR_HEADS = 3.0
"""An arc shorter than so many arrow heads has them outside."""


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle: vertex, a point on the first side, one on the other, counter-clockwise; on the page."""

    vertex: Vec2
    first: Vec2
    second: Vec2
    scale: float
    more: str = ""
    """Said under its degrees."""

    def words(self) -> Wording:
        """What it says."""
        return Wording((*angle(self.sweep()).lines, *((self.more,) if self.more else ())))

    def start(self) -> float:
        """Direction of the first side, radians."""
        return math.atan2(self.first[1] - self.vertex[1], self.first[0] - self.vertex[0])

    def sweep(self) -> float:
        """From the first side to the second, counter-clockwise, radians."""
        end = math.atan2(self.second[1] - self.vertex[1], self.second[0] - self.vertex[0])
        return (end - self.start()) % (2 * math.pi)


def angular(wanted: Angle, room: Room, style: Style) -> Dimension:
    """The angle's dimension at the first radius where it touches nothing; added to `room`.

    Raises
    ------
    NoRoom
        Where it touches something at all of them.
    """
    for radius in _RADII:
        strokes = angular_strokes(wanted, radius, style)
        if room.takes(strokes):
            room.add(strokes)
            points = (wanted.vertex, wanted.first, wanted.second)
            words = wanted.words().text
            return Dimension("angle", points, wanted.sweep(), words, wanted.scale, strokes.items())
    raise NoRoom(f"no place for {wanted.words().text}")


def angular_strokes(wanted: Angle, radius: float, style: Style) -> Strokes:
    """Its strokes with the arc at a radius."""
    start, sweep = wanted.start(), wanted.sweep()
    end, (x, y) = start + sweep, wanted.vertex
    inside = radius * sweep >= _ROOM_FOR_HEADS * ARROW
    more = 0.0 if inside else 1.5 * ARROW / radius
    sign = 1.0 if inside else -1.0
    arcs = [(start, end)] if inside else [(start - more, start), (end, end + more)]
    words = wanted.words().lines
    wide, high = text_size(words)
    middle = start + sweep / 2
    out = radius + GAP + abs(math.cos(middle)) * wide / 2 + abs(math.sin(middle)) * high / 2
    return Strokes(
        tuple(_sides(wanted, radius, style)),
        tuple(ArcPath((x, y), radius, math.degrees(a), math.degrees(b), style.pen) for a, b in arcs),
        (
            arrow(_on(wanted.vertex, radius, start), _along(start, -sign, radius)),
            arrow(_on(wanted.vertex, radius, end), _along(end, sign, radius)),
        ),
        stacked(words, _on(wanted.vertex, out, middle)),
    )


def _sides(wanted: Angle, radius: float, style: Style) -> Iterator[Path]:
    """Each side drawn on from its point to the arc where it ends before it."""
    for point in (wanted.first, wanted.second):
        long = math.dist(wanted.vertex, point)
        turn = math.atan2(point[1] - wanted.vertex[1], point[0] - wanted.vertex[0])
        if long + GAP < radius:
            ends = (_on(wanted.vertex, long + GAP, turn), _on(wanted.vertex, radius + OVER, turn))
            yield line(*ends, style.pen)


def _on(centre: Vec2, radius: float, turn: float) -> Vec2:
    return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)


def _along(turn: float, sign: float, radius: float) -> Vec2:
    """Direction of the arc at a turn, an arrow head's chord allowed for: its back lies on the arc."""
    lean = turn - sign * ARROW / (2 * radius)
    return -sign * math.sin(lean), sign * math.cos(lean)
