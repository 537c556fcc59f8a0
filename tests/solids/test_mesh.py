"""Triangles: closed, and their volume within what the chord error allows."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray
from solids.hand_layout import hand_layout

from clampwright.solids.measure import volume_mm3
from clampwright.solids.mesh import corners_of, mesh_volume_mm3, stl_bytes
from clampwright.solids.plate import plate
from clampwright.solids.shapes import ring

SINGLE = 15 * 2**-23
"""What a file's 24-bit numbers can move a point at radius 15, mm."""


def triangles(shape: object, chord_mm: float, angle_rad: float) -> NDArray[np.float64]:
    """Corners as the file holds them."""
    return corners_of(stl_bytes(shape, chord_mm, angle_rad)).astype(float)


@pytest.mark.parametrize("chord", [0.1, 0.01, 0.001])
def test_no_flat_of_a_cylinder_strays_further_than_the_chord_error(chord: float) -> None:
    corners = triangles(ring(30.0, 0.0, 10.0), chord, math.radians(30))
    side = corners[np.ptp(corners[..., 2], axis=1) > 1]
    middles = (side + np.roll(side, 1, axis=1)) / 2
    sagitta = 15.0 - np.hypot(middles[..., 0], middles[..., 1])
    assert sagitta.max() <= chord + SINGLE
    assert sagitta.max() > chord / 100


def test_volume_of_a_meshed_disc_is_the_polygon_s() -> None:
    """A regular polygon of k corners in a circle encloses (k/2) r^2 sin(2 pi/k)."""
    corners = triangles(ring(30.0, 0.0, 10.0), 0.05, math.radians(60))
    rim = corners[np.hypot(corners[..., 0], corners[..., 1]) > 14]
    k = len({round(a % (2 * math.pi), 3) for a in np.arctan2(rim[:, 1], rim[:, 0])} - {round(2 * math.pi, 3)})
    assert mesh_volume_mm3(corners) == pytest.approx(k / 2 * 225 * math.sin(2 * math.pi / k) * 10, rel=1e-6)


def test_a_coarse_mesh_after_a_fine_one_is_coarse() -> None:
    shape = plate(hand_layout())
    first = len(triangles(shape, 0.05, math.radians(30)))
    assert len(triangles(shape, 0.002, math.radians(5))) > 2 * first
    assert len(triangles(shape, 0.05, math.radians(30))) == first


def test_triangles_turn_left_seen_from_outside() -> None:
    shape = plate(hand_layout())
    assert mesh_volume_mm3(triangles(shape, 0.01, 0.5)) == pytest.approx(volume_mm3(shape), rel=1e-4)
