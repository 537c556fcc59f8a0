"""A solid's triangles for printing: corners shared, no gap, with the chord error and the volume they keep."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from clampwright.files.stl import refuse_gaps
from clampwright.solids.mesh import corners_of, mesh_volume_mm3, stl_bytes
from clampwright.solids.shapes import Shape
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class SharedMesh:
    """Triangles over shared corners, mm."""

    corners: NDArray[np.float64]
    """Shape (corners, 3)."""
    triangles: NDArray[np.int64]
    """Shape (triangles, 3): numbers of corners, turning left from outside."""
    chord_mm: float
    volume_mm3: float

    @property
    def low(self) -> NDArray[np.float64]:
        """Lowest corner of the box round it."""
        lowest: NDArray[np.float64] = self.corners.min(axis=0)
        return lowest

    @property
    def size(self) -> NDArray[np.float64]:
        """Lengths of the sides of the box round it."""
        sides: NDArray[np.float64] = self.corners.max(axis=0) - self.low
        return sides


def shared_mesh(shape: Shape, chord_mm: float) -> SharedMesh:
    """Triangles of a solid, none straying further than `chord_mm` from the true surface.

    Raises
    ------
    NotWatertight
        Where they leave a gap.

    Examples
    --------
    >>> from clampwright.solids.shapes import polygon, prism
    >>> mesh = shared_mesh(prism(polygon([(0.0, 0.0), (2.0, 0.0), (2.0, 1.0)]), [], 4.0), 0.05)
    >>> len(mesh.corners), len(mesh.triangles), round(mesh.volume_mm3, 6)
    (6, 8, 4.0)
    """
    found = corners_of(stl_bytes(shape, chord_mm, math.radians(rule("stl-angle").value)))
    refuse_gaps(found)
    spots = found.reshape(-1, 3) + np.float32(0)
    corners, index = np.unique(spots, axis=0, return_inverse=True)
    triangles = index.reshape(-1, 3).astype(np.int64)
    return SharedMesh(corners.astype(np.float64), triangles, chord_mm, mesh_volume_mm3(found))
