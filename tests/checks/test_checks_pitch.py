"""Hole spacing: 3 D is the rivets' least (AC 43.13-1B 4-57), 4 D for bolts is common practice, no source."""

from __future__ import annotations

import pytest
from checks.example_plate import HOLE, with_hole
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.checks.pitch import pitch
from clampwright.layout.placed import PlateLayout


def test_the_nearest_pair_stands_for_a_pass(layout: PlateLayout):
    """C1 to C4: 50.8 mm, and the same C2 to C3; 50.8 / 4.8514 = 10.47."""
    (found,) = pitch(layout)
    assert found.verdict == "pass"
    assert found.where in ("C1/C4", "C2/C3")
    assert found.value == pytest.approx(50.8 / HOLE)


@pytest.mark.parametrize(
    ("ratio", "verdict"), [(4.0, "pass"), (3.99, "caution"), (3.0, "caution"), (2.99, "fail"), (0.0, "fail")]
)
def test_limits(ratio, verdict):
    """C2 set beside A1 (12, 12) at a multiple of 4.8514."""
    found = pitch(with_hole("C2", at=(12.0 + ratio * HOLE, 12.0)))
    assert found[0].where == "A1/C2"
    assert (found[0].verdict, found[0].value) == (verdict, pytest.approx(ratio))


def test_the_larger_hole_counts():
    """18 mm between a hole of 4.85 and one of 6.5: 18 / 6.5 = 2.77, under three."""
    found = pitch(with_hole("C2", at=(30.0, 12.0), diameter_mm=6.5))
    assert (found[0].verdict, found[0].value) == ("fail", pytest.approx(18.0 / 6.5))


def test_every_close_pair_is_reported_nearest_first():
    layout = with_hole("C2", with_hole("C1", at=(22.0, 12.0)), at=(30.0, 12.0))
    assert [(f.where, f.verdict) for f in pitch(layout)] == [
        ("C1/C2", "fail"),
        ("A1/C1", "fail"),
        ("A1/C2", "caution"),
    ]


def test_the_change_in_numbers():
    """16 mm apart where 4 x 4.8514 = 19.4056 are asked."""
    found = pitch(with_hole("C2", at=(28.0, 12.0)))[0]
    assert found.change == "Move A1 and C2 3.41 mm further apart: at least 19.41 mm between centres."


@given(st.floats(0.0, 40.0), st.floats(0.0, 1.0))
@settings(deadline=None, max_examples=50)
def test_nearer_is_never_better(apart, share):
    order = ("pass", "caution", "fail")
    far = pitch(with_hole("C2", at=(12.0 + apart, 12.0)))[0]
    near = pitch(with_hole("C2", at=(12.0 + apart * share, 12.0)))[0]
    assert order.index(near.verdict) >= order.index(far.verdict)
