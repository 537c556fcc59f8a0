"""A tube's direction, stations and points, and the places where tubes are welded."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from clampwright.structure.doubtful import distance, same_place
from clampwright.structure.nodes import nodes
from clampwright.structure.tubes import Structure, Tube

COORDINATE = st.floats(-2000, 2000, allow_nan=False)
POINT = st.tuples(COORDINATE, COORDINATE, COORDINATE)


@st.composite
def tubes(draw: st.DrawFn, name: str = "tube") -> Tube:
    """A tube that is longer than it is thick."""
    tube = Tube(name, draw(POINT), draw(POINT), draw(st.floats(5, 50)))
    assume(tube.length_mm > 60)
    return tube


def moved(tube: Tube, turn: np.ndarray, shift: np.ndarray) -> Tube:
    """The tube in a world that is turned and shifted."""
    start, end = (tuple((turn @ np.array(p) + shift).tolist()) for p in (tube.start, tube.end))
    return Tube(tube.name, start, end, tube.od_mm)


@settings(deadline=None, max_examples=60)
@given(tubes(), st.floats(-500, 500))
def test_station_and_point_are_each_others_inverse(tube: Tube, station: float) -> None:
    assert tube.station(tube.point(station)) == pytest.approx(station, abs=1e-7)
    assert math.hypot(*tube.direction) == pytest.approx(1)
    assert tube.point(0.0) == tube.start
    assert tube.point(tube.length_mm) == pytest.approx(tube.end, abs=1e-9)


@settings(deadline=None, max_examples=60)
@given(tubes(), POINT)
def test_no_place_of_a_tube_is_nearer_than_its_distance(
    tube: Tube, point: tuple[float, float, float]
) -> None:
    """Against a fine walk along the tube."""
    walk = [math.dist(point, tube.point(tube.length_mm * i / 400)) for i in range(401)]
    assert distance(point, tube) <= min(walk) + 1e-9
    assert distance(point, tube) >= min(walk) - tube.length_mm / 400


def welded() -> Structure:
    """A main tube of 3/4 in along x, a brace that ends on it, and a tube that passes 15 mm beside it."""
    main = Tube("main", (0.0, 0.0, 0.0), (600.0, 0.0, 0.0), 19.05)
    brace = Tube("brace", (250.0, 9.0, 0.0), (250.0, 300.0, 80.0), 15.875)
    beyond = Tube("beyond", (600.0, 0.0, 0.0), (900.0, 100.0, 50.0), 19.05)
    beside = Tube("beside", (100.0, -200.0, 35.0), (100.0, 200.0, 35.0), 15.875)
    return Structure((main, brace, beyond, beside))


def test_nodes_of_a_mount_written_out_by_hand() -> None:
    found = [(n.tube, round(n.station_mm, 6), n.reason) for n in nodes(welded())]
    brace, beyond = (round(welded().tube(name).length_mm, 6) for name in ("brace", "beyond"))
    assert found == [
        ("main", 0.0, "end of the tube"),
        ("main", 250.0, "brace ends here"),
        ("main", 600.0, "end of the tube, met by beyond"),
        ("brace", 0.0, "end of the tube, met by main"),
        ("brace", brace, "end of the tube"),
        ("beyond", 0.0, "end of the tube, met by main"),
        ("beyond", beyond, "end of the tube"),
        ("beside", 0.0, "end of the tube"),
        ("beside", 400.0, "end of the tube"),
    ]


def test_a_tube_ends_on_another_up_to_half_of_both_diameters_and_a_fit_up_gap() -> None:
    """(19.05 + 15.875)/2 + 3.0 = 20.4625 mm from axis to the brace's end; no source, common practice."""
    main = Tube("main", (0.0, 0.0, 0.0), (600.0, 0.0, 0.0), 19.05)
    for gap, count in ((20.46, 3), (20.47, 2)):
        brace = Tube("brace", (250.0, gap, 0.0), (250.0, 300.0, 0.0), 15.875)
        assert sum(n.tube == "main" for n in nodes(Structure((main, brace)))) == count


def test_two_braces_on_one_place_are_one_node() -> None:
    main = Tube("main", (0.0, 0.0, 0.0), (600.0, 0.0, 0.0), 19.05)
    left = Tube("left", (250.0, 0.0, 0.0), (250.0, 300.0, 0.0), 15.875)
    right = Tube("right", (250.5, 0.0, 0.0), (400.0, -300.0, 0.0), 15.875)
    assert [n.reason for n in nodes(Structure((main, left, right))) if n.tube == "main"] == [
        "end of the tube",
        "left and right end here",
        "end of the tube",
    ]


@settings(deadline=None, max_examples=40)
@given(st.floats(-3, 3), st.floats(-3, 3), st.floats(-3, 3), POINT)
def test_nodes_do_not_depend_on_the_worlds_frame(
    a: float, b: float, c: float, shift: tuple[float, ...]
) -> None:
    turn = np.linalg.qr(np.array([[1, a, b], [c, 1, a], [b, c, 2]]))[0]
    there = Structure(tuple(moved(t, turn, np.array(shift)) for t in welded().tubes))
    for before, after in zip(nodes(welded()), nodes(there), strict=True):
        assert (before.tube, before.reason) == (after.tube, after.reason)
        assert before.station_mm == pytest.approx(after.station_mm, abs=1e-6)


def test_swapping_a_tubes_ends_mirrors_its_nodes() -> None:
    tubes_there = [Tube(t.name, t.end, t.start, t.od_mm) for t in welded().tubes]
    for tube in welded().tubes:
        here = [n for n in nodes(welded()) if n.tube == tube.name]
        there = [n for n in nodes(Structure(tuple(tubes_there))) if n.tube == tube.name]
        mirrored = [(round(tube.length_mm - n.station_mm, 6), n.reason) for n in reversed(there)]
        assert [(round(n.station_mm, 6), n.reason) for n in here] == mirrored


@pytest.mark.parametrize(
    ("other", "coincide"),
    [
        (((0, 0, 0), (500, 0, 0)), True),
        (((500, 0, 0), (0, 0, 0)), True),
        (((0, 3, 0), (500, 0, 3)), True),
        (((400, 0, 0), (900, 0, 0)), True),
        (((100, 0, 0), (200, 0, 0)), True),
        (((500, 0, 0), (900, 0, 0)), False),
        (((490, 0, 0), (900, 0, 0)), False),
        (((0, 19.05, 0), (500, 19.05, 0)), False),
        (((0, 0, 0), (490, 87, 0)), False),
        (((250, -200, 0), (250, 200, 0)), False),
        (((250, 0, 0), (250, 0, 400)), False),
    ],
    ids=[
        "same",
        "reversed",
        "nearly the same",
        "overlapping",
        "part of it",
        "end to end",
        "end to end with a short sleeve",
        "side by side",
        "ten degrees from one node",
        "crossing",
        "ending on it",
    ],
)
def test_tubes_in_the_same_place(other: tuple[tuple[float, ...], tuple[float, ...]], coincide: bool) -> None:
    main = Tube("main", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 19.05)
    start, end = other
    second = Tube("second", start, end, 19.05)  # type: ignore[arg-type]
    assert same_place(main, second) is coincide
    assert same_place(second, main) is coincide
