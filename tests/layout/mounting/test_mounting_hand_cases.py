"""Layouts of a component on bushings against figures worked by hand."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from joined_recipes import HIGH, LOW, SKEW, bushing_recipe, structure
from layout.mounting.mounting_cases import FREE, REACH, SEAT, component_recipe, lugs_at

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.mounting.lay_out import lay_out_bushings
from clampwright.layout.placed import ClampPlace
from clampwright.recipe.bushing_model import BushingJob, Lug, Pose
from clampwright.structure.tubes import Structure, Tube

LEVEL = replace(HIGH, start=(0.0, 150.0, 0.0), end=(500.0, 150.0, 0.0))
ACROSS = Tube("across", (300.0, -200.0, 0.0), (300.0, 300.0, 0.0), 19.05)
BETWEEN = 150.0 - 2 * REACH
"""Between the inboard lines of bolts of two level tubes 150 mm apart."""
ABOUT = replace(FREE, at=(250.0, 75.0, 30.0), along=(1.0, 0.0, 0.0))


def three(wide: float, **more: float) -> tuple[Lug, ...]:
    """Two lugs 60 mm apart and one opposite, so far across."""
    return lugs_at((-30.0, -wide / 2), (30.0, -wide / 2), (0.0, wide / 2), **more)


def seat_of(clamp: ClampPlace) -> float:
    """Of a clamp whose sizes were measured."""
    assert "seat" in clamp.measured
    return clamp.clamp.seat_mm


def stations(layout: BushingLayout) -> list[float]:
    """Of each hole's clamp."""
    return [clamp.station_mm for clamp in layout.clamps]


def test_three_holes_on_two_parallel_tubes() -> None:
    """Lines of bolts at y = 19.812 and 130.188: the origin comes half way, at the x asked for."""
    layout = lay_out_bushings(component_recipe([LOW, LEVEL], three(BETWEEN), pose=ABOUT))
    assert layout.answer.fits
    assert layout.frame.origin == pytest.approx((250.0, 75.0, SEAT + 4.0))
    assert stations(layout) == pytest.approx([220.0, 280.0, 250.0])
    assert [clamp.label for clamp in layout.clamps] == ["A1", "A2", "B1"]
    assert [clamp.side for clamp in layout.clamps] == ["inboard"] * 3
    assert layout.answer.worst_misfit_mm == pytest.approx(0.0, abs=1e-9)
    assert layout.examined == 4**3


def test_two_holes_slide_to_the_place_asked_for() -> None:
    """The holes keep to the two lines, and of all such places the origin is nearest to x = 210."""
    lugs = lugs_at((0.0, -BETWEEN / 2), (0.0, BETWEEN / 2))
    pose = replace(ABOUT, at=(210.0, 80.0, 0.0))
    layout = lay_out_bushings(component_recipe([LOW, LEVEL], lugs, pose=pose))
    assert layout.frame.origin[:2] == pytest.approx((210.0, 75.0))
    assert layout.answer.off_mm == pytest.approx(5.0)


def test_two_holes_with_no_place_asked_for_go_where_there_is_most_room() -> None:
    """The middle of what both tubes offer: `high` is 500 long from 0, the other from 100 to 500."""
    short = replace(LEVEL, start=(100.0, 150.0, 0.0))
    lugs = lugs_at((0.0, -BETWEEN / 2), (0.0, BETWEEN / 2))
    layout = lay_out_bushings(component_recipe([LOW, short], lugs, pose=FREE))
    assert layout.answer.fits
    assert layout.frame.origin[0] == pytest.approx(300.0)


def test_two_holes_on_tubes_that_cross_stay_on_both_lines() -> None:
    """A hole at x = 300 - 19.812 on the one and at y = 19.812 on the other, 50 mm apart."""
    lugs = lugs_at((0.0, 0.0), (50.0, 0.0))
    pose = replace(FREE, at=(240.0, 50.0, 20.0), within_mm=60.0)
    layout = lay_out_bushings(component_recipe([LOW, ACROSS], lugs, pose=pose))
    on = {clamp.tube: clamp for clamp in layout.clamps}
    assert layout.answer.fits
    assert set(on) == {"low", "across"}
    low, across = on["low"], on["across"]
    bolt_x, bolt_y = low.station_mm, across.station_mm - 200.0
    sides = math.copysign(REACH, low.turn), math.copysign(REACH, across.turn)
    dx, dy = bolt_x - (300.0 - sides[1]), sides[0] - bolt_y
    assert math.hypot(dx, dy) == pytest.approx(50.0, abs=1e-6)


