"""The tubes as lines in the plate's own directions: plan and height, and which way a clamp's foot points."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.frame import Attitude
from clampwright.layout.plan_distance import nearest_on_segment
from clampwright.quantities import Vec2, Vec3
from clampwright.structure.tubes import Tube

Array = npt.NDArray[np.float64]

_EVEN = 1e-6
"""Millimetres by which the other tubes may lie to both sides before one side counts as theirs."""


@dataclass(frozen=True, slots=True)
class TubeLine:
    """One tube seen along the plate's normal: plan position and height of its axis at every station.

    Plan and height count from `reference`, a point of the world that all lines share. `across` is the
    plan direction bolt_axis x axis; `run` and `rise` are plan and height gained a millimetre of station.
    """

    tube: Tube
    reference: Vec3
    start: Vec2
    run: Vec2
    height_mm: float
    rise: float
    across: Vec2
    bolt_axis: Vec3
    tilt_rad: float

    def plan(self, station_mm: float) -> Vec2:
        """Plan position of the axis at a station."""
        return self.start[0] + station_mm * self.run[0], self.start[1] + station_mm * self.run[1]

    def height(self, station_mm: float) -> float:
        """Height of the axis at a station."""
        return self.height_mm + station_mm * self.rise

    def seat_height(self, station_mm: float, seat_mm: float) -> float:
        """Height of a clamp's outer foot face at the bolt: the seat counts along the clamp's own bolt."""
        return self.height(station_mm) + seat_mm * math.cos(self.tilt_rad)

    @property
    def ends(self) -> tuple[Vec2, Vec2]:
        """Plan positions of both ends."""
        return self.start, self.plan(self.tube.length_mm)


def tube_lines(
    tubes: Sequence[Tube], stands: Attitude, reference: Vec3 | None = None
) -> tuple[TubeLine, ...]:
    """The tubes in plan and height, counted from `reference` (left out: the mean of their ends).

    With a the tube's direction, the bolt direction of its clamps is n made square to a, m = n − (n·a) a
    (unit), and the tilt is the angle between m and n, asin |n·a|.

    >>> low = Tube("low", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 19.05)
    >>> high = Tube("high", (0.0, 150.0, 8.0), (500.0, 150.0, 8.0), 19.05)
    >>> level = Attitude((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), ())
    >>> lines = tube_lines([low, high], level)
    >>> lines[1].height(0.0) - lines[0].height(0.0), lines[0].across
    (8.0, (0.0, 1.0))
    """
    ends = np.array([p for t in tubes for p in (t.start, t.end)])
    origin = ends.mean(axis=0) if reference is None else np.array(reference)
    axes = np.array([stands.u, stands.v, stands.n])
    return tuple(_line(t, axes, origin) for t in tubes)


def turns(line: TubeLine, stations: Array, others: Sequence[TubeLine]) -> Array:
    """Side of an inboard clamp at each station: +1 where its foot points along `across`, -1 against.

    Inboard is towards the nearest places of the other tubes, taken together; where those lie to both
    sides alike, towards the other tubes' middles, then towards the first of them.
    """
    places = np.array(line.start) + stations[..., None] * np.array(line.run)
    across = np.array(line.across)
    ends = [(np.array(o.ends[0]), np.array(o.ends[1])) for o in others]
    near = [(nearest_on_segment(places, a, b) - places) @ across for a, b in ends]
    middles = [((a + b) / 2 - places) @ across for a, b in ends]
    side: Array = np.sum(near, axis=0)
    for second in (np.sum(middles, axis=0), near[0], middles[0], np.ones_like(side)):
        side = np.where(np.abs(side) > _EVEN, side, second)
    return np.copysign(1.0, side)


def _line(tube: Tube, axes: Array, reference: Array) -> TubeLine:
    a = np.array(tube.direction)
    n = axes[2]
    m = n - (n @ a) * a
    m = m / np.linalg.norm(m)
    start, run = axes @ (np.array(tube.start) - reference), axes @ a
    across = axes @ np.cross(m, a)
    return TubeLine(
        tube=tube,
        reference=_vec(reference),
        start=(float(start[0]), float(start[1])),
        run=(float(run[0]), float(run[1])),
        height_mm=float(start[2]),
        rise=float(run[2]),
        across=(float(across[0]) + 0.0, float(across[1]) + 0.0),
        bolt_axis=_vec(m),
        tilt_rad=math.asin(min(1.0, abs(float(run[2])))),
    )


def _vec(vector: Array) -> Vec3:
    x, y, z = (vector + 0.0).tolist()
    return x, y, z
