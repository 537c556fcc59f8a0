"""A candidate grown along its axis to the piece of tube that it lies on."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from clampwright.structure.scan.cloud import Array, Indices
from clampwright.structure.scan.cylinder import Cylinder, Marks, fit_roughly
from clampwright.structure.scan.sample import Sample

FACES = float(np.cos(np.deg2rad(32.0)))
"""Least cosine between a point's normal and the cylinder's there."""
_FIT_MOST = 1500
_ROUNDS = 14
_ARC = np.deg2rad(55.0)
_ARC_AFTER_A_GAP = np.deg2rad(80.0)


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """A piece of a cylinder with skin on it: `low` and `high` are stations from the cylinder's point."""

    cylinder: Cylinder
    low: float
    high: float
    on: Indices
    """Points of the sample on its skin."""
    sigma: float
    """Roughness of the skin, one standard deviation."""
    band: float
    """Distance from the skin within which points belong to it."""
    inward: bool = False
    """Whether the skin faces the axis: a bore."""

    @property
    def length(self) -> float:
        """Distance between the ends, mm."""
        return self.high - self.low


def skin(sample: Sample, cylinder: Cylinder, band: float, points: Indices, sign: float = 0.0) -> Marks:
    """Which of the sample's points lie on a cylinder's skin and face as it does.

    `sign` is 1 for skin that faces outwards, -1 for a bore, 0 where that is not known.
    """
    out, distance = cylinder.outward(sample.points[points])
    cosine = np.einsum("ij,ij->i", out, sample.normals[points])
    faces = np.abs(cosine) > FACES if sign == 0 else sign * cosine > FACES
    return np.asarray((np.abs(distance - cylinder.radius) < band) & faces)


def grow(sample: Sample, start: Cylinder, seed: int, free: Marks, gap_most: float) -> Piece | None:
    """The piece of tube round a seed; None where there is none.

    Parameters
    ----------
    sample : Sample
        Points and normals of the scan.
    start : Cylinder
        A candidate, as the seed's neighbourhood gives it.
    seed : int
        A point of the sample on it.
    free : array of bool
        Points that belong to no tube yet.
    gap_most : float
        Longest stretch without skin, in diameters, across which it is still one tube.
    """
    cylinder = start.moved_to(float(start.stations(sample.points[seed : seed + 1])[0]))
    sign = _sign(sample, cylinder, seed)
    line = _along(sample, cylinder, free)
    low, high = -1.5 * max(cylinder.radius, 6.0), 1.5 * max(cylinder.radius, 6.0)
    band, sigma, known = _band(cylinder.radius, sample.noise_mm), sample.noise_mm, -1
    on = np.empty(0, dtype=np.int64)
    for _ in range(_ROUNDS):
        on = line[skin(sample, cylinder, band, line, sign)]
        stations = cylinder.stations(sample.points[on])
        reach = min(max(0.6 * (high - low), 2.0 * cylinder.radius), 2.0 * gap_most * cylinder.radius)
        ends = _run(stations, cylinder.angles(sample.points[on]), low, high, reach, cylinder.radius)
        if ends is None:
            return None
        on = on[(stations >= ends[0]) & (stations <= ends[1])]
        if len(on) == known:
            break
        known = len(on)
        some = sample.points[on[:: max(1, len(on) // _FIT_MOST)]]
        if len(some) < 15:
            return None
        cylinder, sigma = fit_roughly(some, cylinder)
        if not 0.5 * start.radius < cylinder.radius < 2.0 * start.radius:
            return None
        band = _band(cylinder.radius, sigma)
        stations = cylinder.stations(sample.points[on])
        low, high = float(stations.min()), float(stations.max())
    stations = cylinder.stations(sample.points[on])
    return Piece(cylinder, float(stations.min()), float(stations.max()), on, sigma, band, sign < 0)


def _band(radius: float, sigma: float) -> float:
    return float(np.clip(3.5 * sigma, 0.05 * radius, 0.25 * radius))


def _sign(sample: Sample, cylinder: Cylinder, seed: int) -> float:
    if not sample.outward:
        return 0.0
    out, _ = cylinder.outward(sample.points[seed : seed + 1])
    return 1.0 if float(out[0] @ sample.normals[seed]) > 0 else -1.0


def _along(sample: Sample, cylinder: Cylinder, free: Marks) -> Indices:
    """Points that may come onto the skin while the axis still turns by some degrees."""
    off = sample.points - cylinder.point
    station = off @ cylinder.axis
    away = np.sqrt(np.maximum(np.einsum("ij,ij->i", off, off) - station * station, 0.0))
    return np.flatnonzero(free & (away < 1.6 * cylinder.radius + 0.15 * np.abs(station)))


def _run(
    stations: Array, angles: Array, low: float, high: float, reach: float, radius: float
) -> tuple[float, float] | None:
    """First and last station of the skin that runs on from between `low` and `high`, across short gaps."""
    core = (stations >= low) & (stations <= high)
    if int(core.sum()) < 10:
        return None
    width = max(0.75 * radius, 10.0 * (high - low) / int(core.sum()))
    first, last = np.floor((low - reach) / width), np.ceil((high + reach) / width)
    number = np.floor(stations / width)
    arcs = {int(b): _arc(angles[number == b]) for b in np.unique(number[(number >= first) & (number < last)])}
    inside = range(int(np.floor(low / width)), int(np.floor(high / width)) + 1)
    good = [b for b in inside if arcs.get(b, 0.0) >= _ARC]
    if not good:
        return None
    usual = float(np.median([arcs[b] for b in good]))
    start, end = good[0], good[-1]
    step = max(1, int(reach / width))
    start = _onward(arcs, start, -1, step, usual)
    end = _onward(arcs, end, 1, step, usual)
    return start * width, (end + 1) * width


def _onward(arcs: dict[int, float], at: int, way: int, step: int, usual: float) -> int:
    """The last bin with skin in one direction, `step` bins at most without."""
    gap, last = 0, at
    while gap < step:
        at += way
        arc = arcs.get(at, 0.0)
        least = max(_ARC, 0.4 * usual) if gap == 0 else max(_ARC_AFTER_A_GAP, 0.6 * usual)
        gap = 0 if arc >= least else gap + 1
        last = at if gap == 0 else last
    return last


def _arc(angles: Array) -> float:
    """Angle round the axis from the first to the last of a few points, the widest gap left out."""
    if len(angles) < 4:
        return 0.0
    turn = np.sort(angles)
    gaps = np.diff(np.append(turn, turn[0] + 2 * np.pi))
    return float(2 * np.pi - gaps.max())
