"""The answer belongs to the geometry: not to the world, a tube's ends, or the order of tubes and holes."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from joined_recipes import HIGH, LOW
from layout.mounting.mounting_cases import Array, component_recipe, lugs_at, rotation

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.mounting.lay_out import lay_out_bushings
from clampwright.quantities import Vec3
from clampwright.recipe.bushing_model import BushingJob, Pose
from clampwright.recipe.model import Recipe
from clampwright.structure.tubes import Structure, Tube

SLANTED = Tube("slanted", (60.0, -40.0, 4.0), (420.0, 210.0, -3.0), 15.875)
ODD = lugs_at((-35.0, -50.0), (44.0, -57.0), (6.0, 52.0))
POSE = Pose((250.0, 75.0, 20.0), 90.0, (0.0, 0.0, 1.0), (1.0, 0.1, 0.0), 0.6, False, 5.0)
NEAR = 1e-6


def recipe() -> Recipe:
    """Three lugs of an odd pattern, three tubes that differ in height and slope."""
    return component_recipe([LOW, HIGH, SLANTED], ODD, pose=POSE)


def held(layout: BushingLayout) -> list[tuple[str, float, float]]:
    """For each hole its tube, and the bolt's place along and across in the world."""
    return [(c.tube, round(c.gap_mm, 6), round(c.clamp.reach_mm, 6)) for c in layout.clamps]


def bolts(layout: BushingLayout) -> Array:
    """Where the clamps' bolts meet the lugs' near faces, in the world."""
    frame = layout.frame
    axes = np.array([frame.u, frame.v, frame.n])
    places = np.array([(*c.at_exact, c.seat_z_mm + c.gap_mm) for c in layout.clamps])
    found: Array = np.array(frame.origin) + places @ axes
    return found


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_turned_and_shifted_with_the_world(seed: int) -> None:
    rng = np.random.default_rng(seed)
    turn, shift = rotation(rng), rng.uniform(-500, 500, 3)
    before, after = lay_out_bushings(recipe()), lay_out_bushings(_moved(recipe(), turn, shift))
    assert held(after) == held(before)
    assert bolts(after) == pytest.approx(bolts(before) @ turn.T + shift, abs=NEAR)
    assert after.examined == before.examined
    assert after.fitting == before.fitting


@pytest.mark.parametrize("reversed_tubes", [(0,), (1,), (2,), (0, 1, 2)])
def test_measured_from_the_tubes_other_ends(reversed_tubes: tuple[int, ...]) -> None:
    tubes = list(recipe().structure.tubes)
    for i in reversed_tubes:
        tubes[i] = replace(tubes[i], start=tubes[i].end, end=tubes[i].start)
    before = lay_out_bushings(recipe())
    after = lay_out_bushings(component_recipe(tubes, ODD, pose=POSE))
    assert held(after) == held(before)
    assert bolts(after) == pytest.approx(bolts(before), abs=NEAR)
    names = [tubes[i].name for i in reversed_tubes]
    for one, other in zip(before.clamps, after.clamps, strict=True):
        length = recipe().structure.tube(one.tube).length_mm
        station = length - other.station_mm if other.tube in names else other.station_mm
        assert station == pytest.approx(one.station_mm, abs=NEAR)
        assert other.turn == (-one.turn if other.tube in names else one.turn)
        assert other.side == one.side


def test_in_whatever_order_the_tubes_are_named() -> None:
    before = lay_out_bushings(recipe())
    for on in (("slanted", "high", "low"), ("high", "low", "slanted")):
        tubes = [recipe().structure.tube(name) for name in on]
        after = lay_out_bushings(component_recipe(tubes, ODD, pose=POSE))
        assert held(after) == held(before)
        assert bolts(after) == pytest.approx(bolts(before), abs=NEAR)


def test_in_whatever_order_the_holes_are_written() -> None:
    before = lay_out_bushings(recipe())
    order = (2, 0, 1)
    after = lay_out_bushings(component_recipe([LOW, HIGH, SLANTED], tuple(ODD[i] for i in order), pose=POSE))
    assert held(after) == [held(before)[i] for i in order]
    assert bolts(after) == pytest.approx(bolts(before)[list(order)], abs=NEAR)


def test_the_same_recipe_gives_the_same_layout() -> None:
    assert lay_out_bushings(recipe()) == lay_out_bushings(recipe())


def test_answers_are_distinct() -> None:
    job = recipe().asked(BushingJob)
    free = Pose(None, None, (0.0, 0.0, 1.0), None, None, False, 5.0)
    layout = lay_out_bushings(replace(recipe(), job=replace(job, pose=free, show=12)))
    every = [layout.answer, *layout.others]
    assert len(every) == 13
    for i, one in enumerate(every):
        for other in every[i + 1 :]:
            same = [(h.tube, h.turn) for h in one.holes] == [(h.tube, h.turn) for h in other.holes]
            apart = np.linalg.norm(np.array(one.frame.origin) - other.frame.origin)
            turned = np.linalg.norm(np.array(one.frame.u) - other.frame.u)
            assert not same or apart > 1.0 or turned > 0.01


def _moved(asked: Recipe, turn: Array, shift: Array) -> Recipe:
    job = asked.asked(BushingJob)
    assert job.pose.at is not None
    assert job.pose.up is not None
    assert job.pose.along is not None
    pose = replace(
        job.pose,
        at=_vec(turn @ job.pose.at + shift),
        up=_vec(turn @ job.pose.up),
        along=_vec(turn @ job.pose.along),
    )
    tubes = tuple(
        replace(t, start=_vec(turn @ t.start + shift), end=_vec(turn @ t.end + shift))
        for t in asked.structure.tubes
    )
    return replace(asked, structure=Structure(tubes), job=replace(job, pose=pose))


def _vec(values: Array) -> Vec3:
    x, y, z = values.tolist()
    return (x, y, z)
