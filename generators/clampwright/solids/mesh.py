"""Triangles of a solid within a stated chord error, as a binary STL holds them."""

from __future__ import annotations

import math
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from numpy.typing import NDArray

from clampwright.solids.shapes import Shape

HEAD = 80
"""Bytes before the count of triangles, free for a text."""

_RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def stl_bytes(shape: Shape, chord_mm: float, angle_rad: float) -> bytes:
    """Binary STL in the shape's own unit.

    No chord strays further than `chord_mm` from its arc and none turns more than `angle_rad`. `tessellate`
    would take the error as a share of each edge's length; only this export takes it in millimetres. It
    works on a copy: a finer mesh that the shape already carries would be served again.
    """
    with TemporaryDirectory() as folder:
        path = Path(folder) / "mesh.stl"
        shape.copy().exportStl(str(path), chord_mm, angle_rad, relative=False, parallel=False)
        return path.read_bytes()


def corners_of(stl: bytes) -> NDArray[np.float32]:
    """Corners of the triangles of a binary STL, shape (count, 3, 3), each turning left from outside."""
    corners: NDArray[np.float32] = np.frombuffer(stl, _RECORD, offset=HEAD + 4)["corners"]
    return corners


def mesh_volume_mm3(corners: NDArray[np.floating]) -> float:
    """Volume inside closed triangles: a sixth of the sum of a . (b x c).

    >>> a, b, c, d = (0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)
    >>> mesh = np.array([(a, c, b), (a, b, d), (b, c, d), (a, d, c)], dtype=float)
    >>> round(mesh_volume_mm3(mesh), 12)
    0.166666666667
    """
    a, b, c = np.moveaxis(corners.astype(np.float64), 1, 0)
    return math.fsum(np.einsum("ij,ij->i", a, np.cross(b, c))) / 6
