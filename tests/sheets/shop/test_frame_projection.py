"""First and third angle: ISO 5456-2 (from memory), and what the words mean on real solids."""

from __future__ import annotations

import math

import cadquery as cq
import pytest

from clampwright.sheets.drawing import Box, Circle, Path, Pen
from clampwright.sheets.shop.arrangement import arranged, standard_scales
from clampwright.sheets.shop.projection_symbol import projection_symbol, symbol_size
from clampwright.solids.place import Place
from clampwright.solids.shapes import fuse, polygon, prism
from clampwright.solids.shop_views import section_of, views_of
from clampwright.solids.view_lines import ViewArc

ANGLES = ("third", "first")
BASE = prism(polygon([(0, 0), (60, 0), (60, 40), (0, 40)]), [], 3.0)
WALL = prism(polygon([(0, 0), (3, 0), (3, 40), (0, 40)]), [], 30.0)
ANGLE = fuse(BASE, [WALL])
"""An L whose wall stands along the left edge of the front view, towards its eye."""
NAMES = ("front", "top", "right", "left", "bottom", "back")


def boxes(angle: str, scale: float = 1.0) -> dict[str, Box]:
    """Where each view of the L stands."""
    placed = arranged(views_of(ANGLE, NAMES), angle, 20.0, scale)
    return {p.view.name: p.box() for p in placed}


@pytest.mark.parametrize("angle", ANGLES)
def test_the_end_view_stands_where_the_angle_says(angle: str) -> None:
    """Third angle: on the side that it is looked at from. First angle: on the far side."""
    at = boxes(angle)
    front, sign = at["front"], 1 if angle == "third" else -1
    for name, axis, way in (("right", 0, 1), ("left", 0, -1), ("top", 1, 1), ("bottom", 1, -1)):
        middle = (at[name][axis] + at[name][axis + 2]) / 2 - (front[axis] + front[axis + 2]) / 2
        assert math.copysign(1, middle) == sign * way, name


@pytest.mark.parametrize("angle", ANGLES)
def test_views_stand_in_line_and_apart(angle: str) -> None:
    at = boxes(angle, 0.5)
    for name in ("right", "left", "back"):
        assert at[name][1::2] == pytest.approx(at["front"][1::2])
    for name in ("top", "bottom"):
        assert at[name][0::2] == pytest.approx(at["front"][0::2])
    pairs = [(a, b) for n, a in enumerate(NAMES) for b in NAMES[n + 1 :]]
    for a, b in pairs:
        p, q = at[a], at[b]
        gaps = (p[0] - q[2], q[0] - p[2], p[1] - q[3], q[1] - p[3])
        assert max(gaps) >= 20.0 - 1e-9, (a, b)


def test_a_feature_lies_next_to_itself_in_the_third_angle_and_away_in_the_first() -> None:
    """The eye of the front view sees the wall's free rim nearest. In the left view that rim is 30 mm from the
    base's back; in the third angle it is on the side of the front view, in the first on the side away."""
    for angle, beside in (("third", True), ("first", False)):
        (_, left) = arranged(views_of(ANGLE, ["front", "left"]), angle, 20.0)
        rim = left.at[0] + left.view.point((0.0, 20.0, 30.0))[0]
        back = left.at[0] + left.view.point((0.0, 20.0, 0.0))[0]
        middle = 30.0
        assert (abs(rim - middle) < abs(back - middle)) == beside


@pytest.mark.parametrize("angle", ANGLES)
def test_the_symbol_is_the_drawing_of_a_cone(angle: str) -> None:
    """A real cone lying with its thin end on the left, and its view from the left: the symbol shows the same
    shapes on the same sides."""
    cone = cq.Solid.makeCone(1.0, 2.0, 4.0, cq.Vector(0, 0, 0), cq.Vector(1, 0, 0))
    front, left = arranged(views_of(cone, ["front", "left"]), angle, 2.0)
    symbol = projection_symbol(angle, (100.0, 50.0), 2.0, Pen(0.25), Pen(0.13))
    circles = [item for item in symbol if isinstance(item, Circle)]
    (outline,) = (item for item in symbol if isinstance(item, Path) and item.closed)
    assert sorted(c.radius for c in circles) == [1.0, 2.0]
    seen = sorted(round(edge.radius, 9) for edge in left.view.seen if isinstance(edge, ViewArc))
    assert seen == [1.0, 2.0]
    assert left.view.hidden == ()
    middle = sum(x for x, _ in outline.points) / 4
    real = (left.box()[0] + left.box()[2]) / 2 - (front.box()[0] + front.box()[2]) / 2
    assert circles[0].centre[0] - middle == pytest.approx(real)
    assert circles[0].centre[0] < middle if angle == "third" else circles[0].centre[0] > middle
    corners = {(round(x - middle, 9), round(y - 50.0, 9)) for x, y in outline.points}
    assert corners == {(-2.0, 1.0), (-2.0, -1.0), (2.0, 2.0), (2.0, -2.0)}


@pytest.mark.parametrize("angle", ANGLES)
def test_the_symbol_keeps_to_its_size(angle: str) -> None:
    wide, high = symbol_size(2.0)
    points = [
        p
        for i in projection_symbol(angle, (0, 0), 2.0, Pen(), Pen())
        if isinstance(i, Path)
        for p in i.points
    ]
    assert max(abs(x) for x, _ in points) == pytest.approx(wide / 2)
    assert max(abs(y) for _, y in points) == pytest.approx(high / 2)


def test_a_section_follows_on_the_right() -> None:
    at = Place((0.0, 20.0, 0.0), (1.0, 0.0, 0.0), (0.0, -1.0, 0.0))
    views = (*views_of(ANGLE, ["front", "right"]), section_of(ANGLE, at))
    for angle in ANGLES:
        front, right, section = arranged(views, angle, 15.0)
        assert section.box()[0] == pytest.approx(max(front.box()[2], right.box()[2]) + 15.0)
        assert section.at[1] == 0.0


def test_scales_of_iso_5455() -> None:
    """From memory: 1, 2 and 5 times powers of ten. On inch drawings halves, quarters and so on."""
    iso, inch = standard_scales("iso"), standard_scales("ansi")
    assert [words for _, words in iso] == ["5:1", "2:1", "1:1", "1:2", "1:5", "1:10", "1:20", "1:50"]
    for scale, words in (*iso, *inch):
        paper, part = words.split(":")
        assert scale == int(paper) / int(part)
    assert all(math.log2(scale).is_integer() for scale, _ in inch)
    assert [s for s, _ in inch] == sorted((s for s, _ in inch), reverse=True)
