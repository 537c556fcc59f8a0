"""Which answer comes first, and what is in the way of others."""

from __future__ import annotations

from dataclasses import replace

import pytest
from joined_recipes import LOW, bushing_recipe
from layout.mounting.mounting_cases import FREE, REACH, component_recipe, lugs_at

from clampwright.layout.bushing_joints import bushing_joints
from clampwright.layout.clash_bodies import point
from clampwright.layout.mounting.lay_out import lay_out_bushings
from clampwright.quantities.directions import along
from clampwright.recipe.bushing_model import BushingJob
from clampwright.structure.tubes import Tube

APART = 150.0 - 2 * REACH


def beside(name: str, y: float, z: float) -> Tube:
    """A tube beside the low one."""
    return Tube(name, (0.0, y, z), (500.0, y, z), 19.05)


def test_what_fits_comes_before_what_does_not() -> None:
    job = replace(bushing_recipe().asked(BushingJob), show=8)
    layout = lay_out_bushings(replace(bushing_recipe(), job=job))
    fits = [answer.fits for answer in (layout.answer, *layout.others)]
    assert fits == sorted(fits, reverse=True)
    assert fits[0]


def test_shorter_bushings_come_first() -> None:
    """A third tube 150 mm to the other side, all in one plane, its clamps' seats 6 mm lower."""
    lugs = lugs_at((-30.0, -APART / 2), (30.0, -APART / 2), (0.0, APART / 2))
    far = replace(beside("far", -150.0, 0.0))
    pose = replace(FREE, up=(0.0, 0.0, 1.0))
    recipe = component_recipe([beside("high", 150.0, 0.0), LOW, far], lugs, pose=pose)
    job = recipe.asked(BushingJob)
    own = (("far", replace(job.clamps.measured, seat_mm=7.0), None),)
    layout = lay_out_bushings(replace(recipe, job=replace(job, clamps=replace(job.clamps, own=own))))
    assert {hole.tube for hole in layout.answer.holes} == {"high", "low"}
    assert layout.answer.spread_mm == pytest.approx(0.0, abs=1e-9)
    longer = [a for a in layout.others if "far" in {hole.tube for hole in a.holes} and a.fits]
    assert longer[0].longest_mm == pytest.approx(4.0 + 13.1318 - 7.0)


def test_the_place_asked_for_decides_between_equals() -> None:
    lugs = lugs_at((-30.0, -APART / 2), (30.0, -APART / 2), (0.0, APART / 2))
    tubes = [beside("a", 0.0, 0.0), beside("b", 150.0, 0.0), beside("c", 300.0, 0.0)]
    for y, names in ((70.0, {"a", "b"}), (230.0, {"b", "c"})):
        pose = replace(FREE, at=(250.0, y, 0.0), within_mm=200.0)
        layout = lay_out_bushings(component_recipe(tubes, lugs, pose=pose))
        assert {hole.tube for hole in layout.answer.holes} == names


def test_clamps_of_two_tubes_that_would_be_in_each_other() -> None:
    """Tubes 30 mm apart have no room for clamps side by side: they must stand one beyond the other."""
    lugs = lugs_at((0.0, -7.5), (0.0, 62.5 - 40.0))
    tubes = [beside("a", 0.0, 0.0), beside("b", 30.0, 0.0)]
    layout = lay_out_bushings(component_recipe(tubes, lugs, pose=replace(FREE, along=(1.0, 0.0, 0.0))))
    together = [answer for answer in (layout.answer, *layout.others) if answer.breaks]
    assert any("would be in" in says for answer in together for says in answer.breaks)


def test_a_clamp_does_not_go_into_a_tube_that_carries_nothing() -> None:
    lugs = lugs_at((-30.0, 0.0), (30.0, 0.0))
    pose = replace(FREE, at=(250.0, REACH, 15.0), along=(1.0, 0.0, 0.0), within_mm=5.0)
    clear = component_recipe([LOW, beside("beside", 120.0, 0.0)], lugs, on=("low",), pose=pose)
    blocked = component_recipe([LOW, beside("beside", 27.0, 10.0)], lugs, on=("low",), pose=pose)
    assert lay_out_bushings(clear).answer.fits
    assert "clamp A1 on low would be in beside" in lay_out_bushings(blocked).answer.breaks


def test_bolts_stand_on_the_lugs_far_faces_and_end_past_the_feet() -> None:
    """Head on the component's side; foot's outer face under the packing, at the place the clamp gives it."""
    layout = lay_out_bushings(bushing_recipe())
    for joint, clamp, lug in zip(
        bushing_joints(layout),
        layout.clamps,
        layout.recipe.asked(BushingJob).component.lugs,
        strict=True,
    ):
        names = [item.name for item in joint.stack.items]
        on_lug = sum(i.thickness_mm * i.count for i in joint.stack.items[: names.index("component lug")])
        far = point(layout.frame, clamp.at_exact, lug.near_face_mm + (lug.thickness_mm or 0.0))
        assert joint.head == pytest.approx(along(far, (layout.frame.n, on_lug)))
        to_feet = sum(i.thickness_mm * i.count for i in joint.stack.items[: names.index("clamp feet")])
        foot = along(joint.head, (joint.axis, to_feet))
        out = tuple(clamp.turn * c for c in _cross(clamp.bolt_axis, clamp.axis))
        seat = along(clamp.centre, (out, clamp.clamp.reach_mm), (clamp.bolt_axis, clamp.clamp.seat_mm))
        assert foot == pytest.approx(seat, abs=0.11)


def _cross(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, float, float]:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
