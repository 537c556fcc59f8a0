"""Where a tube has skin: round its axis and along it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.structure.scan.cloud import Array
from clampwright.structure.scan.cylinder import Cylinder

_SECTORS = 72
_PER_CELL = 4.0
"""Points that a cell of the map should hold, so that an empty one means something."""
_SEEN = 0.2
"""Share of the slices in which a sector has to have skin to count as covered."""
_WIDEST = np.deg2rad(25.0)
"""Angle without skin up to which a tube counts as seen all round when its edges are asked for."""


@dataclass(frozen=True, slots=True, eq=False)
class Covered:
    """Cells of slices along the axis by sectors round it, and which have skin."""

    cells: npt.NDArray[np.bool_]
    length: float

    @property
    def angle(self) -> float:
        """Angle round the axis over which there is skin, rad; 2π where nothing is missing."""
        return float(2 * np.pi * self.sectors.mean())

    @property
    def sectors(self) -> npt.NDArray[np.bool_]:
        """Sectors that have skin over a share of the slices."""
        slices = max(int(self.cells.any(axis=1).sum()), 1)
        return np.asarray(self.cells.sum(axis=0) >= _SEEN * slices)

    @property
    def filled(self) -> float:
        """Share of the cells, in sectors that count as covered and slices with any skin, that have skin."""
        slices = self.cells.any(axis=1)
        inside = self.cells[np.ix_(slices, self.sectors)]
        return float(inside.mean()) if inside.size else 0.0

    @property
    def widest_arc(self) -> float:
        """Longest unbroken angle with skin, rad; breaks of 15° do not count."""
        return _longest(self.sectors, max(1, round(len(self.sectors) * 15 / 360)))

    @property
    def share(self) -> float:
        """Share of the whole skin that is there."""
        return float(self.cells.mean())

    def gaps(self) -> tuple[tuple[float, float], ...]:
        """Stretches along the axis without skin, as distances from the first end, mm.

        Little skin right at an end is no gap: tubes are cut to fit those that they meet.
        """
        seen = self.cells.sum(axis=1) >= 0.34 * np.median(self.cells.sum(axis=1))
        step = self.length / len(seen)
        found, start = [], None
        for k, has in enumerate(np.append(seen, True)):
            if not has and start is None:
                start = k
            elif has and start is not None:
                found.append((start * step, k * step))
                start = None
        return tuple((a, b) for a, b in found if a > 0 and b < self.length - 0.5 * step)


def covered(cylinder: Cylinder, points: Array, low: float, high: float) -> Covered:
    """Which parts of a tube between two stations have skin.

    >>> turn = np.linspace(0.0, np.pi, 4000, endpoint=False)
    >>> half = np.column_stack([np.cos(turn), np.sin(turn), (np.arange(4000) * 0.618) % 1 * 20])
    >>> skin = covered(Cylinder(np.zeros(3), np.array([0.0, 0.0, 1.0]), 1.0), half, 0.0, 20.0)
    >>> round(np.rad2deg(skin.angle)), skin.gaps()
    (180, ())
    """
    station = cylinder.stations(points)
    long = max(high - low, 1e-9)
    slices = int(np.clip(long / max(0.8 * cylinder.radius, 1e-9), 1, 80))
    slices = max(1, min(slices, int(len(points) / (_PER_CELL * 12))))
    sectors = int(np.clip(2 * len(points) / (_PER_CELL * slices), 12, _SECTORS))
    along = np.clip((slices * (station - low) / long).astype(int), 0, slices - 1)
    turn = (cylinder.angles(points) % (2 * np.pi)) / (2 * np.pi)
    round_about = np.minimum((sectors * turn).astype(int), sectors - 1)
    cells = np.zeros((slices, sectors), dtype=bool)
    cells[along, round_about] = True
    return Covered(cells, long)


def edges(cylinder: Cylinder, points: Array) -> tuple[float, float] | None:
    """Angles between which the widest stretch without skin lies; None where there is hardly any.

    From the first angle, counted upwards to the second, there is no skin.
    """
    counts = np.histogram(cylinder.angles(points), bins=_SECTORS, range=(-np.pi, np.pi))[0]
    seen = counts > 0.15 * np.median(counts[counts > 0])
    doubled = np.concatenate([seen, seen])
    best, start = (0, 0), None
    for k, has in enumerate(doubled):
        if not has:
            start = k if start is None else start
            if k - start + 1 > best[1] - best[0]:
                best = (start, k + 1)
        else:
            start = None
    width = 2 * np.pi / _SECTORS
    if (best[1] - best[0]) * width < _WIDEST:
        return None
    return best[0] * width - np.pi, best[1] * width - np.pi


def _longest(ring: npt.NDArray[np.bool_], bridge: int) -> float:
    """Longest unbroken run in a ring, as an angle; runs of at most `bridge` gaps are bridged."""
    if ring.all():
        return float(2 * np.pi)
    doubled, longest, run, gap = np.concatenate([ring, ring]), 0, 0, 0
    for has in doubled:
        gap = 0 if has else gap + 1
        run = run + 1 if has or (run and gap <= bridge) else 0
        longest = max(longest, run - gap)
    return float(2 * np.pi * min(longest, len(ring)) / len(ring))
