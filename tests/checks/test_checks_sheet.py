"""The blank: stock gauges (from memory), corners (assumed), waterjet's least radius (practice)."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import pytest
from checks.example_plate import LAYOUT, LONG, WIDE, rectangle, with_plate
from checks.findings_of import of

from clampwright.checks.sheet import inside_corners, outside_corners, stock_gauge, within_sheet
from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import PlateLayout


def notched(radius):
    """An L of 100 x 100 whose inside corner near (50, 50) has a radius; the other corners are sharp."""
    up, right, middle = (50.0, 50.0 + radius), (50.0 + radius, 50.0), (50.0 + radius, 50.0 + radius)
    points = [up, (50.0, 100.0), (0.0, 100.0), (0.0, 0.0), (100.0, 0.0), (100.0, 50.0), right]
    lines = [Line(a, b) for a, b in pairwise(points)]
    corner = [Arc(right, up, middle, False)] if radius else []
    return replace(LAYOUT, outline=Outline((*lines, *corner)))


@pytest.mark.parametrize(
    ("sheet", "verdict"),
    [
        ((230.0, 190.4), "pass"),
        ((190.4, 230.0), "pass"),
        ((229.9, 609.6), "pass"),
        ((229.9, 229.9), "fail"),
        ((609.6, 190.3), "fail"),
        (None, "pass"),
    ],
)
def test_blank_on_the_sheet(sheet, verdict):
    """224 x 184.376 and 3 mm all round: 230 x 190.376, either way round."""
    (found,) = within_sheet(with_plate(sheet_mm=sheet))
    assert found.verdict == verdict


@pytest.mark.parametrize(
    ("long", "wide", "verdict", "value"),
    [
        (1213.2, 603.6, "pass", 0.0),  # and 6 mm of cut: 2 x 4 ft exactly, 609.6 x 1219.2
        (1213.2, 604.6, "caution", 1.0),
        (3651.6, 1213.2, "caution", 2438.4),  # 4 x 12 ft exactly, 1219.2 x 3657.6
        (3661.6, 1213.2, "fail", 10.0),
    ],
)
def test_where_no_sheet_is_named_the_usual_and_the_largest_stand_in(long, wide, verdict, value):
    """2 x 4 ft over the counter, 4 x 12 ft the largest: common practice, no source."""
    bare = with_plate(sheet_mm=None)
    (found,) = within_sheet(replace(bare, outline=rectangle(long, wide)))
    assert (found.verdict, found.value) == (verdict, pytest.approx(value, abs=1e-6))
    if verdict == "fail":
        assert "10.00 mm smaller" in found.change
    elif verdict == "caution":
        assert f"at least {long + 6:.2f} mm by {wide + 6:.2f} mm" in found.change


def test_a_small_sheet_is_told_what_is_needed():
    (found,) = within_sheet(with_plate(sheet_mm=(200.0, 200.0)))
    assert found.change.startswith("Take a sheet of at least 230.00 mm by 190.38 mm")
    assert found.value == pytest.approx(30.0)


@pytest.mark.parametrize(
    ("inch", "verdict"), [(0.09, "pass"), (0.063, "pass"), (0.125, "pass"), (0.095, "caution")]
)
def test_stock_gauges(inch, verdict):
    (found,) = stock_gauge(replace(LAYOUT, thickness_mm=inch * 25.4))
    assert found.verdict == verdict


def test_the_next_gauges_are_named():
    (found,) = stock_gauge(replace(LAYOUT, thickness_mm=2.4))
    assert found.change in ("Take 2.31 mm or 2.54 mm.", "Take 2.29 mm or 2.54 mm.")


@pytest.mark.parametrize(
    ("radius", "verdict"),
    [(6.0, "pass"), (3.175, "pass"), (3.1, "caution"), (0.0, "caution")],
)
def test_outside_corners(radius, verdict):
    (found,) = outside_corners(replace(LAYOUT, outline=rectangle(radius=radius)))
    assert (found.verdict, found.value) == (verdict, pytest.approx(radius))


@pytest.mark.parametrize(
    ("radius", "verdict"),
    [(4.0, "pass"), (1.0, "caution"), (0.5, "fail"), (0.0, "fail")],
)
def test_inside_corners(radius, verdict):
    """3.175 mm against cracks (assumed), 0.8 mm for a waterjet (practice)."""
    (found,) = inside_corners(notched(radius))
    assert (found.verdict, found.value) == (verdict, pytest.approx(radius))


def test_a_rectangle_has_no_inside_corner(layout: PlateLayout):
    assert inside_corners(layout) == ()
    assert of(within_sheet(layout), "plate").verdict == "pass"
    assert layout.outline.area_mm2() == pytest.approx(LONG * WIDE - (4 - math.pi) * 36.0)
