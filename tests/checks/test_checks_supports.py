"""Supports: one bolt does not hold a bracket in rotation, two supports not on one line do (practice)."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from checks.example_plate import CLAMPS, LAYOUT, MIDDLE
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.checks.supports import one_line, outside_by, spread, weight_between
from clampwright.layout.placed import PlateLayout


def on(*labels):
    """The example with only some of its clamps."""
    return replace(LAYOUT, clamps=tuple(c for c in CLAMPS if c.label in labels))


def test_four_clamps_by_hand(layout: PlateLayout):
    """160.376 / 200 = 0.80188."""
    (found,) = one_line(layout)
    assert (found.verdict, found.value) == ("pass", pytest.approx(0.80188))


def test_a_single_bolt_fails():
    (found,) = one_line(on("A1"))
    assert found.verdict == "fail"
    assert "can turn about that bolt" in found.says
    assert "50.00 mm" in found.change


def test_two_clamps_on_one_tube_fail_because_they_roll_together():
    (found,) = one_line(on("A1", "A2"))
    assert found.verdict == "fail"
    assert "only the grip of the cushions" in found.says
    assert found.change.endswith("at least 40.00 mm off that line.")  # 0.2 x 200


def test_two_clamps_on_two_tubes_are_a_caution():
    (found,) = one_line(on("A1", "B1"))
    assert found.verdict == "caution"
    assert found.change.endswith("at least 32.08 mm off that line.")  # 0.2 x 160.376


def test_a_narrow_row_over_two_tubes_cannot_roll_on_both():
    """The same holes, 28 mm wide, over two parallel tubes: a caution, not a failure."""
    narrow = tuple(replace(c, at=(c.at[0], 12.0 + 28.0 * (c.tube == "upper"))) for c in LAYOUT.clamps)
    (found,) = one_line(replace(LAYOUT, clamps=narrow))
    assert (found.verdict, found.value) == ("caution", pytest.approx(0.14))


def test_three_clamps_off_one_line_pass():
    (found,) = one_line(on("A1", "A2", "B1"))
    assert found.verdict == "pass"


@given(st.floats(0.0, 2 * np.pi), st.floats(-50, 50), st.floats(-50, 50))
@settings(deadline=None, max_examples=40)
def test_spread_does_not_depend_on_how_the_plate_lies(angle, u, v):
    """A rectangle of 60 x 20 has length 60 and width 20 whichever way it is turned and moved."""
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    corners = np.array([[0.0, 0.0], [60.0, 0.0], [60.0, 20.0], [0.0, 20.0]]) @ turn.T + (u, v)
    length, width = spread(corners)
    assert (length, width) == (pytest.approx(60.0), pytest.approx(20.0))


def test_weight_between_the_clamps(layout: PlateLayout):
    (found,) = weight_between(layout)
    assert (found.verdict, found.value) == ("pass", 0.0)


def test_weight_outside_the_clamps_by_hand():
    """A3-4-5 triangle beyond the corner hole (12, 12): 5 mm."""
    (found,) = weight_between(replace(LAYOUT, centre_of_gravity=(9.0, 8.0, 20.0)))
    assert (found.verdict, found.value) == ("caution", pytest.approx(5.0))
    assert "5.00 mm" in found.change


def test_weight_beside_the_line_of_two_clamps():
    """A1 and A2 lie at v = 12, the weight above their middle."""
    (found,) = weight_between(on("A1", "A2"))
    assert (found.verdict, found.value) == ("caution", pytest.approx(MIDDLE[1] - 12.0))


@given(st.floats(-30, 30), st.floats(-30, 30))
@settings(deadline=None, max_examples=60)
def test_distance_to_a_square_in_closed_form(u, v):
    """Outside a square of half side 10: hypot of what either coordinate is over 10."""
    square = np.array([[-10.0, -10.0], [10.0, -10.0], [10.0, 10.0], [-10.0, 10.0]])
    expected = np.hypot(max(abs(u) - 10.0, 0.0), max(abs(v) - 10.0, 0.0))
    assert outside_by(square, np.array([u, v])) == pytest.approx(expected, abs=1e-9)
