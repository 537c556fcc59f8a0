"""Where dimensions can start: extremes of arcs against closed forms of turned slots and cut discs."""

from __future__ import annotations

from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.quantities import Vec2
from clampwright.solids.features import features_of
from clampwright.solids.shapes import prism


def turned(at: Vec2, by: float) -> Vec2:
    return at[0] * cos(by) - at[1] * sin(by), at[0] * sin(by) + at[1] * cos(by)


def slot(long: float, r: float, by: float) -> Outline:
    """A slot: two half circles of radius r about (0, 0) and (long, 0), turned about the first."""
    low, high, far_low, far_high, far = (
        turned(at, by) for at in ((0, -r), (0, r), (long, -r), (long, r), (long, 0))
    )
    ends = Arc(far_low, far_high, far, True), Arc(high, low, (0.0, 0.0), True)
    return Outline((Line(low, far_low), ends[0], Line(far_high, high), ends[1]))


@given(st.floats(0.02, pi / 2 - 0.02))
@settings(deadline=None, max_examples=12)
def test_a_turned_slot_reaches_as_far_as_its_closed_form(by: float) -> None:
    """L cos a + 2 r along x, L sin a + 2 r along y: both ends lie within an arc, at no corner."""
    points = features_of(prism(slot(40.0, 6.0, by), (), 2.0)).points
    for k, wide in ((0, 40 * cos(by) + 12), (1, 40 * sin(by) + 12)):
        found = [point[k] for point in points]
        assert max(found) - min(found) == pytest.approx(wide, abs=1e-8)


def test_an_arc_gives_no_place_that_it_does_not_reach() -> None:
    """A quarter of a disc of 10 about the origin, in the first quadrant: nothing at -10."""
    quarter = Outline(
        (
            Line((0.0, 0.0), (10.0, 0.0)),
            Arc((10.0, 0.0), (0.0, 10.0), (0.0, 0.0), True),
            Line((0.0, 10.0), (0.0, 0.0)),
        )
    )
    points = features_of(prism(quarter, (), 2.0)).points
    assert {point[:2] for point in points} == {(0.0, 0.0), (10.0, 0.0), (0.0, 10.0)}


def test_a_disc_of_three_quarters_reaches_left_and_down_but_not_to_its_missing_corner() -> None:
    """From 0 to 270 degrees: 10, -10 along x and 10, -10 along y, and never (7.07, -7.07)."""
    cut_disc = Outline(
        (
            Arc((10.0, 0.0), (0.0, -10.0), (0.0, 0.0), True),
            Line((0.0, -10.0), (0.0, 0.0)),
            Line((0.0, 0.0), (10.0, 0.0)),
        )
    )
    points = {point[:2] for point in features_of(prism(cut_disc, (), 2.0)).points}
    assert points == {(0.0, 0.0), (10.0, 0.0), (0.0, 10.0), (-10.0, 0.0), (0.0, -10.0)}
