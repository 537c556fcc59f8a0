"""Arcs of the turn angle against cases worked by hand."""

from __future__ import annotations

import math

import numpy as np
import numpy.typing as npt
import pytest

from clampwright.layout.mounting.arcs import Condition, Reach, condition, narrowed, pair_weights, weights

Array = npt.NDArray[np.float64]
WHOLE = (np.zeros(1), np.full(1, math.pi))


def reach(nu: tuple[float, float], offset: float, hole: tuple[float, float]) -> Reach:
    """One hole on one line."""
    (x, y), (hx, hy) = nu, hole
    return Reach(*(np.array([v]) for v in (x, y, offset, x * hx + y * hy, y * hx - x * hy)))


def arcs(held: Condition, start: tuple[Array, Array] = WHOLE) -> list[tuple[float, float]]:
    """(centre, half) of the parts that are there."""
    parts = narrowed(*start, held)
    return [(float(centre[0]), float(half[0])) for centre, half, kept in parts if kept[0]]


def test_two_holes_on_parallel_lines_turn_until_their_distance_across_fits() -> None:
    """Holes 100 mm apart on lines 50 mm apart: the line through them is turned 30 deg off the lines."""
    low, high = reach((0, 1), 0.0, (0, 0)), reach((0, 1), 50.0, (100, 0))
    held = condition(pair_weights(low, high), (low, high), (0.0, 0.0))
    turns = sorted(math.degrees(centre) for centre, _ in arcs(held))
    assert turns == pytest.approx([30.0, 150.0], abs=1e-3)


def test_the_play_of_the_holes_opens_the_arc_by_its_slope() -> None:
    """Each hole may miss by 0.1 mm: 100 sin(theta) may lie between 49.8 and 50.2."""
    low, high = reach((0, 1), 0.0, (0, 0)), reach((0, 1), 50.0, (100, 0))
    held = condition(pair_weights(low, high), (low, high), (0.1, 0.1))
    centre, half = min(arcs(held), key=lambda arc: abs(arc[0]))
    assert math.sin(centre + half) == pytest.approx(0.502, abs=1e-9)
    assert math.sin(centre - half) == pytest.approx(0.498, abs=1e-9)


def test_each_hole_may_have_a_play_of_its_own() -> None:
    low, high = reach((0, 1), 0.0, (0, 0)), reach((0, 1), 50.0, (100, 0))
    held = condition(pair_weights(low, high), (low, high), (0.0, 2.0))
    centre, half = min(arcs(held), key=lambda arc: abs(arc[0]))
    assert math.sin(centre + half) == pytest.approx(0.52, abs=1e-9)


def test_holes_too_near_together_never_reach_lines_so_far_apart() -> None:
    low, high = reach((0, 1), 0.0, (0, 0)), reach((0, 1), 50.0, (49, 0))
    assert arcs(condition(pair_weights(low, high), (low, high), (0.49, 0.49))) == []
    assert len(arcs(condition(pair_weights(low, high), (low, high), (0.51, 0.51)))) == 2


def test_parallel_lines_that_face_opposite_ways_count_alike() -> None:
    """A tube measured from its other end has its normal the other way."""
    low, high = reach((0, 1), 0.0, (0, 0)), reach((0, -1), -50.0, (100, 0))
    held = condition(pair_weights(low, high), (low, high), (0.0, 0.0))
    assert sorted(math.degrees(c) for c, _ in arcs(held)) == pytest.approx([30.0, 150.0], abs=1e-3)


def test_weights_of_three_lines_take_the_shift_out() -> None:
    holes = [reach((math.cos(a), math.sin(a)), 10.0, (30.0 * a, 5.0)) for a in (0.1, 1.3, 2.9)]
    w = weights(holes)
    assert sum(float(abs(x[0])) for x in w) == pytest.approx(1.0)
    assert sum(float(x[0] * hole.x[0]) for x, hole in zip(w, holes, strict=True)) == pytest.approx(0.0)
    assert sum(float(x[0] * hole.y[0]) for x, hole in zip(w, holes, strict=True)) == pytest.approx(0.0)


def test_a_square_corner_and_a_third_line() -> None:
    """Holes at the origin, (40, 0) and (0, 40) on x = 0, y = 20 and y = 20 + 40 sin(60 deg).

    Taking T out, the last two say 40 (cos theta - sin theta) = 40 sin 60 deg.
    """
    third = 20.0 + 40.0 * math.sin(math.radians(60))
    holes = [reach((1, 0), 0.0, (0, 0)), reach((0, 1), 20.0, (40, 0)), reach((0, 1), third, (0, 40))]
    found = arcs(condition(weights(holes), holes, (0.0, 0.0, 0.0)))
    assert len(found) == 2
    for theta, _ in found:
        assert math.cos(theta) - math.sin(theta) == pytest.approx(math.sin(math.radians(60)), abs=1e-6)


def test_three_parallel_lines_say_nothing_as_a_three() -> None:
    holes = [reach((0, 1), d, (d, 3.0)) for d in (0.0, 50.0, 90.0)]
    assert arcs(condition(weights(holes), holes, (0.1, 0.1, 0.1))) == [(0.0, math.pi)]


def test_an_arc_is_cut_by_another_across_the_half_turn() -> None:
    """From 170 to 190 deg, of which 100 sin(theta) between -5 and 0 leaves 180 to 182.866 deg."""
    low, high = reach((0, 1), 0.0, (0, 0)), reach((0, 1), -2.5, (100, 0))
    held = condition(pair_weights(low, high), (low, high), (1.25, 1.25))
    start = (np.array([math.pi]), np.array([math.radians(10)]))
    ((centre, half),) = arcs(held, start)
    ends = math.degrees(centre - half) % 360, math.degrees(centre + half) % 360
    assert ends == pytest.approx((180.0, 180.0 + math.degrees(math.asin(0.05))), abs=1e-6)
