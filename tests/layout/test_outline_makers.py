"""Rounded rectangles, rounded hulls, filleted polygons: what they hold, and shapely's own way."""

from __future__ import annotations

from itertools import pairwise
from math import atan2, cos, dist, pi, sin, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.plate_recipes import plate
from layout.shapes import EL, fine_polygon
from shapely.geometry import Point, Polygon
from shapely.ops import unary_union

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.outline import Arc, Outline
from clampwright.layout.outlines import Disc, filleted_polygon, rounded_hull, rounded_rectangle, snapped
from clampwright.layout.plate_outline import outline_about, polygon_outline
from clampwright.quantities import Vec2

PLACES = st.tuples(st.floats(-100.0, 100.0), st.floats(-100.0, 100.0))
DISCS = st.lists(st.tuples(PLACES, st.floats(1.0, 25.0)), min_size=1, max_size=9)
GRID_DISCS = st.lists(
    st.tuples(st.tuples(st.integers(-5, 5), st.integers(-5, 5)), st.integers(1, 4)), min_size=1, max_size=9
)


def holds(outline: Outline, disc: Disc) -> bool:
    """Up to the 0.01 mm by which a disc may stand out rather than leave a sliver."""
    centre, radius = disc
    return outline.contains(centre) and outline.distance(centre) >= radius - 0.0101


def turns_left_only(outline: Outline) -> bool:
    if any(isinstance(p, Arc) and not p.ccw for p in outline.pieces):
        return False
    return outline.least_inside_radius() is None


@settings(deadline=None, max_examples=60)
@given(discs=DISCS)
def test_a_rounded_hull_holds_its_discs_and_is_the_least_convex_shape_that_does(discs: list[Disc]) -> None:
    """Against shapely: the convex hull of the union of buffered centres (256 chords a quarter)."""
    hull = rounded_hull(discs)
    assert all(holds(hull, d) for d in discs)
    assert turns_left_only(hull)
    reference = unary_union([Point(c).buffer(r, 256) for c, r in discs]).convex_hull
    assert hull.area_mm2() == pytest.approx(reference.area, rel=5e-4)
    assert hull.box() == pytest.approx(reference.bounds, abs=0.0101)


@settings(deadline=None, max_examples=60)
@given(discs=GRID_DISCS)
def test_hulls_of_discs_in_rows_and_inside_one_another(discs: list[Disc]) -> None:
    """Whole numbers: equal discs, discs in line, discs that touch from inside."""
    hull = rounded_hull(discs)
    assert all(holds(hull, d) for d in discs)
    assert turns_left_only(hull)
    reference = unary_union([Point(c).buffer(r, 256) for c, r in discs]).convex_hull
    assert hull.area_mm2() == pytest.approx(reference.area, rel=2e-5)
    assert all(one.end == two.start for one, two in pairwise((*hull.pieces, hull.pieces[0])))


def test_hull_of_two_unequal_discs_in_closed_form() -> None:
    """Belt round discs of 10 and 4 at 30: lines of sqrt(30² - 6²), arcs of pi ± 2 asin(6/30)."""
    hull = rounded_hull([((0.0, 0.0), 10.0), ((30.0, 0.0), 4.0)])
    lean = 0.2013579207903308
    assert sin(lean) == pytest.approx(6 / 30)
    around = 2 * 30 * cos(lean) + 10 * (pi + 2 * lean) + 4 * (pi - 2 * lean)
    assert sum(p.length_mm for p in hull.pieces) == pytest.approx(around, rel=1e-12)
    assert len(hull.pieces) == 4


@settings(deadline=None, max_examples=60)
@given(disc=st.tuples(PLACES, st.floats(1.0, 25.0)), increment=st.sampled_from([0.5, 0.396875, 1.0]))
def test_a_snapped_disc_holds_the_disc_on_the_grid(disc: Disc, increment: float) -> None:
    (u, v), radius = snapped(disc, increment)
    assert dist((u, v), disc[0]) + disc[1] <= radius + 1e-5
    assert radius < disc[1] + 2 * increment
    for number in (u, v, radius):
        assert number / increment == pytest.approx(round(number / increment), abs=1e-6)


@pytest.mark.parametrize("outline", ["rounded rectangle", "rounded hull"])
@settings(deadline=None, max_examples=60)
@given(
    holes=st.lists(PLACES, min_size=2, max_size=6),
    corner=st.sampled_from([None, 0.0, 4.0, 18.0, 40.0]),
    increment=st.sampled_from([0.0, 0.5, 0.396875]),
)
def test_plates_hold_every_hole_with_its_margin_on_sizes_that_can_be_marked(
    outline: str, holes: list[Vec2], corner: float | None, increment: float
) -> None:
    """Even where the corner radius asked for is larger than the margin."""
    wanted = plate(outline=outline, margin_mm=12.0, corner_radius_mm=corner, round_to_mm=increment)
    footprint = [(-20.0, -10.0), (20.0, -10.0), (20.0, 10.0), (-20.0, 10.0)]
    shape, _ = outline_about(wanted, [(p, 4.85) for p in holes], [footprint], "mm")
    assert all(holds(shape, (p, 12.0)) for p in (*holes, *footprint))
    u0, v0, u1, v1 = shape.box()
    if increment:
        for number in (u0, v0, u1 - u0, v1 - v0):
            assert number / increment == pytest.approx(round(number / increment), abs=1e-6)


