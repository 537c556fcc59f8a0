"""Drawings of bent parts: flat pattern and folded views, bend table; nothing touches, all sizes are true."""

from __future__ import annotations

import math
from itertools import product

import pytest
from sheets.shop.bent_parts import Flange, bent_part
from sheets.shop.collisions_on_page import collisions
from sheets.shop.dimensions_true import untrue
from sheets.shop.holes_said import holes_said_once
from sheets.shop.told_parts import PROJECTIONS

from clampwright.sheets.drawing import Box, Text
from clampwright.sheets.shop.dimensioning.strokes import extent
from clampwright.sheets.shop.dimensioning.style import style_of
from clampwright.sheets.shop.drawn_view import DrawnView
from clampwright.sheets.shop.flat_drawing import flat_drawing
from clampwright.sheets.shop.flat_views import drawn_views
from clampwright.sheets.shop.sizes import drawing_sheet

UP = Flange(math.pi / 2, "up", 3.0, 25.0)
CASES = {
    "one up": (120.0, 60.0, 1.6, UP, None),
    "one down": (120.0, 60.0, 1.6, Flange(math.pi / 2, "down", 3.0, 25.0), None),
    "up and down": (150.0, 70.0, 2.0, UP, Flange(math.radians(60), "down", 4.0, 20.0)),
    "both up": (80.0, 200.0, 2.29, UP, Flange(math.pi / 2, "up", 3.2, 12.0)),
}


@pytest.mark.parametrize("name", CASES)
def test_nothing_touches_and_all_sizes_are_true(name: str) -> None:
    for (units, standard), projection in product((("mm", "iso"), ("in", "ansi")), PROJECTIONS):
        part, views = bent_part(*CASES[name], units, standard, projection)
        sheet = flat_drawing(part, views, ())
        for page in sheet.pages:
            assert collisions(page) == [], (units, projection)
            assert untrue(page, units) == [], (units, projection)
        assert holes_said_once(part, sheet) == []


@pytest.mark.parametrize("name", CASES)
def test_developed_and_folded_sizes_are_said(name: str) -> None:
    """By hand: developed height = flats + allowances; folded = base + what each bend and flange adds."""
    width, base, t, top, bottom = CASES[name]
    part, views = bent_part(*CASES[name])
    (page,) = flat_drawing(part, views, ()).pages
    said = [each.value for each in page.dimensions]
    flanges = [top] if bottom is None else [top, bottom]
    developed = base + sum(each.flat + each.angle * (each.radius + 0.44 * t) for each in flanges)
    heights = [
        (each.radius + t) * math.sin(each.angle) + each.flat * math.cos(each.angle) for each in flanges
    ]
    for size in (width, developed, base + sum(heights), t):
        assert sum(abs(value - size) < 1e-4 for value in said) == 1, size


def test_every_bend_stands_in_the_table_with_angle_direction_and_inside_radius() -> None:
    part, views = bent_part(*CASES["up and down"])
    (page,) = flat_drawing(part, views, ()).pages
    texts = [item for item in page.items if isinstance(item, Text)]
    for label, angles, direction, radius in (
        ("B1", {"90°"}, "up", "3"),
        ("B2", {"60°", "120°"}, "down", "4"),
    ):
        places = [text for text in texts if text.text == label]
        assert len(places) == 2, "in the flat pattern and in the table"
        rows = [[t.text for t in texts if t.at[1] == place.at[1]] for place in places]
        assert any(angles | {direction, radius} <= set(row) for row in rows)


def test_an_angle_that_is_not_square_is_dimensioned_on_edge() -> None:
    part, views = bent_part(*CASES["up and down"])
    (page,) = flat_drawing(part, views, ()).pages
    angles = [each for each in page.dimensions if each.kind == "angle"]
    assert [each.text for each in angles] == ["120° included"]
    assert math.isclose(angles[0].value, math.radians(120), abs_tol=1e-6)


def outside(flange: Flange, t: float) -> float:
    """From the outside mould line to the edge: the outer faces are tangent to the radius r + t."""
    return flange.flat + (flange.radius + t) * math.tan(flange.angle / 2)


LEGS = [
    (size, angle, direction, radius)
    for size in (20.0, 25.0)
    for angle in (90.0, 60.0)
    for direction in ("up", "down")
    for radius in (3.0,)
]


@pytest.mark.parametrize("upper", LEGS)
def test_every_leg_is_said_from_its_outside_mould_line_to_its_edge(
    upper: tuple[float, float, str, float],
) -> None:
    """Two flanges, 20 and 25 outside: by hand, the flat is the leg less (r + t) tan(angle / 2)."""
    t, r = 2.0, 4.0
    size, degrees, direction, radius = upper
    angle = math.radians(degrees)
    top = Flange(angle, direction, radius, size - (radius + t) * math.tan(angle / 2))
    other = 45.0 - size
    low = Flange(math.radians(60), "down", r, other - (r + t) * math.tan(math.radians(30)))
    part, views = bent_part(90.0, 60.0, t, top, low)
    sheet = flat_drawing(part, views, ())
    legs = [each for page in sheet.pages for each in page.dimensions if each.text in ("20", "25")]
    assert {each.text: each.value for each in legs} == pytest.approx({"20": 20.0, "25": 25.0}, abs=1e-6)
    for each, turn in zip(
        sorted(legs, key=lambda d: abs(d.value - size) > 1.0), (degrees, 60.0), strict=True
    ):
        (ax, ay), (bx, by) = each.points
        found = math.pi / 2 if each.kind == "horizontal" else math.atan2(abs(bx - ax), abs(by - ay))
        assert math.isclose(found, math.radians(turn), abs_tol=1e-6)
    for page in sheet.pages:
        assert collisions(page) == []
        assert untrue(page, "mm") == []


def test_swapped_legs_make_another_drawing() -> None:
    """A flange of 20 at the top and 25 at the foot, and the other way round: the words change places."""
    t, up = 2.0, math.pi / 2
    tops = []
    for first, second in ((20.0, 25.0), (25.0, 20.0)):
        flanges = (Flange(up, "up", 3.0, size - 5.0) for size in (first, second))
        assert [outside(Flange(up, "up", 3.0, size - 5.0), t) for size in (first, second)] == [first, second]
        part, views = bent_part(90.0, 60.0, t, *flanges)
        (page, *_) = flat_drawing(part, views, ()).pages
        legs = {each.text: each.points[0][1] for each in page.dimensions if each.text in ("20", "25")}
        tops.append(legs["20"] > legs["25"])
    assert tops == [True, False]


def test_views_stand_apart() -> None:
    part, views = bent_part(*CASES["up and down"])
    sheet = drawing_sheet("A2")
    for projection in PROJECTIONS:
        part, views = bent_part(*CASES["up and down"], projection=projection)
        drawn = drawn_views(part, views, sheet, style_of("mm", part.shop, sheet), 1.0, "table")
        boxes = [without_caption(view) for view in drawn]
        assert len(boxes) == 4
        for n, (a, b, c, d) in enumerate(boxes):
            for e, f, g, h in boxes[n + 1 :]:
                assert c < e or g < a or d < f or h < b


def without_caption(view: DrawnView) -> Box:
    """The box round a view and its dimensions; its caption stands under the whole group."""
    items = [i for i in view.items if not (isinstance(i, Text) and i.text in ("BENT", "FLAT PATTERN"))]
    return extent((*items, *(stroke for each in view.dimensions for stroke in each.strokes)))
