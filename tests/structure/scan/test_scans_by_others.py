"""Meshes and scans made by others, each against truth that was worked out by other means.

The files are no part of the project: the environment variable CLAMPWRIGHT_TEST_DATA names their folder.
"""

from __future__ import annotations

import json
import math
import os
import shutil
import xml.etree.ElementTree as Xml
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from clampwright.structure.chosen import chosen
from clampwright.structure.found import Found, FoundTube
from clampwright.structure.not_readable import NotReadable
from clampwright.structure.scan.find import tubes_in_scan

SPACE = "{http://www.collada.org/2005/11/COLLADASchema}"


def file(pattern: str) -> Path:
    """The one file that a pattern tells of."""
    where = os.environ.get("CLAMPWRIGHT_TEST_DATA")
    if not where:
        pytest.skip("CLAMPWRIGHT_TEST_DATA is not set: the files made by others are not here")
    (path,) = Path(where).glob(pattern)
    return path


FUSED, SCANNED, MESH = "step/*fused.step.gt.json", "scan/*simscan.ply", "scan/*fused*.stl"
RAIL, BUMPER, LADDER = "scan/*rail.stl", "scan/*bumper.stl", "scan/*ladder.dae"


@cache
def found_in(path: Path) -> Found:
    """What is found in a file, looked for once."""
    return tubes_in_scan(path)


def truth(pattern: str) -> Any:
    """The truth beside a file."""
    return json.loads(file(pattern).read_text("utf-8"))


def along(true: dict[str, Any], tubes: tuple[FoundTube, ...]) -> FoundTube:
    """The only found tube on the axis of a true one: within 1°, and 3 mm at its ends."""
    start, end = np.array(true["p0"]), np.array(true["p1"])
    axis = (end - start) / np.linalg.norm(end - start)
    near = [
        tube
        for tube in tubes
        if abs(np.dot(tube.tube.direction, axis)) > math.cos(math.radians(1.0))
        and all(
            np.linalg.norm(np.cross(np.subtract(p, start), axis)) < 3.0
            for p in (tube.tube.start, tube.tube.end)
        )
        and -10.0
        < np.dot(np.subtract(tube.tube.point(0.5 * tube.tube.length_mm), start), axis)
        < true["length"] + 10.0
    ]
    assert len(near) == 1, true.get("name", true)
    return near[0]


def axis_error(true: dict[str, Any], tube: FoundTube) -> tuple[float, float]:
    """Worst distance of an end from the true axis (mm), and angle to it (degrees)."""
    start, end = np.array(true["p0"]), np.array(true["p1"])
    axis = (end - start) / np.linalg.norm(end - start)
    ends = (tube.tube.start, tube.tube.end)
    apart = max(float(np.linalg.norm(np.cross(np.subtract(p, start), axis))) for p in ends)
    return apart, math.degrees(
        math.asin(min(1.0, float(np.linalg.norm(np.cross(tube.tube.direction, axis)))))
    )


def test_simulated_scan_of_a_welded_frame() -> None:
    """Nine tubes, noise 0.35 mm and more, hidden sides, strays: none missed, none invented, diameters nearer
    the truth, on the whole, than a plain fit that was told which point lies on which tube."""
    frame = truth(FUSED)["tubes"]
    told = {t["name"]: t for t in truth("scan/*simscan.gt.json")["per_tube_fit_with_known_labels"]}
    found = found_in(file(SCANNED))
    assert len(found.tubes) == len(frame) == 9
    assert (found.unit, found.looked_at) == ("mm", 15522)
    ours: list[float] = []
    theirs: list[float] = []
    for true in frame:
        tube = along(true, found.tubes)
        other = told[true["name"].removesuffix(" (upper piece)")]
        ours.append(abs(tube.od_found_mm - true["od"]))
        theirs.append(abs(other["od_fit_given_labels"] - true["od"]))
        assert ours[-1] < tube.od_plus_minus_mm < 0.35
        apart, lean = axis_error(true, tube)
        assert apart < 0.3
        assert lean < max(0.05, 1.5 * other["axis_err_deg"])
        assert tube.tube.length_mm == pytest.approx(true["length"], abs=20.0)
    assert max(ours) < 0.15
    assert sum(ours) < 0.6 * sum(theirs)


def test_mesh_of_the_same_frame() -> None:
    """Corners of a drawn mesh lie on the skin itself: axis and diameter to a thousandth, bores as designed.
    The rear head tube's two pieces, 18 mm of it below the tube that it crosses, are one of 650 mm."""
    found = found_in(file(MESH))
    frame = truth(FUSED)["tubes"]
    assert len(found.tubes) == len(frame) == 9
    for true in frame:
        tube = along(true, found.tubes)
        assert tube.od_found_mm == pytest.approx(true["od"], abs=1e-3)
        assert tube.tube.od_mm == (50.8 if tube.stock else tube.od_found_mm)
        assert tube.stock == ("2 in" if true["od"] == 50.8 else "")
        assert max(axis_error(true, tube)) < 1e-3
        if "rear_head" not in true["name"]:
            assert tube.tube.length_mm == pytest.approx(true["length"], abs=0.01)
        if true["id"]:
            assert tube.bore_mm == pytest.approx(true["id"][0], abs=0.1)
    rear = along(next(t for t in frame if "rear_head" in t["name"]), found.tubes)
    assert rear.tube.length_mm == pytest.approx(650.0, abs=0.01)
    ((first, last),) = rear.gaps_mm
    assert 10 < first < 25 < 40 < last < 65
    assert any("No skin was seen" in doubt for doubt in rear.doubts)


