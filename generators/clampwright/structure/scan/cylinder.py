"""A round cylinder without ends, and its fit to points: least squares on the distance from the skin."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]
Marks = npt.NDArray[np.bool_]

_TUKEY = 4.685
"""Residual, in standard deviations, from which on Tukey's biweight takes no notice of a point (95 % efficient
on a normal spread)."""
_MAD = 1.4826
"""Standard deviation of a normal spread over its median absolute deviation."""


@dataclass(frozen=True, slots=True, eq=False)
class Cylinder:
    """A cylinder by a point of its axis (mm), the axis' unit vector and the radius (mm)."""

    point: Array
    axis: Array
    radius: float

    def stations(self, points: Array) -> Array:
        """Place of each point (n, 3) along the axis, from `point`."""
        return np.asarray((points - self.point) @ self.axis)

    def outward(self, points: Array) -> tuple[Array, Array]:
        """Unit vectors (n, 3) from the axis towards the points, and distances (n,) from the axis."""
        off = points - self.point
        off = off - np.outer(off @ self.axis, self.axis)
        distance = np.sqrt(np.einsum("ij,ij->i", off, off))
        return off / np.maximum(distance, 1e-12)[:, None], distance

    def off_skin(self, points: Array) -> Array:
        """Distance (n,) of points from the skin, positive outside.

        >>> about_z = Cylinder(np.zeros(3), np.array([0.0, 0.0, 1.0]), 5.0)
        >>> about_z.off_skin(np.array([[3.0, 4.0, 9.0], [6.0, 8.0, 0.0]])).tolist()
        [0.0, 5.0]
        """
        return self.outward(points)[1] - self.radius

    def angles(self, points: Array) -> Array:
        """Angle (n,) of points round the axis, -π to π, from an arbitrary but repeatable direction."""
        u, v = square_to(self.axis)
        off = points - self.point
        return np.asarray(np.arctan2(off @ v, off @ u))

    def moved_to(self, station: float) -> Cylinder:
        """The same cylinder, its `point` moved along the axis."""
        return Cylinder(self.point + station * self.axis, self.axis, self.radius)


def square_to(axis: Array) -> tuple[Array, Array]:
    """Two unit vectors that make a right-handed frame with an axis.

    >>> [vector.tolist() for vector in square_to(np.array([0.0, 0.0, 1.0]))]
    [[0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]]
    """
    x, y, z = (float(a) for a in axis)
    least = min(abs(x), abs(y), abs(z))
    u = (0.0, z, 0.0 - y) if abs(x) == least else (0.0 - z, 0.0, x) if abs(y) == least else (y, 0.0 - x, 0.0)
    a, b, c = (part / math.hypot(*u) for part in u)
    return np.array([a, b, c]), np.array([y * c - z * b, z * a - x * c, x * b - y * a])


def slopes(cylinder: Cylinder, points: Array, frame: tuple[Array, Array] | None = None) -> Array:
    """How the distance from the skin changes (n, 5): axis shifted along u and v, tilted, radius.

    With φ the point's angle and t its station: -cos φ, -sin φ, -t cos φ, -t sin φ, -1. `frame` is u and v;
    those square to the axis where not given.
    """
    u, v = frame or square_to(cylinder.axis)
    out, _ = cylinder.outward(points)
    cos, sin, t = out @ u, out @ v, cylinder.stations(points)
    return np.column_stack([-cos, -sin, -t * cos, -t * sin, -np.ones(len(points))])


def changed(cylinder: Cylinder, by: Array) -> Cylinder:
    """The cylinder after a step in the five directions of `slopes`."""
    u, v = square_to(cylinder.axis)
    axis = cylinder.axis + by[2] * u + by[3] * v
    point = cylinder.point + by[0] * u + by[1] * v
    return Cylinder(point, axis / np.linalg.norm(axis), cylinder.radius + float(by[4]))


def fit(points: Array, start: Cylinder, weights: Array | None = None, closely: float = 1e-10) -> Cylinder:
    """The cylinder with the least sum of squared distances of its skin from points.

    Parameters
    ----------
    points : array (n, 3)
        At least five, mm.
    start : Cylinder
        Where the search starts: within about a radius, and 30° of the axis.
    weights : array (n,), optional
        Weight of each squared distance; 1 where not given.
    closely : float
        Relative change of cylinder or sum below which it is good enough.

    Returns
    -------
    Cylinder
        Its `point` is the foot of the points' mean.

    Examples
    --------
    >>> turn = np.linspace(0.0, 2.0, 20)
    >>> points = np.column_stack([8 * np.cos(turn), 8 * np.sin(turn), np.arange(20.0) % 7])
    >>> round(fit(points, Cylinder(np.ones(3), np.array([0.1, 0.0, 1.0]), 7.0)).radius, 6)
    8.0
    """
    from scipy.optimize import least_squares

    root = np.ones(len(points)) if weights is None else np.sqrt(weights)
    start = _centred(start, points, root**2)
    frame = square_to(start.axis)

    def residuals(by: Array) -> Array:
        return np.asarray(root * changed(start, by).off_skin(points))

    def jacobian(by: Array) -> Array:
        return np.asarray(root[:, None] * slopes(changed(start, by), points, frame))

    scale = np.array([1.0, 1.0, 1.0 / _reach(start, points), 1.0 / _reach(start, points), 1.0])
    found = least_squares(
        residuals,
        np.zeros(5),
        jacobian,
        method="trf",
        x_scale=scale,
        xtol=closely,
        ftol=max(closely, 1e-9),
        max_nfev=300,
    )
    end = changed(start, found.x)
    return _centred(Cylinder(end.point, end.axis, abs(end.radius)), points, root**2)


