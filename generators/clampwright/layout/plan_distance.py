"""Distances in the plate's plane for many places at once (numpy arrays whose last axis is u, v)."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]

_TINY = float(np.finfo(float).tiny)


def nearest_on_segment(points: Array, start: Array, end: Array) -> Array:
    """The place of a segment nearest to each point; shapes (..., 2), broadcast together.

    >>> nearest_on_segment(np.array([[4.0, 3.0], [-5.0, 1.0]]), np.zeros(2), np.array([10.0, 0.0])).tolist()
    [[4.0, 0.0], [0.0, 0.0]]
    """
    run = end - start
    square = np.maximum(_dot(run, run), _TINY)
    part = np.minimum(np.maximum(_dot(points - start, run) / square, 0.0), 1.0)
    nearest: Array = start + part[..., None] * run
    return nearest


def point_to_segment(points: Array, start: Array, end: Array) -> Array:
    """Distance of each point to a segment.

    >>> point_to_segment(np.array([[4.0, 3.0]]), np.zeros(2), np.array([10.0, 0.0])).tolist()
    [3.0]
    """
    return _length(points - nearest_on_segment(points, start, end))


def segment_to_segment(a: Array, b: Array, c: Array, d: Array) -> Array:
    """Distance between the segments a b and c d; 0 where they cross.

    >>> one, two = np.array([0.0, 0.0]), np.array([10.0, 0.0])
    >>> float(segment_to_segment(one, two, np.array([5.0, 2.0]), np.array([5.0, 9.0])))
    2.0
    """
    apart = np.minimum(
        np.minimum(point_to_segment(a, c, d), point_to_segment(b, c, d)),
        np.minimum(point_to_segment(c, a, b), point_to_segment(d, a, b)),
    )
    crossing = (_side(a, b, c) * _side(a, b, d) < 0) & (_side(c, d, a) * _side(c, d, b) < 0)
    return np.where(crossing, 0.0, apart)


def point_to_rectangle(points: Array, centre: Array, turn_rad: float, half: tuple[float, float]) -> Array:
    """Distance of each point to a turned rectangle: negative inside, by the way out.

    >>> at = np.array([[9.0, 0.0], [4.0, 0.0]])
    >>> point_to_rectangle(at, np.zeros(2), 0.0, (5.0, 2.0)).tolist()
    [4.0, -1.0]
    """
    away = points - centre
    cos, sin = np.cos(turn_rad), np.sin(turn_rad)
    beyond_u = np.abs(away[..., 0] * cos + away[..., 1] * sin) - half[0]
    beyond_v = np.abs(away[..., 1] * cos - away[..., 0] * sin) - half[1]
    apart: Array = np.hypot(np.maximum(beyond_u, 0.0), np.maximum(beyond_v, 0.0))
    apart += np.minimum(np.maximum(beyond_u, beyond_v), 0.0)
    return apart


def _side(a: Array, b: Array, p: Array) -> Array:
    """Positive where p lies left of a to b."""
    across: Array = (b[..., 0] - a[..., 0]) * (p[..., 1] - a[..., 1])
    across -= (b[..., 1] - a[..., 1]) * (p[..., 0] - a[..., 0])
    return across


def _length(vectors: Array) -> Array:
    length: Array = np.hypot(vectors[..., 0], vectors[..., 1])
    return length


def _dot(a: Array, b: Array) -> Array:
    product: Array = a[..., 0] * b[..., 0] + a[..., 1] * b[..., 1]
    return product
