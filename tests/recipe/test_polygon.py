"""Polygons that cross themselves, against shapes whose answer is known by how they were made."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.recipe.polygon import crossing_sides, on_a_line, repeated_corner, signed_area_mm2

RADII = st.lists(st.floats(1, 100), min_size=3, max_size=20)
Point = tuple[float, float]


def star(radii: list[float]) -> list[Point]:
    """Corners in order of angle round a point inside: such a polygon never crosses itself."""
    step = 2 * math.pi / len(radii)
    return [(r * math.cos(i * step), r * math.sin(i * step)) for i, r in enumerate(radii)]


@settings(deadline=None, max_examples=100)
@given(RADII, st.booleans())
def test_a_star_shaped_polygon_does_not_cross_itself(radii: list[float], backwards: bool) -> None:
    points = star(radii)
    assert crossing_sides(points[::-1] if backwards else points) is None


@settings(deadline=None, max_examples=100)
@given(st.integers(4, 20), st.data())
def test_a_convex_polygon_with_two_neighbours_swapped_does(corners: int, data: st.DataObject) -> None:
    points = star([50.0] * corners)
    at = data.draw(st.integers(0, corners - 2))
    points[at], points[at + 1] = points[at + 1], points[at]
    assert crossing_sides(points) is not None


@settings(deadline=None, max_examples=60)
@given(RADII)
def test_area_is_the_sum_of_its_triangles(radii: list[float]) -> None:
    step = 2 * math.pi / len(radii)
    pairs = zip(radii, radii[1:] + radii[:1], strict=True)
    assert signed_area_mm2(star(radii)) == pytest.approx(sum(a * b * math.sin(step) / 2 for a, b in pairs))


@pytest.mark.parametrize(
    ("points", "crosses"),
    [
        ([(0, 0), (10, 0), (10, 10), (5, 0), (0, 10)], True),
        ([(0, 0), (10, 0), (5, 0), (5, 5)], True),
        ([(0, 0), (10, 0), (20, 0), (20, 10), (0, 10)], False),
        ([(0, 0), (20, 0), (20, 20), (10, 5), (0, 20)], False),
    ],
    ids=["a corner on a side", "folded back", "a corner on a straight side", "a deep notch"],
)
def test_by_hand(points: list[Point], crosses: bool) -> None:
    assert (crossing_sides(points) is not None) is crosses


def test_a_repeated_last_corner_is_the_first() -> None:
    square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
    assert repeated_corner(square, 1.0) is None
    assert repeated_corner([*square, (0.0, 0.5)], 1.0) == 0
    assert not on_a_line(square, 1.0)
