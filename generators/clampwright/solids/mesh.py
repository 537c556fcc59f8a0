"""Triangles of a solid within a stated chord error, as a binary STL holds them."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from OCP.BRepMesh import BRepMesh_IncrementalMesh
from OCP.IMeshTools import IMeshTools_MeshAlgoType, IMeshTools_Parameters

from clampwright.solids.shapes import Shape
from clampwright.solids.through_file import through_file

HEAD = 80
"""Bytes before the count of triangles, free for a text."""

COUNT = 4
"""Bytes of the count."""

_RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def stl_bytes(shape: Shape, chord_mm: float, angle_rad: float) -> bytes:
    """Binary STL in the shape's own unit.

    No chord strays further than `chord_mm` from its arc and none turns more than `angle_rad`. `tessellate`
    would take the error as a share of each edge's length; only this export takes it in millimetres. It
    works on a copy: a finer mesh that the shape already carries would be served again. Raises OSError where
    the temporary folder has no room.
    """
    copy = shape.copy()
    BRepMesh_IncrementalMesh(copy.wrapped, _how(chord_mm, angle_rad))
    return through_file(
        "mesh.stl",
        lambda path: copy.exportStl(path, chord_mm, angle_rad, relative=False, parallel=False),
        _whole,
    )


def _whole(stl: bytes) -> bool:
    """Whether all the triangles are there that the count before them promises."""
    start = HEAD + COUNT
    return len(stl) > start and len(stl) == start + _RECORD.itemsize * int.from_bytes(
        stl[HEAD:start], "little"
    )


def _how(chord_mm: float, angle_rad: float) -> IMeshTools_Parameters:
    """How to mesh. Of the kernel's two ways to triangulate a face this one is twice as fast on a plate."""
    how = IMeshTools_Parameters()
    how.MeshAlgo = IMeshTools_MeshAlgoType.IMeshTools_MeshAlgoType_Delabella
    how.Deflection, how.Angle, how.Relative, how.InParallel = chord_mm, angle_rad, False, False
    return how


def corners_of(stl: bytes) -> NDArray[np.float32]:
    """Corners of the triangles of a binary STL, shape (count, 3, 3), each turning left from outside."""
    corners: NDArray[np.float32] = np.frombuffer(stl, _RECORD, offset=HEAD + COUNT)["corners"]
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
