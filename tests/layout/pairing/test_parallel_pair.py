"""Tube and line side by side, by hand: right triangles in the plane square to the tube."""

from __future__ import annotations

from math import asin, atan2, cos, degrees, hypot, radians, sin, sqrt

import pytest
from layout.pairing.pairs import clamp, measured, reversed_, tube

from clampwright.layout.pairing.closed import Pair
from clampwright.layout.pairing.parallel_pair import beside, lateral, nearly_parallel, parallel_places

ON_TUBE, ON_LINE = clamp(20.0, 13.0), clamp(18.0, 12.0)
LOW = tube((0.0, 0.0, 0.0), (400.0, 0.0, 0.0))


def over(height: float, aside: float = 0.0) -> Pair:
    """A line above the low tube."""
    line = tube((0.0, aside, height), (400.0, aside, height), "line")
    return Pair(LOW, ON_TUBE, line, ON_LINE)


def test_both_laterals_at_50_mm() -> None:
    """Feet on one side: lateral 20 − 18; a loop to either side of the bolt: 20 + 18."""
    found = {(p.turn_tube, p.turn_line): p for p in parallel_places(over(50.0), 150.0)}
    for sides, wanted in (
        ((1, -1), sqrt(50**2 - 2**2) - 25),
        ((-1, 1), sqrt(50**2 - 2**2) - 25),
        ((1, 1), sqrt(50**2 - 38**2) - 25),
        ((-1, -1), sqrt(50**2 - 38**2) - 25),
    ):
        assert found[sides].spacer_mm == pytest.approx(wanted)
        assert found[sides].station_tube_mm == 150.0
        assert found[sides].station_line_mm == pytest.approx(150.0)


def test_the_bolt_leans_by_the_lateral_over_the_distance() -> None:
    leans = {(p.turn_tube, p.turn_line): p.axis for p in parallel_places(over(50.0), 150.0)}
    for sides, axis in leans.items():
        assert axis[0] == pytest.approx(0.0)
        assert degrees(abs(atan2(axis[1], axis[2]))) == pytest.approx(
            degrees(asin((2 if sides[0] != sides[1] else 38) / 50))
        )


def test_equal_clamps_on_one_side_are_bolted_straight_through() -> None:
    """Lateral 0: the bolt runs from axis to axis, beside both; L = 50 − 13 − 13."""
    pair = Pair(LOW, ON_TUBE, over(50.0).line, ON_TUBE)
    place = next(p for p in parallel_places(pair, 150.0) if p.turn_tube == 1 and p.turn_line == -1)
    assert place.axis == pytest.approx((0.0, 0.0, 1.0))
    assert place.spacer_mm == pytest.approx(24.0)
    assert place.bolt == pytest.approx((150.0, 20.0, 25.0))


def test_no_place_with_a_loop_to_either_side_where_the_line_is_nearer_than_both_reaches() -> None:
    """37.9 mm between the axes, reaches 20 + 18: only the two with both feet on one side."""
    assert len(parallel_places(over(37.9), 150.0)) == 2
    assert len(parallel_places(over(38.1), 150.0)) == 4
    assert parallel_places(over(1.9), 150.0) == ()


def test_touching_distance_gives_a_plain_stack_and_less_a_negative_spacer() -> None:
    at_touch = hypot(25.0, 2.0)
    spacers = [p.spacer_mm for p in parallel_places(over(at_touch), 150.0) if p.turn_tube == -p.turn_line]
    assert spacers == pytest.approx([0.0, 0.0], abs=1e-9)
    nearer = [p.spacer_mm for p in parallel_places(over(20.0), 150.0) if p.turn_tube == -p.turn_line]
    assert nearer == pytest.approx([sqrt(400 - 4) - 25] * 2)


def test_a_line_that_runs_the_other_way_has_the_same_bolts() -> None:
    pair = over(47.0, 11.0)
    back = Pair(pair.tube, pair.on_tube, reversed_(pair.line), pair.on_line)
    ahead = sorted(tuple(round(x, 9) for x in p.bolt) for p in parallel_places(pair, 150.0))
    assert sorted(tuple(round(x, 9) for x in p.bolt) for p in parallel_places(back, 150.0)) == ahead
    assert {round(p.station_line_mm, 9) for p in parallel_places(back, 150.0)} == {250.0}
    assert lateral(pair, 1, -1) == lateral(back, 1, 1) == 2.0


@pytest.mark.parametrize(("deg", "side_by_side"), [(0.5, True), (1.99, True), (2.01, False)])
def test_what_counts_as_side_by_side(deg: float, side_by_side: bool) -> None:
    """Rule `tubes-parallel-most`: 2 deg."""
    run = (400.0 * cos(radians(deg)), 400.0 * sin(radians(deg)), 50.0)
    line = tube((0.0, 0.0, 50.0), run, "line")
    assert nearly_parallel(LOW, line) is side_by_side


@pytest.mark.parametrize("end", [(400.0, 12.0, 50.0), (400.0, -9.0, 58.0), (400.0, 0.0, 38.0)])
def test_a_line_not_quite_parallel_still_has_both_holes_on_the_bolt(end: tuple[float, float, float]) -> None:
    """Up to 2 deg off: holes to the nanometre on one bolt, and what is left is the line's clamp's tilt."""
    pair = Pair(LOW, ON_TUBE, tube((0.0, 0.0, 50.0), end, "line"), ON_LINE)
    places = parallel_places(pair, 150.0)
    assert len(places) == 4
    for place in places:
        found = measured(pair, place)
        assert found.off_tube_hole < 1e-8
        assert found.off_line_hole < 1e-8
        assert found.between_feet == pytest.approx(place.spacer_mm, abs=1e-8)
        off = sum(x * y for x, y in zip(place.axis, pair.line.direction, strict=True))
        assert place.tilt_rad == pytest.approx(abs(asin(off)), abs=1e-9)


def test_direction_and_distance_of_a_line_beside() -> None:
    e, distance = beside(over(40.0, 30.0), 150.0)
    assert e == pytest.approx((0.0, 0.6, 0.8))
    assert distance == pytest.approx(50.0)
