"""The example mount measured as the how-to says, and its covariance by plain least squares: on its own."""

from __future__ import annotations

import itertools
import tomllib
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
MOUNT = Path(__file__).parents[3] / "recipes" / "engine-mount.toml"
INCH = 25.4
CLEAR = 2.0 * INCH
"""From a tube's end to its ring, mm: clear of the weld."""

MARKS = {"F1": (0.0, -13.0, -11.0), "F2": (0.0, 13.0, -11.0), "F3": (0.0, 0.0, 12.0)}
"""Inches: low left, low right, top of the firewall."""

HELD = {("F1", 0), ("F1", 1), ("F1", 2), ("F2", 0), ("F2", 2), ("F3", 0)}
"""Coordinates that the datum fixes: origin F1, y through F2, z in the plane of F3."""


def rings() -> dict[str, Array]:
    """Two rings on each tube of the example mount, and the three marks, mm."""
    tubes = tomllib.loads(MOUNT.read_text(encoding="utf-8"))["tubes"]
    points = {name: INCH * np.array(at) for name, at in MARKS.items()}
    for name, tube in tubes.items():
        a, b = INCH * np.array(tube["start"], dtype=float), INCH * np.array(tube["end"], dtype=float)
        step = CLEAR * (b - a) / np.linalg.norm(b - a)
        points[f"{name} 1"], points[f"{name} 2"] = a + step, b - step
    return points


def distances(points: dict[str, Array]) -> list[tuple[str, str]]:
    """Each ring from the three marks, along each tube, and one spare a ring, to another tube."""
    names = [name for name in points if name not in MARKS]
    taken = {*itertools.combinations(MARKS, 2), *itertools.product(MARKS, names)}
    for name in names:
        tube = name[:-2]
        taken.add((f"{tube} 1", f"{tube} 2"))
        others = [other for other in names if other[:-2] != tube]
        far = [o for o in others if np.linalg.norm(points[o] - points[name]) > 10 * INCH]
        spare = min(far, key=lambda other: float(np.linalg.norm(points[other] - points[name])))
        taken.add((min(name, spare), max(name, spare)))
    return sorted(taken)


def plus_minus(points: dict[str, Array], pairs: list[tuple[str, str]], tape_mm: float) -> dict[str, Array]:
    """± (95 %) of each point's coordinates from distances that are each good to ± `tape_mm`.

    Normal equations N = Jᵀ J / s², J the unit vectors between the points; covariance N⁻¹.
    """
    free = [(name, axis) for name in points for axis in range(3) if (name, axis) not in HELD]
    jacobian = np.zeros((len(pairs), len(free)))
    for row, (a, b) in enumerate(pairs):
        way = (points[b] - points[a]) / np.linalg.norm(points[b] - points[a])
        for axis in range(3):
            for name, sign in ((a, -1.0), (b, 1.0)):
                if (name, axis) in free:
                    jacobian[row, free.index((name, axis))] += sign * way[axis]
    sigma = tape_mm / 1.96
    covariance = np.linalg.inv(jacobian.T @ jacobian) * sigma**2
    found = {name: np.zeros(3) for name in points}
    for (name, axis), variance in zip(free, np.diag(covariance), strict=True):
        found[name][axis] = 1.96 * np.sqrt(variance)
    return found
