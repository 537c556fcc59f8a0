"""A scan's file to its points and facets: STL, PLY and OBJ by trimesh, plain columns of numbers here."""

from __future__ import annotations

import warnings
from pathlib import Path

import numpy as np

from clampwright.structure.not_readable import NotReadable
from clampwright.structure.scan.cloud import Array, Cloud, Indices, usable
from clampwright.structure.scan.columns import obj_vertices, read_columns
from clampwright.structure.wording import counted

MESHES = ("stl", "ply", "obj")
COLUMNS = ("xyz", "txt", "asc", "csv", "pts")
_FEWEST = 30
"""Points below which nothing can be said about a tube."""
_FARTHEST = 1e9
"""Coordinate, in any unit, that no scan reaches; beyond it squares lose what a tube is."""


def read_cloud(path: Path) -> Cloud:
    """Points and facets of a file, in the file's own unit.

    Raises
    ------
    NotReadable
        For a file of another sort, an empty or broken one, and one that holds too little.
    """
    ending = path.suffix.lower().lstrip(".")
    if ending not in MESHES + COLUMNS:
        raise NotReadable(
            f'"{path.name}" is neither a mesh nor points that are read here',
            f"export the scan as one of {', '.join((*MESHES, *COLUMNS))}",
        )
    _there(path)
    points, facets = (read_columns(path), None) if ending in COLUMNS else _mesh(path, ending)
    return _sound(usable(points, facets), path)


def _there(path: Path) -> None:
    try:
        with path.open("rb") as file:
            empty = not file.read(1)
    except OSError as error:
        raise NotReadable(
            f'"{path.name}" cannot be opened ({error.strerror})', "look at its name and folder"
        ) from error
    if empty:
        raise NotReadable(f'"{path.name}" is empty', "export it again")


def _mesh(path: Path, ending: str) -> tuple[Array, Indices | None]:
    """What trimesh reads; every way in which a broken file makes it fail is the same to a person."""
    import trimesh

    try:
        with warnings.catch_warnings(), np.errstate(all="ignore"):
            warnings.simplefilter("ignore")
            if ending == "obj" and (points := obj_vertices(path)) is not None:
                return points, None
            read = trimesh.load(path, process=False, force=None)
            return _parts(read)
    except NotReadable:
        raise
    except Exception as error:
        raise NotReadable(
            f'"{path.name}" is no {ending.upper()} that can be read ({_first_line(error)})', "export it again"
        ) from error


def _parts(read: object) -> tuple[Array, Indices | None]:
    """Points and facets of a mesh, of points, or of a scene of several, each in its place."""
    import trimesh

    if isinstance(read, trimesh.Scene):
        several = [_parts(part) for part in read.dump()]
        return _joined(several)
    points = np.asarray(getattr(read, "vertices", ()), dtype=float).reshape(-1, 3)
    facets = np.asarray(getattr(read, "faces", ()), dtype=np.int64)
    return points, facets.reshape(-1, 3) if facets.size else None


def _joined(several: list[tuple[Array, Indices | None]]) -> tuple[Array, Indices | None]:
    if not several:
        return np.empty((0, 3)), None
    first = np.cumsum([0, *(len(points) for points, _ in several)])
    facets = [f + start for (_, f), start in zip(several, first, strict=False) if f is not None]
    return np.concatenate([points for points, _ in several]), np.concatenate(facets) if facets else None


def _sound(cloud: Cloud, path: Path) -> Cloud:
    used = cloud.points if cloud.facets is None else cloud.points[cloud.facets].reshape(-1, 3)
    if len(used) < _FEWEST:
        what = counted(cloud.looked_at, "facet" if cloud.facets is not None else "point")
        raise NotReadable(
            f'"{path.name}" holds {what} that can be used, too few for a tube', "export the whole scan"
        )
    if float(np.max(np.abs(used))) > _FARTHEST:
        raise NotReadable(
            f'"{path.name}" has coordinates of {float(np.max(np.abs(used))):.3g}',
            "export it in millimetres, near its own origin",
        )
    if not np.any(np.ptp(used, axis=0) > 0):
        raise NotReadable(f'every point of "{path.name}" is the same place', "export it again")
    return cloud


def _first_line(error: Exception) -> str:
    return (str(error).strip().splitlines() or [type(error).__name__])[0][:80]
