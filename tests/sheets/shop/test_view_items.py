"""A view on the page: where it lies, its pens, its hatching, its centre lines."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon
from sheets.page_geometry import extremes

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Item, Path
from clampwright.sheets.shop.hatching import hatched
from clampwright.sheets.shop.sizes import drawing_sheet
from clampwright.sheets.shop.view_items import (
    axis_items,
    centre_pen,
    hidden_pen,
    outline_pen,
    thin_pen,
    view_items,
)
from clampwright.solids.bushing import bushing_shape
from clampwright.solids.place import Place
from clampwright.solids.shapes import cut, polygon, prism
from clampwright.solids.shop_views import bore_section, views_of
from clampwright.solids.view_lines import ViewArc, ViewLines

SHEET = drawing_sheet("A3")
BLOCK = prism(polygon([(0, 0), (50, 0), (50, 30), (0, 30)]), [((40, 15), 12)], 10.0)
ROOM = prism(polygon([(0, 0), (20, 0), (20, 10), (0, 10)]), [], 6.0, Place((5.0, 10.0, 4.0)))
POCKET = cut(BLOCK, [ROOM])


def drawn(view: ViewLines, scale: float = 2.0, at: Vec2 = (100.0, 80.0)) -> tuple[Item, ...]:
    """The view on the page."""
    return view_items(view, scale, at, SHEET)


def dashed(items: tuple[Item, ...]) -> list[Path]:
    """Hidden lines: dashes of one kind."""
    return [i for i in items if isinstance(i, Path) and i.pen is not None and len(i.pen.dash_mm) == 2]


def test_iso_128_widths_and_dashes() -> None:
    """ISO 128-2 (from memory): wide to narrow 2:1; dash 12 d, gap 3 d, long dash 24 d, dot half a d."""
    wide, thin = outline_pen(SHEET), thin_pen(SHEET)
    assert (wide.width_mm, thin.width_mm) == (0.5, 0.25)
    d = thin.width_mm
    assert hidden_pen(SHEET).dash_mm == (12 * d, 3 * d)
    assert centre_pen(SHEET).dash_mm == (24 * d, 3 * d, d / 2, 3 * d)


def test_outlines_lie_at_their_scale_and_place() -> None:
    (front,) = views_of(POCKET, ["front"])
    wide = [i for i in drawn(front) if not isinstance(i, ArcPath) and i.pen == outline_pen(SHEET)]
    xs, ys = zip(*(p for item in wide for p in extremes(item)), strict=True)
    assert (min(xs), min(ys), max(xs), max(ys)) == pytest.approx((100, 80, 200, 140))
    (hole,) = (i for i in wide if isinstance(i, Circle))
    assert (hole.centre, hole.radius) == (pytest.approx((180, 110)), pytest.approx(12))


def test_hidden_lines_of_a_pocket_are_dashed() -> None:
    (top,) = views_of(POCKET, ["top"])
    lines = dashed(drawn(top))
    found = sorted(tuple(sorted((round(x, 6), round(y, 6)) for x, y in line.points)) for line in lines)
    assert found == [
        ((110.0, 60.0), (110.0, 72.0)),
        ((110.0, 72.0), (150.0, 72.0)),
        ((150.0, 60.0), (150.0, 72.0)),
        ((168.0, 60.0), (168.0, 80.0)),
        ((192.0, 60.0), (192.0, 80.0)),
    ]


@pytest.mark.parametrize("long", [0.8, 1.6, 3.0, 3.175, 6.0, 20.0, 61.7])
def test_a_hidden_line_of_any_length_looks_dashed_and_ends_in_dashes(long: float) -> None:
    view = ViewLines("front", Place(), (), (((0.0, 0.0), (long, 0.0)),))
    (line,) = dashed(view_items(view, 1.0, (0.0, 0.0), SHEET))
    assert line.pen is not None
    dash, gap = line.pen.dash_mm
    count = math.ceil((long + 1e-9) / (dash + gap))
    last = long - (count - 1) * (dash + gap)
    assert count >= 2
    assert dash >= 2 * last / 3 > 0
    assert last == pytest.approx(dash, abs=0.02 * count + 0.01)
    assert gap > 0.1
    assert dash < 6.0


def test_centre_lines_cross_in_every_circle_and_in_no_arc() -> None:
    arcs = (ViewArc((10, 10), 4.0, 0, 360), ViewArc((10, 10), 6.0, 0, 360), ViewArc((40, 10), 5.0, 0, 90))
    items = view_items(ViewLines("front", Place(), arcs, ()), 1.0, (0.0, 0.0), SHEET)
    lines = [i for i in items if isinstance(i, Path)]
    points = [p for line in lines for p in line.points]
    assert max(math.dist(p, (10, 10)) for p in points) == pytest.approx(6.0 + 2.5)
    assert {p for p in points if math.dist(p, (10, 10)) < 1e-9} == {(10.0, 10.0)}
    assert len(lines) == 4
    assert {line.pen for line in lines} == {centre_pen(SHEET)}
    small = view_items(ViewLines("front", Place(), arcs[:1], ()), 0.5, (0.0, 0.0), SHEET)
    assert [i.pen for i in small if isinstance(i, Path)] == [thin_pen(SHEET)] * 2


def test_a_long_axis_has_a_dash_in_its_middle() -> None:
    a, b = axis_items(((0.0, 0.0), (30.0, 0.0)), 2.0, (10.0, 20.0), SHEET)
    assert isinstance(a, Path)
    assert isinstance(b, Path)
    assert a.points[0] == b.points[0] == (40.0, 20.0)
    assert sorted((a.points[1][0], b.points[1][0])) == [7.5, 72.5]


RINGS = st.builds(
    lambda r, hole, n, turn: (_round(r, n, turn), _round(r * hole, n, turn)),
    st.floats(5, 40),
    st.floats(0.1, 0.8),
    st.integers(3, 40),
    st.floats(0, 6),
)


def _round(radius: float, count: int, turn: float) -> list[Vec2]:
    """A regular polygon."""
    angles = [turn + 2 * math.pi * k / count for k in range(count)]
    return [(radius * math.cos(a), radius * math.sin(a)) for a in angles]


@settings(deadline=None, max_examples=40)
@given(RINGS, st.floats(0.8, 4.0))
def test_hatching_against_shapely(rings: tuple[list[Vec2], list[Vec2]], apart: float) -> None:
    """Every line of the family, cut by shapely with the face, is as long as what is drawn."""
    outer, hole = rings
    face = Polygon(outer, [hole])
    lines = hatched(rings, apart)
    for a, b in lines:
        assert b[0] - a[0] == pytest.approx(b[1] - a[1], abs=1e-9)
        assert face.buffer(1e-6).covers(LineString([a, b]))
    steps = range(-100, 101)
    root = math.sqrt(2)
    family = [LineString([(-99 - n * apart * root, -99), (99 - n * apart * root, 99)]) for n in steps]
    wanted = math.fsum(face.intersection(line).length for line in family)
    assert math.fsum(math.dist(a, b) for a, b in lines) == pytest.approx(wanted, rel=1e-6, abs=1e-3)


def test_both_walls_of_a_bushing_are_hatched_and_its_bore_is_not() -> None:
    view = bore_section(bushing_shape(30.0, 12.0, 5.0, 0.5))
    items = view_items(view, 2.0, (100.0, 80.0), SHEET, (((0.0, 0.0), (30.0, 0.0)),))
    slanted = [i for i in items if isinstance(i, Path) and i.pen == thin_pen(SHEET)]
    assert len(slanted) > 30
    for line in slanted:
        (ax, ay), (bx, by) = line.points
        assert bx - ax == pytest.approx(by - ay)
        assert all(5.0 - 1e-9 <= abs(y - 80.0) <= 12.0 + 1e-9 for y in (ay, by))
        assert (ay > 80) == (by > 80)
    axis = [i for i in items if isinstance(i, Path) and i.pen == centre_pen(SHEET)]
    assert {p[1] for line in axis for p in line.points} == {80.0}
