"""Every way to hold the component with misfits of a given size, each at its best place."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.assignments import Branches, Search, assignments
from clampwright.layout.mounting.poses import equations
from clampwright.layout.mounting.settling import settled
from clampwright.layout.mounting.slides import cost
from clampwright.layout.mounting.trials import Trials

Array = npt.NDArray[np.float64]

_SAME_MM, _SAME_RAD = 1.0, 0.01
"""Poses of one assignment nearer together than this are one answer."""
_TOUCH_RAD = 1e-6


def candidates(search: Search) -> Trials:
    """All assignments that the search's slack allows, one entry an answer, each at its best place."""
    found = assignments(search)
    held = equations(found.group, found.lines, search)
    tried = settled(found, held, search)
    return tried.at(_distinct(tried, found, search))


def _distinct(tried: Trials, found: Branches, search: Search) -> npt.NDArray[np.intp]:
    """One of all that are the same assignment slid or turned by what the holes leave free: the cheapest."""
    if not len(tried):
        return np.zeros(0, dtype=np.intp)
    _, number = np.unique(np.column_stack([tried.group, tried.lines]), axis=0, return_inverse=True)
    number = number.ravel()
    order = np.lexsort((tried.theta, np.round(cost(tried, search), 6), number))
    kept: list[int] = []
    mine: list[int] = []
    for i in order.tolist():
        if not mine or number[mine[0]] != number[i]:
            mine = []
        if not any(_same(tried, i, k) or _touch(found, i, k) for k in mine):
            mine.append(i)
            kept.append(i)
    return np.array(sorted(kept), dtype=np.intp)


def _same(tried: Trials, i: int, k: int) -> bool:
    near = float(np.linalg.norm(tried.shift[i] - tried.shift[k]))
    return _apart(tried.theta, i, k) < _SAME_RAD and near < _SAME_MM


def _touch(found: Branches, i: int, k: int) -> bool:
    return bool(_apart(found.centre, i, k) <= found.half[i] + found.half[k] + _TOUCH_RAD)


def _apart(angles: Array, i: int, k: int) -> float:
    return abs(float(np.remainder(angles[i] - angles[k] + np.pi, 2 * np.pi) - np.pi))