def fit_robustly(
    points: Array, start: Cylinder, weights: Array | None = None, rounds: int = 4, closely: float = 1e-10
) -> tuple[Cylinder, Array, float]:
    """The cylinder, each point's weight (0 to 1) and the standard deviation of the skin's roughness.

    Least squares again and again, every point weighted by Tukey's biweight of its distance over the
    standard deviation that the median distance gives.
    """
    found, given = start, np.ones(len(points)) if weights is None else weights
    trust, sigma = np.ones(len(points)), 0.0
    for _ in range(rounds):
        off = found.off_skin(points)
        sigma = max(_MAD * float(np.median(np.abs(off))), 1e-7)
        trust = np.clip(1.0 - np.square(off / (_TUKEY * sigma)), 0.0, None) ** 2
        found = fit(points, found, given * trust, closely)
    return found, trust, sigma


def fit_roughly(points: Array, start: Cylinder, rounds: int = 8) -> tuple[Cylinder, float]:
    """The cylinder and the skin's roughness in a few of Gauss and Newton's steps, far points counting less.

    For searching: near enough where the start is near, and some times faster than `fit_robustly`.
    """
    found, sigma = _centred(start, points, np.ones(len(points))), 0.0
    for _ in range(rounds):
        off, slope = found.off_skin(points), slopes(found, points)
        sigma = max(_MAD * float(np.median(np.abs(off))), 1e-7)
        trust = np.clip(1.0 - np.square(off / (_TUKEY * sigma)), 0.0, None) ** 2
        weighed = slope * trust[:, None]
        normal = weighed.T @ slope
        held = normal + 1e-6 * np.diag(np.diag(normal)) + 1e-12 * np.eye(5)
        step = np.linalg.solve(held, -(weighed.T @ off))
        most = 0.3 * found.radius
        found = changed(found, np.clip(step, [-most, -most, -0.2, -0.2, -most], [most, most, 0.2, 0.2, most]))
        if float(np.abs(step).max()) < 1e-3 * sigma:
            break
    return found, sigma


def fit_anywhere(points: Array) -> Cylinder:
    """The cylinder through points, with no start at hand: every direction of a sphere is tried.

    Examples
    --------
    >>> turn = np.linspace(0.0, 5.0, 12)
    >>> found = fit_anywhere(np.column_stack([turn * turn, 8 * np.cos(turn), 8 * np.sin(turn)]))
    >>> round(found.radius, 4), np.abs(found.axis).round(4).tolist()
    (8.0, [1.0, 0.0, 0.0])
    """
    starts = [_circle(points, axis) for axis in _directions(200)]
    starts.sort(key=lambda c: float(np.sum(np.square(c.off_skin(points)))))
    fits = [fit(points, start) for start in starts[:12]]
    return min(fits, key=lambda c: float(np.sum(np.square(c.off_skin(points)))))


def _directions(count: int) -> Array:
    """Unit vectors spread evenly over half a sphere (n, 3): a Fibonacci spiral."""
    z = (np.arange(count) + 0.5) / count
    turn = np.pi * (1 + 5**0.5) * np.arange(count)
    flat = np.sqrt(1 - z * z)
    return np.column_stack([flat * np.cos(turn), flat * np.sin(turn), z])


def _circle(points: Array, axis: Array) -> Cylinder:
    """The cylinder along an axis whose circle fits the points algebraically: x² + y² = 2ax + 2by + c."""
    u, v = square_to(axis)
    middle = points.mean(axis=0)
    x, y = (points - middle) @ u, (points - middle) @ v
    (a, b, c), *_ = np.linalg.lstsq(
        np.column_stack([2 * x, 2 * y, np.ones(len(x))]), x * x + y * y, rcond=None
    )
    return Cylinder(middle + a * u + b * v, axis, float(np.sqrt(max(c + a * a + b * b, 1e-9))))


def _reach(cylinder: Cylinder, points: Array) -> float:
    return max(float(np.std(cylinder.stations(points))), cylinder.radius)


def _centred(cylinder: Cylinder, points: Array, weights: Array) -> Cylinder:
    total = float(np.sum(weights))
    return cylinder.moved_to(float(weights @ cylinder.stations(points)) / total) if total > 0 else cylinder
