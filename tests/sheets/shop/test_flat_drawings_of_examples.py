"""Drawings of the flat parts of every example: nothing touches, sizes are true, every hole is said once."""

from __future__ import annotations

from itertools import product

import pytest
from sheets.shop.collisions_on_page import collisions
from sheets.shop.dimensions_true import untrue
from sheets.shop.holes_said import holes_said_once
from sheets.shop.told_parts import PROJECTIONS, STANDARDS, UNITS, checked_plates, told

from clampwright.sheets.drawing import Text
from clampwright.sheets.shop.block import DO_NOT_MAKE
from clampwright.sheets.shop.flat_drawing import flat_drawing
from clampwright.solids.plate import plate
from clampwright.solids.shop_views import views_of

EXAMPLES = sorted(checked_plates())


def test_the_examples_have_flat_parts() -> None:
    assert len(EXAMPLES) >= 4


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_touches_in_any_units_sheets_or_projection(name: str) -> None:
    checked = checked_plates()[name]
    views = views_of(plate(checked.layout), ("front", "right", "top"))
    for units, standard, projection in product(UNITS, STANDARDS, PROJECTIONS):
        part = told(name, units, standard, projection)
        sheet = flat_drawing(part, views, checked.findings)
        for page in sheet.pages:
            assert collisions(page) == [], (units, standard, projection)
            assert untrue(page, units) == [], (units, standard, projection)
        assert holes_said_once(part, sheet) == []


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_overall_size_the_thickness_and_the_radii_are_said_once(name: str) -> None:
    part = told(name)
    page = flat_drawing(part, (), ()).pages[0]
    said = sorted(round(each.value, 6) for each in page.dimensions)
    x0, y0, x1, y1 = part.outline.box()
    radius = part.outline.least_outside_radius()
    assert said == sorted(round(value, 6) for value in (x1 - x0, y1 - y0, part.thickness_mm, radius or 0.0))
    assert any(each.text.startswith("4x R") for each in page.dimensions)


def test_a_failing_plate_says_do_not_make_on_every_page_and_a_passing_one_does_not() -> None:
    failing, sound = "coil-plate-too-narrow", "two-tube-minimum"
    for name, expected in ((failing, True), (sound, False)):
        sheet = flat_drawing(told(name), (), checked_plates()[name].findings)
        for page in sheet.pages:
            words = [item.text for item in page.drawn() if isinstance(item, Text)]
            assert (DO_NOT_MAKE in words) is expected


def test_transferred_holes_are_piloted_only_and_the_reason_for_a_limit_is_given() -> None:
    part = told("coil-plate")
    (page,) = flat_drawing(part, (), ()).pages
    words = " ".join(item.text for item in page.items if isinstance(item, Text))
    assert any(hole.transferred for hole in part.holes)
    assert "pilot #40 only" in words
    assert "so that AN3 passes" in words
