"""A piece of tube fitted again, to every point of the scan that lies on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from clampwright.structure.scan.cloud import Array, Cloud, Indices
from clampwright.structure.scan.cylinder import Cylinder, Marks, fit_robustly
from clampwright.structure.scan.growing import FACES, Piece
from clampwright.structure.scan.sample import Sample

_MOST = 20_000
"""Points of one tube beyond which more say no more: noise is not independent from point to point."""
_SEED = 41_077


@dataclass(frozen=True, slots=True, eq=False)
class Fitted:
    """A tube by its cylinder, whose point is the foot of the points' mean, and what it rests on."""

    cylinder: Cylinder
    points: Array
    weights: Array
    """Of each point (n,): 1, or of a mesh the area that a corner stands for."""
    trust: Array
    """0 to 1 (n,), by distance from the skin."""
    sigma: float
    band: float
    low: float
    high: float
    """Stations of the ends, from the cylinder's point."""
    end_error: tuple[float, float]
    """How far the skin's end may lie from `low` and `high`, along the axis, about 95 %."""
    count: int
    """Points (or corners) of the scan on the skin."""
    skin: Array
    """Points (k, 3) spread over the skin as the scan shows it: of a mesh, over its facets."""
    inward: bool

    @property
    def rms(self) -> float:
        """Root mean square distance of the points from the skin, those that are no part of it left out."""
        weight = self.weights * (self.trust > 0)
        off = self.cylinder.off_skin(self.points)
        return float(np.sqrt(np.sum(weight * off * off) / np.sum(weight)))


def settled(cloud: Cloud, sample: Sample, piece: Piece, others: Sequence[Piece]) -> Fitted | None:
    """The piece fitted to the scan itself; None where too little of the scan lies on it.

    `others` are pieces that meet it: what lies on them rather than on it does not count.
    """
    if cloud.facets is None:
        return _on_points(cloud, sample, piece, others)
    return _on_corners(cloud, sample, piece)


def upright(fitted: Fitted) -> Fitted:
    """The same tube, started at that end from which it runs up its longest coordinate."""
    axis = fitted.cylinder.axis
    if axis[int(np.argmax(np.abs(axis)))] > 0:
        return fitted
    turned = Cylinder(fitted.cylinder.point, -axis, fitted.cylinder.radius)
    error = (fitted.end_error[1], fitted.end_error[0])
    return replace(fitted, cylinder=turned, low=-fitted.high, high=-fitted.low, end_error=error)


def _on_points(cloud: Cloud, sample: Sample, piece: Piece, others: Sequence[Piece]) -> Fitted | None:
    cylinder, band = piece.cylinder, piece.band
    past = 2.0 * cylinder.radius
    near = _within(cloud.points, cylinder, 2.0 * band, piece.low - past, piece.high + past)
    near = near[~_nearer_to(others, cloud.points[near], np.abs(cylinder.off_skin(cloud.points[near])))]
    points = cloud.points[_some(near)]
    normals = sample.normals_at(points)
    low, high = piece.low, piece.high
    on = np.zeros(len(points), dtype=bool)
    for _ in range(3):
        out, distance = cylinder.outward(points)
        faces = np.abs(np.einsum("ij,ij->i", out, normals)) > FACES
        station = cylinder.stations(points)
        on = faces & (np.abs(distance - cylinder.radius) < band) & (station >= low) & (station <= high)
        if int(on.sum()) < 20:
            return None
        found, trust, sigma = fit_robustly(points[on], cylinder)
        ends = np.array([cylinder.point + s * cylinder.axis for s in (low, high)])
        low, high = (float(s) for s in found.stations(ends))
        cylinder, band = found, max(4.0 * sigma, 0.02 * found.radius)
    station = cylinder.stations(points)[faces & (np.abs(cylinder.off_skin(points)) < band)]
    low, below = (-x for x in end_of(-station, -low, cylinder.radius))
    high, above = end_of(station, high, cylinder.radius)
    count = round(len(near) / len(points) * int(on.sum()))
    return Fitted(
        cylinder, points[on], np.ones(int(on.sum())), trust, sigma, band,
        low, high, (-below, above), count, points[on], False,
    )  # fmt: skip


