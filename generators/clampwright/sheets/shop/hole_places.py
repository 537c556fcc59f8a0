"""Holes from the datum edges, in the view: in lanes where they are few, in a row where they are more."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise
from typing import Literal

from clampwright.layout.shop.told import FlatPart, ToldHole
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Item, Path, Text
from clampwright.sheets.lettering import CAPITAL
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.ordinates import Ordinate, in_a_row, leaves
from clampwright.sheets.shop.dimensioning.style import GAP, LETTER
from clampwright.sheets.shop.dimensioning.wording import length
from clampwright.sheets.shop.drawn_view import DrawnView, near
from clampwright.sheets.shop.hole_groups import hole_groups
from clampwright.sheets.shop.outline_told import datum_sides, farthest
from clampwright.sheets.shop.view_items import centre_pen
from clampwright.trade.tables import rule

Where = Literal["view", "table"]
"""Whether holes are placed by dimensions in the view, or in the hole table."""

_MOST_HOLES, _MOST_GROUPS, _MOST_ACROSS, _MOST_LANES = 12, 3, 8, 3
_APART = 2.0
"""Least distance of two parallel extension lines that start at holes, mm on the paper."""


def may_stand_in_view(part: FlatPart, scale: float) -> bool:
    """Whether few enough holes lie far enough apart to be dimensioned in the view.

    Holes that are transferred in place, held to a place of their own, or bent are told in the table.
    """
    holes = part.holes
    if not holes or part.bends or len(holes) > _MOST_HOLES or len(hole_groups(holes)) > _MOST_GROUPS:
        return False
    if any(hole.transferred or hole.place is not None for hole in holes):
        return False
    return all(_readable(holes, k, scale) for k in (0, 1))


def place_holes(drawn: DrawnView, part: FlatPart) -> None:
    """Holes from the datum edges: in lanes where they are few, in a row where they are more."""
    across, along = _place_lengths(drawn, part, 0), _place_lengths(drawn, part, 1)
    if not in_rows(part):
        drawn.lanes([one for one, _ in across], "below")
        drawn.lanes([one for one, _ in along], "left")
        return
    for side, found, k in (("below", across, 0), ("left", along, 1)):
        rows = [Ordinate(one, start) for one, start in found]
        drawn.add(_zero_line(drawn, part, k))
        drawn.dimensions += in_a_row(rows, side, drawn.box(), drawn.room, drawn.style)


def _place_lengths(drawn: DrawnView, part: FlatPart, k: int) -> list[tuple[Length, float]]:
    """A length for each distinct coordinate, and where its line leaves the lowest (leftmost) hole there."""
    ways: tuple[Vec2, Vec2] = ((-1.0, 0.0), (0.0, -1.0))
    edge = farthest(part.outline, ways[k], ways[1 - k])
    beyond = rule("drawing-centre-beyond").value
    found = []
    for value in distinct(hole.at[k] for hole in part.holes):
        hole = min((h for h in part.holes if near(h.at[k], value)), key=lambda h: h.at[1 - k])
        ends = drawn.point(edge), drawn.point(hole.at)
        size = value - part.outline.box()[k]
        kind: Literal["horizontal", "vertical"] = "horizontal" if k == 0 else "vertical"
        radius = hole.diameter_mm / 2 * drawn.scale + beyond
        words = length(size, part.units)
        found.append(
            (
                Length(kind, ends, size, words, drawn.scale, (0.0, radius)),
                leaves(ends[1][1 - k], radius),
            )
        )
    return found


def _zero_line(drawn: DrawnView, part: FlatPart, k: int) -> tuple[Item, ...]:
    """The line that a row of coordinates counts from, marked 0; dash-dot where no edge lies on it."""
    x0, y0, _, _ = drawn.box()
    pen = drawn.style.pen if datum_sides(part.outline)[k] else centre_pen(drawn.sheet)
    far = 10.5
    half = LETTER * CAPITAL / 2
    if k == 0:
        start = drawn.point(farthest(part.outline, (-1.0, 0.0), (0.0, -1.0)))
        label = Text((x0 + half, y0 - far - 0.8), "0", LETTER, "right", 90.0)
        return Path(((x0, start[1] - GAP), (x0, y0 - far)), pen), label
    start = drawn.point(farthest(part.outline, (0.0, -1.0), (-1.0, 0.0)))
    label = Text((x0 - far - 0.8, y0 - half), "0", LETTER, "right")
    return Path(((start[0] - GAP, y0), (x0 - far, y0)), pen), label


def in_rows(part: FlatPart) -> bool:
    return any(len(distinct(hole.at[k] for hole in part.holes)) > _MOST_LANES for k in (0, 1))


def _readable(holes: Sequence[ToldHole], k: int, scale: float) -> bool:
    """Whether lines at the coordinates stand apart, and none runs through a hole that it is not of."""
    values = distinct(hole.at[k] for hole in holes)
    if len(values) > _MOST_ACROSS or any((b - a) * scale < _APART for a, b in pairwise(values)):
        return False
    return all(
        near(value, hole.at[k]) or abs(value - hole.at[k]) * scale > hole.diameter_mm / 2 * scale + GAP
        for value in values
        for hole in holes
        if any(near(other.at[k], value) and other.at[1 - k] > hole.at[1 - k] for other in holes)
    )


def distinct(values: Iterable[float]) -> list[float]:
    """Values in order, those that are the same once.

    >>> distinct([2.0, 1.0, 2.0 + 1e-9])
    [1.0, 2.0]
    """
    found: list[float] = []
    for value in sorted(values):
        if not found or not near(found[-1], value):
            found.append(value)
    return found
