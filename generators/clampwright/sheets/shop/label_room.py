"""Where in a drawn shape there is most room for its mark."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from clampwright.quantities import Vec2

Array = NDArray[np.float64]
_ACROSS, _TIMES = 25, 3
"""Places tried a side, and how many times round the best of them."""
_INWARD = 0.05
"""Room that a mark gives up for every millimetre that it stands nearer to the middle."""


def roomiest(corners: Sequence[Vec2], holes: Sequence[tuple[Vec2, float]] = ()) -> tuple[Vec2, float]:
    """A place in a shape far from its rim and from its holes, and how far, mm.

    Parameters
    ----------
    corners : Sequence[Vec2]
        Of the shape, closed by itself.
    holes : Sequence[tuple[Vec2, float]]
        Centres and radii.

    Examples
    --------
    >>> at, room = roomiest([(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)], [((10.0, 10.0), 4.0)])
    >>> round(at[1], 1), round(room, 1), at[0] > 20.0
    (10.0, 10.0, True)
    """
    ring = np.array(corners)
    low, high = ring.min(axis=0), ring.max(axis=0)
    middle = (low + high) / 2
    best, room, most = middle, -np.inf, -np.inf
    for _ in range(_TIMES):
        us, vs = (np.linspace(a, b, _ACROSS) for a, b in zip(low, high, strict=True))
        places = np.stack(np.meshgrid(us, vs), axis=-1).reshape(-1, 2)
        far = _clear(places, ring, holes)
        rank = far - _INWARD * np.hypot(*(places - middle).T)
        first = int(np.argmax(rank))
        if rank[first] > most:
            best, room, most = places[first], float(far[first]), float(rank[first])
        reach = (high - low) / (_ACROSS - 1)
        low, high = best - reach, best + reach
    return (float(best[0]), float(best[1])), max(0.0, room)


def _clear(places: Array, ring: Array, holes: Sequence[tuple[Vec2, float]]) -> Array:
    """Distance of each place to the nearest rim; negative outside."""
    start, side = ring, np.roll(ring, -1, axis=0) - ring
    square = np.maximum((side**2).sum(axis=1), 1e-18)
    out = places[:, None, :] - start[None]
    share = np.clip((out * side).sum(axis=2) / square, 0.0, 1.0)
    far: Array = np.sqrt(((out - share[..., None] * side) ** 2).sum(axis=2)).min(axis=1)
    y, above = places[:, 1:], start[:, 1] > places[:, 1:]
    crosses = above != np.roll(above, -1, axis=1)
    rise = np.where(side[:, 1] == 0, 1.0, side[:, 1])
    meets = start[:, 0] + (y - start[:, 1]) / rise * side[:, 0]
    inside = ((meets > places[:, :1]) & crosses).sum(axis=1) % 2 == 1
    far = np.where(inside, far, -far)
    for (u, v), radius in holes:
        far = np.minimum(far, np.hypot(places[:, 0] - u, places[:, 1] - v) - radius)
    return far
