"""What a scan's file may hold, and that nothing else ends in a traceback."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from structure.scan.scan_scenes import Made, skin
from structure.scan.tube_meshes import mesh, write_mesh

from clampwright.structure.not_readable import NotReadable
from clampwright.structure.scan.find import tubes_in_scan
from clampwright.structure.scan.reading import read_cloud

TUBE = Made((0, 0, 0), (200, 100, 0), 19.05)


def points() -> np.ndarray:
    """Points on a tube, lightly rough."""
    rng = np.random.default_rng(1)
    at, _ = skin(TUBE, 3000, rng)
    return np.asarray(at + 0.05 * rng.normal(size=at.shape))


def lines(between: str, head: str = "", after: str = "") -> str:
    """The points as lines of text."""
    return head + "".join(between.join(f"{x:.4f}" for x in p) + after + "\n" for p in points())


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("plain.xyz", lines(" ")),
        ("commas.csv", lines(",", "x,y,z,intensity\n", ",17")),
        ("semicolons.txt", lines("; ", "# scanned in the shed\n")),
        ("counted.pts", lines("\t", "3000\n", "\t12 250 250 250")),
        ("vertices.obj", "".join(f"v {p[0]:.4f} {p[1]:.4f} {p[2]:.4f}\n" for p in points())),
    ],
)
def test_points_as_text(tmp_path: Path, name: str, text: str) -> None:
    (tmp_path / name).write_text(text)
    (tube,) = tubes_in_scan(tmp_path / name, "mm").tubes
    assert tube.od_found_mm == pytest.approx(19.05, abs=0.02)
    assert tube.tube.length_mm == pytest.approx(TUBE.length, abs=0.5)


@pytest.mark.parametrize(("unit", "millimetres"), [("mm", 1.0), ("in", 25.4), ("m", 1000.0), ("cm", 10.0)])
def test_units_given(tmp_path: Path, unit: str, millimetres: float) -> None:
    np.savetxt(tmp_path / "scan.xyz", points() / millimetres)
    found = tubes_in_scan(tmp_path / "scan.xyz", unit)
    assert (found.unit, found.unit_how) == (unit, "given")
    assert found.tubes[0].od_found_mm == pytest.approx(19.05, abs=0.02)
    assert found.tubes[0].stock == "3/4 in"
    assert max(found.size_mm) == pytest.approx(208, abs=3)


@pytest.mark.parametrize(("unit", "millimetres"), [("mm", 1.0), ("m", 1000.0)])
def test_units_guessed_are_said_to_be(tmp_path: Path, unit: str, millimetres: float) -> None:
    np.savetxt(tmp_path / "scan.xyz", points() / millimetres)
    found = tubes_in_scan(tmp_path / "scan.xyz")
    assert found.unit == unit
    assert "guessed" in found.unit_how
    assert "look at the lengths" in found.unit_how


@pytest.mark.parametrize("inside_out", [False, True])
@pytest.mark.parametrize("ending", ["ply", "obj", "stl"])
def test_a_mesh_of_chords_gives_the_skin_through_its_corners(
    tmp_path: Path, ending: str, inside_out: bool
) -> None:
    """24 facets round lie up to 0.08 mm inside; its corners do not. Facets may be inside out."""
    corners, facets = mesh(inside_out)
    path = tmp_path / f"tube.{ending}"
    write_mesh(path, corners, facets)
    (tube,) = tubes_in_scan(path, "mm").tubes
    assert tube.od_found_mm == pytest.approx(19.05, abs=1e-3)
    assert tube.stock == "3/4 in"
    assert tube.tube.length_mm == pytest.approx(200.0, abs=1e-3)


BAD: dict[str, bytes] = {
    "empty.stl": b"",
    "empty.xyz": b"",
    "words.xyz": b"nothing in here is a number\n" * 50,
    "ragged.xyz": b"1 2 3\n" * 50 + b"1 2\n" + b"1 2 3\n" * 50,
    "binary.xyz": b"\x00\x01\x02" * 400,
    "few.xyz": b"1 2 3\n4 5 6\n7 8 10\n",
    "one-place.xyz": b"1 2 3\n" * 100,
    "not-numbers.xyz": b"nan nan nan\n" * 100,
    "endless.xyz": b"1 2 3\n4 5 6\n" * 50 + b"1e30 0 0\n",
    "broken.stl": b"\x80" * 300,
    "cut-short.stl": b"\0" * 80 + b"\xff\xff\x00\x00" + b"\1" * 100,
    "head-only.ply": b"ply\nformat ascii 1.0\nelement vertex 9\nproperty float x\nend_header\n",
    "no.ply": b"this is no ply",
    "no.obj": b"this is no obj\n",
    "bad.obj": b"v 1 2\nv a b c\n",
    "ladder.dae": b"<?xml version='1.0'?><COLLADA/>",
    "picture.png": b"\x89PNG",
}


@pytest.mark.parametrize("name", BAD)
def test_what_cannot_be_read_is_said(tmp_path: Path, name: str) -> None:
    (tmp_path / name).write_bytes(BAD[name])
    with pytest.raises(NotReadable) as said:
        tubes_in_scan(tmp_path / name)
    assert len(said.value.why) > 10
    assert said.value.change


def test_a_file_that_is_not_there_and_a_unit_that_is_none(tmp_path: Path) -> None:
    with pytest.raises(NotReadable, match="cannot be opened"):
        tubes_in_scan(tmp_path / "none.stl")
    np.savetxt(tmp_path / "scan.xyz", points())
    with pytest.raises(NotReadable, match="furlong"):
        tubes_in_scan(tmp_path / "scan.xyz", "furlong")
    with pytest.raises(NotReadable, match="long in metres"):
        tubes_in_scan(tmp_path / "scan.xyz", "m")


def test_points_that_are_no_numbers_are_left_out(tmp_path: Path) -> None:
    text = lines(" ") + "nan 1 1\n" * 20 + "inf 0 0\n"
    (tmp_path / "scan.xyz").write_text(text)
    assert read_cloud(tmp_path / "scan.xyz").left_out == 21
    assert len(tubes_in_scan(tmp_path / "scan.xyz", "mm").tubes) == 1


@pytest.mark.parametrize(
    "make", [lambda p: p + np.array([3e6, 5e6, 100.0]), lambda p: np.vstack([p, [[1e7, 0, 0]]])]
)
def test_far_from_the_origin_and_one_point_far_off(
    tmp_path: Path, make: Callable[[np.ndarray], np.ndarray]
) -> None:
    np.savetxt(tmp_path / "scan.xyz", make(points()), fmt="%.4f")
    (tube,) = tubes_in_scan(tmp_path / "scan.xyz", "mm").tubes
    assert tube.od_found_mm == pytest.approx(19.05, abs=0.02)


@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(["stl", "ply", "obj", "xyz", "csv"]), st.binary(max_size=400))
def test_any_bytes_are_points_or_not_readable(tmp_path: Path, ending: str, data: bytes) -> None:
    path = tmp_path / f"any.{ending}"
    path.write_bytes(data)
    try:
        cloud = read_cloud(path)
    except NotReadable as said:
        assert said.why  # noqa: PT017
    else:
        assert len(cloud.points) >= 3
