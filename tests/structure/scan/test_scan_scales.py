"""A scan in any unit and at any scale: its tube is found where it is one of a recipe's sizes, and what is
wrong is said where it is not."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from structure.scan.scan_scenes import Made, skin
from structure.scan.tube_meshes import mesh

from clampwright.structure.not_readable import NotReadable
from clampwright.structure.scan.find import tubes_in_scan

_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
_SCALES = (1e-300, 1e-30, 1e-9, 1e-4, 1e-3, 0.04, 1.0, 4.0, 1e3, 1e5, 1e12, 1e36)


def points() -> np.ndarray:
    """Points on a tube of 19.05 mm, lightly rough."""
    rng = np.random.default_rng(1)
    at, _ = skin(Made((0, 0, 0), (200, 100, 0), 19.05), 1500, rng)
    return np.asarray(at + 0.05 * rng.normal(size=at.shape))


def facets(path: Path, corners: np.ndarray) -> None:
    """A binary STL of three corners at a time, written here by hand."""
    whole = corners[: len(corners) // 3 * 3].reshape(-1, 3, 3)
    record = np.zeros(len(whole), dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("spare", "<u2")])
    record["corners"] = whole
    path.write_bytes(b"\0" * 80 + np.uint32(len(whole)).tobytes() + record.tobytes())


@pytest.mark.parametrize("unit", [None, *_MM])
@pytest.mark.parametrize("scale", _SCALES)
def test_points_of_a_tube_at_any_scale(tmp_path: Path, scale: float, unit: str | None) -> None:
    np.savetxt(tmp_path / "scan.xyz", scale * points())
    check(tmp_path / "scan.xyz", scale, unit)


@pytest.mark.parametrize("unit", [None, *_MM])
@pytest.mark.parametrize("scale", [1e-40, 1e-20, 1e-6, 1e-3, 0.04, 1.0, 200.0, 1e5, 1e36])
def test_a_mesh_of_a_tube_at_any_scale(tmp_path: Path, scale: float, unit: str | None) -> None:
    corners, numbers = mesh()
    facets(tmp_path / "scan.stl", scale * corners[numbers].reshape(-1, 3))
    check(tmp_path / "scan.stl", scale, unit)


def check(path: Path, scale: float, unit: str | None) -> None:
    """The tube is found where it is of a size that is looked for; else it is said that none is there."""
    try:
        found = tubes_in_scan(path, unit)
    except NotReadable as no:
        assert unit is None or not 9.0 < 19.05 * scale * _MM[unit] < 110.0
        assert no.change  # noqa: PT017
        return
    od = 19.05 * scale * _MM[found.unit]
    if 9.0 < od < 110.0:
        assert [tube.od_found_mm for tube in found.tubes] == [pytest.approx(od, rel=1e-3)]
    else:
        assert found.tubes == ()
        assert found.doubts[0].endswith("is its unit right?")


@pytest.mark.parametrize(
    "at",
    [
        np.outer(np.linspace(0.0, 1.0, 300), [300.0, 200.0, 100.0]),
        np.stack(np.meshgrid(np.arange(0, 300.0, 20), np.arange(0, 300.0, 20), [0.0]), -1).reshape(-1, 3),
        np.repeat(np.eye(3) * 300.0, 20, axis=0),
        np.stack(np.meshgrid(*[np.arange(8.0) * 40] * 3), -1).reshape(-1, 3),
    ],
    ids=["on one line", "on a plane", "at three places", "on a lattice"],
)
def test_points_without_a_skin(tmp_path: Path, at: np.ndarray) -> None:
    np.savetxt(tmp_path / "scan.xyz", at)
    assert tubes_in_scan(tmp_path / "scan.xyz", "mm").tubes == ()


def test_a_needle_of_a_mesh(tmp_path: Path) -> None:
    """Long, and with hardly any area for points to stand on."""
    rng = np.random.default_rng(2)
    facets(tmp_path / "scan.stl", rng.random((300, 3)) * [500.0, 1e-4, 1e-4])
    assert tubes_in_scan(tmp_path / "scan.stl", "mm").tubes == ()