def test_rounded_rails_are_no_tubes() -> None:
    """Extruded rails with slots and rounded corners: fits to whole corners look like tubes over 156°."""
    found = found_in(file(RAIL))
    assert found.tubes == ()
    assert found.unit == "m"
    assert found.not_taken
    assert all(kept.why for kept in found.not_taken)


def test_two_bars_of_a_bumper_in_metres() -> None:
    """19.05 mm bars of 50.8 mm with a bore of 8.0, between plates, bolt holes and roundings of 8 mm plate."""
    found = found_in(file(BUMPER))
    true = [p for p in truth(f"{BUMPER}.tubes.json")["patches"] if p["outer"]]
    assert len(found.tubes) == len(true) == 2
    for bar in true:
        tube = along(bar, found.tubes)
        assert (tube.stock, tube.tube.od_mm) == ("3/4 in", 19.05)
        assert tube.od_found_mm == pytest.approx(19.05, abs=1e-3)
        assert tube.bore_mm == pytest.approx(8.0, abs=0.01)
        assert tube.tube.length_mm == pytest.approx(50.8, abs=1e-3)
        assert any("short" in doubt for doubt in tube.doubts)


def test_industrial_ladder(tmp_path: Path) -> None:
    """Unmerged corners, 36 facets round, metres: the twenty straight pieces that the truth lists, four
    slanted rails of the same pipe beside them; nothing else."""
    path = tmp_path / "ladder.stl"
    write_stl(path, *collada_facets(file(LADDER)))
    found = tubes_in_scan(path, "m")
    true = [p for p in truth(f"{LADDER}.tubes.json")["patches"] if p["outer"]][:20]
    for piece in true:
        tube = along(piece, found.tubes)
        assert tube.od_found_mm == pytest.approx(48.26, abs=2e-3)
        assert tube.tube.length_mm == pytest.approx(piece["length"], abs=0.01)
    assert len(found.tubes) == 24
    assert {round(tube.od_found_mm, 1) for tube in found.tubes} == {48.3}


@pytest.mark.parametrize("unit", ["mm", "cm", "m", "in"])
@pytest.mark.parametrize(
    ("pattern", "own"), [(MESH, "mm"), (SCANNED, "mm"), (RAIL, "m"), (BUMPER, "m"), (LADDER, "m")]
)
def test_any_file_in_any_unit(tmp_path: Path, pattern: str, own: str, unit: str) -> None:
    """In the wrong unit nothing is found, and it is asked whether the unit is right, or said that it is not.
    The right one is the other tests' matter."""
    if unit == own:
        return
    path = tmp_path / f"copy{file(pattern).suffix}"
    if pattern == LADDER:
        write_stl(path := path.with_suffix(".stl"), *collada_facets(file(pattern)))
    else:
        shutil.copyfile(file(pattern), path)
    try:
        found = tubes_in_scan(path, unit)
    except NotReadable as no:
        assert "its unit" in no.change or "the unit" in no.change  # noqa: PT017
    else:
        assert found.tubes == ()
        assert found.doubts[0].endswith("is its unit right?")


def test_a_drawing_saved_as_a_mesh_gives_no_errors_of_its_own() -> None:
    """The metal is not known to the 1e-8 mm that its corners lie off a cylinder."""
    found = found_in(file(MESH))
    assert any("this is a drawing, not a scan" in said for said in found.doubts)
    for tube in found.tubes:
        assert (tube.spread_mm, tube.od_plus_minus_mm, tube.ends_plus_minus_mm) == ((), 0.0, 0.0)
        assert not any("±" in said for said in tube.doubts)
    assert chosen(found, [1, 2], {}).uncertainty is None


def test_a_scan_gives_errors_of_its_own_and_none_under_the_floor() -> None:
    found = found_in(file(SCANNED))
    assert not any("drawing" in said for said in found.doubts)
    assert min(tube.od_plus_minus_mm for tube in found.tubes) > 0.1
    assert min(tube.ends_plus_minus_mm for tube in found.tubes) > 0.1
    assert chosen(found, [1, 2], {}).uncertainty is not None


def collada_facets(path: Path) -> tuple[np.ndarray, np.ndarray]:
    """Corners and triangles of the one mesh in a file."""
    mesh = next(Xml.parse(path).getroot().iter(f"{SPACE}mesh"))
    corners = np.array((mesh.findtext(f".//{SPACE}float_array") or "").split(), dtype=float).reshape(-1, 3)
    listed = mesh.find(f"{SPACE}polylist")
    assert listed is not None
    assert set((listed.findtext(f"{SPACE}vcount") or "").split()) == {"3"}
    numbers = np.array((listed.findtext(f"{SPACE}p") or "").split(), dtype=int)
    return corners, numbers.reshape(-1, len(listed.findall(f"{SPACE}input")))[:, 0].reshape(-1, 3)


def write_stl(path: Path, corners: np.ndarray, facets: np.ndarray) -> None:
    """A binary STL, written here by hand."""
    record = np.zeros(len(facets), dtype=[("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("spare", "<u2")])
    record["corners"] = corners[facets]
    path.write_bytes(b"\0" * 80 + np.uint32(len(facets)).tobytes() + record.tobytes())
