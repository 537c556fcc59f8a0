"""Tube and line that cross, by hand: plane geometry of the crossing of two lines beside two axes."""

from __future__ import annotations

from math import cos, radians, sin, sqrt

import pytest
from layout.pairing.pairs import axes_apart, clamp, measured, tube

from clampwright.layout.pairing.closed import Pair
from clampwright.layout.pairing.skew_pair import common_square, skew_places

ON_TUBE, ON_LINE = clamp(20.0, 13.0), clamp(18.0, 12.0)
LOW = tube((0.0, 0.0, 0.0), (400.0, 0.0, 0.0))


def crossing(deg: float, height: float = 50.0) -> Pair:
    """A line over the low tube, through (100, 0) in plan, at an angle to it; its start lies 100 mm before."""
    c, s = cos(radians(deg)), sin(radians(deg))
    start = (100.0 - 100.0 * c, -100.0 * s, height)
    line = tube(start, (start[0] + 300.0 * c, start[1] + 300.0 * s, height), "line")
    return Pair(LOW, ON_TUBE, line, ON_LINE)


def test_square_crossing_has_its_four_bolts_at_the_corners_of_a_rectangle() -> None:
    """n = z, n × a = y, −n × b = x: the bolts lie at x = 100 ± 18, y = ±20; L = 50 − 13 − 12."""
    places = skew_places(crossing(90.0))
    found = {
        (p.turn_tube, p.turn_line): (round(p.station_tube_mm, 9), round(p.station_line_mm, 9)) for p in places
    }
    assert found == {(1, 1): (118, 120), (1, -1): (82, 120), (-1, 1): (118, 80), (-1, -1): (82, 80)}
    assert [p.spacer_mm for p in places] == pytest.approx([25.0] * 4)
    assert sorted((round(p.bolt[0], 9), round(p.bolt[1], 9)) for p in places) == [
        (82, -20),
        (82, 20),
        (118, -20),
        (118, 20),
    ]
    assert {round(p.bolt[2], 9) for p in places} == {25.5}, "half way between the seats at 13 and 38"


def test_crossing_at_30_deg() -> None:
    """b = (√3/2, 1/2): the bolt (s, ±20) lies where (s − 100)/2 − (±20)·√3/2 = ±18."""
    found = {(p.turn_tube, p.turn_line): p for p in skew_places(crossing(30.0))}
    for (turn_tube, turn_line), place in found.items():
        station = 100.0 + 2 * (18.0 * turn_line + 20.0 * turn_tube * sqrt(3) / 2)
        along = (station - 100.0) * sqrt(3) / 2 + 20.0 * turn_tube / 2
        assert place.station_tube_mm == pytest.approx(station)
        assert place.station_line_mm == pytest.approx(100.0 + along)
        assert place.spacer_mm == pytest.approx(25.0)
    assert len(found) == 4


@pytest.mark.parametrize("deg", [3.0, 30.0, 90.0, 150.0, 177.0])
def test_every_place_lies_on_both_holes(deg: float) -> None:
    """Both clamps' holes lie on the bolt, and their faces are the spacer apart."""
    pair = crossing(deg)
    for place in skew_places(pair):
        found = measured(pair, place)
        assert found.off_tube_hole < 1e-9
        assert found.off_line_hole < 1e-9
        assert found.between_feet == pytest.approx(place.spacer_mm, abs=1e-9)
        assert place.tilt_rad == pytest.approx(0.0, abs=1e-12)


def test_line_below_the_tube_is_joined_downwards() -> None:
    pair = crossing(90.0, height=-50.0)
    n, distance = common_square(pair.tube, pair.line)
    assert n == (0.0, 0.0, -1.0)
    assert distance == 50.0
    assert [p.spacer_mm for p in skew_places(pair)] == pytest.approx([25.0] * 4)


def test_line_too_near_leaves_a_spacer_below_nothing() -> None:
    """20 mm between the axes, 13 + 12 mm of seats: 5 mm too near."""
    assert [p.spacer_mm for p in skew_places(crossing(60.0, height=20.0))] == pytest.approx([-5.0] * 4)


def test_distance_against_least_squares() -> None:
    pair = Pair(LOW, ON_TUBE, tube((30.0, -80.0, 44.0), (210.0, 90.0, 71.0), "line"), ON_LINE)
    _, distance = common_square(pair.tube, pair.line)
    assert distance == pytest.approx(axes_apart(pair.tube, pair.line), abs=1e-9)
    spacers = [p.spacer_mm for p in skew_places(pair)]
    assert spacers == pytest.approx([distance - 25.0] * 4)
