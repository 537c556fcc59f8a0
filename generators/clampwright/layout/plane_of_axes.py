"""The plane that the axes of tubes lie nearest to, and how far tubes stand out of square to a normal."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from clampwright.structure.tubes import Tube

Array = npt.NDArray[np.float64]

AMBIGUOUS = 0.5
"""Share of the next eigenvalue above which the least one marks no direction of its own."""


def best_plane(tubes: Sequence[Tube]) -> Array | None:
    """Normal of the plane that the axes lie nearest to (either sign); None where no plane is the nearest.

    Every tube counts with as much of its axis as the shortest tube is long, about the foot f of the square
    from the middle of all tubes. With f̄ the mean of the feet and ℓ that length, n is the eigenvector of the
    least eigenvalue of Σ (f − f̄)(f − f̄)ᵀ + ℓ²/12 a aᵀ: the least sum of squares of what bushings would fill.

    >>> a = Tube("a", (0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 19.05)
    >>> b = Tube("b", (0.0, 150.0, 0.0), (400.0, 150.0, 0.0), 19.05)
    >>> normal = best_plane([a, b])
    >>> normal is not None and abs(normal).round(9).tolist()
    [0.0, 0.0, 1.0]
    """
    starts, directions = np.array([t.start for t in tubes]), np.array([t.direction for t in tubes])
    middle = (starts + np.array([t.end for t in tubes])).mean(axis=0) / 2
    stations = ((middle - starts) * directions).sum(axis=1)
    feet = starts + stations[:, None] * directions
    off = feet - feet.mean(axis=0)
    length = min(t.length_mm for t in tubes)
    values, vectors = np.linalg.eigh(off.T @ off + length**2 / 12 * directions.T @ directions)
    normal: Array = vectors[:, 0]
    return normal if values[0] <= AMBIGUOUS * values[1] else None


def tilts_deg(tubes: Sequence[Tube], normal: Array) -> Array:
    """Angle of every tube out of square to a normal: asin |a·n|, degrees.

    >>> rising = Tube("rising", (0.0, 0.0, 0.0), (0.0, 3.0, 4.0), 19.05)
    >>> tilts_deg([rising], np.array([0.0, 0.0, 1.0])).round(2).tolist()
    [53.13]
    """
    directions = np.array([t.direction for t in tubes])
    tilts: Array = np.degrees(np.arcsin(np.clip(np.abs(directions @ normal), 0.0, 1.0)))
    return tilts


def lean_deg(one: Array, other: Array) -> float:
    """Angle between two normals, whatever their signs, degrees.

    >>> round(lean_deg(np.array([0.0, 0.0, 1.0]), np.array([0.0, 0.6, -0.8])), 2)
    36.87
    """
    return float(np.degrees(np.arctan2(np.linalg.norm(np.cross(one, other)), abs(float(one @ other)))))
