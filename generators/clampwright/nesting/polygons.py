"""Unions and differences of polygons that hold together where sides all but meet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import shapely

GRID_MM = 1e-8
"""Corners are rounded to it to keep polygons sound; far below any slack."""


def sound(polygons: Sequence[Any]) -> Any:
    """All of them as one, rounded so that no two sides cross by the last bit.

    >>> sound([shapely.box(0, 0, 2, 1), shapely.box(1, 0, 3, 1)]).area
    3.0
    """
    if len(polygons) == 1:
        return shapely.set_precision(polygons[0], GRID_MM)
    return shapely.union_all(polygons, grid_size=GRID_MM)


def less(polygon: Any, taken: Sequence[Any]) -> Any:
    """What is left of one without the others: plainly and fast, or where that fails, rounded.

    >>> less(shapely.box(0, 0, 2, 1), [shapely.box(1, 0, 3, 1)]).bounds
    (0.0, 0.0, 1.0, 1.0)
    """
    try:
        return shapely.difference(polygon, shapely.union_all(taken) if len(taken) > 1 else taken[0])
    except shapely.errors.GEOSException:
        return shapely.difference(polygon, sound(taken), grid_size=GRID_MM)
