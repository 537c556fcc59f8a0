"""Which scales suit a flat part: large enough to be read, no larger than it needs."""

from __future__ import annotations

import math
from itertools import combinations

from clampwright.layout.shop.told import FlatPart

_ENOUGH_MM, _ENOUGH_BENT_MM, _MOST_MM = 150.0, 70.0, 130.0
"""On the paper: a view so long is large enough at any scale, of a bent part, which has several, the second;
none is enlarged beyond the third."""
_CROWDED_MM, _ROOMY_MM = 300.0, 30.0
"""Crowded holes: up to which length they are enlarged, and up to which distance on the paper they crowd."""
_SMALL_MM = 60.0
"""Parts shorter than this are enlarged."""


def is_large(scale: float, part: FlatPart) -> bool:
    """Whether the part is drawn at 1:1 or long enough; a small one enlarged."""
    long = _long(part)
    if long < _SMALL_MM:
        return scale > 1
    return scale >= 1 or long * scale >= (_ENOUGH_BENT_MM if part.bends else _ENOUGH_MM)


def is_wanted(scale: float, part: FlatPart) -> bool:
    """Whether the part need not be drawn smaller: enlarged as long as it is small, or its holes crowd."""
    long = _long(part) * scale
    return scale <= 1 or long <= _MOST_MM or (long <= _CROWDED_MM and _pitch(part) * scale <= _ROOMY_MM)


def _long(part: FlatPart) -> float:
    x0, y0, x1, y1 = part.outline.box()
    return max(x1 - x0, y1 - y0)


def _pitch(part: FlatPart) -> float:
    """Distance of the two holes that lie nearest each other."""
    places = [hole.at for hole in part.holes]
    return min((math.dist(a, b) for a, b in combinations(places, 2)), default=math.inf)
