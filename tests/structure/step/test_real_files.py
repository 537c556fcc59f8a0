"""Tubes of STEP files made by others, held against truth that another program computed from each file.

The files and their truth (`*.gt.json`, with remarks on what is ambiguous) are test data that stands beside
the project: its folder is named by the environment variable CLAMPWRIGHT_TEST_DATA.
"""

from __future__ import annotations

import json
import math
import os
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from clampwright.structure.found import Found, FoundTube
from clampwright.structure.step.read import tubes_in_step

_ROUNDED = 2e-4
"""The truth files give four decimals of a millimetre."""


@pytest.fixture(scope="module")
def folder() -> Path:
    where = os.environ.get("CLAMPWRIGHT_TEST_DATA")
    if not where:
        pytest.skip("CLAMPWRIGHT_TEST_DATA is not set: the files made by others are not here")
    return Path(where) / "step"


@pytest.fixture(scope="module")
def frame(folder: Path) -> Found:
    return read(folder / "cargo_bike_frame.step")


@cache
def read(path: Path) -> Found:
    return tubes_in_step(path)


def truth(folder: Path, name: str) -> list[dict[str, Any]]:
    tubes: list[dict[str, Any]] = json.loads((folder / f"{name}.gt.json").read_text())["tubes"]
    return tubes


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


@pytest.mark.parametrize(
    ("name", "unit"), [("cargo_bike_frame.step", "mm"), ("cargo_bike_inch_rotated.step", "in")]
)
def test_nine_tubes_with_copes_in_millimetres_and_turned_in_inches(
    folder: Path, name: str, unit: str
) -> None:
    found, tubes = read(folder / name), truth(folder, name)
    assert (found.unit, found.unit_how) == (unit, "written in the file")
    assert len(found.tubes) == len(tubes) == 9
    for one, tube in matched(found, tubes):
        check(one, tube)
        assert math.degrees(one.coverage_rad) == pytest.approx(tube["coverage_deg"], abs=1.0)
        assert sorted(one.copes_mm) == pytest.approx(sorted(tube["end_spread_mm"]), abs=1.5)
        assert one.doubts == ()


def test_the_authors_own_cut_list(frame: Found) -> None:
    """Six of the seven lengths of the drawing's spreadsheet; the seventh disagrees with the drawing."""
    lengths = sorted(round(one.tube.length_mm, 3) for one in frame.tubes)
    for written in (833.2896, 833.2896, 376.236, 376.236, 369.0, 110.0):
        nearest = min(lengths, key=lambda length: abs(length - written))
        assert nearest == pytest.approx(written, abs=0.001)
        lengths.remove(nearest)


def test_left_and_right_are_mirror_images(frame: Found) -> None:
    """Two pairs of the tubes were mirrored in the drawing, to 1e-4 mm."""
    for length in (833.2896, 376.236):
        one, other = (t.tube for t in frame.tubes if abs(t.tube.length_mm - length) < 1e-3)
        for a, b in ((one.start, other.start), (one.end, other.end)):
            assert a == pytest.approx((b[0], -b[1], b[2]), abs=2e-4)


def test_two_inch_tube_is_called_so(frame: Found) -> None:
    assert sorted(one.stock for one in frame.tubes) == ["", ""] + ["2 in"] * 7


def test_the_fused_frame_gives_the_same_nine(folder: Path, frame: Found) -> None:
    """One solid: skin is lost in the joints, one tube is in two pieces with another between them."""
    name = "cargo_bike_fused.step"
    found = read(folder / name)
    assert len(found.tubes) == 9
    whole = [t for t in truth(folder, name) if "upper piece" not in t["name"]]
    for one, tube in matched(found, whole):
        check(one, tube)
        assert math.degrees(one.coverage_rad) == pytest.approx(tube["coverage_deg"], abs=1.5)
        assert one.doubts == ()
    for one, separate in zip(found.tubes, frame.tubes, strict=True):
        assert one.tube.start == pytest.approx(separate.tube.start, abs=1e-5)
        assert one.tube.end == pytest.approx(separate.tube.end, abs=1e-5)


def test_the_piece_below_the_joint_belongs_to_its_tube(folder: Path) -> None:
    """The truth's remark: from z -60.8 to -42.8 and -8.0 to 589.2, other tubes between."""
    found = read(folder / "cargo_bike_fused.step")
    (joined,) = [one for one in found.tubes if one.gaps_mm]
    assert joined.tube.length_mm == pytest.approx(650.0, abs=1e-6)
    ((first, last),) = joined.gaps_mm
    assert joined.tube.point(first)[2] == pytest.approx(-42.8, abs=0.05)
    assert joined.tube.point(last)[2] == pytest.approx(-8.0, abs=0.05)


def test_a_pipe_in_metres_ends_where_its_bell_begins(folder: Path) -> None:
    found = read(folder / "kcl_pipe.step")
    assert found.unit == "m"
    (one,) = found.tubes
    check(one, truth(folder, "kcl_pipe.step")[0])
    assert one.stock == "1-5/8 in"
    assert one.doubts == ()


def test_an_assembly_in_inches_offers_its_rod_and_doubts_its_bolts(folder: Path) -> None:
    """The file's numbers are millimetres, its unit says inches: that is what it says, and what is asked."""
    name = "as1_pe_203.stp"
    found = read(folder / name)
    assert found.unit == "in"
    (rod,) = truth(folder, name)
    check(found.tubes[0], rod)
    assert found.tubes[0].tube.name == "ROD"
    assert not any("bolt" in doubt for doubt in found.tubes[0].doubts)
    assert [one.tube.name for one in found.tubes[1:]] == [f"BOLT-{k}" for k in range(1, 7)]
    for one in found.tubes[1:]:
        assert "Only 3.7 diameters long, solid: a bolt" in one.doubts[0]
        assert "OD 381.00 mm: a head" in one.doubts[1]
    for one in found.tubes:
        assert one.doubts[-1].endswith("is in the right unit? In mm it would be 10.00 mm.")


def test_a_stepped_shaft_is_no_tube(folder: Path) -> None:
    """The truth's two ends of 20 x 20 mm are as long as they are thick, too short for a clamp's band."""
    found = read(folder / "ccx_Welle.step")
    assert found.tubes == ()
    assert [one.what for one in found.not_taken] == [
        "1 × outside diameter 80.00 mm",
        "1 × outside diameter 40.00 mm",
        "1 × outside diameter 30.00 mm",
        "2 × outside diameter 20.00 mm",
    ]
    assert all("too short" in one.why for one in found.not_taken)


def test_a_square_rail_with_rounded_corners_is_no_tube(folder: Path) -> None:
    found = read(folder / "urban_steps_railing.stp")
    assert found.tubes == ()
    assert found.not_taken[0].what == "25 × outside diameter 0.22 mm"
    assert "rounded corner" in found.not_taken[0].why


def test_nothing_is_said_on_the_console(folder: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """The pipe's file holds a reference to nothing, which the kernel would remark on."""
    tubes_in_step(folder / "kcl_pipe.step")
    assert capfd.readouterr() == ("", "")
