"""STEP files of frames of our own written by gmsh's build of the kernel, against closed-form truth."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from structure.step.gmsh_frames import Call, written_by_gmsh

from clampwright.quantities import Vec3
from clampwright.structure.found import Found
from clampwright.structure.step.here import tubes_here

_MAIN, _BRACE, _SLANTED = 15.875, 12.7, 9.525
_WALL = 1.5
_SLANT = math.radians(60.0)
_AXIS, _TURN, _MOVE = (0.36, -0.48, 0.8), 0.7, (1200.0, -345.0, 678.0)


def rod(start: Vec3, end: Vec3, radius: float, tag: int) -> Call:
    return "addCylinder", [*start, *(b - a for a, b in zip(start, end, strict=True)), radius, tag]


def slanted(start: float, along: float) -> Vec3:
    return (start + along * math.cos(_SLANT), 0.0, along * math.sin(_SLANT))


def turned(point: Vec3) -> Vec3:
    """Rodrigues' formula, then the move: what gmsh is asked to do with the whole body."""
    axis, at = np.array(_AXIS), np.array(point)
    round_axis = np.cross(axis, at) * math.sin(_TURN) + axis * (axis @ at) * (1 - math.cos(_TURN))
    x, y, z = at * math.cos(_TURN) + round_axis + np.array(_MOVE)
    return float(x), float(y), float(z)


@pytest.fixture(scope="module")
def welded(tmp_path_factory: pytest.TempPathFactory) -> Found:
    """A main tube, a brace square on it and one at 60°, all hollow and one body, turned obliquely."""
    outside = [
        rod((0, 0, 0), (600, 0, 0), _MAIN, 1),
        rod((200, 0, 0), (200, 0, 400), _BRACE, 2),
        rod(slanted(350, 0), slanted(350, 400), _SLANTED, 3),
        ("fuse", [[(3, 1)], [(3, 2), (3, 3)], 10]),
    ]
    inside = [
        rod((-1, 0, 0), (601, 0, 0), _MAIN - _WALL, 4),
        rod((200, 0, 0), (200, 0, 401), _BRACE - _WALL, 5),
        rod(slanted(350, 0), slanted(350, 401), _SLANTED - _WALL, 6),
        ("fuse", [[(3, 4)], [(3, 5), (3, 6)], 11]),
    ]
    body = [(3, 10)]
    place: list[Call] = [("rotate", [body, 0, 0, 0, *_AXIS, _TURN]), ("translate", [body, *_MOVE])]
    cut: Call = ("cut", [body, [(3, 11)]])
    path = tmp_path_factory.mktemp("gmsh") / "welded.step"
    return tubes_here(written_by_gmsh(path, [*outside, *inside, cut, *place]))


def test_three_tubes_of_a_welded_frame(welded: Found) -> None:
    """Skins end at the tips of their copes.

    A brace of radius r whose axis crosses the main one's (radius R) has skin from √(R² - r²) on, counted
    from the crossing: square to it at its sides; at 60° at cos²ψ = cos²φ (R² - r²)/(r² sin²φ) about its own
    axis. Diameters and axes are exact, tips as sure as the kernel's curve of intersection.
    """
    square, slant = (math.sqrt(_MAIN**2 - r**2) for r in (_BRACE, _SLANTED))
    assert square == pytest.approx(9.525)
    assert math.cos(_SLANT) ** 2 * slant**2 < (_SLANTED * math.sin(_SLANT)) ** 2
    true = {
        2 * _MAIN: ((0.0, 0.0, 0.0), (600.0, 0.0, 0.0)),
        2 * _BRACE: ((200.0, 0.0, square), (200.0, 0.0, 400.0)),
        2 * _SLANTED: (slanted(350, slant), slanted(350, 400)),
    }
    assert len(welded.tubes) == 3
    for one in welded.tubes:
        od = min(true, key=lambda od: abs(od - one.tube.od_mm))
        assert one.tube.od_mm == pytest.approx(od, abs=1e-9)
        assert one.bore_mm == pytest.approx(od - 2 * _WALL, abs=1e-9)
        ends = sorted((one.tube.start, one.tube.end))
        for found, expected in zip(ends, sorted(map(turned, true[od])), strict=True):
            assert found == pytest.approx(expected, abs=1e-4)
            assert off_axis(found, *map(turned, true[od])) < 1e-6
        assert one.doubts == ()