def _some(near: Indices) -> Indices:
    """At most so many of all, the same each time."""
    if len(near) <= _MOST:
        return near
    return np.sort(np.random.default_rng(_SEED).choice(near, _MOST, replace=False))


def _nearer_to(others: Sequence[Piece], points: Array, off: Array) -> Marks:
    """Points that lie nearer to the skin of another piece than `off` from their own."""
    nearer = np.zeros(len(points), dtype=bool)
    for other in others:
        station = other.cylinder.stations(points)
        nearer |= (
            (station > other.low) & (station < other.high) & (np.abs(other.cylinder.off_skin(points)) < off)
        )
    return nearer


def _within(points: Array, cylinder: Cylinder, band: float, low: float, high: float) -> Indices:
    """Indices of points near the skin between two stations."""
    off = points - cylinder.point
    station = off @ cylinder.axis
    some = np.flatnonzero((station > low) & (station < high))
    return some[np.abs(cylinder.off_skin(points[some])) < band]


def end_of(stations: Array, about: float, radius: float) -> tuple[float, float]:
    """The highest station at which there is skin, near a station, and how far it may lie from that (95 %).

    Skin goes on across a radius without any (a tube is cut to fit another, or half hidden) where four points
    or more follow, as near together as they are a diameter before the end. With a usual distance d of the
    points, the last of them lies 3 d or less short of the end in 95 of 100 scans (ln 20 = 3.0).

    >>> end_of(np.append(np.arange(0.0, 100.0, 0.5), 130.0), 98.0, 10.0)
    (99.5, 1.5)
    """
    first = about - 2.0 * radius
    before = int(np.sum((stations > first - 2.0 * radius) & (stations <= first)))
    apart = 2.0 * radius / max(before, 4)
    ahead = np.sort(stations[stations > first])
    if len(ahead) < 4:
        return about, 3.0 * apart
    runs = np.split(ahead, np.flatnonzero(np.diff(ahead) > 8.0 * apart) + 1)
    end = runs[0][-1]
    for run in runs[1:]:
        if run[0] - end > max(radius, 8.0 * apart):
            break
        end = run[-1] if len(run) >= 4 else end
    return float(end), 3.0 * apart


def _on_corners(cloud: Cloud, sample: Sample, piece: Piece) -> Fitted | None:
    """A mesh's corners lie on the skin itself, the middles of its facets inside: the corners are fitted."""
    assert cloud.facets is not None
    cylinder = piece.cylinder
    middles = cloud.points[cloud.facets].mean(axis=1)
    near = _within(middles, cylinder, 1.5 * piece.band, piece.low, piece.high)
    facets = cloud.facets[near]
    corners = cloud.points[facets]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    twice = np.sqrt(np.einsum("ij,ij->i", cross, cross))
    cosine = np.einsum("ij,ij->i", cylinder.outward(middles[near])[0], cross) / twice
    off = np.abs(cylinder.off_skin(corners.reshape(-1, 3)).reshape(-1, 3))
    on = ((-cosine if piece.inward else cosine) > FACES) & (off < 1.5 * piece.band).all(axis=1)
    if int(on.sum()) < 6:
        return None
    used, number = np.unique(np.round(corners[on].reshape(-1, 3), 4), axis=0, return_inverse=True)
    weights: Array = np.bincount(number.reshape(-1), np.repeat(twice[on] / 6.0, 3)).astype(np.float64)
    count = len(used)
    if count > _MOST:
        few = np.sort(np.random.default_rng(_SEED).choice(count, _MOST, replace=False))
        used, weights = used[few], weights[few]
    found, trust, sigma = fit_robustly(used, cylinder, weights)
    station = found.stations(used[trust > 0])
    shown = sample.points[piece.on]
    return Fitted(
        found, used, weights, trust, sigma, max(4.0 * sigma, 0.02 * found.radius),
        float(station.min()), float(station.max()), (3 * sigma, 3 * sigma), count, shown, piece.inward,
    )  # fmt: skip
