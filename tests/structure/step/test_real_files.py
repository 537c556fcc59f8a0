"""Tubes of STEP files made by others, held against truth that another program computed from each file.

The files and their truth (`*.gt.json`, with remarks on what is ambiguous) are test data that stands beside
the project: its folder is named by the environment variable CLAMPWRIGHT_TEST_DATA.
"""

from __future__ import annotations

import json
import math
import os
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from clampwright.quantities import Vec3
from clampwright.structure.found import Found, FoundTube
from clampwright.structure.step.read import tubes_in_step

_BEGINS = b"ISO-10303-21"
_ROUNDED = 2e-4
"""The truth files give four decimals of a millimetre."""


@pytest.fixture(scope="module")
def folder() -> Path:
    where = os.environ.get("CLAMPWRIGHT_TEST_DATA")
    if not where:
        pytest.skip("CLAMPWRIGHT_TEST_DATA is not set: the files made by others are not here")
    return Path(where) / "step"


def file(folder: Path, what: str) -> Path:
    """The one STEP file whose name ends so; the test is skipped where it is damaged."""
    (path,) = (path for path in folder.glob(f"*{what}") if path.suffix in (".step", ".stp"))
    begins = path.read_bytes()[: len(_BEGINS)]
    if begins != _BEGINS:
        pytest.skip(f"the test data is damaged: {path.name} begins {begins!r} and is no STEP file")
    return path


@pytest.fixture(scope="module", params=["frame.step", "inch_rotated.step"])
def frame(folder: Path, request: pytest.FixtureRequest) -> Frame:
    """The nine tubes apart from one another: as drawn, and turned, moved and in inches."""
    path = file(folder, request.param)
    return Frame(read(path), truth(path), request.param != "frame.step")


@cache
def read(path: Path) -> Found:
    return tubes_in_step(path)


def truth(path: Path) -> list[dict[str, Any]]:
    tubes: list[dict[str, Any]] = json.loads(path.with_name(f"{path.name}.gt.json").read_text())["tubes"]
    return tubes


@dataclass(frozen=True)
class Frame:
    """The frame as found in one of its files, and the truth of that file."""

    found: Found
    truth: list[dict[str, Any]]
    turned: bool

    def as_drawn(self, one: FoundTube) -> tuple[Vec3, Vec3]:
        """Ends of a tube where the frame was drawn, the start of lesser x, y or z first as in a file."""
        start, end = (moved_back(p) if self.turned else p for p in (one.tube.start, one.tube.end))
        main = max(range(3), key=lambda axis: round(abs(end[axis] - start[axis]), 3))
        return (start, end) if start[main] < end[main] else (end, start)


def moved_back(point: Vec3) -> Vec3:
    """Undo what was done to the turned variant, as its truth says: 37° about (0.3, -0.5, 0.81), then moved
    by (1234.5, -678.9, 4321). Rodrigues' formula, the other way round."""
    axis = np.array([0.3, -0.5, 0.81])
    axis /= np.linalg.norm(axis)
    at, turn = np.subtract(point, [1234.5, -678.9, 4321.0]), -math.radians(37.0)
    x, y, z = (
        at * math.cos(turn)
        + np.cross(axis, at) * math.sin(turn)
        + axis * (axis @ at) * (1.0 - math.cos(turn))
    )
    return float(x), float(y), float(z)


def apart(found: FoundTube, tube: dict[str, Any]) -> float:
    """Greatest distance of an end from the truth's, whichever way round the tube runs."""
    ends, true = (found.tube.start, found.tube.end), (tube["p0"], tube["p1"])
    ways = ((true[0], true[1]), (true[1], true[0]))
    return min(max(math.dist(a, b) for a, b in zip(ends, way, strict=True)) for way in ways)


def matched(found: Found, tubes: list[dict[str, Any]]) -> list[tuple[FoundTube, dict[str, Any]]]:
    """Every true tube with the nearest one found; all different."""
    pairs = [(min(found.tubes, key=lambda one: apart(one, tube)), tube) for tube in tubes]
    assert len({one.number for one, _ in pairs}) == len(tubes)
    return pairs


