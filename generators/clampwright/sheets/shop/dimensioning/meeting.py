"""Which straight lines cross or touch which others; those that only lie in one line do neither."""

from __future__ import annotations

import numpy as np

from clampwright.sheets.collisions import Array, Flags


def crossings(lines: Array, others: Array) -> Flags:
    """Whether lines (n, 4) cross others (m, 4) between their ends: (n, m).

    Examples
    --------
    >>> crossings(np.array([[0.0, 0.0, 2.0, 2.0]]), np.array([[0.0, 2.0, 2.0, 0.0], [3.0, 3.0, 4.0, 4.0]]))
    array([[ True, False]])
    """
    a, b = lines[:, None, :], others[None, :, :]
    over_b = _side(b, a[..., :2]) * _side(b, a[..., 2:])
    over_a = _side(a, b[..., :2]) * _side(a, b[..., 2:])
    return np.asarray((over_b < 0) & (over_a < 0))


def meet(lines: Array, others: Array, air: float) -> Flags:
    """Whether lines (n, 4) cross others (m, 4) or an end of either lies nearer than `air` to the other: (n,).

    Examples
    --------
    >>> line = np.array([[0.0, 0.0, 2.0, 0.0]])
    >>> meet(line, np.array([[3.0, 0.0, 4.0, 0.0]]), 0.3), meet(line, np.array([[2.1, 0.0, 4.0, 0.0]]), 0.3)
    (array([False]), array([ True]))
    """
    if not len(others) or not len(lines):
        return np.zeros(len(lines), dtype=bool)
    a, b = lines[:, None, :], others[None, :, :]
    near = np.minimum.reduce(
        [
            distances(a[..., :2], b),
            distances(a[..., 2:], b),
            distances(b[..., :2], a),
            distances(b[..., 2:], a),
        ]
    )
    return np.asarray((crossings(lines, others) | (near < air)).any(axis=1))


def distances(points: Array, lines: Array) -> Array:
    """Distance of points (..., 2) from lines (..., 4)."""
    step = lines[..., 2:] - lines[..., :2]
    away = points - lines[..., :2]
    long = np.maximum((step**2).sum(axis=-1), 1e-12)
    share = np.clip((away * step).sum(axis=-1) / long, 0.0, 1.0)
    off = away - share[..., None] * step
    return np.asarray(np.hypot(off[..., 0], off[..., 1]))


def _side(line: Array, point: Array) -> Array:
    """On which side of lines (..., 4) points (..., 2) lie: positive on the left."""
    along = (line[..., 2] - line[..., 0]) * (point[..., 1] - line[..., 1])
    across = (line[..., 3] - line[..., 1]) * (point[..., 0] - line[..., 0])
    return np.asarray(along - across)