def test_default_margin_is_two_diameters_and_the_shop_allowance() -> None:
    """2D + 0.05 in, common practice: 2 * 4.85 + 1.27 = 10.97 mm about a hole of 4.85."""
    wanted = plate(margin_mm=None, corner_radius_mm=None)
    shape, notes = outline_about(wanted, [((0.0, 0.0), 4.85), ((100.0, 50.0), 4.85)], [], "mm")
    assert shape.box() == pytest.approx((-10.97, -10.97, 110.97, 60.97), abs=1e-9)
    assert [key for key, _ in notes] == ["plate.margin", "plate.corner_radius"]


def test_filleted_polygon_against_shapely_opening() -> None:
    """Rounding convex corners is an opening by a disc: shrink by r, then grow by r."""
    corners: list[Vec2] = [(0.0, 0.0), (90.0, -10.0), (110.0, 50.0), (40.0, 80.0), (-10.0, 40.0)]
    shape = filleted_polygon(corners, 8.0)
    reference = Polygon(corners).buffer(-8.0).buffer(8.0, 256)
    assert shape.area_mm2() == pytest.approx(reference.area, rel=1e-5)
    assert fine_polygon(shape).symmetric_difference(reference).area < 0.5


def test_concave_corners_are_rounded_too() -> None:
    """A corner that turns by t loses r² (tan(t/2) - t/2); a concave one gains it."""
    shape = filleted_polygon(EL, 5.0)
    change = 0.0
    for a, b, c in zip(EL[-1:] + EL[:-1], EL, EL[1:] + EL[:1], strict=True):
        cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        dot = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
        turn = abs(atan2(cross, dot))
        change += (1 if cross < 0 else -1) * 25 * (tan(turn / 2) - turn / 2)
    assert shape.area_mm2() == pytest.approx(Polygon(EL).area + change, rel=1e-12)
    assert shape.least_inside_radius() == pytest.approx(5.0)


def test_a_radius_too_large_for_its_sides_is_clipped_at_that_corner() -> None:
    shape = filleted_polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 10.0), (0.0, 10.0)], 30.0)
    assert shape.least_outside_radius() == pytest.approx(5.0)
    assert shape.box() == pytest.approx((0.0, 0.0, 100.0, 10.0))


def test_clockwise_points_and_points_in_line_give_the_same_polygon() -> None:
    square: list[Vec2] = [(0.0, 0.0), (50.0, 0.0), (50.0, 40.0), (0.0, 40.0)]
    again: list[Vec2] = [(0.0, 40.0), (50.0, 40.0), (50.0, 0.0), (20.0, 0.0), (0.0, 0.0), (0.0, 0.0)]
    one, other = filleted_polygon(square, 6.0), filleted_polygon(again, 6.0)
    assert other.area_mm2() == pytest.approx(one.area_mm2(), rel=1e-12)
    assert len(other.pieces) == len(one.pieces) == 8


def test_a_rectangle_with_a_radius_of_half_its_side_has_no_empty_lines() -> None:
    shape = rounded_rectangle((0.0, 0.0, 60.0, 20.0), 10.0)
    assert len(shape.pieces) == 6
    assert shape.area_mm2() == pytest.approx(40 * 20 + pi * 100)


@pytest.mark.parametrize(
    ("points", "why"),
    [
        (((0.0, 0.0), (50.0, 40.0), (50.0, 0.0), (0.0, 40.0)), "side 1 .* crosses side 3"),
        (((0.0, 0.0), (50.0, 0.0)), "three corners"),
        (((0.0, 0.0), (50.0, 0.0), (90.0, 0.0)), "encloses nothing"),
    ],
)
def test_polygons_that_enclose_no_plate(points: tuple[Vec2, ...], why: str) -> None:
    with pytest.raises(CannotLayOut, match=why):
        polygon_outline(plate(outline="polygon", points=points), "mm")


@pytest.mark.parametrize("off_mm", [0.0, 1e-6, 1e-4, 1e-3, 0.01, 0.1, 1.0])
def test_discs_nearly_on_one_line_leave_no_piece_too_short_to_cut(off_mm: float) -> None:
    """Three of four edge discs in a row, the middle one `off_mm` out: kink or arc, never a sliver."""
    discs: list[Disc] = [((0.0, 0.0), 6.0), ((75.0, -off_mm), 6.0), ((150.0, 0.0), 6.0), ((75.0, 80.0), 6.0)]
    outline = rounded_hull(discs)
    assert min(dist(piece.start, piece.end) for piece in outline.pieces) >= 0.05
    assert outline.least_outside_radius() == pytest.approx(6.0)
    for centre, radius in discs:
        assert outline.distance(centre) >= radius - 1e-3
