"""A bounded number of points that stand for a scan, each with the direction that its skin faces."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from clampwright.structure.scan.cloud import Array, Cloud, Indices

_MOST = 150_000
"""Points looked at while tubes are sought; a fit then uses points of the whole scan."""
_FINEST_MM = 1.0
"""Size of the cells whose points are averaged where a scan is denser: neighbours lie wider than noise."""
_MOST_ON_FACETS = 500_000
_FEWEST_ON_FACETS = 1_000
"""However small a mesh is, about as many points stand for it."""
_WIDE_MM = 8.0
"""Radius of the circle in a facet from which on it is wide: those round a tube are narrow."""
_NEIGHBOURS = 20
"""Points that a normal rests on."""
_SEED = 20_231


@dataclass(frozen=True, slots=True, eq=False)
class Sample:
    """Points (n, 3), unit normals (n, 3), and what they were taken from."""

    points: Array
    normals: Array
    outward: bool
    """Whether normals point out of the material; False: up to their sign."""
    facet: Indices | None
    """Facet (n,) that each point lies on; None where the scan is no mesh."""
    noise_mm: float
    """Roughness of the skin, about one standard deviation."""
    apart_mm: float
    """Usual distance between points of the scan that lie next to one another."""
    tree: Any
    """scipy's KD-tree of what the normals are taken from."""
    base: Array
    """Points of that tree (m, 3)."""

    def normals_at(self, points: Array) -> Array:
        """Normals (k, 3), up to their sign, of points of the scan that are not of the sample."""
        return _normals(self.tree, self.base, points, None, None)[0]


def sample_of(cloud: Cloud) -> Sample:
    """The sample of a scan in mm; the same scan gives the same sample."""
    from scipy.spatial import cKDTree

    if cloud.facets is None:
        base, facet, facing = _averaged(cloud.points, _FINEST_MM), None, None
    else:
        base, facet, facing = _on_facets(cloud)
    few = _thinned(base, _MOST)
    tree = cKDTree(base)
    points = base[few]
    normals, rough = _normals(tree, base, points, facing, None if facing is None else facing[few])
    noise = float(np.quantile(rough, 0.3)) if len(rough) else 0.0
    which = None if facet is None else facet[few]
    return Sample(points, normals, facing is not None, which, noise, _apart(tree, points), tree, base)


def _apart(tree: Any, points: Array) -> float:
    """Side of the square that a point has to itself, from the circle round it with its nine nearest."""
    some = points[:: max(1, len(points) // 5000)]
    k = min(10, tree.n)
    far = np.asarray(tree.query(some, k=k)[0])[:, -1]
    return float(np.median(far) * np.sqrt(np.pi / max(k - 1, 1)))


def cells(points: Array, size: float) -> Indices:
    """Number (n,) of the cubic cell that each point lies in.

    >>> cells(np.array([[0.1, 0.1, 0.1], [0.2, 0.3, 0.4], [5.0, 0.0, 0.0]]), 1.0).tolist()
    [0, 0, 1]
    """
    places = np.floor((points - points.min(axis=0)) / size).astype(np.int64)
    high = places.max(axis=0) + 1
    keys = (places[:, 0] * high[1] + places[:, 1]) * high[2] + places[:, 2]
    return np.asarray(np.unique(keys, return_inverse=True)[1].reshape(-1), dtype=np.int64)


def _averaged(points: Array, size: float) -> Array:
    """Points, or where they crowd, the mean of those in each cell."""
    number = cells(points, size)
    count = np.bincount(number)
    if len(count) > 0.7 * len(points):
        return points
    return np.column_stack([np.bincount(number, points[:, axis]) / count for axis in range(3)])


def _thinned(points: Array, most: int) -> Indices:
    """Indices of at most about `most` points, one of each cell."""
    size, few = 2.0 * _FINEST_MM, np.arange(len(points))
    while len(few) > most:
        few = np.unique(cells(points, size), return_index=True)[1]
        size *= 1.25
    return np.asarray(few, dtype=np.int64)


def _on_facets(cloud: Cloud) -> tuple[Array, Indices, Array]:
    """Points spread over the facets, the facet of each, and that facet's normal.

    Evenly, but for facets too wide to lie on a tube, which get a few points only.
    """
    assert cloud.facets is not None
    corners = cloud.points[cloud.facets]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    twice = np.sqrt(np.einsum("ij,ij->i", cross, cross))
    area = 0.5 * twice
    around = np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).sum(axis=1)
    inside = 2.0 * area / around
    asked = area * np.minimum(1.0, np.square(_WIDE_MM / np.maximum(inside, 1e-9)))
    whole = float(asked.sum())
    each = max(whole / _MOST_ON_FACETS, min(_FINEST_MM**2, whole / _FEWEST_ON_FACETS))
    rng = np.random.default_rng(_SEED)
    count = np.floor(asked / each + rng.random(len(area))).astype(np.int64)
    facet = np.repeat(np.arange(len(area)), count)
    a, b = rng.random((2, len(facet)))
    over = a + b > 1
    a[over], b[over] = 1 - a[over], 1 - b[over]
    p, q, r = (corners[facet, k] for k in range(3))
    points = p + a[:, None] * (q - p) + b[:, None] * (r - p)
    return points, facet, (cross / twice[:, None])[facet]


def _normals(
    tree: Any, base: Array, points: Array, facing: Array | None, own: Array | None
) -> tuple[Array, Array]:
    """Normals of points, and the roughness of the skin round each: the least axis of its neighbours' spread.

    Neighbours on the other side of a thin wall (facets that face the other way) do not count.
    """
    _, near = tree.query(points, k=min(_NEIGHBOURS, len(base)), workers=-1)
    off = base[near]
    if facing is None or own is None:
        weight = np.ones(near.shape)
    else:
        weight = np.clip(np.einsum("nkj,nj->nk", facing[near], own), 0.0, None)
    total = np.maximum(weight.sum(axis=1), 1e-9)
    off = off - (np.einsum("nk,nkj->nj", weight, off) / total[:, None])[:, None, :]
    spread = np.einsum("nk,nki,nkj->nij", weight, off, off) / total[:, None, None]
    values, vectors = np.linalg.eigh(spread)
    normals = vectors[:, :, 0]
    if own is not None:
        normals = normals * np.where(np.einsum("nj,nj->n", normals, own) < 0, -1.0, 1.0)[:, None]
    return normals, np.sqrt(np.maximum(values[:, 0], 0.0))
