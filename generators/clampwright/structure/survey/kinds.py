"""What each kind of measurement would read on a given figure, and how it changes as points move.

Every function here takes points of shape (..., m, k, 3): any number of figures, m measurements of its kind,
k places that each depends on. It gives their readings (..., m) and gradients (..., m, k, 3).
"""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from clampwright.quantities import Vec3

Array = npt.NDArray[np.float64]
Reading = tuple[Array, Array]

_NOTHING = 1e-9
"""Lengths and sines below this are no numbers to divide by."""


def centre(points: Array) -> Reading:
    """Distance of two points.

    >>> reading, gradient = centre(np.array([[[0.0, 0.0, 0.0], [3.0, 4.0, 0.0]]]))
    >>> reading.tolist(), gradient[0, 1].tolist()
    ([5.0], [0.6, 0.8, 0.0])
    """
    away = points[..., 1, :] - points[..., 0, :]
    length = _length(away)
    unit = away / length[..., None]
    return length, np.stack([-unit, unit], axis=-2)


def over_walls(points: Array, radii: Array, sign: Array) -> Reading:
    """Distance of two points with the walls of the tubes that they lie on: |d| ± (r_a/sin α_a + r_b/sin α_b).

    Places are a, b, start and end of a's tube, start and end of b's; `radii` (m, 2) is 0 where there is no
    tube; `sign` (m,) is 1 over the far walls, -1 between the near ones.

    >>> frame = np.array([[[0, 0, 0], [100, 0, 0], [0, -9, 0], [0, 9, 0], [100, -9, 0], [100, 9, 0.0]]])
    >>> over_walls(frame, np.array([[10.0, 8.0]]), np.array([1.0]))[0].tolist()
    [118.0]
    """
    length, gradient = centre(points)
    away = points[..., 1, :] - points[..., 0, :]
    every = np.zeros(points.shape)
    every[..., :2, :] = gradient
    for side, first in ((0, 2), (1, 4)):
        along = points[..., first + 1, :] - points[..., first, :]
        wall, by_away, by_along = _over_sine(away, along)
        share = sign * radii[:, side]
        length = length + share * wall
        every[..., 0, :] -= share[:, None] * by_away
        every[..., 1, :] += share[:, None] * by_away
        every[..., first, :] -= share[:, None] * by_along
        every[..., first + 1, :] += share[:, None] * by_along
    return length, every


def _over_sine(away: Array, along: Array) -> tuple[Array, Array, Array]:
    """1 / sin of the angle between two vectors, and its gradient by each."""
    long, tall = _length(away), _length(along)
    d, t = away / long[..., None], along / tall[..., None]
    cosine = np.sum(d * t, axis=-1)
    sine = np.sqrt(np.maximum(1.0 - cosine**2, _NOTHING))
    steep = (cosine / sine**3)[..., None]
    by_away = steep * (t - cosine[..., None] * d) / long[..., None]
    by_along = steep * (d - cosine[..., None] * t) / tall[..., None]
    return 1.0 / sine, by_away, by_along


def along_axis(points: Array, axes: Array) -> Reading:
    """How much farther the second point lies along a fixed axis (m, 3) than the first."""
    away = points[..., 1, :] - points[..., 0, :]
    gradient = np.broadcast_to(np.stack([-axes, axes], axis=-2), points.shape)
    return np.sum(away * axes, axis=-1), gradient


def along_up(points: Array) -> Reading:
    """How much higher the second point is than the first; the third place is the upward vector."""
    away, up = points[..., 1, :] - points[..., 0, :], points[..., 2, :]
    tall = _length(up)[..., None]
    unit = up / tall
    rise = np.sum(away * unit, axis=-1)
    by_up = (away - rise[..., None] * unit) / tall
    return rise, np.stack([-unit, unit, by_up], axis=-2)


def across_up(points: Array, part: int) -> Reading:
    """How far the second point is off the plumb line through the first; third place: the upward vector.

    `part` is 0 or 1: two directions square to the upward vector and to each other.
    """
    away, up = points[..., 1, :] - points[..., 0, :], points[..., 2, :]
    offset, by_away, by_up = _across(away, up, part)
    return offset, np.stack([-by_away, by_away, by_up], axis=-2)


