"""Cylinders that small neighbourhoods of a scan could lie on: where the search for tubes starts from.

Over a piece of a tube the normals lie in a plane square to its axis: the axis is the direction that they
point least along. The lines along them meet at the axis, which gives its place and the radius. Every
neighbourhood is then fitted by least squares, all of them in one go.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from clampwright.structure.scan.cloud import Array, Indices
from clampwright.structure.scan.cylinder import Cylinder
from clampwright.structure.scan.sample import Sample, cells

_SEEDS = 3000
_SIZES = (24, 60, 140)
"""Neighbours in a neighbourhood: small ones are clean, large ones reach round thick tubes."""
_APART_MM = (0.0, 3.0, 7.0)
"""Distances between the points of a neighbourhood: a dense scan is looked at from farther away as well."""
_AGREES = float(np.cos(np.deg2rad(30.0)))


@dataclass(frozen=True, slots=True, eq=False)
class Candidates:
    """Cylinders by point, axis and radius, the sample's point that each grew from, and how good it is."""

    point: Array
    axis: Array
    radius: Array
    seed: Indices
    score: Array

    def cylinder(self, number: int) -> Cylinder:
        """One of them."""
        return Cylinder(self.point[number], self.axis[number], float(self.radius[number]))


def candidates(sample: Sample, least: float, most: float) -> Candidates:
    """Candidates with a radius between `least` and `most` mm, best first."""
    found, before = [], 2 * len(sample.points)
    for apart in _APART_MM:
        few = np.arange(len(sample.points))
        if apart:
            few = np.unique(cells(sample.points, apart), return_index=True)[1]
        if len(few) < 0.7 * before:
            found += _from_apart(sample, few, least, most, _SIZES[1:] if apart else _SIZES)
            before = len(few)
    joined = [np.concatenate(parts) for parts in zip(*found, strict=True)]
    order = np.argsort(-joined[4], kind="stable")
    return Candidates(*(part[order] for part in joined))


def _from_apart(
    sample: Sample, few: Indices, least: float, most: float, sizes: tuple[int, ...]
) -> list[tuple[Array, Array, Array, Indices, Array]]:
    """Candidates of every size of neighbourhood among some of the sample's points."""
    from scipy.spatial import cKDTree

    seeds = few[_spread(sample.points[few])]
    k = min(sizes[-1], len(few))
    _, near = cKDTree(sample.points[few]).query(sample.points[seeds], k=k, workers=-1)
    near = few[np.asarray(near).reshape(len(seeds), k)]
    return [
        _of_size(sample, seeds, near[:, :size], least, most) for size in sorted({min(n, k) for n in sizes})
    ]


def _spread(points: Array) -> Indices:
    """Indices of points spread evenly over all."""
    size, few = 4.0, np.arange(len(points))
    while len(few) > _SEEDS:
        few = np.unique(cells(points, size), return_index=True)[1]
        size *= 1.15
    return np.asarray(few, dtype=np.int64)


def _of_size(
    sample: Sample, seeds: Indices, near: Indices, least: float, most: float
) -> tuple[Array, Array, Array, Indices, Array]:
    points = sample.points[near]
    normals = sample.normals[near]
    middle = points.mean(axis=1)
    off = points - middle[:, None, :]
    weight = np.ones(near.shape)
    if sample.outward:
        weight = (np.einsum("nkj,nj->nk", normals, sample.normals[seeds]) > -0.2).astype(float)
    axis, bent = _axes(normals, weight)
    foot, radius = _centres(off, normals, axis, weight)
    good = (radius > 0.6 * least) & (radius < 1.6 * most) & bent
    off, normals, weight = off[good], normals[good], weight[good]
    foot, axis, radius = _refined(off, foot[good], axis[good], radius[good], weight)
    score = _scores(off, normals, weight, foot, axis, radius, sample.noise_mm)
    fine = (radius > least) & (radius < most) & (score > 0)
    return (
        (foot + middle[good])[fine],
        axis[fine],
        radius[fine],
        seeds[good][fine],
        score[fine],
    )


def _axes(normals: Array, weight: Array) -> tuple[Array, np.ndarray[tuple[int], np.dtype[np.bool_]]]:
    """The direction that the normals point least along, and whether they turn about it at all."""
    spread = np.einsum("nk,nki,nkj->nij", weight, normals, normals) / weight.sum(axis=1)[:, None, None]
    values, vectors = np.linalg.eigh(spread)
    return vectors[:, :, 0], (values[:, 1] > 0.01) & (values[:, 1] > 2.0 * values[:, 0])


