"""Parts laid on sheets one after the other, each where it adds least to the length in use.

A place is a corner of what is left: the room in which the part lies within the margins, less the no-fit
polygon of every part that lies there already. (Shapely does the polygons.)
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import product
from typing import Any

import numpy as np
import shapely

from clampwright.nesting.no_fit import NoFit
from clampwright.nesting.polygons import less
from clampwright.nesting.shapes import SLACK_MM, Shape

Free = tuple[int, Any]
"""How many of the parts on a sheet have been taken off, and what is left for a shape's datum."""
_DECIMALS = (3, 6)


@dataclass(frozen=True, slots=True)
class Spot:
    """A part on a sheet: which one, which of its shapes, where its datum lies."""

    part: int
    shape: int
    x: float
    y: float


@dataclass(slots=True)
class OneSheet:
    """A sheet while it fills."""

    spots: tuple[Spot, ...] = ()
    top: float = 0.0
    """End of the last part, from the lower margin."""
    free: dict[int, Free] = field(default_factory=dict)
    """For every shape looked at: only of the spots above, so a sheet with one more has a copy."""


@dataclass(frozen=True, slots=True)
class Room:
    """The sheet within its margins, mm."""

    width_mm: float
    length_mm: float


class Placer:
    """Lays parts on sheets. `work` counts what it has done, so that a search is bounded by work, not time."""

    def __init__(self, room: Room, shapes: Sequence[Sequence[Shape]]) -> None:
        self._room = room
        self._parts: list[list[int]] = []
        self._shapes: list[Shape] = []
        for each in shapes:
            self._parts.append(list(range(len(self._shapes), len(self._shapes) + len(each))))
            self._shapes += each
        self._no_fit = NoFit()
        self.work = 0

    def add(self, sheets: list[OneSheet], part: int, sunk: bool) -> list[OneSheet]:
        """The sheets with one more part, on the first that has room for it; a new one where none has."""
        for number, sheet in enumerate(sheets):
            spot = self._best(sheet, part, sunk)
            if spot is not None:
                return [*sheets[:number], self._with(sheet, spot), *sheets[number + 1 :]]
        fresh = OneSheet()
        spot = self._best(fresh, part, sunk)
        if spot is None:
            raise ValueError("a part larger than its sheet")
        return [*sheets, self._with(fresh, spot)]

    def shape(self, number: int) -> Shape:
        """A shape by the number that spots have it by."""
        return self._shapes[number]

    def _with(self, sheet: OneSheet, spot: Spot) -> OneSheet:
        end = spot.y + self._shapes[spot.shape].box[3]
        return OneSheet((*sheet.spots, spot), max(sheet.top, end), dict(sheet.free))

    def _best(self, sheet: OneSheet, part: int, sunk: bool) -> Spot | None:
        """Shortest length in use first, then lowest, then left; sunk: by centroid, else by upper end."""
        found: list[tuple[tuple[float, ...], int, float, float]] = []
        for number in self._parts[part]:
            free = self._left(sheet, number)
            corners = shapely.get_coordinates(free)
            if not len(corners):
                continue
            each = self._shapes[number]
            ends = np.round(corners[:, 1] + each.box[3], 4)
            low = np.round(corners[:, 1] + each.middle[1], 4) if sunk else ends
            lefts = np.round(corners[:, 0] + each.box[0], 4)
            longest = np.maximum(ends, round(sheet.top, 4))
            first = np.lexsort((lefts, low, longest))[0]
            rank = (float(longest[first]), float(low[first]), float(lefts[first]))
            found.append((rank, number, *self._on_grid(free, corners[first])))
        if not found:
            return None
        _, number, x, y = min(found)
        return Spot(part, number, x, y)

    def _left(self, sheet: OneSheet, number: int) -> Any:
        """Where the shape's datum may lie on the sheet: what was known, less the parts that came since."""
        taken, free = sheet.free.get(number) or (0, self._inside(number))
        since = sheet.spots[taken:]
        self.work += 2 + len(since)
        if since:
            free = less(free, [self._barred(spot, number) for spot in since])
            sheet.free[number] = (len(sheet.spots), free)
        return free

    def _inside(self, number: int) -> Any:
        x0, y0, x1, y1 = self._shapes[number].box
        left, low = -x0 - SLACK_MM, -y0 - SLACK_MM
        right, high = self._room.width_mm - x1 + SLACK_MM, self._room.length_mm - y1 + SLACK_MM
        if right < left or high < low:
            return shapely.Polygon()
        return shapely.box(left, low, right, high)

    def _barred(self, spot: Spot, moving: int) -> Any:
        polygon = self._no_fit.of(self._shapes[spot.shape], self._shapes[moving])
        by = np.array((spot.x, spot.y))
        return shapely.transform(polygon, lambda points: points + by)

    def _on_grid(self, free: Any, corner: Any) -> tuple[float, float]:
        """In whole thousandths where a place beside the corner is free, else in millionths, else as it is."""
        for decimals in _DECIMALS:
            unit = 10.0**-decimals
            x, y = (round(float(v), decimals) for v in corner)
            for du, dv in product((0, 1, -1), repeat=2):
                at = (round(x + du * unit, decimals), round(y + dv * unit, decimals))
                if shapely.intersects_xy(free, *at) and np.abs(corner - at).max() < unit:
                    return at
        return float(corner[0]), float(corner[1])
