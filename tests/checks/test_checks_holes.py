"""Hole sizes against TM 1-1520-240-BD para 2-6 (AN3 to AN6) and ISO 273, drills against the inch list."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import HOLE, with_each_clamp, with_hole
from checks.findings_of import of

from clampwright.checks.holes import foot_hole, hole_drill, hole_size
from clampwright.layout.placed import PlateLayout

INCH = 25.4


@pytest.mark.parametrize(
    ("fastener", "inch", "verdict"),
    [
        ("AN3", 0.191, "pass"),
        ("AN3", 0.197, "pass"),
        ("AN3", 0.189, "fail"),  # drill #12, a push fit (practice), lies below the window
        ("AN3", 0.234, "fail"),  # drill A: the lettered-drill rule of AC 43.13-1B 7-39 does not suit AN3
        ("AN4", 0.250, "pass"),
        ("AN4", 0.257, "pass"),  # drill F
        ("AN4", 0.261, "fail"),
        ("AN5", 0.3195, "pass"),
        ("AN5", 0.323, "fail"),
        ("AN6", 0.375, "pass"),
        ("AN6", 0.386, "fail"),
    ],
)
def test_window_tm_1_1520_240_bd_para_2_6(fastener, inch, verdict):
    """Windows .191-.197, .250-.257, .3125-.3195, .375-.382 in."""
    layout = with_hole("C1", fastener=fastener, diameter_mm=inch * INCH)
    assert of(hole_size(layout), "C1").verdict == verdict


@pytest.mark.parametrize(("fastener", "mm"), [("M5", 5.5), ("M6", 6.6), ("M8", 9.0), ("M4", 4.5)])
def test_window_iso_273_medium_series_passes(fastener, mm):
    """ISO 273, medium series: M4 4.5, M5 5.5, M6 6.6, M8 9.0; 1 mm more is outside every series."""
    assert of(hole_size(with_hole("C1", fastener=fastener, diameter_mm=mm)), "C1").verdict == "pass"
    wide = of(hole_size(with_hole("C1", fastener=fastener, diameter_mm=mm + 1.1)), "C1")
    assert wide.verdict == "fail"


def test_every_bolt_hole_is_looked_at_and_no_lightening_hole(layout: PlateLayout):
    assert [f.where for f in hole_size(layout)] == ["A1", "A2", "B1", "B2", "C1", "C2", "C3", "C4"]
    assert {f.verdict for f in hole_size(layout)} == {"pass"}


def test_a_small_hole_is_told_which_drill_to_take():
    found = of(hole_size(with_hole("A1", diameter_mm=4.8)), "A1")
    assert found.verdict == "fail"
    assert found.value == 4.8
    assert found.limit == pytest.approx(0.191 * INCH)
    assert found.change.startswith("Drill #1")


def test_a_drill_named_but_not_that_size_fails():
    """#10 is 0.1935 in = 4.9149 mm (0.1940 circulates); the hole is drawn 4.8514 (#11)."""
    found = of(hole_drill(with_hole("C2", drill="#10")), "C2")
    assert found.verdict == "fail"
    assert found.value == pytest.approx(4.9149 - HOLE, abs=1e-6)


def test_a_hole_between_drills_is_a_caution_while_the_nearest_lies_in_the_window():
    """4.94 mm: #10 is 4.9149 and #9 is 4.9784; the nearer, #10, lies within 4.8514 to 5.0038."""
    found = of(hole_drill(with_hole("C2", diameter_mm=4.94, drill="step drill")), "C2")
    assert (found.verdict, found.value) == ("caution", pytest.approx(4.94 - 4.9149, abs=1e-6))
    assert found.change


def test_a_hole_whose_nearest_drill_is_outside_the_window_fails():
    """4.74 mm: 3/16 is 4.7625 and 4.7 mm is next; both below 4.8514."""
    assert of(hole_drill(with_hole("C2", diameter_mm=4.74, drill="step drill")), "C2").verdict == "fail"


def test_named_drills_of_the_example_pass(layout: PlateLayout):
    assert {f.verdict for f in hole_drill(layout)} == {"pass"}
    assert "#11" in hole_drill(layout)[0].says


def test_bolt_through_the_clamps_own_feet(layout: PlateLayout):
    """AN4's shank is up to 0.249 in (6.32 mm, from memory): a hole of 5.156 mm does not take it."""
    assert {f.verdict for f in foot_hole(layout)} == {"pass"}
    clamps = tuple(replace(c, stack=replace(c.stack, bolt="AN4")) for c in layout.clamps)
    found = foot_hole(replace(layout, clamps=clamps))
    assert {f.verdict for f in found} == {"fail"}
    assert found[0].limit == pytest.approx(0.249 * INCH)


def test_foot_hole_just_as_wide_as_the_shank_passes():
    """AN3's shank is at most 0.189 in (from memory)."""
    assert foot_hole(with_each_clamp(foot_hole_mm=0.189 * INCH))[0].verdict == "pass"
    assert foot_hole(with_each_clamp(foot_hole_mm=0.188 * INCH))[0].verdict == "fail"
