"""Small convex problems over discs and strips, by Newton's method with a logarithmic barrier.

A cone is |A x + b| <= size + w z with w 1 or 0. The barrier of one is -log((size + w z)^2 - |A x + b|^2);
its analytic centres lead to the optimum, within 2 k / t of it for k cones at parameter t (Boyd and
Vandenberghe, Convex Optimization, 2004, sections 11.2 and 11.6).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Array = npt.NDArray[np.float64]

_T_FIRST, _T_LAST, _T_TIMES = 1.0, 1e10, 20.0
_NEWTON = 50
_DECREMENT = 1e-9
_NO_STEP = 1e-9
_RIDGE = 1e-13


@dataclass(frozen=True, slots=True)
class Cones:
    """k cones in n unknowns: `linear` (k, 2, n), `constant` (k, 2), `size` and `with_z` (k,)."""

    linear: Array
    constant: Array
    size: Array
    with_z: Array

    def lengths(self, x: Array) -> Array:
        """|A x + b| of each, (k,)."""
        return np.asarray(np.linalg.norm(self.linear @ x + self.constant, axis=1), dtype=float)

    def z_of(self, x: Array) -> float:
        """The least z that x allows."""
        mine = self.with_z > 0
        return float(np.max((self.lengths(x) - self.size)[mine]))

    def free(self, x: Array) -> bool:
        """Whether x keeps the cones without z."""
        return bool(np.all((self.lengths(x) <= self.size)[self.with_z == 0]))


def least_z(cones: Cones) -> tuple[Array, float]:
    """The unknowns with the least z, strictly inside all cones, and that z.

    x = 0 has to keep the cones without z.

    Examples
    --------
    One unknown, held within 1 of 0 and within 2 of 6: z = 1.5 at x = 2.5.

    >>> line = np.array([[[1.0], [0.0]], [[1.0], [0.0]]])
    >>> x, z = least_z(Cones(line, np.array([[0.0, 0], [-6, 0]]), np.array([1.0, 2]), np.ones(2)))
    >>> round(float(x[0]), 6), round(z, 6)
    (2.5, 1.5)
    """
    n = cones.linear.shape[2]
    linear = np.concatenate((cones.linear, np.zeros((*cones.linear.shape[:2], 1))), axis=2)
    start = np.zeros(n + 1)
    start[n] = cones.z_of(start[:n]) + 1.0
    aim = np.zeros(n + 1)
    aim[n] = 1.0
    flat = np.zeros((n + 1, n + 1))
    found = _Barrier(linear, cones.constant, cones.size, cones.with_z, aim, flat).follow(start)
    return found[:n], float(found[n])


def least_squares_within(cones: Cones, z: float, start: Array, flat: Array, target: Array) -> Array:
    """The unknowns in all cones at a fixed z that have the least |flat x - target|^2.

    Parameters
    ----------
    cones, z
        What holds the unknowns.
    start
        Strictly inside all cones at that z.
    flat, target
        Shapes (m, n) and (m,).

    Examples
    --------
    >>> one = Cones(np.array([[[1.0], [0.0]]]), np.zeros((1, 2)), np.array([1.0]), np.ones(1))
    >>> round(float(least_squares_within(one, 0.5, np.zeros(1), np.eye(1), np.array([7.0]))[0]), 6)
    1.5
    """
    size = cones.size + cones.with_z * z
    none = np.zeros(len(size))
    return _Barrier(cones.linear, cones.constant, size, none, -flat.T @ target, flat.T @ flat).follow(start)


@dataclass(frozen=True, slots=True)
class _Barrier:
    """t * (aim y + y bend y / 2) with a wall round each cone; where any has z, the last unknown is z."""

    linear: Array
    constant: Array
    size: Array
    with_z: Array
    aim: Array
    bend: Array

    def _reach(self, y: Array) -> tuple[Array, Array, Array]:
        """Size with z, vector, and its length, of each cone."""
        vector = self.linear @ y + self.constant
        return self.size + self.with_z * y[-1], vector, np.sqrt(np.sum(vector**2, axis=1))

    def change(self, y: Array, step: Array, t: float, walls: float) -> float:
        """By how much a step changes the whole; infinite where it leaves a cone."""
        there = self.walls(y + step)
        return t * float((self.aim + self.bend @ (y + step / 2)) @ step) + there - walls

    def walls(self, y: Array) -> float:
        """The barrier alone."""
        reach, _, length = self._reach(y)
        if not np.all(reach > length):
            return math.inf
        return -float(np.sum(np.log(reach - length) + np.log(reach + length)))

    def slopes(self, y: Array, t: float) -> tuple[Array, Array]:
        """Gradient and Hessian of the whole."""
        reach, vector, length = self._reach(y)
        room = (reach - length) * (reach + length)
        e = np.zeros(len(y))
        e[-1] = 1.0
        rising = 2 * (np.outer(reach * self.with_z, e) - np.einsum("kij,ki->kj", self.linear, vector))
        curve = 2 * float(np.sum(self.with_z / room)) * np.outer(e, e)
        curve -= 2 * np.einsum("kij,kil,k->jl", self.linear, self.linear, 1 / room)
        share = rising / room[:, None]
        gradient = t * (self.aim + self.bend @ y) - share.sum(axis=0)
        return gradient, t * self.bend + share.T @ share - curve

    def centre(self, y: Array, t: float) -> Array:
        """Damped Newton down to the centre for t."""
        for _ in range(_NEWTON):
            gradient, hessian = self.slopes(y, t)
            step = _newton(gradient, hessian)
            fall = float(gradient @ step)
            if not fall < -_DECREMENT:
                break
            walls, size = self.walls(y), 1.0
            while self.change(y, size * step, t, walls) > 0.25 * size * fall:
                size /= 2
                if size < _NO_STEP:
                    return y
            y = y + size * step
        return y

    def follow(self, y: Array) -> Array:
        """The centres for a growing t, from a point strictly inside."""
        t = _T_FIRST
        while t <= _T_LAST:
            y = self.centre(y, t)
            t *= _T_TIMES
        return y


def _newton(gradient: Array, hessian: Array) -> Array:
    """-H^-1 g, scaled, with a trace of ridge where nothing holds an unknown."""
    diagonal = np.diag(hessian)
    scale = 1 / np.sqrt(np.maximum(diagonal, 1e-12 * float(diagonal.max())))
    scaled = hessian * np.outer(scale, scale) + _RIDGE * np.eye(len(gradient))
    return np.asarray(-scale * np.linalg.solve(scaled, scale * gradient), dtype=float)
