"""The plate's normal and directions: closed forms, and numpy's own eigenvectors and cross products."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from layout.plate_recipes import PARALLEL, tube

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.frame import attitude, plate_normal
from clampwright.layout.plane_of_axes import best_plane, lean_deg, tilts_deg
from clampwright.layout.tube_lines import tube_lines, turns
from clampwright.quantities import Vec3
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

POINTS = st.tuples(*[st.floats(-400.0, 400.0)] * 3)


@settings(deadline=None, max_examples=80)
@given(a=POINTS, b=POINTS, c=POINTS, d=POINTS)
def test_two_tubes_are_both_square_to_the_normal(a: Vec3, b: Vec3, c: Vec3, d: Vec3) -> None:
    """n is along a1 x a2, both dot products vanish; unless the plate is said to lie in the axes' plane."""
    one, two = np.array(b) - np.array(a), np.array(d) - np.array(c)
    assume(min(np.linalg.norm(one), np.linalg.norm(two)) > 50)
    cross = np.cross(one, two) / np.linalg.norm(one) / np.linalg.norm(two)
    assume(np.linalg.norm(cross) > sin(radians(2.5)))
    normal, notes = plate_normal([tube("one", a, b), tube("two", c, d)])
    assert np.linalg.norm(normal) == pytest.approx(1.0)
    tilts = [abs(normal @ one) / np.linalg.norm(one), abs(normal @ two) / np.linalg.norm(two)]
    if any(says.startswith("in the plane of the axes") for _, says in notes):
        assert max(tilts) <= sin(radians(rule("tilt-fail").value)) + 1e-9
        assert abs(normal @ cross) / np.linalg.norm(cross) < cos(radians(rule("normal-lean-most").value))
    else:
        assert max(tilts) < 1e-9


@settings(deadline=None, max_examples=80)
@given(a=POINTS, b=POINTS, c=POINTS, d=POINTS)
def test_directions_are_square_right_handed_and_lead_to_the_other_tube(
    a: Vec3, b: Vec3, c: Vec3, d: Vec3
) -> None:
    one, two = np.array(b) - np.array(a), np.array(d) - np.array(c)
    assume(min(np.linalg.norm(one), np.linalg.norm(two)) > 50)
    tubes = [tube("one", a, b), tube("two", c, d)]
    try:
        stands = attitude(tubes, (0.3, -0.5, 0.8))
    except CannotLayOut:
        assume(False)
    u, v, n = np.array(stands.u), np.array(stands.v), np.array(stands.n)
    assert np.allclose(np.cross(u, v), n, atol=1e-12)
    assert [u @ v, u @ n, v @ n] == pytest.approx([0.0] * 3, abs=1e-12)
    assert n @ np.array([0.3, -0.5, 0.8]) > 0
    middles = (np.array(c) + np.array(d) - np.array(a) - np.array(b)) / 2
    assert middles @ v >= -1e-6


def test_u_is_the_bisector_of_two_tubes() -> None:
    """At 12 and 40 degrees: 26 degrees; the second tube's ends may be given either way round."""
    low = tube("low", (0.0, 0.0, 0.0), (500 * cos(radians(12)), 500 * sin(radians(12)), 0.0))
    far = (500 * cos(radians(40)), 200.0 + 500 * sin(radians(40)), 0.0)
    for high in (tube("high", (0.0, 200.0, 0.0), far), tube("high", far, (0.0, 200.0, 0.0))):
        stands = attitude([low, high], (0.0, 0.0, 1.0))
        assert stands.u == pytest.approx((cos(radians(26)), sin(radians(26)), 0.0), abs=1e-12)


def test_tubes_that_cross_nearly_squarely_take_the_first_ones_direction() -> None:
    """A bisector at 45 degrees to both would be of no use, and at 90 degrees there are two."""
    along = tube("along", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0))
    across = tube("across", (250.0, 20.0, 30.0), (270.0, 400.0, 30.0))
    stands = attitude([along, across], (0.0, 0.0, 1.0))
    assert stands.u == pytest.approx((1.0, 0.0, 0.0), abs=1e-12)
    assert stands.v == pytest.approx((0.0, 1.0, 0.0), abs=1e-12)


def test_almost_parallel_tubes_lie_in_the_plane_of_their_axes() -> None:
    """Twisted by 1 degree about the line between them: a1 x a2 would stand the plate on edge.

    By symmetry the normal is square to the line between the tubes and halves the twist.
    """
    half = radians(0.5)
    one = tube("one", (-250 * cos(half), 0.0, -250 * sin(half)), (250 * cos(half), 0.0, 250 * sin(half)))
    two = tube("two", (-250 * cos(half), 140.0, 250 * sin(half)), (250 * cos(half), 140.0, -250 * sin(half)))
    cross = np.cross(np.array(one.direction), np.array(two.direction))
    assert abs(cross[1]) == pytest.approx(np.linalg.norm(cross))
    normal, notes = plate_normal([one, two])
    assert np.abs(normal) == pytest.approx([0.0, 0.0, 1.0], abs=1e-12)
    assert notes[0][0] == "plate normal"


