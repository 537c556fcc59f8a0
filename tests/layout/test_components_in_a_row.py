"""Components that the recipe gives no place: the middle first, then a row, and never one on another."""

from __future__ import annotations

from itertools import combinations
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.plate_recipes import component
from shapely.geometry import Polygon

from clampwright.layout.components import SetComponent, extent, placed, set_components
from clampwright.trade.tables import rule


def test_the_first_stands_in_the_middle_and_the_next_beside_it() -> None:
    """Bodies of 60 and 30 with 10 between: 30 + 10 + 15 = 55 from the middle; the third goes to the left."""
    row = [
        component(body=(60.0, 40.0, 1.0)),
        component(body=(30.0, 20.0, 1.0)),
        component(body=(20.0, 20.0, 1.0)),
    ]
    assert [item.at for item in set_components(row, 0.0)] == [(0.0, 0.0), (55.0, 0.0), (-50.0, 0.0)]


def test_a_given_place_in_the_middle_is_left_free() -> None:
    row = [component(body=(20.0, 20.0, 1.0)), component(where=(5.0, 0.0), body=(60.0, 40.0, 1.0))]
    assert [item.at for item in set_components(row, 0.0)] == [(-45.0, 0.0), (5.0, 0.0)]


def test_a_given_place_out_of_the_way_leaves_the_middle_to_the_first() -> None:
    row = [component(body=(20.0, 20.0, 1.0)), component(where=(0.0, 200.0), body=(60.0, 40.0, 1.0))]
    assert set_components(row, 0.0)[0].at == (0.0, 0.0)


def test_a_quarter_turn_swaps_length_and_width_in_the_row() -> None:
    row = [component(body=(60.0, 40.0, 1.0)), component(body=(30.0, 80.0, 1.0), turn_rad=pi / 2)]
    assert set_components(row, 0.0)[1].at == pytest.approx((30.0 + 10.0 + 40.0, 0.0))


def test_a_component_without_a_body_takes_the_room_of_its_holes() -> None:
    row = [component(body=None, holes=((-12.0, 0.0), (8.0, 0.0))), component(body=(20.0, 10.0, 1.0))]
    assert set_components(row, 0.0)[1].at == pytest.approx((8.0 + 10.0 + 10.0, 0.0))


def test_places_are_rounded_from_the_datum() -> None:
    (item,) = set_components([component(where=(10.3, -4.9))], 0.5, (0.2, 0.1))
    assert item.at == pytest.approx((10.2, -4.9))


BODIES = st.tuples(st.floats(10.0, 80.0), st.floats(10.0, 80.0), st.just(10.0))


@settings(deadline=None, max_examples=50)
@given(
    bodies=st.lists(BODIES, min_size=2, max_size=5),
    turns=st.lists(st.floats(0.0, 6.0), min_size=5, max_size=5),
    increment=st.sampled_from([0.0, 0.5]),
)
def test_no_two_of_a_row_come_nearer_than_the_gap(
    bodies: list[tuple[float, float, float]], turns: list[float], increment: float
) -> None:
    row = [component(body=b, turn_rad=t) for b, t in zip(bodies, turns, strict=False)]
    shapes = [Polygon(item.corners) for item in set_components(row, increment)]
    for one, other in combinations(shapes, 2):
        assert one.distance(other) >= rule("component-gap").value - 1e-6


def test_extent_of_nothing() -> None:
    assert extent([SetComponent(component(body=None), (3.0, 4.0))]) is None
    assert placed((1.0, 0.0), (0.0, 0.0), pi) == pytest.approx((-1.0, 0.0))
