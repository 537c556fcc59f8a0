"""How a part comes to lie on feet that are not all as high as drawn: which carry, and where a gap is left.

A rigid part drawn onto three feet or more lies on a plane that no foot pokes through and that touches
three round the middle, where its weight and its bolts pull. With four feet of unequal height two planes
do, and it rocks between them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.layout.as_made import FootFit, LengthFit
from clampwright.layout.as_made_lengths import length_at, long_pieces
from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.joined import Joined
from clampwright.layout.placed import ClampPlace, PlateLayout
from clampwright.quantities import Vec2

Array = npt.NDArray[np.float64]

_SAME = 1e-6
_THIN = 1e-3
"""Of the largest triangle: feet in one line carry no plane."""


def fit_feet(layout: Joined, lengths: Sequence[LengthFit]) -> tuple[tuple[FootFit, ...], float]:
    """Every foot that is not trimmed to the gap found, of a part that stands on three such; and how it leans.

    Packing is as measured where it was, else as drawn.
    """
    if not isinstance(layout, PlateLayout | BushingLayout):
        return (), 0.0
    trimmed = {where for each in long_pieces(layout) for where in each}
    clamps = [clamp for clamp in layout.clamps if clamp.label not in trimmed]
    if len(clamps) < 3:
        return (), 0.0
    high = [_high(clamp, lengths) for clamp in clamps]
    places = [clamp.at for clamp in clamps]
    ways = _ways(places, high)
    feet = tuple(
        FootFit(clamp.label, h, max(each), min(each) <= _SAME, length_at(clamp.label, lengths) is not None)
        for clamp, h, each in zip(clamps, high, gaps_left(places, high), strict=True)
    )
    return feet, max((float(np.arctan(np.hypot(plane[0], plane[1]))) for plane in ways), default=0.0)


def gaps_left(places: Sequence[Vec2], high: Sequence[float]) -> list[list[float]]:
    """Gap under the part at each foot, one figure for every way it can lie.

    Examples
    --------
    A square table with one leg 0.4 short rocks on the two beside it: either that leg hangs, or the one
    across does.

    >>> gaps = gaps_left([(0, 0), (100, 0), (100, 100), (0, 100)], [0.0, 0.0, -0.4, 0.0])
    >>> [[round(gap, 6) for gap in foot] for foot in gaps]
    [[0.0, 0.4], [0.0, 0.0], [0.4, 0.0], [0.0, 0.0]]
    """
    points, heights = _as_arrays(places, high)
    ways = [points @ plane - heights for plane in _ways(places, high)]
    if not ways:
        return [[0.0] for _ in places]
    return [[float(gap) + 0.0 for gap in np.maximum(foot, 0.0)] for foot in np.column_stack(ways)]


def _as_arrays(places: Sequence[Vec2], high: Sequence[float]) -> tuple[Array, Array]:
    points = np.column_stack((np.asarray(places, dtype=float), np.ones(len(places))))
    return points, np.asarray(high, dtype=float)


def _ways(places: Sequence[Vec2], high: Sequence[float]) -> list[Array]:
    """Planes that the part can come to lie on, each once."""
    points, heights = _as_arrays(places, high)
    found: list[Array] = []
    for plane in _planes(points, heights):
        if not any(np.allclose(points @ plane, points @ other, atol=_SAME) for other in found):
            found.append(plane)
    return found


def _planes(points: Array, heights: Array) -> Iterator[Array]:
    """Planes through three feet round the middle that no other foot pokes through."""
    middle = points.mean(axis=0)
    triples = [list(three) for three in combinations(range(len(points)), 3)]
    areas = [abs(float(np.linalg.det(points[three]))) for three in triples]
    for three, area in zip(triples, areas, strict=True):
        if area <= _THIN * max(areas):
            continue
        shares = np.linalg.solve(points[three].T, middle)
        plane: Array = np.asarray(np.linalg.solve(points[three], heights[three]), dtype=np.float64)
        if np.all(shares >= -_SAME) and np.all(points @ plane - heights >= -_SAME):
            yield plane


def _high(clamp: ClampPlace, lengths: Sequence[LengthFit]) -> float:
    """Top of a foot's packing over where the part's near face is drawn."""
    piece = length_at(clamp.label, lengths)
    packed = 0.0
    for item in clamp.packing:
        measured = piece.measured_mm if piece is not None and item.name == "bushing" else None
        packed += measured if measured is not None else item.thickness_mm * item.count
    return packed - clamp.gap_mm
