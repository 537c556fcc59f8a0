"""Welds stay visible: a clamp at least one tube diameter from a weld (common practice, no source)."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import BAND, LAYOUT, OD, TUBES, with_clamp
from checks.findings_of import of, verdicts
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.checks.welds import weld_distance
from clampwright.layout.placed import PlateLayout
from clampwright.structure.tubes import Structure, Tube


def test_clear_of_the_ends_by_hand(layout: PlateLayout):
    """Station 200, band 12.7: 200 - 6.35 = 193.65 mm = 10.17 diameters from the end at 0."""
    found = of(weld_distance(layout), "A1")
    assert (found.verdict, found.value) == ("pass", pytest.approx(193.65 / 19.05))
    assert verdicts(weld_distance(layout)) == {"pass"}


@pytest.mark.parametrize(
    ("station", "verdict"),
    [(25.4, "pass"), (25.0, "caution"), (6.4, "caution"), (6.0, "fail"), (-20.0, "fail")],
)
def test_near_the_end_of_a_tube(station, verdict):
    """One diameter: 19.05 + 6.35 = 25.4 mm from the end; the band covers it under 6.35."""
    found = of(weld_distance(with_clamp("A1", station_mm=station)), "A1")
    assert found.verdict == verdict


def test_where_to_slide_it():
    found = of(weld_distance(with_clamp("A1", station_mm=20.0)), "A1")
    assert found.change == "Slide A1 5.40 mm along the tube, to station 25.40 mm."
    far = of(weld_distance(with_clamp("A2", station_mm=580.0)), "A2")
    assert far.change == "Slide A2 5.40 mm along the tube, to station 574.60 mm."


def test_a_clamp_beyond_the_end_comes_back_onto_the_tube():
    found = of(weld_distance(with_clamp("A2", station_mm=610.0)), "A2")
    assert found.verdict == "fail"
    assert found.change.endswith("to station 574.60 mm.")


def test_a_brace_that_lands_midway_is_a_weld():
    """A brace ends on the lower tube at 230: 230 - 200 - 6.35 = 23.65 mm from A1, a pass; at 215, 8.65."""
    for at, verdict in ((230.0, "pass"), (215.0, "caution")):
        brace = Tube("brace", (at, 0.0, -10.0), (at, 0.0, -300.0), OD)
        recipe = replace(LAYOUT.recipe, structure=Structure((*TUBES, brace)))
        found = of(weld_distance(replace(LAYOUT, recipe=recipe)), "A1")
        assert found.verdict == verdict
        assert found.value == pytest.approx((at - 200.0 - BAND / 2) / OD)
        assert "brace" in found.says


def test_a_tube_without_room_is_said_so():
    """Two braces 20 mm either side: 19.05 + 6.35 = 25.4 mm are needed from both."""
    ends = tuple(Tube(f"b{i}", (x, 0.0, -10.0), (x, 0.0, -90.0), OD) for i, x in enumerate((40.0, 80.0)))
    short = (replace(TUBES[0], end=(100.0, 0.0, 0.0)), TUBES[1], *ends)
    layout = with_clamp("A1", station_mm=60.0)
    recipe = replace(layout.recipe, structure=Structure(short))
    found = of(weld_distance(replace(layout, recipe=recipe)), "A1")
    assert found.change == "Put it on another tube: no place of lower is 25.40 mm from both neighbours."


@given(st.floats(-50.0, 650.0))
@settings(deadline=None, max_examples=60)
def test_sliding_as_told_passes(station):
    found = of(weld_distance(with_clamp("A1", station_mm=station)), "A1")
    if found.verdict != "pass":
        target = float(found.change.rsplit("station ", 1)[1].split(" mm")[0])
        again = of(weld_distance(with_clamp("A1", station_mm=target)), "A1")
        assert again.value == pytest.approx(1.0, abs=0.01)
