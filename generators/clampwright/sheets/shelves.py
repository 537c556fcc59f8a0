"""Boxes set side by side in rows, page after page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.quantities import Vec2


@dataclass(frozen=True, slots=True)
class Spot:
    """Page, from 0, and upper left corner in the room: x to the right, y down from its top."""

    page: int
    x: float
    down: float


def shelved(sizes: Sequence[Vec2], room: Vec2, apart: float) -> tuple[Spot, ...]:
    """A spot for each box (wide, high), in order: along a row while there is room, then the next row.

    A box larger than the room stands alone.

    Examples
    --------
    >>> [(spot.page, spot.x, spot.down) for spot in shelved([(60, 40), (60, 50), (60, 40)], (130, 94), 5)]
    [(0, 0.0, 0.0), (0, 65.0, 0.0), (1, 0.0, 0.0)]
    """
    spots: list[Spot] = []
    page, x, down, high = 0, 0.0, 0.0, 0.0
    for wide, tall in sizes:
        if x > 0 and x + wide > room[0] + 1e-9:
            x, down, high = 0.0, down + high + apart, 0.0
        if down + tall > room[1] + 1e-9 and (x > 0 or down > 0):
            page, x, down, high = page + 1, 0.0, 0.0, 0.0
        spots.append(Spot(page, float(x), float(down)))
        x, high = x + wide + apart, max(high, tall)
    return tuple(spots)
