"""STL read back by trimesh, which did not write it."""

from __future__ import annotations

import io
import math
from dataclasses import replace

import numpy as np
import pytest
import trimesh
from solids.hand_layout import HEIGHT, THICKNESS, WIDTH, hand_layout

from clampwright.files.stl import NotWatertight, refuse_gaps, stl
from clampwright.solids.assembly import part
from clampwright.solids.bushing import bushing_body
from clampwright.solids.measure import area_mm2, volume_mm3

LAYOUT = hand_layout()
SHAPE = part(LAYOUT).shape
MESH = stl(SHAPE, "coil-plate")


def read(data: bytes) -> trimesh.Trimesh:
    """The mesh as trimesh reads it, equal corners merged."""
    return trimesh.load_mesh(io.BytesIO(data), file_type="stl")


def test_it_is_watertight_and_turned_outward() -> None:
    mesh = read(MESH.data)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    assert mesh.volume > 0
    assert mesh.body_count == 1


def test_euler_number_counts_the_holes() -> None:
    """V - E + F = 2 - 2g for a plate with g holes through it."""
    assert read(MESH.data).euler_number == 2 - 2 * len(LAYOUT.holes)


def test_volume_is_as_stated_and_within_the_chord_error() -> None:
    """Round walls lie within the chord error of the true ones: so does the volume, by their area times it."""
    mesh = read(MESH.data)
    assert mesh.volume == pytest.approx(MESH.volume_mm3, rel=1e-6)
    round_walls = math.pi * THICKNESS * (sum(h.diameter_mm for h in LAYOUT.holes) + 2 * 6.0)
    assert abs(mesh.volume - volume_mm3(SHAPE)) <= MESH.chord_mm * round_walls
    assert mesh.volume != pytest.approx(volume_mm3(SHAPE), rel=1e-9)
    assert mesh.area == pytest.approx(area_mm2(SHAPE), rel=1e-3)


def test_box_is_the_plate_s() -> None:
    assert read(MESH.data).bounds.ravel() == pytest.approx([0, 0, 0, WIDTH, HEIGHT, THICKNESS], abs=1e-5)


def test_every_corner_lies_on_the_true_surface() -> None:
    mesh = read(MESH.data)
    for hole in LAYOUT.holes:
        off = np.hypot(*(mesh.vertices[:, :2] - hole.at).T)
        rim = off[off < hole.diameter_mm / 2 + 0.2]
        assert len(rim) >= 12
        assert rim == pytest.approx(hole.diameter_mm / 2, abs=1e-5)


def test_header_states_unit_chord_error_and_volume() -> None:
    head = MESH.data[:80].decode("ascii")
    assert head.startswith("coil-plate, mm, chord error 0.01 mm, volume ")
    assert float(head.split("volume ")[1].split()[0]) == pytest.approx(MESH.volume_mm3, abs=0.01)
    assert not head.startswith("solid")
    assert len(MESH.data) == 84 + 50 * MESH.count


def test_bushing_comes_out_too() -> None:
    body = bushing_body(LAYOUT.bushings[0])
    mesh = read(stl(body.placed(), "bushing").data)
    assert mesh.is_watertight
    assert mesh.euler_number == 0
    assert mesh.bounds[:, 2] == pytest.approx([0, 12.7], abs=1e-5)


def test_many_small_holes_stay_watertight() -> None:
    hole = LAYOUT.holes[0]
    grid = [(8.0 + 9.1 * i, 8.0 + 9.3 * k) for i in range(15) for k in range(9)]
    holes = tuple(replace(hole, label=f"X{n}", at=at, diameter_mm=2.5 + n % 5) for n, at in enumerate(grid))
    mesh = read(stl(part(replace(LAYOUT, holes=holes)).shape, "sieve").data)
    assert mesh.is_watertight
    assert mesh.euler_number == 2 - 2 * len(holes)


def test_a_gap_is_refused() -> None:
    corners = read(MESH.data).triangles
    refuse_gaps(corners)
    with pytest.raises(NotWatertight):
        refuse_gaps(corners[1:])
    turned = corners.copy()
    turned[0] = turned[0, ::-1]
    with pytest.raises(NotWatertight):
        refuse_gaps(turned)
