"""Fit-up: hand-measured mounts are off by 1 to 3 mm (builders' logs), a hole forgives a few hundredths."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import LAYOUT, with_clamp
from checks.findings_of import of, verdicts

from clampwright.checks.fit import fits_up, moved_across, rounding
from clampwright.layout.placed import FitUp, PlateLayout
from clampwright.structure.uncertainty import independent


def planned(hole, **changes):
    """The example with one hole's plan changed."""
    plan = LAYOUT.fit_up
    holes = tuple(replace(f, **changes) if f.hole == hole else f for f in plan.holes)
    return replace(LAYOUT, fit_up=replace(plan, holes=holes))


def test_small_errors_pass(layout: PlateLayout):
    assert verdicts(fits_up(layout)) == {"pass"}


def test_a_hole_that_forgives_too_little_must_not_be_drilled_now():
    found = of(fits_up(planned("B1", uncertainty_mm=2.12, clearance_mm=0.2)), "B1")
    assert found.verdict == "fail"
    assert "± 0.20 mm" in found.change


def test_a_pilot_is_a_caution_that_says_what_to_do():
    layout = planned(
        "B1", way="pilot, transfer in place", uncertainty_mm=2.12, clearance_mm=0.2, otherwise="a slot"
    )
    found = of(fits_up(layout), "B1")
    assert found.verdict == "caution"
    assert "pilot, transfer in place" in found.change
    assert "or a slot" in found.change
    assert (found.value, found.limit) == (2.12, 0.2)


def test_a_pass_on_an_error_nobody_stated_is_unknown():
    layout = planned("A1", given=False)
    found = of(fits_up(layout), "A1")
    assert found.verdict == "unknown"
    assert found.change.startswith("Measure the clamps' reach with calipers")
    nobody = replace(layout, fit_up=replace(layout.fit_up, error_given=False))
    assert "[measuring] error" in of(fits_up(nobody), "A1").change
    assert of(fits_up(nobody), "C1").verdict == "pass"  # taken from the component, not from the tubes


def test_what_to_measure_again_is_what_the_plan_says():
    cure = "To drill it now, measure the distance between lower and upper at station 7 again to ± 0.15 mm."
    layout = planned("B1", way="pilot, transfer in place", uncertainty_mm=2.12, clearance_mm=0.2, cure=cure)
    assert of(fits_up(layout), "B1").change.endswith(cure)


def test_a_pilot_is_told_with_its_drill_and_no_measurement_that_would_not_do():
    """Play of 0.1 mm is less than ± 0.15 mm by calipers (assumed): nothing to measure is asked for."""
    layout = planned("B1", way="pilot, transfer in place", uncertainty_mm=2.12, clearance_mm=0.1)
    pilot = next(hole.pilot for hole in layout.holes if hole.label == "B1")
    change = of(fits_up(layout), "B1").change
    assert pilot
    assert f"(a pilot of {pilot})" in change
    assert change.endswith("neither tape nor calipers will do.")
    assert "±" not in change


def test_a_surveyed_structure_is_the_origin_of_its_doubt():
    """JCGM 100 for the 95 %, where a survey says how sure the tubes are."""
    sure = independent(LAYOUT.recipe.structure.tubes, 0.05, "by hand")
    structure = replace(LAYOUT.recipe.structure, uncertainty=sure)
    layout = replace(LAYOUT, recipe=replace(LAYOUT.recipe, structure=structure))
    assert of(fits_up(layout), "A1").sources == ("jcgm-100",)


def test_a_clamps_hole_rests_on_measured_tubes_and_a_components_on_calipers(layout: PlateLayout):
    """Hand-measured mounts (a source of their own) against calipers on a part in hand (assumed)."""
    found = fits_up(layout)
    assert {f.sources for f in found if f.where[0] in "AB"} == {("measuring-by-hand",)}
    assert {f.sources for f in found if f.where[0] == "C"} == {("assumed",)}
    assert len(found) == 8


def test_the_reference_hole_needs_no_error():
    layout = planned("A1", uncertainty_mm=0.0)
    layout = replace(layout, fit_up=replace(layout.fit_up, error_given=False))
    assert of(fits_up(layout), "A1").verdict == "pass"


def test_lightening_holes_fit_nothing():
    more = (*LAYOUT.fit_up.holes, FitUp("L1", "drill now", 0.0, 0.0, "", ""))
    layout = replace(LAYOUT, fit_up=replace(LAYOUT.fit_up, holes=more))
    assert "L1" not in [f.where for f in fits_up(layout)]


@pytest.mark.parametrize(
    ("du", "dv", "verdict"), [(0.2, 0.0, "pass"), (0.0, 0.024, "pass"), (0.0, 0.2, "caution")]
)
def test_rounding_counts_only_square_to_the_tube(du, dv, verdict):
    """The tubes run along u: there the clamp slides. A1 moved by dv and A2 not: each dv/2 off their mean."""
    layout = with_clamp("A1", at_exact=(12.0 - du, 12.0 - dv))
    found = of(rounding(layout), "A1")
    assert (found.verdict, found.value) == (verdict, pytest.approx(dv / 2))


def test_a_shift_that_all_holes_of_a_tube_share_costs_nothing():
    layout = with_clamp("A1", with_clamp("A2", at_exact=(212.0, 11.8)), at_exact=(12.0, 11.8))
    assert of(rounding(layout), "A1").value == pytest.approx(0.0)


def test_a_transferred_hole_is_not_drilled_to_its_mark():
    layout = with_clamp("A1", planned("A1", way="pilot, transfer in place"), at_exact=(12.0, 11.0))
    assert of(rounding(layout), "A1").verdict == "pass"


def test_across_a_slanting_tube():
    """A tube at 30 degrees, the hole moved 1 mm along u: 1 x sin 30 = 0.5 across."""
    place = replace(LAYOUT.clamps[0], axis=(3**0.5 / 2, 0.5, 0.0), at_exact=(11.0, 12.0))
    assert moved_across(place, LAYOUT.frame) == pytest.approx(-0.5)