def _centres(off: Array, normals: Array, axis: Array, weight: Array) -> tuple[Array, Array]:
    """Where the normals' lines, seen along the axis, come nearest together, and the mean distance."""
    flat = normals - np.einsum("nkj,nj->nk", normals, axis)[..., None] * axis[:, None, :]
    flat /= np.maximum(np.linalg.norm(flat, axis=2), 1e-9)[..., None]
    total = weight.sum(axis=1)
    across = np.eye(3) * total[:, None, None] - np.einsum("nk,nki,nkj->nij", weight, flat, flat)
    along = np.einsum("nkj,nkj->nk", flat, off)
    right = np.einsum("nk,nkj->nj", weight, off) - np.einsum("nk,nkj->nj", weight * along, flat)
    held = across + 1e3 * np.einsum("ni,nj->nij", axis, axis) + 1e-6 * np.eye(3)
    foot = np.linalg.solve(held, right[..., None])[..., 0]
    foot -= np.einsum("nj,nj->n", foot, axis)[:, None] * axis
    return foot, np.einsum("nk,nk->n", weight, _distances(off, foot, axis)[1]) / total


def _distances(off: Array, foot: Array, axis: Array) -> tuple[Array, Array]:
    away = off - foot[:, None, :]
    away = away - np.einsum("nkj,nj->nk", away, axis)[..., None] * axis[:, None, :]
    distance = np.maximum(np.linalg.norm(away, axis=2), 1e-9)
    return away / distance[..., None], distance


def _refined(
    off: Array, foot: Array, axis: Array, radius: Array, weight: Array, rounds: int = 6
) -> tuple[Array, Array, Array]:
    """Gauss and Newton's steps for all neighbourhoods at once, points far from the skin counting less."""
    for _ in range(rounds):
        out, distance = _distances(off, foot, axis)
        residual = distance - radius[:, None]
        sigma = 1.48 * np.median(np.abs(residual), axis=1) + 1e-6
        trust = weight / (1.0 + np.square(residual / (2.0 * sigma[:, None])))
        u, v = _frames(axis)
        cos, sin = np.einsum("nkj,nj->nk", out, u), np.einsum("nkj,nj->nk", out, v)
        t = np.einsum("nkj,nj->nk", off - foot[:, None, :], axis)
        slope = np.stack([-cos, -sin, -t * cos, -t * sin, -np.ones_like(t)], axis=2)
        normal = np.einsum("nk,nki,nkj->nij", trust, slope, slope)
        normal += 1e-4 * np.einsum("nii->n", normal)[:, None, None] * np.eye(5) * _DAMPED
        step = np.linalg.solve(normal, -np.einsum("nk,nki,nk->ni", trust, slope, residual)[..., None])[..., 0]
        most = 0.5 * np.maximum(radius, 1.0)[:, None]
        shift = np.clip(step[:, [0, 1, 4]], -most, most)
        tilt = np.clip(step[:, 2:4], -0.3, 0.3)
        foot = foot + shift[:, :1] * u + shift[:, 1:2] * v
        axis = axis + tilt[:, :1] * u + tilt[:, 1:] * v
        axis = axis / np.linalg.norm(axis, axis=1)[:, None]
        radius = radius + shift[:, 2]
    return foot, axis, np.abs(radius)


_DAMPED = np.array([1.0, 1.0, 0.1, 0.1, 1.0])


def _frames(axis: Array) -> tuple[Array, Array]:
    least = np.zeros_like(axis)
    least[np.arange(len(axis)), np.argmin(np.abs(axis), axis=1)] = 1.0
    u = np.cross(axis, least)
    u /= np.linalg.norm(u, axis=1)[:, None]
    return u, np.cross(axis, u)


def _scores(
    off: Array, normals: Array, weight: Array, foot: Array, axis: Array, radius: Array, noise: float
) -> Array:
    """How many points of a neighbourhood lie on the skin and face as it does, as a share; 0 for too few.

    Weighed by the angle round the axis that they cover: a sliver of a plane lies on many cylinders.
    """
    out, distance = _distances(off, foot, axis)
    near = np.abs(distance - radius[:, None]) < np.maximum(3.0 * noise, 0.06 * radius)[:, None]
    faces = np.abs(np.einsum("nkj,nkj->nk", out, normals)) > _AGREES
    on = near & faces & (weight > 0)
    share = on.sum(axis=1) / weight.sum(axis=1)
    u, v = _frames(axis)
    angle = np.arctan2(np.einsum("nkj,nj->nk", out, v), np.einsum("nkj,nj->nk", out, u))
    sector = np.floor((angle + np.pi) / (2 * np.pi) * 24).astype(int) % 24
    covered = np.stack([np.any(on & (sector == s), axis=1) for s in range(24)], axis=1).sum(axis=1)
    return np.where((share > 0.5) & (covered >= 3), share * np.minimum(covered / 8.0, 1.0), 0.0)
