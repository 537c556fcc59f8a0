"""Bolt lengths against the AN3 grip law (bolt grip chart: grip D - 3/8, length D + 1/32), 32 threads an inch.

At least one thread past the nut, at most one hidden, never shank past the stack, three washers at most:
common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import (
    AN3_4A,
    AN3_5A,
    AN3_6A,
    LAYOUT,
    NUT,
    PITCH,
    PLATE_LAYER,
    REGULAR,
    clamp_stack,
    lug_stack,
    stack,
    with_clamp,
)
from checks.findings_of import of
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.checks.bolt_reach import stack_range
from clampwright.checks.bolts import bolt_length, washer_count
from clampwright.layout.placed import PlateLayout, StackItem
from clampwright.layout.stacks import build_stack, plain_items
from clampwright.trade.hardware import nut


def with_stack(made, **changes):
    """The finding about clamp A1 with another stack."""
    return of(bolt_length(with_clamp("A1", stack=made, **changes)), "A1")


def test_an3_5a_in_6_899_mm_by_hand(layout: PlateLayout):
    """Hidden (6.899 - 6.35)/0.79375 = 0.69; showing (16.669 - 6.899 - 6.35)/0.79375 = 4.31."""
    found = of(bolt_length(layout), "A1")
    assert found.verdict == "pass"
    assert found.value == pytest.approx(4.31, abs=0.005)
    assert "AN3-5A fits the stack of 6.90 mm: 0.7 threads hidden, 4.3 past the nut" in found.says


def test_the_dash_below_and_above_are_told(layout: PlateLayout):
    """AN3-4A: (13.494 - 6.899 - 6.35)/0.79375 = 0.3 showing; AN3-6A: 9.525 - 6.899 = 2.626 mm past."""
    says = of(bolt_length(layout), "A1").says
    assert "AN3-4A would show 0.3 threads" in says
    assert "AN3-6A would leave 2.63 mm of shank past the stack" in says


def test_shank_past_the_stack_fails():
    """AN3-6A: 9.525 - 6.899 = 2.626 mm; with 2.63 mm more of washers it fits."""
    found = with_stack(clamp_stack(bolt=AN3_6A))
    assert found.verdict == "fail"
    assert "2.63 mm of smooth shank" in found.says


def test_too_many_hidden_threads_is_a_caution():
    """Feet 3 mm: stack 7.699; (7.699 - 6.35)/0.79375 = 1.70 hidden; 0.556 less or, for AN3-6A, 1.826 more."""
    found = with_stack(clamp_stack(3.0))
    assert found.verdict == "caution"
    assert "1.7 threads lie hidden" in found.says
    assert found.change == "Take AN3-5A with 0.56 mm less in the stack: thinner washers."


def test_bolt_that_ends_in_the_nut_fails():
    """AN3-4A: 13.494 - 6.899 - 6.35 = 0.245 mm: 0.3 threads showing."""
    found = with_stack(clamp_stack(bolt=AN3_4A))
    assert found.verdict == "fail"
    assert "only 0.3 threads stand past the nut where 1 must" in found.says


def test_default_feet_are_unknown_with_the_range_that_fits():
    """Stack 6.350 to 7.14375 less 4.699 of plate and washers: feet 1.651 to 2.44475."""
    found = with_stack(clamp_stack(), measured=frozenset({"reach", "seat"}))
    assert found.verdict == "unknown"
    assert "AN3-5A fits feet of 1.66 mm to 2.44 mm; 2.20 mm was taken" in found.change


def test_a_bolt_that_does_not_reach_its_nut_fails_even_where_the_nut_is_unknown():
    """Feet of 20 mm: stack 24.699 against 16.669 of bolt: 8.03 mm short."""
    found = with_stack(clamp_stack(20.0, nut=replace(NUT, height_mm=None)))
    assert found.verdict == "fail"
    assert "the bolt ends 8.03 mm short of the nut" in found.says
    assert found.change == "Take AN3-13A with 0.71 mm more of washers under the nut."  # grip 1 in


def test_beyond_the_longest_bolt_the_stack_has_to_come_down():
    """AN3-37A: grip 3 7/8 - 3/8 = 3.5 in (88.9 mm), a thread more 89.69; feet of 120 mm: stack 124.699."""
    found = with_stack(clamp_stack(120.0))
    assert found.verdict == "fail"
    assert "make the stack of 124.70 mm" in found.change
    assert "35.01 mm thinner" in found.change
    assert "take AN3-37A (the longest AN3 in the tables)" in found.change


def test_unknown_nut_height_is_unknown_with_the_tallest_nut():
    """16.66875 - 6.899 - 0.79375 = 8.976 mm."""
    bare = replace(NUT, height_mm=None)
    found = with_stack(clamp_stack(nut=bare))
    assert found.verdict == "unknown"
    assert "AN3-5A serves up to 8.97 mm" in found.change


@pytest.mark.parametrize(("past", "verdict"), [(3.3, "unknown"), (3.1, "fail"), (0.1, "fail")])
def test_even_a_low_nut_needs_half_a_diameter_and_a_thread(past, verdict):
    """0.5 x 4.826 (assumed) + 0.79375 (practice) = 3.207 mm past the stack, whatever the nut."""
    bolt = replace(AN3_5A, length_mm=6.899 + past)
    found = with_stack(clamp_stack(bolt=bolt, nut=replace(NUT, height_mm=None)))
    assert found.verdict == verdict
    assert (f"stands only {past:.2f} mm past the stack" in found.says) == (verdict == "fail")
    assert verdict == "unknown" or "needs 3.21 mm" in found.says


def metric_stack(between: float, feet: float = 2.0):
    """What the stack solver makes of M5 with an ISO 7040 nut, 6.8 mm high, and washers of 1 mm."""
    layers = (StackItem("plate", "plate", between - feet), StackItem("clamp feet", "clamp feet", feet))
    return build_stack("M5", plain_items(layers, "M5"), nut("ISO 7040", "M5"))


def test_a_screw_threaded_to_the_head_is_a_caution_with_one_sentence():
    """M5x16 in 1 + 5 + 1 = 7 mm: (16 - 7 - 6.8)/0.8 = 2.75 threads past the nut (ISO 4017, ISO 7040)."""
    found = with_stack(metric_stack(5.0))
    assert found.verdict == "caution"
    assert found.says == (
        "M5x16 reaches through the stack of 7.00 mm, 2.8 threads past the nut; it is threaded to the head, "
        "so thread and not shank bears in the holes."
    )
    assert 'bolt = "AN3"' in found.change


def test_a_metric_shank_that_ends_in_the_stack_passes_with_a_note():
    """M5x25, ISO 4014: grip 25 - 16 = 9; in 12 mm: 3/0.8 = 3.75 hidden, (25 - 12 - 6.8)/0.8 = 7.75 past."""
    made = metric_stack(10.0)
    screw, bolt = with_stack(made), with_stack(replace(made, chosen=made.above))
    assert (screw.verdict, bolt.verdict) == ("caution", "pass")
    assert screw.change == "Prefer M5x25: its plain shank of 9.00 mm ends in the stack."
    assert "M5x25 fits the stack of 12.00 mm: 3.8 threads hidden (more than usual" in bolt.says


@given(st.floats(3.0, 40.0))
@settings(deadline=None, max_examples=60)
def test_metric_check_and_stack_solver_agree(between):
    """A metric bolt fails the check exactly where the solver says that it does not fit."""
    made = metric_stack(between)
    assert made.chosen is not None
    assert (with_stack(made).verdict != "fail") == made.chosen.fits


@given(st.floats(1.0, 80.0))
@settings(deadline=None, max_examples=60)
def test_an_check_and_stack_solver_agree(feet):
    """The same for AN3 with a nut of 1/4 in: what fits passes, and nothing else does."""
    layers = (PLATE_LAYER, StackItem("clamp feet", "clamp feet", feet))
    made = build_stack("AN3", plain_items(layers, "AN3"), NUT)
    assert made.chosen is not None
    assert (with_stack(made).verdict == "pass") == made.chosen.fits


def test_no_length_at_all_fails():
    made = replace(clamp_stack(), chosen=None)
    assert with_stack(made).verdict == "fail"


def test_component_bolts_are_looked_at_one_by_one(layout: PlateLayout):
    assert [f.where for f in bolt_length(layout)] == ["A1", "A2", "B1", "B2", "C1", "C2", "C3", "C4"]


def test_a_lug_nobody_gave_is_unknown(layout: PlateLayout):
    """0.8128 + 2.286 + 1.6002 + 2.2 of something else = 6.899: it fits, but without the lug."""
    without = stack(PLATE_LAYER, StackItem("spacer", "spacer", 2.2))
    (coil,) = layout.components
    found = of(bolt_length(replace(layout, components=(replace(coil, stacks=(without,) * 4),))), "C1")
    assert found.verdict == "unknown"
    assert found.change == "Measure the lug and write it (lug); the bolt is then chosen for it."


def test_screws_without_lengths_are_unknown(layout: PlateLayout):
    (coil,) = layout.components
    found = of(bolt_length(replace(layout, components=(replace(coil, stacks=()),))), "coil pack")
    assert found.verdict == "unknown"
    assert "lug 2.00 mm" in found.change
    assert "1 to 3 threads" in found.change


@given(st.floats(0.5, 12.0))
@settings(deadline=None, max_examples=60)
def test_stack_range_says_where_a_length_fits(feet):
    """A stack fits a length exactly where it lies in the range: 6.35 to 7.14375 for AN3-5A."""
    made = clamp_stack(feet)
    low, high = stack_range(AN3_5A, made)
    assert (low, high) == pytest.approx((6.35, 6.35 + PITCH))
    assert (with_stack(made).verdict == "pass") == (low <= made.thickness_mm <= high)


@pytest.mark.parametrize("height", [9.0, 10.0])
def test_a_tall_nut_shortens_the_range_that_a_length_suits(height):
    """16.66875 - 0.79375 (one thread out) = 15.875 less the nut: 6.875 for 9 mm, under the grip for 10 mm.

    With 9 mm the hidden threads would have allowed 7.14375; with 10 mm, 5.875 leaves no stack at all.
    """
    tall = replace(NUT, height_mm=height)
    low, high = stack_range(AN3_5A, clamp_stack(nut=tall))
    assert (low, high) == pytest.approx((6.35, 15.875 - height))
    assert (low <= high) == (height < 9.525)
    if low <= high:  # feet that bring the stack just inside and just past its upper end
        feet = high - 0.8128 - 2.286 - 1.6002
        assert with_stack(clamp_stack(feet - 0.01, nut=tall)).verdict == "pass"
        assert with_stack(clamp_stack(feet + 0.01, nut=tall)).verdict == "fail"


def test_three_washers_may_be(layout: PlateLayout):
    """Thin, regular and one more: three (practice); a fourth fails."""
    middle = (PLATE_LAYER, StackItem("clamp feet", "clamp feet", 2.2))
    three = with_clamp("A1", stack=stack(*middle, REGULAR))
    four = with_clamp("A1", stack=stack(*middle, replace(REGULAR, name="washers", count=2)))
    assert (of(washer_count(three), "A1").verdict, of(washer_count(three), "A1").value) == ("pass", 3.0)
    assert (of(washer_count(four), "A1").verdict, of(washer_count(four), "A1").value) == ("fail", 4.0)


def test_no_washer_under_the_nut_is_a_caution():
    made = clamp_stack()
    bare = replace(made, items=made.items[:-1])
    assert of(washer_count(with_clamp("A1", stack=bare)), "A1").verdict == "caution"


def test_lug_stack_of_the_example_by_hand(layout: PlateLayout):
    """6.699: hidden (6.699 - 6.35)/0.79375 = 0.44."""
    assert lug_stack().thickness_mm == pytest.approx(6.699)
    assert "0.4 threads hidden" in of(bolt_length(layout), "C1").says
    assert LAYOUT.components[0].stacks[0].chosen.length == AN3_5A
