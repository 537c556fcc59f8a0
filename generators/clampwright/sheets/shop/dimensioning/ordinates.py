"""Coordinates from a datum edge: one row of figures, their lines bent aside where they would touch."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Box, Dimension, Path, Text
from clampwright.sheets.lettering import CAPITAL
from clampwright.sheets.shop.dimensioning.lanes import NoRoom
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.strokes import Strokes
from clampwright.sheets.shop.dimensioning.style import AIR, GAP, LETTER, Style
from clampwright.sheets.spread import spread

PITCH = LETTER + AIR
"""Least distance of two figures of a row."""
STRAIGHT, BEND, AFTER = 4.0, 5.0, 1.5
"""Of a line from the view's box: straight, aside, and straight again to its figure."""


@dataclass(frozen=True, slots=True)
class Ordinate:
    """A coordinate: its length from the datum edge, and where its line begins on the page."""

    length: Length
    start: float
    """Depth on the page at which the line leaves what it is of: y where the length is horizontal, else x."""


def in_a_row(
    ordinates: Sequence[Ordinate], side: str, box: Box, room: Room, style: Style
) -> tuple[Dimension, ...]:
    """A row of coordinates below ("below") or to the left ("left") of a view's box, smallest first.

    Raises
    ------
    NoRoom
        Where a figure or a line touches something that stands there.
    """
    places = _spread([_end(each)[_axis(side)] for each in ordinates])
    made = []
    for each, place in zip(ordinates, places, strict=True):
        strokes = _strokes(each, place, side, box, style)
        if not room.takes(strokes):
            raise NoRoom(f"no place for {each.length.words.text} in its row")
        made.append(each.length.drawn(strokes))
        room.add(Strokes((*strokes.extension, *_paths(strokes)), (), (), strokes.texts))
    return tuple(made)


def _paths(strokes: Strokes) -> tuple[Path, ...]:
    return tuple(path for path in strokes.lines if isinstance(path, Path))


def _axis(side: str) -> int:
    return 0 if side == "below" else 1


def _end(ordinate: Ordinate) -> Vec2:
    return ordinate.length.ends[1]


def _spread(wanted: Sequence[float]) -> list[float]:
    """Places of figures at least a pitch apart, each as near its line as the others let it."""
    falling = [-each for each in wanted]
    far = 1e4
    return [-each for each in spread(falling, [PITCH] * len(falling), -far, far)]


def _strokes(ordinate: Ordinate, place: float, side: str, box: Box, style: Style) -> Strokes:
    text = ordinate.length.words.text
    if side == "below":
        x, edge = _end(ordinate)[0], box[1]
        down = [edge - STRAIGHT, edge - STRAIGHT - BEND, edge - STRAIGHT - BEND - AFTER]
        points = ((x, ordinate.start), (x, down[0]), (place, down[1]), (place, down[2]))
        label = Text((place + _centred(), down[2] - 0.8), text, LETTER, "right", 90.0)
    else:
        y, edge = _end(ordinate)[1], box[0]
        left = [edge - STRAIGHT, edge - STRAIGHT - BEND, edge - STRAIGHT - BEND - AFTER]
        points = ((ordinate.start, y), (left[0], y), (left[1], place), (left[2], place))
        label = Text((left[2] - 0.8, place - _centred()), text, LETTER, "right")
    return Strokes((Path(_straightened(points), style.pen),), (), (), (label,))


def _centred() -> float:
    """From a line to the foot of a figure whose middle lies on it."""
    return LETTER * CAPITAL / 2


def _straightened(points: tuple[Vec2, ...]) -> tuple[Vec2, ...]:
    """One line where nothing bends it aside."""
    aside = math.dist((points[1][0], points[1][1]), points[2]) - BEND
    return (points[0], points[-1]) if aside < 1e-9 else points


def leaves(centre: float, radius: float) -> float:
    """Depth at which a line below or left of a hole begins: beyond the end of its centre line."""
    return centre - radius - GAP