def sloping(degrees: float, apart: float = 140.0, offset: float = 0.0) -> list[Tube]:
    """Side by side, one falling and one rising by half the angle; the second `offset` higher."""
    c, s = 200 * cos(radians(degrees / 2)), 200 * sin(radians(degrees / 2))
    return [
        tube("falling", (-c, 0.0, s), (c, 0.0, -s)),
        tube("rising", (-c, apart, offset - s), (c, apart, offset + s)),
    ]


@pytest.mark.parametrize("degrees", [2.5, 4.0, 6.0, 9.0])
def test_tubes_that_differ_in_slope_lie_in_the_plane_of_their_axes(degrees: float) -> None:
    """a1 x a2 points from one tube to the other: a plate on edge. In the axes' plane each tilts by half."""
    tubes = sloping(degrees)
    normal, ((key, says),) = plate_normal(tubes)
    assert np.abs(normal) == pytest.approx([0.0, 0.0, 1.0], abs=1e-9)
    assert tilts_deg(tubes, normal) == pytest.approx([degrees / 2] * 2, abs=1e-9)
    assert key == "plate normal"
    assert f"{degrees / 2:.1f} deg out of square at A and B" in says
    assert "90 deg off" in says


def test_tubes_that_would_tilt_too_much_stay_square_and_the_lean_is_told() -> None:
    """12 degrees of slope leave 6 at each clamp, over the 5 that feet stand."""
    tubes = sloping(12.0)
    normal, ((_, says),) = plate_normal(tubes)
    assert np.abs(normal) == pytest.approx([0.0, 1.0, 0.0], abs=1e-9)
    assert says.startswith("square to the tubes, 90 deg off the plane of their axes")
    assert "6.0 deg out of square at A and B" in says


def test_a_small_lean_changes_nothing() -> None:
    """Two tubes at 20 degrees, one 30 higher over about 200: the plate stays square to both."""
    c, s = cos(radians(20)), sin(radians(20))
    tubes = [
        tube("low", (0.0, 0.0, 0.0), (600.0, 0.0, 0.0)),
        tube("high", (0.0, 120.0, 30.0), (600 * c, 120.0 + 600 * s, 30.0)),
    ]
    flat = best_plane(tubes)
    assert flat is not None
    assert 2.0 < lean_deg(flat, np.array([0.0, 0.0, 1.0])) < rule("normal-lean-most").value
    normal, notes = plate_normal(tubes)
    assert np.abs(normal) == pytest.approx([0.0, 0.0, 1.0], abs=1e-12)
    assert notes == ()


@settings(deadline=None, max_examples=60)
@given(twist=st.floats(0.01, 8.0), apart=st.floats(60.0, 400.0), offset=st.floats(-60.0, 60.0))
def test_tubes_that_differ_in_slope_never_jump_at_the_limit_of_parallel(
    twist: float, apart: float, offset: float
) -> None:
    """From 0 to 8 degrees the plate stays in the plane of the axes, to within what best planes differ by."""
    tubes = sloping(twist, apart, offset)
    normal, _ = plate_normal(tubes)
    across = np.array([0.0, apart, offset]) / np.hypot(apart, offset)
    assert abs(normal @ across) < sin(radians(2.0))
    assert abs(normal[0]) < 1e-9


def test_nearly_parallel_tubes_of_a_ring_do_not_stop_the_layout() -> None:
    """Three that wander sideways as much as in height: nothing is square to all, yet a plane is near."""
    ways = [(0.0, 3.0), (2.6, -1.5), (-2.6, -1.5)]
    tubes = [
        tube(
            str(i),
            (0.0, 120.0 * i, 0.0),
            (400.0, 120.0 * i + 400 * sin(radians(y)), 400 * sin(radians(z))),
        )
        for i, (y, z) in enumerate(ways)
    ]
    normal, ((_, says),) = plate_normal(tubes)
    assert abs(normal[2]) > cos(radians(5.0))
    assert "in the plane of the axes" in says
    assert tilts_deg(tubes, normal).max() <= rule("tilt-fail").value


