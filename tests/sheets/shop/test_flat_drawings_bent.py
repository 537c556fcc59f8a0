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
    for label, angle, direction, radius in (("B1", "90°", "up", "3"), ("B2", "60°", "down", "4")):
        places = [text for text in texts if text.text == label]
        assert len(places) == 2, "in the flat pattern and in the table"
        rows = [[t.text for t in texts if t.at[1] == place.at[1]] for place in places]
        assert any({angle, direction, radius} <= set(row) for row in rows)


def test_an_angle_that_is_not_square_is_dimensioned_on_edge() -> None:
    part, views = bent_part(*CASES["up and down"])
    (page,) = flat_drawing(part, views, ()).pages
    angles = [each for each in page.dimensions if each.kind == "angle"]
    assert [each.text for each in angles] == ["120°"]
    assert math.isclose(angles[0].value, math.radians(120), abs_tol=1e-6)


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