def check(one: FoundTube, tube: dict[str, Any], within: float = _ROUNDED) -> None:
    assert apart(one, tube) < within, tube
    assert one.tube.od_mm == pytest.approx(tube["od"], abs=1e-9)
    assert one.tube.length_mm == pytest.approx(tube["length"], abs=within)
    if tube["id"] is None:
        assert one.bore_mm is None
    else:
        assert one.bore_mm == pytest.approx(tube["id"][0], abs=_ROUNDED)


def test_nine_tubes_with_copes_in_millimetres_and_turned_in_inches(frame: Frame) -> None:
    assert (frame.found.unit, frame.found.unit_how) == ("in" if frame.turned else "mm", "written in the file")
    assert len(frame.found.tubes) == len(frame.truth) == 9
    for one, tube in matched(frame.found, frame.truth):
        check(one, tube)
        assert math.degrees(one.coverage_rad) == pytest.approx(tube["coverage_deg"], abs=1.0)
        assert one.doubts == ()


def test_copes_are_as_deep_as_the_truth_says(folder: Path, frame: Frame) -> None:
    """Depths of the copes do not change with where the frame stands: the drawn file's truth serves both."""
    deep = truth_of_the_drawn_frame(folder)
    for one, tube in matched(frame.found, frame.truth):
        spread = deep[tube["name"]]["end_spread_mm"]
        assert sorted(one.copes_mm) == pytest.approx(sorted(spread), abs=1.5)


def truth_of_the_drawn_frame(folder: Path) -> dict[str, dict[str, Any]]:
    (path,) = folder.glob("*frame.step.gt.json")
    return {tube["name"]: tube for tube in json.loads(path.read_text())["tubes"]}


def test_the_turned_frame_moved_back_is_the_drawn_one(folder: Path, frame: Frame) -> None:
    """Ends where the drawn file's truth has them, to its four decimals."""
    drawn = truth_of_the_drawn_frame(folder)
    for one, tube in matched(frame.found, frame.truth):
        ends, true = frame.as_drawn(one), drawn[tube["name"]]
        ways = ((true["p0"], true["p1"]), (true["p1"], true["p0"]))
        off = min(max(math.dist(a, b) for a, b in zip(ends, way, strict=True)) for way in ways)
        assert off < 2 * _ROUNDED


def test_the_authors_own_cut_list(frame: Frame) -> None:
    """Six of the seven lengths of the drawing's spreadsheet; the seventh disagrees with the drawing."""
    lengths = sorted(round(one.tube.length_mm, 3) for one in frame.found.tubes)
    for written in (833.2896, 833.2896, 376.236, 376.236, 369.0, 110.0):
        nearest = min(lengths, key=lambda length: abs(length - written))
        assert nearest == pytest.approx(written, abs=0.001)
        lengths.remove(nearest)


def test_left_and_right_are_mirror_images(frame: Frame) -> None:
    """Two pairs of the tubes were mirrored in the drawing, to 1e-4 mm."""
    for length in (833.2896, 376.236):
        one, other = (frame.as_drawn(t) for t in frame.found.tubes if abs(t.tube.length_mm - length) < 1e-3)
        for a, b in zip(one, other, strict=True):
            assert a == pytest.approx((b[0], -b[1], b[2]), abs=2e-4)


def test_two_inch_tube_is_called_so(frame: Frame) -> None:
    assert sorted(one.stock for one in frame.found.tubes) == ["", ""] + ["2 in"] * 7


