"""Round trip: place a component somewhere, work out where its clamps' bolts are, forget the pose, recover it.

The error is below 1e-6 mm where the holes settle the pose well. Where they leave a freedom (two holes, or
parallel tubes) the pose is recovered to 1e-5 mm from being told, exactly, where to look along it.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from layout.mounting.mounting_cases import Array, Placed, placed

from clampwright.layout.mounting.assignments import Search
from clampwright.layout.mounting.candidates import candidates
from clampwright.layout.mounting.holders import holders
from clampwright.layout.mounting.plans import Pattern, Plans, Wanted
from clampwright.layout.mounting.solving import Solved, solve
from clampwright.layout.mounting.ways import Way, way_of
from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Recipe

SETTLED_MM, SLID_MM = 1e-6, 1e-5
HALF_LENGTH = 2000.0
WELL_SETTLED = 0.15
SEEDS = st.integers(0, 2**32 - 1)


@settings(max_examples=120, deadline=None)
@given(SEEDS, st.integers(3, 6), st.integers(2, 4))
def test_a_forgotten_pose_is_recovered(seed: int, holes: int, tubes: int) -> None:
    case = placed(np.random.default_rng(seed), holes, tubes)
    assume(case is not None and _settled(case) > WELL_SETTLED)
    assert case is not None
    _recovered(case, case.recipe, SETTLED_MM)


@settings(max_examples=60, deadline=None)
@given(SEEDS, st.integers(2, 6), st.integers(1, 3))
def test_a_free_component_goes_where_it_was_asked_to(seed: int, holes: int, tubes: int) -> None:
    case = placed(np.random.default_rng(seed), holes, tubes)
    assume(case is not None)
    assert case is not None
    job = case.recipe.asked(BushingJob)
    (ox, oy, oz), (ax, ay, az) = case.origin.tolist(), case.axes[0].tolist()
    pose = replace(job.pose, at=(ox, oy, oz), along=(ax, ay, az))
    _recovered(case, replace(case.recipe, job=replace(job, pose=pose)), SLID_MM)


@settings(max_examples=40, deadline=None)
@given(SEEDS, st.integers(3, 6))
def test_thousands_of_patterns_are_found_on_lines_laid_through_them(seed: int, holes: int) -> None:
    """A hundred structures at once, one line laid through each hole of the pattern where it was placed."""
    rng = np.random.default_rng(seed)
    pattern = _pattern(rng, holes)
    theta, shift = rng.uniform(-math.pi, math.pi, 100), rng.uniform(-150, 150, (100, 2))
    search = _laid_through(rng, pattern, theta, shift)
    found = candidates(search)
    wanted = 2 * np.arange(holes)
    for case in range(len(theta)):
        mine = (found.group == case) & (found.lines == wanted).all(axis=1)
        places = (search.plans.start + HALF_LENGTH * search.plans.run)[case, ::2]
        off = np.abs(found.holes[mine] - places).max(axis=(1, 2))
        assert mine.any()
        if settled(search.plans.nu[case, ::2], places) > WELL_SETTLED:
            assert off.min() < SETTLED_MM


def _recovered(case: Placed, recipe: Recipe, within_mm: float) -> None:
    solved = solve(recipe.asked(BushingJob), holders(recipe), wider=False)
    assert solved is not None
    way = min(_same_ways(solved, case), key=lambda each: _pose_error(each, case))
    assert _pose_error(way, case) < within_mm
    assert np.abs(np.array(way.gaps) - case.gaps).max() < within_mm
    assert np.abs(np.array([loop.station_mm for loop in way.loops]) - case.stations).max() < within_mm
    assert np.abs(np.array(way.misfits)).max() < within_mm


def _same_ways(solved: Solved, case: Placed) -> list[Way]:
    every = (way_of(solved, number) for number in np.nonzero(solved.ranked.fits)[0].tolist())
    return [way for way in every if tuple((loop.tube, loop.turn) for loop in way.loops) == case.assigned]


def _pose_error(way: Way, case: Placed) -> float:
    """Farthest that the origin and the ends of axes 100 mm long come from where they were."""
    off = np.array(way.frame.origin) - case.origin
    axes = np.array([way.frame.u, way.frame.v, way.frame.n])
    return float(np.linalg.norm(np.vstack([off, off + 100 * (axes - case.axes)]), axis=1).max())


def _settled(case: Placed) -> float:
    tubes, n = case.recipe.structure, case.axes[2]
    places = np.array([lug.at for lug in case.recipe.asked(BushingJob).component.lugs])
    nu = np.array([case.axes[:2] @ np.cross(n, tubes.tube(name).direction) for name, _ in case.assigned])
    return settled(nu, places)


def settled(nu: Array, places: Array) -> float:
    """Least misfit, root of the sum of squares, that moving the component by a millimetre in its plane makes.

    The smallest singular value of the rows (nu, nu . Jh / r): 0 where the holes leave a freedom, and small
    where a second way to hold it lies so near that the play of the holes joins the two.
    """
    middle = places - places.mean(axis=0)
    turn = (nu[:, 1] * middle[:, 0] - nu[:, 0] * middle[:, 1]) / np.linalg.norm(middle, axis=1).max()
    return float(np.linalg.svd(np.column_stack([nu, turn]), compute_uv=False)[2])


def _pattern(rng: np.random.Generator, count: int) -> Pattern:
    angles = np.sort(rng.uniform(0, 2 * math.pi / count, count)) + 2 * math.pi / count * np.arange(count)
    holes = np.stack([np.cos(angles), np.sin(angles)], axis=1) * rng.uniform(30, 90, (count, 1))
    return Pattern(holes, np.zeros(count), 90.0)


def _laid_through(rng: np.random.Generator, pattern: Pattern, theta: Array, shift: Array) -> Search:
    """Lines of any direction through the holes of each placed pattern; reach 0, so that both sides are one
    line and every second line alone is there."""
    cases, count = len(theta), pattern.count
    cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
    x, y = pattern.holes.T
    places = np.stack([cos * x - sin * y, sin * x + cos * y], axis=-1) + shift[:, None]
    angles = rng.uniform(0, math.pi, (cases, count))
    run = np.stack([np.cos(angles), np.sin(angles)], axis=-1)
    nu = np.stack([-run[..., 1], run[..., 0]], axis=-1)
    two = (cases, 2 * count)

    def both(values: Array) -> Array:
        return np.repeat(values, 2, axis=1)

    plans = Plans(
        there=np.tile([True, False], (cases, count)),
        count=np.full(cases, count),
        holder=np.zeros(two, np.intp),
        turn=np.ones(two),
        nu=both(nu),
        offset=both((nu * places).sum(axis=-1)),
        start=both(places - HALF_LENGTH * run),
        run=both(run),
        height=np.zeros(two),
        rise=np.zeros(two),
        seat=np.zeros(two),
        tilt=np.zeros(two),
        length=np.full(two, 2 * HALF_LENGTH),
        radius=np.zeros(two),
        half_band=np.zeros(two),
        apart=np.zeros(two),
        room=np.tile(np.array([0.0, 2 * HALF_LENGTH]), (*two, 1, 1)),
    )
    slack = np.full(count, 0.2)
    return Search(plans, pattern, Wanted(None, 0.0, False, math.pi, 0.0), slack, slack)