@pytest.mark.parametrize(
    ("height", "said"),
    [(0.0, "the far face looks upwards"), (80.0, "28 deg"), (150.0, "45 deg off"), (1e5, "did not decide")],
)
def test_where_the_far_face_looks_is_told_as_it_is(height: float, said: str) -> None:
    """Parallel tubes 150 apart and one higher: the face looks off upwards by atan(height / 150)."""
    tubes = [PARALLEL[0], tube("upper", (0.0, 150.0, height), (500.0, 150.0, height))]
    stands = attitude(tubes, None)
    ((_, says),) = [note for note in stands.assumed if note[0] == "plate.toward"]
    if said == "28 deg":
        assert says == "[0, 0, 1] (the far face looks upwards)"
    else:
        assert said in says
    if height >= 150.0:
        assert "[{:g}, {:g}, {:g}]".format(*(round(x, 2) + 0.0 for x in stands.n)) in says


def test_three_parallel_tubes_take_the_plane_nearest_to_their_axes() -> None:
    """Axes at (y, z) = (0, 0), (100, 6), (200, 0): by symmetry the best line is level, at a third of 6."""
    tubes = [tube(str(y), (0.0, y, z), (400.0, y, z)) for y, z in ((0.0, 0.0), (100.0, 6.0), (200.0, 0.0))]
    normal, _ = plate_normal(tubes)
    assert np.abs(normal) == pytest.approx([0.0, 0.0, 1.0], abs=1e-12)


def test_parallel_tubes_in_a_triangle_have_no_plane() -> None:
    tubes = [
        tube(str(i), (0.0, 100 * cos(a), 100 * sin(a)), (400.0, 100 * cos(a), 100 * sin(a)))
        for i, a in enumerate(radians(d) for d in (0, 120, 240))
    ]
    with pytest.raises(CannotLayOut, match="as much one above another"):
        plate_normal(tubes)


def test_a_tube_that_stands_on_the_plate_is_named() -> None:
    """Three tubes in a plane decide it; the fourth stands 60 degrees out of it."""
    flat = [
        tube(f"flat {i}", (0.0, 0.0, 0.0), (400 * cos(radians(d)), 400 * sin(radians(d)), 0.0))
        for i, d in enumerate((0, 60, 120))
    ]
    steep = tube("steep", (0.0, 0.0, 0.0), (200.0, 0.0, 400 * sin(radians(60))))
    more = [*flat, *flat, steep]
    with pytest.raises(CannotLayOut, match=r"leave steep out of clamps\.on"):
        plate_normal(more)


@settings(deadline=None, max_examples=60)
@given(points=st.lists(st.tuples(POINTS, POINTS), min_size=3, max_size=4))
def test_three_or_more_tubes_have_the_least_sum_of_squared_tilts(points: list[tuple[Vec3, Vec3]]) -> None:
    """No direction near the normal does better: the sum of (a·n)² is at its least."""
    tubes = [tube(str(i), a, b) for i, (a, b) in enumerate(points)]
    assume(all(t.length_mm > 50 for t in tubes))
    try:
        normal, notes = plate_normal(tubes)
    except CannotLayOut:
        assume(False)
    assume(all(says.startswith("square to the tubes") for _, says in notes))
    directions = np.array([t.direction for t in tubes])

    def tilt(n: np.ndarray) -> float:
        return float(((directions @ n) ** 2).sum() / (n @ n))

    rng = np.random.default_rng(7)
    for step in rng.normal(size=(30, 3)):
        assert tilt(normal) <= tilt(normal + 0.05 * step) + 1e-12


def test_inboard_points_to_the_other_tube_on_either_side_of_a_crossing() -> None:
    """Two tubes that cross in plan at x = 0: the feet on one tube change sides there."""
    c, s = cos(radians(15)), sin(radians(15))
    one = tube("one", (-300 * c, 300 * s, 0.0), (300 * c, -300 * s, 0.0))
    two = tube("two", (-300 * c, -300 * s, 40.0), (300 * c, 300 * s, 40.0))
    lines = tube_lines([one, two], attitude([one, two], (0.0, 0.0, 1.0)))
    before, after = turns(lines[0], np.array([100.0, 500.0]), [lines[1]])
    assert before == -after
    for station, side in ((100.0, before), (500.0, after)):
        u, v = lines[0].plan(station)
        foot = (u + side * 10 * lines[0].across[0], v + side * 10 * lines[0].across[1])
        assert abs(foot[1]) < abs(v)


def test_inboard_of_the_middle_one_of_three_tubes_is_settled() -> None:
    """Neighbours to both sides alike: towards the first of the others."""
    middle = tube("middle", (0.0, 75.0, 0.0), (500.0, 75.0, 0.0))
    tubes = [PARALLEL[0], middle, PARALLEL[1]]
    lines = tube_lines(tubes, attitude(tubes, (0.0, 0.0, 1.0)))
    (side,) = turns(lines[1], np.array([250.0]), [lines[0], lines[2]])
    assert side * lines[1].across[1] < 0
