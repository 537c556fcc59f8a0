"""Lanes of dimension lines beside a view: the shortest next to it, texts shifted so that nothing touches."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from clampwright.sheets.drawing import Box, Dimension
from clampwright.sheets.shop.dimensioning.drawn_once import drawn_once
from clampwright.sheets.shop.dimensioning.linear import Length, linear_strokes, spots, text_size
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.strokes import Segment, Strokes, segments
from clampwright.sheets.shop.dimensioning.style import FIRST, LANE, Style
from clampwright.solids.no_part import NoPart

_MOST_LANES = 60
_SAME = 1e-6
_OUTWARDS = {"below": -1.0, "above": 1.0, "left": 1.0, "right": -1.0}
"""Sign of the depth: up for the text is up the page, or to its left where it is turned."""


class NoRoom(NoPart):
    """No place was found on this sheet, at this scale, for something that must be said."""


def in_lanes(
    lengths: Sequence[Length], side: str, box: Box, room: Room, style: Style, first: float = FIRST
) -> tuple[Dimension, ...]:
    """The lengths as dimensions on one side of a view's box, in the order in which they were given.

    What is placed is added to `room`.

    Parameters
    ----------
    lengths : Sequence[Length]
        All horizontal for "below" and "above", all vertical for "left" and "right".
    side : str
        Of the box.
    box : Box
        Of the view on the page.
    room : Room
        What stands there already.
    style : Style
        How they look.
    first : float
        From the box to the first line, mm.

    Raises
    ------
    NoRoom
        Where one finds no lane.
    """
    order = sorted(range(len(lengths)), key=lambda n: lengths[n].span()[1] - lengths[n].span()[0])
    out, edge = _OUTWARDS[side], _edge(side, box)
    found: dict[int, Dimension] = {}
    for position, n in enumerate(order):
        length = lengths[n]
        rays = [ray for later in order[position + 1 :] for ray in extension_rays(lengths[later], side)]
        strokes = _in_some_lane(length, edge, out, first, room, rays, style)
        room.add(strokes)
        found[n] = length.drawn(strokes)
    return drawn_once([found[n] for n in range(len(lengths))])


def beside(length: Length, out: float, room: Room, style: Style, rays: Sequence[Segment] = ()) -> Dimension:
    """A length of any direction in the nearest free lane, the way that is up (1) or down (-1) for its text.

    What is placed is added to `room`; its text meets none of some `rays` of lines that are still to come.

    Raises
    ------
    NoRoom
        Where it finds no lane.
    """
    edge = max(out * depth for depth in length.depths()) * out
    strokes = _in_some_lane(length, edge, out, FIRST, room, rays, style)
    room.add(strokes)
    return length.drawn(strokes)


def _in_some_lane(
    length: Length, edge: float, out: float, first: float, room: Room, rays: Sequence[Segment], style: Style
) -> Strokes:
    step = LANE if not style.upright or length.kind == "horizontal" else _upright_lane(length, style)
    start = max(first, step / 2 + 2.0) if step > LANE else first
    for lane in range(_MOST_LANES):
        at = edge + out * (start + step / 2 * lane)
        for spot in spots(length, style):
            strokes = linear_strokes(length, at, spot, style)
            if _apart(strokes, room, length) and room.takes(strokes, rays):
                return strokes
    raise NoRoom(f"no lane for {length.words.text}")


def _upright_lane(length: Length, style: Style) -> float:
    return max(LANE, text_size(length.lines(style))[0] + 3.0)


def _apart(strokes: Strokes, room: Room, length: Length) -> bool:
    """Whether the dimension line keeps its distance from others that run along it."""
    if not room.firm:
        return True
    ux, uy = length.along()
    firm = np.asarray(room.firm)
    starts, ends = (firm[:, k] * ux + firm[:, k + 1] * uy for k in (0, 2))
    depths, other = (firm[:, k + 1] * ux - firm[:, k] * uy for k in (0, 2))
    parallel = abs(depths - other) <= _SAME
    for x0, y0, x1, y1 in segments(strokes.lines):
        level = y0 * ux - x0 * uy
        low, high = sorted((x0 * ux + y0 * uy, x1 * ux + y1 * uy))
        beside_it = (np.minimum(starts, ends) <= high + 1) & (np.maximum(starts, ends) >= low - 1)
        if (parallel & beside_it & (abs(depths - level) < LANE - _SAME)).any():
            return False
    return True


def _edge(side: str, box: Box) -> float:
    """Depth of the box's edge on that side."""
    return {"below": box[1], "above": box[3], "left": -box[0], "right": -box[2]}[side]


def extension_rays(length: Length, side: str) -> list[Segment]:
    """Where extension lines that are still to come on a side will run at the farthest."""
    far, out = 1e4, _OUTWARDS[side]
    rays: list[Segment] = []
    for x, y in length.ends:
        if length.kind == "horizontal":
            rays.append((x, y, x, y + out * far))
        else:
            rays.append((x, y, x - out * far, y))
    return rays