def test_heights_follow_the_tubes_and_the_lugs_near_faces() -> None:
    """The tube across lies 5 mm higher, one lug's near face 3 mm higher: its foot takes 4 + 5 - 3 less."""
    raised = replace(ACROSS, start=(300.0, -200.0, 5.0), end=(300.0, 300.0, 5.0))
    lugs = (Lug((-60.0, 0.0), 3.0, 0.0), Lug((60.0, 0.0), 3.0, 0.0), Lug((0.0, 50.0), 3.0, 3.0))
    layout = lay_out_bushings(component_recipe([LOW, raised], lugs, pose=replace(FREE, stand_off_mm=4.0)))
    for clamp, lug in zip(layout.clamps, lugs, strict=True):
        seat = SEAT + (5.0 if clamp.tube == "across" else 0.0)
        assert clamp.gap_mm == pytest.approx(layout.frame.origin[2] + lug.near_face_mm - seat)
        assert clamp.seat_z_mm == pytest.approx(lug.near_face_mm - clamp.gap_mm)
    assert min(clamp.gap_mm for clamp in layout.clamps) == pytest.approx(4.0)


@pytest.mark.parametrize("moved", [0.3, 0.45])
def test_a_hole_moved_by_a_known_amount_is_shared_out_by_least_squares(moved: float) -> None:
    """Two holes give e1, the third e2, e1 + e2 = moved: the least of 2 e1^2 + e2^2 is at e1 = moved / 3."""
    layout = lay_out_bushings(component_recipe([LOW, LEVEL], three(BETWEEN - moved), pose=ABOUT))
    sizes = [math.hypot(*hole.misfit_mm) for hole in layout.answer.holes]
    assert layout.answer.fits
    assert sizes == pytest.approx([moved / 3, moved / 3, 2 * moved / 3], abs=1e-9)


@pytest.mark.parametrize(("moved", "fits"), [(0.6, True), (0.7, True), (0.71, False), (2.0, False)])
def test_near_the_limit_the_worst_misfit_is_halved_instead(moved: float, fits: bool) -> None:
    """Allowed 0.352 mm: (5.2 - 4.826) / 2 in the lug and (5.1562 - 4.826) / 2 in the feet; then moved / 2."""
    layout = lay_out_bushings(component_recipe([LOW, LEVEL], three(BETWEEN - moved), pose=ABOUT))
    assert layout.answer.allowed_mm == pytest.approx((5.2 - 4.826) / 2 + (5.1562 - 4.826) / 2)
    assert layout.answer.worst_misfit_mm == pytest.approx(moved / 2, abs=1e-6)
    assert layout.answer.fits == fits
    assert bool(layout.answer.breaks) != fits
    if not fits:
        assert "hole 3: the bolt on high misses it by" in " ".join(layout.answer.breaks)


def test_misfit_points_from_the_hole_to_the_bolt_in_the_components_frame() -> None:
    """Turned round, the component's own y points to the low tube."""
    pose = replace(ABOUT, along=(-1.0, 0.0, 0.0))
    layout = lay_out_bushings(component_recipe([LOW, LEVEL], three(BETWEEN - 0.3), pose=pose))
    first, _, third = layout.answer.holes
    assert third.tube == "low"
    assert first.misfit_mm == pytest.approx((0.0, -0.1), abs=1e-9)
    assert third.misfit_mm == pytest.approx((0.0, 0.2), abs=1e-9)
    assert layout.clamps[2].at_exact == pytest.approx((0.0, layout.clamps[2].at[1] + 0.2))


def test_an_unknown_lug_hole_is_the_drill_of_the_bolts_window() -> None:
    """#11, 0.191 in: (4.8514 - 4.826) / 2 of play in the lug."""
    recipe = component_recipe([LOW, LEVEL], three(BETWEEN), pose=ABOUT)
    job = recipe.asked(BushingJob)
    unmeasured = replace(recipe, job=replace(job, component=replace(job.component, hole_mm=None)))
    layout = lay_out_bushings(unmeasured)
    assert layout.answer.allowed_mm == pytest.approx((4.8514 - 4.826) / 2 + (5.1562 - 4.826) / 2)
    assert ("component.hole", "4.85 mm (drill #11 for AN3; nobody measured it)") in layout.assumed


def test_all_holes_on_one_tube_are_an_answer_after_those_on_two() -> None:
    lugs = lugs_at((-30.0, 0.0), (30.0, 0.0))
    pose = replace(FREE, at=(250.0, 10.0, 20.0), within_mm=120.0)
    layout = lay_out_bushings(component_recipe([LOW, ACROSS], lugs, pose=pose))
    tubes = [{hole.tube for hole in answer.holes} for answer in (layout.answer, *layout.others)]
    assert len(tubes[0]) == 2
    alone = lay_out_bushings(component_recipe([LOW], lugs, pose=pose))
    assert alone.answer.fits
    assert {clamp.side for clamp in alone.clamps} <= {"left", "right"}