def off_axis(points: Array, part: int) -> Reading:
    """How far a point is off the line through two others: places point, start, end; `part` as above."""
    away, along = points[..., 0, :] - points[..., 1, :], points[..., 2, :] - points[..., 1, :]
    offset, by_away, by_along = _across(away, along, part)
    return offset, np.stack([by_away, -by_away - by_along, by_along], axis=-2)


def _across(away: Array, along: Array, part: int) -> tuple[Array, Array, Array]:
    """Component of `away` along e₁ = (ref × t)/|ref × t| or e₂ = t × e₁, with t the unit vector `along`.

    ref is the frame's axis that t is farthest from.
    """
    tall = _length(along)[..., None]
    t = along / tall
    ref = np.eye(3)[np.argmin(np.abs(t), axis=-1)]
    w = np.cross(ref, t)
    wide = _length(w)[..., None]
    e1 = w / wide
    if part == 0:
        by_t = _turned(away, e1, ref, wide)
        offset, by_away = np.sum(away * e1, axis=-1), e1
    else:
        e2 = np.cross(t, e1)
        offset, by_away = np.sum(away * e2, axis=-1), e2
        by_t = np.cross(e1, away) + _turned(np.cross(away, t), e1, ref, wide)
    by_along = (by_t - np.sum(by_t * t, axis=-1, keepdims=True) * t) / tall
    return offset, by_away, by_along


def _turned(held: Array, e1: Array, ref: Array, wide: Array) -> Array:
    """Gradient by t of held · e₁, `held` kept as it is."""
    square = held - np.sum(held * e1, axis=-1, keepdims=True) * e1
    return np.cross(square, ref) / wide


def from_axis(points: Array) -> Reading:
    """Distance of a point from the line through two others: places point, start, end.

    >>> from_axis(np.array([[[5.0, 3.0, 4.0], [0.0, 0.0, 0.0], [9.0, 0.0, 0.0]]]))[0].tolist()
    [5.0]
    """
    away, along = points[..., 0, :] - points[..., 1, :], points[..., 2, :] - points[..., 1, :]
    share = (np.sum(away * along, axis=-1) / _length(along) ** 2)[..., None]
    square = away - share * along
    distance = _length(square)
    unit = square / distance[..., None]
    return distance, np.stack([unit, -(1.0 - share) * unit, -share * unit], axis=-2)


def slope(points: Array) -> Reading:
    """Angle that the line from the first to the second place rises; the third is the upward vector."""
    along, up = points[..., 1, :] - points[..., 0, :], points[..., 2, :]
    angle, by_along, by_up = _angle(along, up)
    return np.pi / 2 - angle, np.stack([by_along, -by_along, -by_up], axis=-2)


def between(points: Array) -> Reading:
    """Angle between two lines, each from a start to an end.

    >>> between(np.array([[[0.0, 0, 0], [1, 0, 0], [5, 5, 5], [5, 6, 5]]]))[0].round(6).tolist()
    [1.570796]
    """
    angle, by_one, by_other = _angle(
        points[..., 1, :] - points[..., 0, :], points[..., 3, :] - points[..., 2, :]
    )
    return angle, np.stack([-by_one, by_one, -by_other, by_other], axis=-2)


def _angle(one: Array, other: Array) -> tuple[Array, Array, Array]:
    """Angle between two vectors, 0 to π, and its gradient by each."""
    long, tall = _length(one)[..., None], _length(other)[..., None]
    d, t = one / long, other / tall
    cosine = np.sum(d * t, axis=-1, keepdims=True)
    sine = np.linalg.norm(np.cross(d, t), axis=-1, keepdims=True)
    safe = np.maximum(sine, _NOTHING)
    angle = np.arctan2(sine, cosine)[..., 0]
    return angle, -(t - cosine * d) / (safe * long), -(d - cosine * t) / (safe * tall)


def length_of(points: Array) -> Reading:
    """Length of a vector."""
    vector = points[..., 0, :]
    length = _length(vector)
    return length, (vector / length[..., None])[..., None, :]


def _length(vector: Array) -> Array:
    return np.asarray(np.maximum(np.sqrt(np.sum(vector * vector, axis=-1)), _NOTHING), dtype=float)


def vec(at: Array) -> Vec3:
    """A row of coordinates as three plain numbers; no negative zero.

    >>> vec(np.array([1.0, -0.0, 2.5]))
    (1.0, 0.0, 2.5)
    """
    x, y, z = (float(value) + 0.0 for value in at)
    return x, y, z
