"""TURN-1: one bolt, one tube, one line of bolts; a line's other supports."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import LAYOUT
from checks.joined.hand_layouts import BUSHED, HELD_OFF, REACH, asking, holding

from clampwright.checks.turning import held_against_turning


def test_three_bolts_on_two_tubes_hold_it():
    """Corners of a triangle 80 x 110.376 mm."""
    (found,) = held_against_turning(BUSHED)
    assert (found.verdict, found.value) == ("pass", pytest.approx(80.0 / (150 - 2 * REACH)))


def test_two_bolts_on_two_tubes_let_it_rock():
    (found,) = held_against_turning(holding("A1", "B1"))
    assert (found.verdict, found.value) == ("caution", pytest.approx(0.0, abs=1e-9))
    assert "rock" in found.says


def test_all_on_one_tube_it_swings():
    """Only the cushions' grip: 15 to 45 lbf along the tube for a sister clamp (MIL-DTL-85052B)."""
    (found,) = held_against_turning(holding("A1", "A2"))
    assert found.verdict == "fail"
    assert "67 N" in found.says
    assert "200 N" in found.says
    assert "50.00 mm" in found.change


def test_one_bolt_turns():
    (found,) = held_against_turning(holding("A1"))
    assert (found.verdict, found.value) == ("fail", 0.0)
    assert "turn about that bolt" in found.says


@pytest.mark.parametrize(
    ("supports", "verdict"), [((300.0, 900.0), "pass"), ((700.0, 900.0), "caution"), (None, "unknown")]
)
def test_a_line_on_one_bolt_is_held_elsewhere_too(supports, verdict):
    layout = asking(HELD_OFF, carried=replace(HELD_OFF.recipe.job.carried, next_supports_mm=supports))
    (found,) = held_against_turning(layout)
    assert (found.verdict, found.where) == (verdict, "oil hose")


def test_a_plate_has_its_own_check():
    assert held_against_turning(LAYOUT) == ()