def test_up_decides_the_side_and_left_out_it_is_said_to_be_upwards() -> None:
    recipe = component_recipe([LOW, LEVEL], three(BETWEEN), pose=replace(ABOUT, up=(0.0, 0.0, -1.0)))
    assert lay_out_bushings(recipe).frame.n == pytest.approx((0.0, 0.0, -1.0))
    job = recipe.asked(BushingJob)
    free = replace(recipe, job=replace(job, pose=replace(job.pose, up=None)))
    layout = lay_out_bushings(free)
    assert layout.frame.n == pytest.approx((0.0, 0.0, 1.0))
    assert ("pose.up", "upwards; its z looks along [0, 0, 1]") in layout.assumed


def test_a_tube_that_would_tilt_its_clamp_too_far_carries_none() -> None:
    """Three tubes of which one climbs 12 deg out of the plane of the two others."""
    climbing = Tube("climbing", (100.0, -50.0, 0.0), (400.0, 200.0, 80.0), 19.05)
    layout = lay_out_bushings(component_recipe([LOW, LEVEL, climbing], three(BETWEEN), pose=ABOUT))
    assert layout.answer.worst_tilt_rad <= math.radians(5.0)
    assert {hole.tube for hole in layout.answer.holes} == {"low", "high"}


def test_clamps_keep_off_welds() -> None:
    """A brace that ends on the low tube at 220 mm: its clamp has to keep 19.05 + 6.35 mm off."""
    brace = Tube("brace", (220.0, 10.0, -5.0), (220.0, 40.0, -200.0), 12.7)
    tubes = Structure((LOW, LEVEL, brace))
    recipe = component_recipe([LOW, LEVEL], three(BETWEEN), pose=ABOUT)
    layout = lay_out_bushings(replace(recipe, structure=tubes))
    assert layout.answer.fits
    assert min(abs(station - 220.0) for station in stations(layout)[:2]) >= 25.4 - 1e-6
    assert abs(layout.frame.origin[0] - 250.0) == pytest.approx(25.4)


def test_the_given_examples_stack_is_in_order_from_the_head() -> None:
    layout = lay_out_bushings(bushing_recipe())
    for joint in layout.joints:
        names = [item.name for item in joint.stack.items if item.name != "washer"]
        assert names[0] == "component lug"
        assert names[-1] == "clamp feet"
        assert joint.stack.items[-1].name == "washer"
        assert joint.axis == pytest.approx(tuple(-c for c in layout.frame.n))
    assert sum(line.quantity for line in layout.hardware if line.what == "lock nut, insert") == 3


def test_skew_tubes_at_different_heights_get_bushings_of_different_lengths() -> None:
    tubes = structure(LOW, SKEW)
    recipe = bushing_recipe(tubes)
    job = recipe.asked(BushingJob)
    lugs = lugs_at((-40.0, 0.0), (40.0, 0.0))
    component = replace(job.component, lugs=lugs, body=None)
    clamps = replace(job.clamps, on=("low", "skew"))
    pose = replace(FREE, at=(200.0, 0.0, 80.0), within_mm=150.0)
    layout = lay_out_bushings(
        replace(recipe, job=replace(job, component=component, clamps=clamps, pose=pose))
    )
    on = {clamp.tube: clamp for clamp in layout.clamps}
    assert set(on) == {"low", "skew"}
    assert on["low"].gap_mm == pytest.approx(4.0 + 60.0 + seat_of(on["skew"]) - SEAT)
    assert on["skew"].gap_mm == pytest.approx(4.0)
    assert layout.answer.fits


def test_lugs_nearer_together_than_two_bands_say_so() -> None:
    with pytest.raises(CannotLayOut, match=r"holes 1 and 2 of separator are 6\.00 mm apart"):
        lay_out_bushings(component_recipe([LOW, LEVEL], lugs_at((-3.0, 0.0), (3.0, 0.0)), pose=FREE))


def test_tubes_that_ask_for_another_up_say_which() -> None:
    pose = Pose(None, None, (0.0, 1.0, 0.0), None, None, False, 4.0)
    upright = Tube("upright", (0.0, 0.0, 0.0), (0.0, 400.0, 0.0), 19.05)
    with pytest.raises(CannotLayOut, match=r"deg off pose\.up; give pose\.up as"):
        lay_out_bushings(
            component_recipe(
                [upright, replace(upright, name="other", start=(150.0, 0.0, 0.0), end=(150.0, 400.0, 0.0))],
                three(BETWEEN),
                pose=pose,
            )
        )