def test_the_fused_frame_gives_the_same_nine(folder: Path, frame: Frame) -> None:
    """One solid: skin is lost in the joints, one tube is in two pieces with another between them."""
    path = file(folder, "fused.step")
    found = read(path)
    assert len(found.tubes) == 9
    whole = [t for t in truth(path) if "upper piece" not in t["name"]]
    for one, tube in matched(found, whole):
        check(one, tube)
        assert math.degrees(one.coverage_rad) == pytest.approx(tube["coverage_deg"], abs=1.5)
        assert one.doubts == ()
    together = Frame(found, [], turned=False)
    separate = [frame.as_drawn(one) for one in frame.found.tubes]
    for one in found.tubes:
        ends = together.as_drawn(one)
        nearest = min(separate, key=lambda other: math.dist(ends[0], other[0]) + math.dist(ends[1], other[1]))
        assert np.ravel(ends) == pytest.approx(np.ravel(nearest), abs=2e-5)
        separate.remove(nearest)


def test_the_piece_below_the_joint_belongs_to_its_tube(folder: Path) -> None:
    """The truth's remark: from z -60.8 to -42.8 and -8.0 to 589.2, other tubes between."""
    found = read(file(folder, "fused.step"))
    (joined,) = [one for one in found.tubes if one.gaps_mm]
    assert joined.tube.length_mm == pytest.approx(650.0, abs=1e-6)
    ((first, last),) = joined.gaps_mm
    assert joined.tube.point(first)[2] == pytest.approx(-42.8, abs=0.05)
    assert joined.tube.point(last)[2] == pytest.approx(-8.0, abs=0.05)


def test_a_pipe_in_metres_ends_where_its_bell_begins(folder: Path) -> None:
    path = file(folder, "pipe.step")
    found = read(path)
    assert found.unit == "m"
    (one,) = found.tubes
    check(one, truth(path)[0])
    assert one.stock == "1-5/8 in"
    assert one.doubts == ()


def test_an_assembly_in_inches_offers_its_rod_and_doubts_its_bolts(folder: Path) -> None:
    """The file's numbers are millimetres, its unit says inches: that is what it says, and what is asked."""
    path = file(folder, "203.stp")
    found = read(path)
    assert found.unit == "in"
    (rod,) = truth(path)
    check(found.tubes[0], rod)
    assert found.tubes[0].tube.name == "ROD"
    assert not any("bolt" in doubt for doubt in found.tubes[0].doubts)
    assert [one.tube.name for one in found.tubes[1:]] == [f"BOLT-{k}" for k in range(1, 7)]
    for one in found.tubes[1:]:
        assert "Only 3.7 diameters long, solid: a bolt" in one.doubts[0]
        assert "OD 381.00 mm: a head" in one.doubts[1]
    for one in found.tubes:
        assert one.doubts[-1].endswith("is inch the right unit? In millimetres it would be 10.00 mm.")


def test_a_stepped_shaft_is_no_tube(folder: Path) -> None:
    """The truth's two ends of 20 x 20 mm are as long as they are thick, too short for a clamp's band."""
    found = read(file(folder, "Welle.step"))
    assert found.tubes == ()
    assert [one.what for one in found.not_taken] == [
        "1 × outside diameter 80.00 mm",
        "1 × outside diameter 40.00 mm",
        "1 × outside diameter 30.00 mm",
        "2 × outside diameter 20.00 mm",
    ]
    asked = "and a tube this thick is at least {} long"
    assert found.not_taken[0].why.endswith(asked.format("80.00 mm"))
    assert found.not_taken[3].why == (
        f"too short for a clamp to sit on: 20.00 mm long, {asked.format('25.00 mm')}"
    )
    assert all("too short" in one.why for one in found.not_taken)


def test_a_square_rail_with_rounded_corners_is_no_tube(folder: Path) -> None:
    found = read(file(folder, "railing.stp"))
    assert found.tubes == ()
    assert found.not_taken[0].what == "25 × outside diameter 0.22 mm"
    assert "rounded corner" in found.not_taken[0].why


def test_nothing_is_said_on_the_console(folder: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """The pipe's file holds a reference to nothing, which the kernel would remark on."""
    tubes_in_step(file(folder, "pipe.step"))
    assert capfd.readouterr() == ("", "")
