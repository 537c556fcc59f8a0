"""Exact distances between contours: worked by hand, and against shapely on fine polygons."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from nesting.cut_parts import angle, disc, fine, part, polygon, rectangle, rounded

from clampwright.nesting.apart import apart
from clampwright.nesting.nested import Laid, Stock
from clampwright.nesting.on_sheet import outline_on_sheet
from clampwright.nesting.proof import layout_faults
from clampwright.nesting.shapes import holding, widened

halves = st.floats(0, 3)
STOCK = Stock("6061-T6", 1.6, 300.0, 300.0, 1.0, 10.0)


def test_rounded_corner_to_rounded_corner():
    """Two corners of radius 10, their centres 3-4-5 times 10 apart: 50 less two radii."""
    one = rounded(100, 100, 10)
    assert apart(one, one.moved((80 + 30, 80 + 40))) == pytest.approx(30.0, abs=1e-9)


def test_corner_of_a_square_to_a_disc():
    """From (10, 10) to the rim of a disc of 20 round (40, 50): 50 - 20."""
    assert apart(rectangle(10, 10), disc(20).moved((20, 30))) == pytest.approx(30.0, abs=1e-9)


def test_disc_inside_the_hollow_of_an_angle():
    """A disc of 10 in the corner of two legs 20 wide, its centre 15 from either leg: 5 apart."""
    legs = angle(100, 100, 20)
    assert apart(legs, disc(10).moved((25, 25))) == pytest.approx(5.0, abs=1e-9)


@pytest.mark.parametrize(
    "other",
    [disc(5).moved((20, 20)), rectangle(200, 10).moved((-20, 30)), rectangle(10, 10).moved((95, 95))],
    ids=["within", "across", "corner"],
)
def test_overlapping_contours_are_nothing_apart(other):
    assert apart(rounded(100, 100, 8), other) == 0.0
    assert apart(other, rounded(100, 100, 8)) == 0.0


@settings(deadline=None, max_examples=80)
@given(
    st.sampled_from([rounded(60, 40, 7), disc(25), angle(70, 60, 20, 4), polygon((0, 0), (50, 5), (10, 60))]),
    st.sampled_from([rounded(50, 80, 12), disc(9), angle(50, 90, 15, 3)]),
    st.floats(0, 2 * math.pi),
    st.floats(-120, 120),
    st.floats(-120, 120),
)
def test_as_far_apart_as_shapely_measures(one, other, turn, x, y):
    first, second = Laid(part("a", one), 1, 0.0, (0.0, 0.0)), Laid(part("b", other), 1, turn, (x, y))
    measured = fine(first).distance(fine(second))
    assert apart(outline_on_sheet(first), outline_on_sheet(second)) == pytest.approx(measured, abs=1e-4)


def test_a_layout_over_the_margin_or_too_close_is_found():
    square = rectangle(50, 50)
    contours = [
        ("a", square.moved((9.99, 10))),
        ("b", square.moved((60.9, 10))),
        ("c", square.moved((200, 240.1))),
    ]
    said = list(layout_faults(STOCK, contours))
    assert said == [
        "a is 0.010000 mm over the margin",
        "c is 0.100000 mm over the margin",
        "a and b are 0.910000 mm apart, not 1 mm",
    ]


def test_a_layout_that_just_keeps_its_kerf_is_sound():
    square = rectangle(50, 50)
    assert list(layout_faults(STOCK, [("a", square.moved((10, 10))), ("b", square.moved((61, 10)))])) == []


@settings(deadline=None, max_examples=40)
@given(
    st.sampled_from([rounded(60, 40, 7), disc(25), angle(70, 60, 20, 4), angle(70, 60, 20)]), st.floats(0, 3)
)
def test_the_polygon_that_stands_for_a_part_holds_it_and_its_half_kerf(outline, half_kerf):
    """Held against shapely's own round rim about a fine polygon."""
    true = fine(Laid(part("a", outline), 1, 0.0, (0.0, 0.0)))
    rim = true.buffer(half_kerf, quad_segs=64)
    held = widened(holding(part("a", outline).outline), half_kerf)
    assert rim.difference(held).area < 1e-4 * true.length
    assert held.area < true.buffer(half_kerf, join_style="mitre").area + 0.3 * true.length
    assert shapely.is_valid(held)
