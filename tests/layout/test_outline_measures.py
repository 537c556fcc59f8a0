"""Area, centroid, box, distance and inside of outlines: closed forms, and shapely (GEOS) on fine polygons."""

from __future__ import annotations

from math import cos, pi, radians, sin, sqrt

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from layout.shapes import KEYHOLE, SHAPES, fine_polygon
from shapely.geometry import Point

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.outline_field import inside_by
from clampwright.layout.outlines import rounded_rectangle
from clampwright.quantities import Vec2

POLYGONS = {name: fine_polygon(shape) for name, shape in SHAPES.items()}
POINTS = st.tuples(st.floats(-30.0, 130.0), st.floats(-40.0, 100.0))


def test_half_disc_textbook_centroid() -> None:
    """Half disc of radius r: area pi r²/2, centroid 4 r/(3 pi) from its diameter (any statics handbook)."""
    half = Outline((Line((-6.0, 0.0), (6.0, 0.0)), Arc((6.0, 0.0), (-6.0, 0.0), (0.0, 0.0), True)))
    assert half.area_mm2() == pytest.approx(pi * 36 / 2, rel=1e-12)
    assert half.centroid() == pytest.approx((0.0, 4 * 6 / (3 * pi)), abs=1e-12)
    assert half.box() == pytest.approx((-6.0, 0.0, 6.0, 6.0), abs=1e-12)


def test_quarter_fillet_taken_out_of_a_square() -> None:
    """A square of 10 less a quarter disc of 4 at one corner: the arc turns clockwise and takes away."""
    notched = Outline(
        (
            Line((4.0, 0.0), (10.0, 0.0)),
            Line((10.0, 0.0), (10.0, 10.0)),
            Line((10.0, 10.0), (0.0, 10.0)),
            Line((0.0, 10.0), (0.0, 4.0)),
            Arc((0.0, 4.0), (4.0, 0.0), (0.0, 0.0), False),
        )
    )
    cut, out = pi * 16 / 4, 4 * 4 / (3 * pi)
    assert notched.area_mm2() == pytest.approx(100 - cut, rel=1e-12)
    u = (100 * 5 - cut * out) / (100 - cut)
    assert notched.centroid() == pytest.approx((u, u), rel=1e-12)
    assert not notched.contains((2.0, 2.0))
    assert notched.contains((3.0, 3.0))
    assert notched.distance((0.0, 0.0)) == pytest.approx(4.0)
    assert notched.least_inside_radius() == pytest.approx(4.0)
    assert notched.least_outside_radius() == 0.0


def test_arc_of_more_than_half_a_turn() -> None:
    """Slot 4 wide, 20 deep, under a disc of radius sqrt(20): the circular segment of the disc is missing."""
    r = sqrt(20.0)
    half_angle = np.arcsin(2 / r)
    segment = r * r * (half_angle - sin(half_angle) * cos(half_angle))
    assert KEYHOLE.area_mm2() == pytest.approx(4 * 20 + pi * r * r - segment, rel=1e-12)
    assert KEYHOLE.contains((4.0, 4.0))
    assert not KEYHOLE.contains((4.0, -4.0))


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_area_centroid_and_box_against_shapely(name: str) -> None:
    shape, polygon = SHAPES[name], POLYGONS[name]
    assert shape.area_mm2() == pytest.approx(polygon.area, rel=1e-6)
    centre = polygon.centroid
    assert shape.centroid() == pytest.approx((centre.x, centre.y), abs=1e-4)
    assert shape.box() == pytest.approx(polygon.bounds, abs=1e-4)


@settings(deadline=None, max_examples=60)
@given(point=POINTS)
@pytest.mark.parametrize("name", sorted(SHAPES))
def test_distance_nearest_and_inside_against_shapely(name: str, point: Vec2) -> None:
    shape, polygon = SHAPES[name], POLYGONS[name]
    apart = polygon.exterior.distance(Point(point))
    assert shape.distance(point) == pytest.approx(apart, abs=2e-4)
    assert shape.distance(shape.nearest(point)) == pytest.approx(0.0, abs=1e-9)
    assume(apart > 1e-3)
    inside = polygon.contains(Point(point))
    assert shape.contains(point) is inside
    (signed,) = inside_by(shape, np.array([point])).tolist()
    assert signed == pytest.approx(shape.distance(point) * (1 if inside else -1), abs=1e-9)


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_places_level_with_corners_and_on_chords_are_told_right(name: str) -> None:
    """Rays through vertices and places on the chord of an arc are where winding rules go wrong."""
    shape, polygon = SHAPES[name], POLYGONS[name]
    levels = [p.start for p in shape.pieces]
    middles = [
        ((p.start[0] + p.end[0]) / 2, (p.start[1] + p.end[1]) / 2) for p in shape.pieces if isinstance(p, Arc)
    ]
    places = [(u, v) for u, _ in levels for _, v in levels] + middles
    checked = 0
    for place in places:
        if polygon.exterior.distance(Point(place)) > 1e-3:
            assert shape.contains(place) is polygon.contains(Point(place))
            assert bool(inside_by(shape, np.array([place]))[0] > 0) is shape.contains(place)
            checked += 1
    assert checked > 0 or name == "sharp rectangle"


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_every_piece_starts_where_the_last_one_ended(name: str) -> None:
    pieces = SHAPES[name].pieces
    assert all(one.end == two.start for one, two in zip(pieces, (*pieces[1:], pieces[0]), strict=True))
    assert all(piece.length_mm > 1e-6 for piece in pieces)


@pytest.mark.parametrize("name", sorted(SHAPES))
def test_moving_an_outline_moves_its_measures(name: str) -> None:
    shape = SHAPES[name]
    there = shape.moved((300.0, -70.0))
    assert there.area_mm2() == pytest.approx(shape.area_mm2(), rel=1e-10)
    u, v = shape.centroid()
    assert there.centroid() == pytest.approx((u + 300.0, v - 70.0), abs=1e-8)


def test_corner_radii() -> None:
    concave = SHAPES["concave"]
    assert concave.least_inside_radius() == pytest.approx(7.0)
    assert concave.least_outside_radius() == pytest.approx(7.0)
    rectangle = rounded_rectangle((0.0, 0.0, 50.0, 40.0), 6.0)
    assert rectangle.least_inside_radius() is None
    assert rectangle.least_outside_radius() == pytest.approx(6.0)
    assert KEYHOLE.least_inside_radius() == 0.0


def test_a_turned_sharp_polygon_has_sharp_corners() -> None:
    c, s = cos(radians(33)), sin(radians(33))
    corners = [(c * u - s * v, s * u + c * v) for u, v in ((0, 0), (9, 0), (9, 9), (4, 4), (0, 9))]
    sides = tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    assert Outline(sides).least_inside_radius() == 0.0
    assert Outline(sides).least_outside_radius() == 0.0
