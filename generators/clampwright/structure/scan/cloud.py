"""What a scan holds when it has been read: points, and the facets between them where it is a mesh."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Indices = npt.NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class Cloud:
    """Points (n, 3) in the file's own unit, or in mm after `in_mm`, and facets (m, 3) of their indices."""

    points: Array
    facets: Indices | None = None
    left_out: int = 0
    """Points and facets of the file that are no numbers or have no area."""

    @property
    def looked_at(self) -> int:
        """Points, or facets of a mesh."""
        return len(self.points) if self.facets is None else len(self.facets)

    def times(self, factor: float) -> Cloud:
        """The cloud in another unit."""
        return Cloud(self.points * factor, self.facets, self.left_out)


def usable(points: Array, facets: Indices | None) -> Cloud:
    """The cloud without points that are no numbers, and without the facets that use them or have no area.

    >>> usable(np.array([[0.0, 0.0, 0.0], [np.nan, 1.0, 1.0]]), None).left_out
    1
    """
    good: npt.NDArray[np.bool_] = np.asarray(np.isfinite(points).all(axis=1))
    if facets is None:
        return Cloud(points[good], None, int(np.sum(~good)))
    keep: npt.NDArray[np.bool_] = np.asarray(good[facets].all(axis=1))
    corners = points[facets[keep]]
    square = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    keep[keep] = np.einsum("ij,ij->i", square, square) > 0
    return Cloud(points, facets[keep], int(np.sum(~keep)))


def reach(points: Array) -> Array:
    """Length of the box (3,) that holds all but the outermost thousandth of the points on every side.

    >>> reach(np.arange(30.0).reshape(10, 3)).round(2).tolist()
    [26.95, 26.95, 26.95]
    """
    some = points[:: max(1, len(points) // 200_000)]
    low, high = np.quantile(some, [0.001, 0.999], axis=0)
    return np.asarray(high - low)
