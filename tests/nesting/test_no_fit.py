"""No-fit polygons, held against distances that shapely measures between the parts themselves."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from nesting.cut_parts import angle, disc, fine, part, polygon, rectangle, rounded, to_datum

from clampwright.nesting.nested import Laid
from clampwright.nesting.no_fit import NoFit
from clampwright.nesting.shapes import convex_pieces, shapes_of
from clampwright.trade.tables import rule

QUARTERS = tuple(k * math.pi / 2 for k in range(4))
OUTLINES = (
    angle(70, 60, 20),
    angle(50, 90, 15, 3),
    rounded(50, 80, 12),
    disc(20),
    to_datum(polygon((0, 0), (60, 10), (35, 30), (50, 70), (-10, 40))),
)


def test_squares_with_a_kerf_between():
    """Of 20 and of 30 square with 1 between: datum anywhere from -31 to 21 both ways is barred."""
    (fixed,) = shapes_of(0, rectangle(20, 20), 1.0, QUARTERS)
    (moving,) = shapes_of(1, rectangle(30, 30), 1.0, QUARTERS)
    assert NoFit().of(fixed, moving).bounds == pytest.approx((-31, -31, 21, 21), abs=1e-6)
    assert NoFit().of(fixed, moving).area == pytest.approx(52 * 52, rel=1e-6)


def test_discs_with_a_kerf_between():
    """Radii 20 and 9 and a kerf of 1: a disc of 30 round where the centres meet, and little more."""
    (fixed,) = shapes_of(0, disc(20), 1.0, QUARTERS)
    (moving,) = shapes_of(1, disc(9), 1.0, QUARTERS)
    barred = NoFit().of(fixed, moving)
    assert barred.centroid.distance(shapely.Point(11, 11)) < 1e-3
    assert math.pi * 30**2 < barred.area < math.pi * (30 + 3 * rule("nest-arc-allowance").value) ** 2


@pytest.mark.parametrize("outline", OUTLINES)
def test_convex_pieces_make_up_the_whole_and_are_convex(outline):
    whole = (
        shapely.Polygon([p.start for p in outline.pieces]) if len(outline.pieces) > 1 else fine(laid(outline))
    )
    pieces = [shapely.Polygon(piece) for piece in convex_pieces(whole)]
    assert sum(piece.area for piece in pieces) == pytest.approx(whole.area, rel=1e-9)
    assert shapely.union_all(pieces).symmetric_difference(whole).area < 1e-9 * whole.area
    assert all(piece.convex_hull.area == pytest.approx(piece.area, rel=1e-8) for piece in pieces)


def laid(outline, turn=0.0, at=(0.0, 0.0)):
    return Laid(part("a", outline), 1, turn, at)


@settings(deadline=None, max_examples=60)
@given(
    st.sampled_from(OUTLINES),
    st.sampled_from(OUTLINES),
    st.sampled_from([*QUARTERS, 0.7]),
    st.sampled_from([*QUARTERS, 2.1]),
    st.lists(st.tuples(st.floats(-110, 110), st.floats(-110, 110)), min_size=5, max_size=5),
)
def test_outside_it_parts_keep_their_kerf_and_well_inside_they_do_not(one, other, turn, turn_too, places):
    kerf = 1.0
    (fixed,) = shapes_of(0, one, kerf, (turn,))
    (moving,) = shapes_of(1, other, kerf, (turn_too,))
    barred = NoFit().of(fixed, moving)
    still = fine(laid(one, turn))
    for at in places:
        apart = still.distance(fine(laid(other, turn_too, at)))
        if not barred.contains(shapely.Point(at)):
            assert apart >= kerf - 2e-6
        elif barred.exterior.distance(shapely.Point(at)) > 2.0 and not barred.interiors:
            assert apart < kerf