def off_axis(point: Vec3, start: Vec3, end: Vec3) -> float:
    along = np.subtract(end, start) / math.dist(start, end)
    out = np.subtract(point, start)
    return float(np.linalg.norm(out - (out @ along) * along))


def test_copes_of_a_welded_frame(welded: Found) -> None:
    """Square on it: the cope is R - √(R² - r²) deep, seen on lines a degree apart; the far end is square."""
    (brace,) = [one for one in welded.tubes if one.tube.od_mm == pytest.approx(2 * _BRACE)]
    deep = _MAIN - math.sqrt(_MAIN**2 - _BRACE**2)
    assert sorted(brace.copes_mm) == pytest.approx([0.0, deep], abs=0.01)


@pytest.mark.parametrize("corner", [3.0, 8.0, 19.9])
def test_a_square_rail_is_no_tube(tmp_path: Path, corner: float) -> None:
    """Four roundings of one radius: 360° in all, but about four axes."""
    calls: list[Call] = [
        ("addRectangle", [-20, -20, 0, 40, 40, 1, corner]),
        ("extrude", [[(2, 1)], 0, 0, 500]),
    ]
    found = tubes_here(written_by_gmsh(tmp_path / "rail.step", calls))
    assert found.tubes == ()
    assert found.not_taken[0].what == f"4 × outside diameter {2 * corner:.2f} mm"
    assert found.not_taken[0].why == "rounded corner, fillet or half-round: skin on one side only"


def test_a_bent_tube_is_two_straight_ones_and_a_bend(tmp_path: Path) -> None:
    calls: list[Call] = [
        rod((0, 0, 0), (200, 0, 0), 9.525, 1),
        ("addTorus", [0, 0, 0, 60, 9.525, 2, math.pi / 2]),
        ("rotate", [[(3, 2)], 0, 0, 0, 0, 0, 1, -math.pi / 2]),
        ("translate", [[(3, 2)], 200, 60, 0]),
        rod((260, 60, 0), (260, 210, 0), 9.525, 3),
        ("fuse", [[(3, 1)], [(3, 2), (3, 3)]]),
    ]
    found = tubes_here(written_by_gmsh(tmp_path / "bent.step", calls))
    assert [one.tube.start for one in found.tubes] == [(0.0, 0.0, 0.0), (260.0, 60.0, 0.0)]
    assert found.tubes[0].tube.end == pytest.approx((200.0, 0.0, 0.0), abs=1e-9)
    assert found.tubes[1].tube.end == pytest.approx((260.0, 210.0, 0.0), abs=1e-9)
    (bend,) = found.not_taken
    assert bend.what == "1 bend of a tube, OD 19.05 mm, radius 60.00 mm to its axis"
    assert "not straight" in bend.why


def test_a_tube_through_another_that_it_misses_the_axis_of(tmp_path: Path) -> None:
    """Fused, the thinner one is cut in two by the thicker, and is one tube all the same."""
    calls: list[Call] = [
        rod((-200, 0, 0), (200, 0, 0), 9.525, 1),
        rod((0, 3, -200), (0, 3, 200), 15.875, 2),
        ("fuse", [[(3, 1)], [(3, 2)]]),
    ]
    found = tubes_here(written_by_gmsh(tmp_path / "through.step", calls))
    thick, thin = sorted(found.tubes, key=lambda one: -one.tube.od_mm)
    assert (thick.tube.start, thick.tube.end) == ((0.0, 3.0, -200.0), (0.0, 3.0, 200.0))
    assert (thin.tube.start, thin.tube.end) == ((-200.0, 0.0, 0.0), (200.0, 0.0, 0.0))
    ((first, last),) = thin.gaps_mm
    side = math.sqrt(15.875**2 - (3 + 9.525) ** 2)
    assert (first, last) == pytest.approx((200 - side, 200 + side), abs=1e-4)
    assert thin.doubts == thick.doubts == ()
