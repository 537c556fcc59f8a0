"""Scans whose truth the test made up: every tube found, none invented, axes within 0.2 mm and 0.1°."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from structure.scan.scan_scenes import (
    FRAME,
    STANDS,
    Array,
    Made,
    ball,
    engine_bay,
    matched,
    off,
    scanned,
    skin,
    turned,
)

from clampwright.structure.found import FoundTube
from clampwright.structure.scan.cloud import Cloud
from clampwright.structure.scan.find import found_in, tubes_in_scan


def write_ply(path: Path, points: Array) -> None:
    """Points as a binary PLY, written here by hand."""
    head = f"ply\nformat binary_little_endian 1.0\nelement vertex {len(points)}\n"
    head += "".join(f"property float {axis}\n" for axis in "xyz") + "end_header\n"
    path.write_bytes(head.encode() + points.astype("<f4").tobytes())


def test_frame_before_a_firewall_with_two_hundred_thousand_points(tmp_path: Path) -> None:
    """Eight tubes of 5/8 and 3/4 in, noise 0.5 mm, strays, a firewall, boxes, a ball, a bolt: all found,
    nothing else, axis within 0.2 mm and 0.1°."""
    rng = np.random.default_rng(3)
    points = scanned(*engine_bay(150_000, rng), 0.5, rng)
    write_ply(tmp_path / "bay.ply", points)
    told: list[tuple[str, float | None]] = []
    found = tubes_in_scan(tmp_path / "bay.ply", "mm", lambda words, share: told.append((words, share)))
    assert len(points) > 190_000
    assert len(found.tubes) == len(FRAME)
    for made in FRAME:
        tube = matched(made, found.tubes)
        assert tube is not None, made
        assert max(off(made, tube)) < 0.2
        assert turned(made, tube) < 0.1
        assert abs(tube.od_found_mm - made.od) < tube.od_plus_minus_mm < 0.3
        assert tube.tube.length_mm == pytest.approx(made.length, abs=3.0)
        assert tube.stock in ("", "3/4 in" if made.od > 17 else "5/8 in")
    assert [tube.number for tube in found.tubes] == list(range(1, 9))
    lengths = [tube.tube.length_mm for tube in found.tubes]
    assert lengths == sorted(lengths, reverse=True)
    assert found.doubts == ()
    assert told[0] == ("reading bay.ply", None)
    assert all(share is None or 0.0 <= share <= 1.0 for _, share in told)


def test_seen_from_one_side_only() -> None:
    """A diameter that rests on one side is used as found, with a ± that holds it and a word of warning."""
    rng = np.random.default_rng(2)
    frame = FRAME[:4]
    points = scanned(*engine_bay(60_000, rng, frame), 0.5, rng, STANDS[1:2], frame)
    tubes, _ = found_in(Cloud(points), np.zeros(3))
    assert len(tubes) == len(frame)
    for made in frame:
        tube = matched(made, tubes)
        assert tube is not None
        assert math.degrees(tube.coverage_rad) < 200
        assert abs(tube.od_found_mm - made.od) < tube.od_plus_minus_mm
        assert tube.tube.od_mm == tube.od_found_mm
        assert any("Only" in doubt and "calipers" in doubt for doubt in tube.doubts)
        assert tube.skin_share < 0.55
        assert max(off(made, tube)) < 0.2


def test_same_scan_same_answer_and_any_frame_the_same_tubes() -> None:
    rng = np.random.default_rng(4)
    frame = FRAME[:3]
    points = scanned(*engine_bay(25_000, rng, frame), 0.3, rng, STANDS, frame)
    first, again = (found_in(Cloud(points), np.zeros(3)) for _ in range(2))
    assert first == again
    about, _ = np.linalg.qr(rng.normal(size=(3, 3)))
    about = about * np.sign(np.linalg.det(about))
    moved, _ = found_in(Cloud(points @ about.T), np.array([1000.0, 0.0, 0.0]))
    assert len(moved) == len(first[0]) == 3
    for made in frame:
        there = Made(
            *(tuple(about @ np.array(p) + [1000.0, 0.0, 0.0]) for p in (made.start, made.end)), made.od
        )
        tube = matched(there, moved)
        assert tube is not None
        assert max(off(there, tube)) < 0.1


def test_hidden_stretch_is_one_tube_with_a_gap_and_a_long_one_two_in_line() -> None:
    rng = np.random.default_rng(5)
    tube = Made((0, 0, 0), (500, 0, 0), 19.05)
    points, _ = skin(tube, 14_000, rng)
    points += 0.2 * rng.normal(size=points.shape)
    short = points[(points[:, 0] < 200) | (points[:, 0] > 240)]
    (one,), _ = found_in(Cloud(short), np.zeros(3))
    assert one.tube.length_mm == pytest.approx(500, abs=2)
    ((start, end),) = one.gaps_mm
    assert (start, end) == pytest.approx((200, 240), abs=12)
    assert any("No skin was seen" in doubt for doubt in one.doubts)
    long = points[(points[:, 0] < 150) | (points[:, 0] > 290)]
    two, _ = found_in(Cloud(long), np.zeros(3))
    assert sorted(round(t.tube.length_mm, -1) for t in two) == [150, 210]
    assert all(any("in line with" in doubt for doubt in t.doubts) for t in two)


def prism(
    sides: int, inside: float, long: float, count: int, rng: np.random.Generator
) -> tuple[Array, Array]:
    """Points on the flats of a bar along x, and their normals."""
    flat = 2 * np.pi * rng.integers(0, sides, count) / sides
    across = rng.uniform(-1, 1, count) * inside * np.tan(np.pi / sides)
    zero = np.zeros(count)
    normals = np.column_stack([zero, np.cos(flat), np.sin(flat)])
    points = inside * normals + across[:, None] * np.column_stack([zero, -np.sin(flat), np.cos(flat)])
    points[:, 0] = rng.uniform(0, long, count)
    return points, normals


def rail(
    side: float, rounding: float, long: float, count: int, rng: np.random.Generator
) -> tuple[Array, Array]:
    """Points on a square rail along x with rounded corners, and their normals."""
    straight, quarter = side - 2 * rounding, np.pi / 2 * rounding
    along = rng.uniform(0, straight + quarter, count)
    bend = np.clip(along - straight, 0, None) / rounding
    half = straight / 2
    y = np.where(bend > 0, half + rounding * np.sin(bend), along - half)
    z = half + rounding * np.cos(bend)
    turn = np.pi / 2 * rng.integers(0, 4, count)
    cos, sin = np.cos(turn), np.sin(turn)
    ny, nz = np.sin(bend), np.cos(bend)
    points = np.column_stack([rng.uniform(0, long, count), cos * y + sin * z, cos * z - sin * y])
    return points, np.column_stack([np.zeros(count), cos * ny + sin * nz, cos * nz - sin * ny])


def hose(radius: float, bend: float, count: int, rng: np.random.Generator) -> tuple[Array, Array]:
    """Points on half a ring, and their normals."""
    a, b = rng.uniform(0, np.pi, count), rng.uniform(0, 2 * np.pi, count)
    normals = np.column_stack([np.cos(a) * np.cos(b), np.sin(a) * np.cos(b), np.sin(b)])
    return bend * np.column_stack([np.cos(a), np.sin(a), 0 * a]) + radius * normals, normals


def cone(first: float, last: float, long: float, count: int, rng: np.random.Generator) -> tuple[Array, Array]:
    """Points on a cone along x, and their normals (those of a cylinder: near enough to see it by)."""
    share, turn = rng.random(count), rng.uniform(0, 2 * np.pi, count)
    normals = np.column_stack([0 * turn, np.cos(turn), np.sin(turn)])
    return (first + (last - first) * share)[:, None] * normals + np.outer(long * share, [1, 0, 0]), normals


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("hexagon", "flats"),
        ("octagon", "flats"),
        ("rail with small roundings", "corner"),
        ("rail with large roundings", "corner"),
        ("hose", "hose"),
        ("cone", "cone"),
        ("ball", ""),
    ],
)
@pytest.mark.parametrize("stands", [STANDS[:1], STANDS], ids=["one side", "all round"])
def test_what_looks_like_a_tube_and_is_none(
    name: str, says: str, stands: tuple[tuple[float, ...], ...]
) -> None:
    rng = np.random.default_rng(6)
    made = {
        "hexagon": lambda: prism(6, 9.0, 300.0, 8_000, rng),
        "octagon": lambda: prism(8, 9.0, 300.0, 8_000, rng),
        "rail with small roundings": lambda: rail(25.0, 4.0, 400.0, 14_000, rng),
        "rail with large roundings": lambda: rail(30.0, 12.0, 400.0, 14_000, rng),
        "hose": lambda: hose(8.0, 200.0, 14_000, rng),
        "cone": lambda: cone(8.0, 14.0, 300.0, 8_000, rng),
        "ball": lambda: ball((0, 0, 0), 60.0, 14_000, rng),
    }[name]()
    tubes, not_taken = found_in(Cloud(scanned(*made, 0.3, rng, stands, ())), np.zeros(3))
    assert tubes == ()
    assert not says or any(says in refused.why for refused in not_taken)


def test_what_is_known_of_a_tube_fits_together() -> None:
    """The six rows give the ± that stands beside them; where skin ends is its own cause."""
    rng = np.random.default_rng(7)
    points, _ = skin(Made((0, 0, 0), (300, 0, 0), 15.875), 6000, rng)
    (tube,), _ = found_in(Cloud(points + 0.3 * rng.normal(size=points.shape)), np.zeros(3))
    rows = np.array(tube.spread_mm)
    assert rows.shape[0] == 6
    for first in (0, 3):
        cov = rows[first : first + 3] @ rows[first : first + 3].T
        assert 1.96 * math.sqrt(np.linalg.eigvalsh(cov[1:, 1:])[-1]) <= 1.001 * tube.ends_plus_minus_mm
        assert 1.96 * math.sqrt(cov[0, 0]) == pytest.approx(tube.along_plus_minus_mm[first // 3], rel=0.01)
    tilt = rows[3:] - rows[:3]
    lean = 1.96 * math.sqrt(np.linalg.eigvalsh((tilt @ tilt.T)[1:, 1:])[-1]) / tube.tube.length_mm
    assert lean == pytest.approx(tube.angle_plus_minus_rad, rel=0.01)
    assert isinstance(tube, FoundTube)
    assert tube.coverage_rad == pytest.approx(2 * math.pi)


def test_a_sparse_scan_says_what_it_may_miss(tmp_path: Path) -> None:
    rng = np.random.default_rng(8)
    points, _ = skin(Made((0, 0, 0), (300, 0, 0), 50.8), 1000, rng)
    write_ply(tmp_path / "sparse.ply", points + 0.1 * rng.normal(size=points.shape))
    found = tubes_in_scan(tmp_path / "sparse.ply", "mm")
    assert len(found.tubes) == 1
    apart = math.sqrt(math.pi * 50.8 * 300 / 1000)
    (said,) = found.doubts
    assert float(said.split("about ")[1].split(" mm")[0]) == pytest.approx(apart, rel=0.1)
    assert "may be missed" in said
