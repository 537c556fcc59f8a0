"""A component that does not move: its misfits are measured, not solved for."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from joined_recipes import HIGH, LOW
from layout.mounting.mounting_cases import REACH, SEAT, component_recipe, lugs_at

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.mounting.lay_out import lay_out_bushings
from clampwright.recipe.bushing_model import Lug, Pose
from clampwright.structure.tubes import Tube

LEVEL = replace(HIGH, start=(0.0, 150.0, 0.0), end=(500.0, 150.0, 0.0))
LUGS = lugs_at((-30.0, -75.0 + REACH), (30.0, -75.0 + REACH), (0.0, 75.0 - REACH))


def fixed(
    at: tuple[float, float, float],
    along: tuple[float, float, float] = (1.0, 0.0, 0.0),
    lugs: tuple[Lug, ...] = LUGS,
    tubes: tuple[Tube, ...] = (LOW, LEVEL),
    up: tuple[float, float, float] = (0.0, 0.0, 1.0),
) -> BushingLayout:
    """The layout of a component that is fixed there."""
    return lay_out_bushings(component_recipe(tubes, lugs, pose=Pose(at, None, up, along, None, True, 2.0)))


def test_where_everything_meets_nothing_is_missed() -> None:
    layout = fixed((250.0, 75.0, SEAT + 5.0))
    assert layout.answer.fits
    assert layout.frame.origin == (250.0, 75.0, SEAT + 5.0)
    assert layout.answer.worst_misfit_mm == pytest.approx(0.0, abs=1e-9)
    assert [c.gap_mm for c in layout.clamps] == pytest.approx([5.0] * 3)
    assert [c.station_mm for c in layout.clamps] == pytest.approx([220.0, 280.0, 250.0])


def test_a_component_set_too_far_across_misses_by_that_much() -> None:
    layout = fixed((250.0, 76.5, SEAT + 5.0))
    assert not layout.answer.fits
    assert [h.misfit_mm for h in layout.answer.holes] == [pytest.approx((0.0, -1.5), abs=1e-9)] * 3


def test_a_foot_that_would_be_inside_the_lug_is_said() -> None:
    layout = fixed((250.0, 75.0, SEAT - 1.0))
    assert not layout.answer.fits
    assert any("foot on low would be 1.00 mm inside the lug" in says for says in layout.answer.breaks)
    assert min(h.bushing_mm for h in layout.answer.holes) == 0.0


def test_less_than_the_stand_off_asked_for_is_said() -> None:
    layout = fixed((250.0, 75.0, SEAT + 1.5))
    assert layout.answer.breaks == ("the lowest lug stands 1.50 mm off its foot, not 2.00 mm",)


def test_a_hole_past_the_end_of_a_tube_is_missed_along_it() -> None:
    """The band must stay on the tube: half of 12.7 mm from its end, so the bolt comes 16.35 mm too far in."""
    layout = fixed((20.0, 75.0, SEAT + 5.0))
    assert layout.answer.holes[0].misfit_mm == pytest.approx((16.35, 0.0), abs=1e-9)


def test_the_tilt_is_measured() -> None:
    """Turned 2 deg about the tubes' cross direction the clamps lean as much."""
    lean = math.radians(2.0)
    layout = fixed(
        (250.0, 75.0, SEAT + 6.0),
        (math.cos(lean), 0.0, -math.sin(lean)),
        up=(math.sin(lean), 0.0, math.cos(lean)),
    )
    assert layout.answer.worst_tilt_rad == pytest.approx(lean)
    assert layout.frame.n == pytest.approx((math.sin(lean), 0.0, math.cos(lean)))


def test_clamps_that_stand_too_far_out_of_square_are_said() -> None:
    lean = math.radians(8.0)
    layout = fixed(
        (250.0, 75.0, SEAT + 12.0),
        (math.cos(lean), 0.0, -math.sin(lean)),
        up=(math.sin(lean), 0.0, math.cos(lean)),
    )
    assert any("stand 8.0° out of square" in says for says in layout.answer.breaks)


def test_what_would_make_it_fit_is_to_let_it_move() -> None:
    layout = fixed((250.0, 78.0, SEAT + 2.0))
    moved = [remedy.says for remedy in layout.remedies if remedy.what == "another place"]
    assert len(moved) == 1
    assert "moved by 3.00 mm in its plane" in moved[0]
