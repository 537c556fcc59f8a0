"""Distances between simple bodies by a general minimiser (scipy), for tests of clearances."""

from __future__ import annotations

from math import sqrt
from typing import Any

import numpy as np
from scipy.optimize import minimize

from clampwright.layout.bodies import Body, Box, Capsule, Cylinder

AXES = np.eye(3)


def place(body: Body, x: Any) -> Any:
    """A place of the body's core from three numbers between -1 and 1."""
    if isinstance(body, Box):
        return np.array(body.centre) + (x * np.array(body.half)) @ np.array(body.axes)
    start, end = np.array(body.start), np.array(body.end)
    middle = (start + end + x[0] * (end - start)) / 2
    if isinstance(body, Capsule):
        return middle
    axis = (end - start) / np.linalg.norm(end - start)
    side = np.cross(axis, AXES[int(np.argmin(np.abs(axis)))])
    side = side / np.linalg.norm(side)
    return middle + body.radius_mm * (x[1] * side + x[2] * np.cross(axis, side))


def apart(a: Body, b: Body) -> float:
    """Least distance of two places, each held in its body; convex, so that the least found is the least."""
    disc = [
        {"type": "ineq", "fun": lambda x, i=i: 1 - x[i + 1] ** 2 - x[i + 2] ** 2}
        for i, body in ((0, a), (3, b))
        if isinstance(body, Cylinder)
    ]
    found = minimize(
        lambda x: float(((place(a, x[:3]) - place(b, x[3:])) ** 2).sum()) / 100.0,
        np.zeros(6),
        bounds=[(-1, 1)] * 6,
        constraints=disc,
        method="SLSQP",
        options={"ftol": 1e-13, "maxiter": 400},
    )
    rounding = sum(body.radius_mm for body in (a, b) if isinstance(body, Capsule))
    return max(0.0, 10.0 * sqrt(max(found.fun, 0.0)) - rounding)
