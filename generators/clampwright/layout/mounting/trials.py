"""What many trial poses at once come to: stations, misfits, bushings, and what they are short of."""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from itertools import combinations

import numpy as np
import numpy.typing as npt

from clampwright.layout.mounting.assignments import Search
from clampwright.layout.mounting.poses import turn_off, turned

Array = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Trials:
    """n trial poses of an assignment each, m holes. Millimetres; what is short is never negative."""

    group: Indices
    lines: Indices
    theta: Array
    shift: Array
    """Place of the component's origin in the set's plan."""
    holes: Array
    """Places of its holes in plan (n, m, 2)."""
    stations: Array
    misfit: Array
    """From hole to bolt along the line's normal nu (n, m)."""
    worst: Array
    over: Array
    """Misfit beyond what is allowed, at the hole where that is most; 0 where none is."""
    height: Array
    """Of the component's origin."""
    gaps: Array
    """Lengths of the bushings (n, m)."""
    longest: Array
    spread: Array
    tilt: Array
    off: Array
    """From the place asked for; 0 where none was."""
    turned: Array
    """Off the direction asked for, as millimetres of the farthest hole; 0 where none was asked."""
    room: Array
    """Least distance of a station from an end of its stretch of room."""
    off_tube: Array
    """Bands over the ends of their tubes."""
    off_room: Array
    """Bands too near to welds and ends."""
    crowded: Array
    """Clamps of one tube too near to each other."""
    off_place: Array
    """Beyond the limits of the pose."""
    tubes: Indices
    """How many tubes carry it."""

    def __len__(self) -> int:
        return len(self.theta)

    def at(self, keep: npt.NDArray[np.bool_] | Indices) -> Trials:
        """Some of them."""
        return Trials(*(getattr(self, f.name)[keep] for f in fields(self)))


def trials(group: Indices, lines: Indices, theta: Array, shift: Array, search: Search) -> Trials:
    """The trials, measured."""
    plans, wanted, pattern = search.plans, search.wanted, search.pattern
    each = group[:, None]
    holes = shift[:, None, :] + turned(pattern.holes, theta)
    run, start = plans.run[each, lines], plans.start[each, lines]
    stations = ((holes - start) * run).sum(axis=-1) / (run * run).sum(axis=-1)
    misfit = plans.offset[each, lines] - (plans.nu[each, lines] * holes).sum(axis=-1)
    seats = plans.height[each, lines] + stations * plans.rise[each, lines] + plans.seat[each, lines]
    height = (seats - pattern.near).max(axis=1) + wanted.stand_off_mm
    gaps = height[:, None] + pattern.near - seats
    off, away, beyond = _from_the_pose(group, theta, shift, search)
    off_room, room = _room(plans.room[each, lines], stations)
    band = plans.half_band[each, lines]
    over = np.maximum(band - stations, stations - (plans.length[each, lines] - band))
    return Trials(
        group,
        lines,
        theta,
        shift,
        holes,
        stations,
        misfit,
        np.abs(misfit).max(axis=1),
        np.maximum((np.abs(misfit) - search.allowed).max(axis=1), 0.0),
        height,
        gaps,
        gaps.max(axis=1),
        np.ptp(gaps, axis=1),
        plans.tilt[each, lines].max(axis=1),
        off,
        away,
        room,
        np.maximum(over, 0.0).sum(axis=1),
        off_room,
        _crowded(group, lines, stations, search),
        beyond,
        plans.count[group],
    )


def _from_the_pose(group: Indices, theta: Array, shift: Array, search: Search) -> tuple[Array, Array, Array]:
    """Distance from the place asked for, turn from the one asked for (at the farthest hole), and both beyond
    what is allowed."""
    wanted, radius = search.wanted, search.pattern.radius_mm
    off, allowed = np.zeros(len(theta)), math.inf
    if wanted.place is not None:
        off = np.linalg.norm(shift - wanted.place[group], axis=1)
        allowed = wanted.within_mm + float(search.allowed.min())
    away = turn_off(theta) if wanted.turn_asked else np.zeros(len(theta))
    turned_by = np.maximum(away - wanted.turn_within_rad, 0.0) * radius
    beyond = np.maximum(off - allowed, 0.0) + np.where(turned_by > 1e-9, turned_by, 0.0)
    return off, away * radius, beyond


def _room(stretches: Array, stations: Array) -> tuple[Array, Array]:
    """How far stations lie outside their stretches of room (summed), and the least distance inside."""
    at = stations[..., None]
    inside = np.minimum(at - stretches[..., 0], stretches[..., 1] - at).max(axis=-1)
    return np.maximum(-inside, 0.0).sum(axis=1), inside.min(axis=1)


def _crowded(group: Indices, lines: Indices, stations: Array, search: Search) -> Array:
    short = np.zeros(len(group))
    for i, j in combinations(range(lines.shape[1]), 2):
        same = lines[:, i] // 2 == lines[:, j] // 2
        need = search.plans.apart[group, lines[:, i]]
        short += np.where(same, np.maximum(need - np.abs(stations[:, i] - stations[:, j]), 0.0), 0.0)
    return short
