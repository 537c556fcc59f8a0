"""Pictures: everything within the page, to one scale, the right way up."""

from __future__ import annotations

import math
from dataclasses import dataclass

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheets.page_geometry import outside

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Path, Pen, Text
from clampwright.sheets.picture import Strokes, picture, view_strokes

POINTS = st.lists(st.tuples(st.floats(-500, 500), st.floats(-500, 500)), min_size=2, max_size=20)


@dataclass
class Body:
    """Edges as a view gives them."""

    ink: str = "#123456"
    seen: tuple[tuple[Vec2, ...], ...] = (((0.0, 0.0), (4.0, 0.0), (4.0, 3.0)),)
    smooth: tuple[tuple[Vec2, ...], ...] = (((1.0, 0.0), (1.0, 3.0)),)
    hidden: tuple[tuple[Vec2, ...], ...] = (((2.0, 0.0), (2.0, 3.0)),)


@given(POINTS, st.floats(40.0, 200.0))
def test_all_of_it_is_on_the_page_to_one_scale(points: list[Vec2], width: float) -> None:
    page = picture("any", [Strokes((tuple(points),), Pen())], width, "a caption")
    assert page.width_mm == width
    assert outside(page, 3.9) == []
    path = page.items[0]
    assert isinstance(path, Path)
    spans = [math.dist(points[0], p) for p in points]
    drawn = [math.dist(path.points[0], p) for p in path.points]
    far = max(range(len(spans)), key=lambda n: spans[n])
    if spans[far] > 1.0:
        scale = drawn[far] / spans[far]
        assert drawn == pytest.approx([scale * s for s in spans], abs=1e-6)


def test_up_stays_up_and_right_stays_right() -> None:
    page = picture("corner", [Strokes((((0.0, 0.0), (4.0, 0.0), (4.0, 3.0)),), Pen())])
    path = page.items[0]
    assert isinstance(path, Path)
    a, b, c = path.points
    assert b[0] > a[0]
    assert b[1] == a[1]
    assert c[1] > b[1]


def test_hidden_edges_are_thin_dashed_and_below() -> None:
    strokes = view_strokes([Body(), Body(ink="#654321")])
    assert [bool(s.pen.dash_mm) for s in strokes] == [True, True, False, False, False, False]
    assert strokes[0].pen.width_mm < strokes[-1].pen.width_mm
    assert {s.pen.colour for s in strokes} == {"#123456", "#654321"}
    assert {s.pen.colour for s in view_strokes([Body()], "#000000")} == {"#000000"}


def test_a_view_without_hidden_edges_has_none() -> None:
    assert all(not s.pen.dash_mm for s in view_strokes([Body(hidden=())]))


def test_nothing_to_draw_is_refused() -> None:
    with pytest.raises(ValueError, match="nothing to draw"):
        picture("empty", [])


def test_a_caption_is_under_the_drawing() -> None:
    page = picture("body", view_strokes([Body()]), caption="the part from above")
    (text,) = (item for item in page.items if isinstance(item, Text))
    lowest = min(y for item in page.items if isinstance(item, Path) for _, y in item.points)
    assert text.at[1] + text.size_mm < lowest


def test_views_of_solids_fit_in() -> None:
    """The hidden-line views of `solids` have the edges that a picture asks for."""
    from clampwright.solids import views

    drawn = views.Drawn("plate", "plate", "#55769a", (((0.0, 0.0), (10.0, 0.0)),), (), ())
    assert picture("plate", view_strokes([drawn])).items
