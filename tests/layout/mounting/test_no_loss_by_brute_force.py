"""Nothing is lost: whatever a search of every assignment at every turn finds, the solver finds.

The search knows nothing of arcs: it turns the pattern in small steps, and at each step works out every
assignment's least squares shift. What then misses by no more than the slack fits, whatever else may fit too.
"""

from __future__ import annotations

import math
from itertools import product

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.mounting.mounting_cases import REACH, Array, component_recipe, flat_tubes, lugs_at
from scipy.optimize import linprog

from clampwright.layout.mounting.assignments import Branches, Search, assignments
from clampwright.layout.mounting.candidates import candidates
from clampwright.layout.mounting.holders import holders
from clampwright.layout.mounting.least_worst import least_worst
from clampwright.layout.mounting.normals import TubeSet, tube_sets
from clampwright.layout.mounting.plans import pattern_of, plans_of, wanted_of
from clampwright.layout.mounting.poses import equations
from clampwright.layout.mounting.trials import Trials
from clampwright.recipe.bushing_model import BushingJob, Pose
from clampwright.recipe.model import Recipe

STEPS = 900
SEEDS = st.integers(0, 2**32 - 1)
Assigned = frozenset[tuple[tuple[str, int], ...]]


@settings(max_examples=25, deadline=None)
@given(SEEDS, st.sampled_from([(2, 3), (3, 2), (3, 3), (4, 2), (5, 2)]), st.floats(0.2, 3.0))
def test_every_assignment_that_a_search_of_all_finds(seed: int, size: tuple[int, int], slack: float) -> None:
    recipe = _recipe(np.random.default_rng(seed), *size)
    search, sets = _search(recipe, slack)
    found = candidates(search)
    assert _searched(recipe, slack) <= _assigned(found, sets)
    assert (np.abs(_misfits(found, recipe, sets)) <= slack + 1e-6).all()


@settings(max_examples=25, deadline=None)
@given(SEEDS, st.floats(0.2, 2.0), st.floats(5.0, 60.0), st.floats(0.1, 1.2))
def test_nor_is_any_lost_within_the_limits_of_the_pose(
    seed: int, slack: float, within: float, turn: float
) -> None:
    rng = np.random.default_rng(seed)
    x, y = rng.uniform(-60, 60, 2)
    pose = Pose((float(x), float(y), 30.0), within, (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), turn, False, 0.0)
    recipe = _recipe(rng, 3, 2, pose)
    search, sets = _search(recipe, slack)
    assert _searched(recipe, slack) <= _assigned(candidates(search), sets)


@settings(max_examples=12, deadline=None)
@given(SEEDS, st.integers(4, 5), st.floats(0.5, 2.0))
def test_the_least_worst_misfit_is_that_of_a_linear_programme(seed: int, holes: int, slack: float) -> None:
    """SciPy's linear programming over T and the worst misfit, at the angle found and at others round it."""
    recipe = _recipe(np.random.default_rng(seed), holes, 2)
    search, _ = _search(recipe, slack)
    found = assignments(search)
    some = found.at(np.arange(len(found))[:2])
    held = equations(some.group, some.lines, search)
    theta, shift = least_worst(some, held, search.slack, np.zeros((len(some), 2)))
    worst = np.abs(held.misfits(theta, shift)).max(axis=1)
    for i in range(len(some)):
        assert abs(worst[i] - _programmed(some, search, i, theta[i])) < 1e-7
        elsewhere = some.centre[i] + some.half[i] * np.linspace(-1.0, 1.0, 23)
        assert all(_programmed(some, search, i, angle) > worst[i] - 1e-7 for angle in elsewhere)


def _programmed(found: Branches, search: Search, i: int, theta: float) -> float:
    """Least worst misfit at an angle, by a linear programme."""
    nu = search.plans.nu[found.group[i], found.lines[i]]
    cos, sin = math.cos(theta), math.sin(theta)
    turned = search.pattern.holes @ np.array([[cos, sin], [-sin, cos]])
    q = search.plans.offset[found.group[i], found.lines[i]] - (nu * turned).sum(axis=1)
    one = np.ones((len(q), 1))
    rows = np.vstack([np.hstack([nu, -one]), np.hstack([-nu, -one])])
    free = [(None, None), (None, None), (0, None)]
    return float(linprog([0, 0, 1], rows, np.concatenate([q, -q]), bounds=free).fun)


def _recipe(rng: np.random.Generator, holes: int, tubes: int, pose: Pose | None = None) -> Recipe:
    """A pattern of holes at least 25 mm apart, and tubes in one level plane."""
    places: list[Array] = []
    while len(places) < holes:
        place = rng.uniform(-70, 70, 2)
        if all(np.linalg.norm(place - other) > 25 for other in places):
            places.append(place)
    lugs = lugs_at(*((float(x), float(y)) for x, y in places))
    up = Pose(None, None, (0.0, 0.0, 1.0), None, None, False, 0.0)
    return component_recipe(flat_tubes(rng, tubes), lugs, pose=pose or up)


def _search(recipe: Recipe, slack: float) -> tuple[Search, tuple[TubeSet, ...]]:
    job = recipe.asked(BushingJob)
    held = holders(recipe)
    sets, _ = tube_sets(held, job.pose, len(job.component.lugs))
    pattern = pattern_of(job.component.lugs)
    each = np.full(pattern.count, slack)
    return Search(plans_of(held, sets), pattern, wanted_of(job.pose, held, sets), each, each), sets


def _assigned(found: Trials, sets: tuple[TubeSet, ...]) -> Assigned:
    return frozenset(
        tuple((sets[group].lines[line // 2].tube.name, 1 - 2 * (line % 2)) for line in lines)
        for group, lines in zip(found.group.tolist(), found.lines.tolist(), strict=True)
    )


def _line(recipe: Recipe, name: str, turn: int) -> tuple[Array, float]:
    """Unit normal and offset, in the world's plan, of the line of bolts on one side of a level tube."""
    tube = recipe.structure.tube(name)
    nu = np.cross([0.0, 0.0, 1.0], tube.direction)[:2]
    return nu, float(nu @ np.array(tube.start)[:2] + turn * REACH)


def _searched(recipe: Recipe, slack: float) -> Assigned:
    """Every assignment that fits at one of the angles looked at, within the limits of the pose."""
    job = recipe.asked(BushingJob)
    holes = np.array([lug.at for lug in job.component.lugs])
    theta = np.linspace(-math.pi, math.pi, STEPS, endpoint=False)
    if job.pose.along is not None:
        assert job.pose.turn_within_rad is not None
        theta = np.linspace(-job.pose.turn_within_rad, job.pose.turn_within_rad, STEPS)
    cos, sin = np.cos(theta)[:, None], np.sin(theta)[:, None]
    turned = np.stack([cos * holes[:, 0] - sin * holes[:, 1], sin * holes[:, 0] + cos * holes[:, 1]], axis=-1)
    sides = [(name, turn) for name in recipe.structure.names for turn in (1, -1)]
    lines = {side: _line(recipe, *side) for side in sides}
    found = set()
    for each in product(sides, repeat=len(holes)):
        nu = np.array([lines[side][0] for side in each])
        q = np.array([lines[side][1] for side in each]) - (turned * nu).sum(axis=-1)
        near = np.zeros(2) if job.pose.at is None else np.array(job.pose.at)[:2]
        shift = near + (q - nu @ near) @ np.linalg.pinv(nu, rcond=1e-9).T
        fits = np.abs(q - shift @ nu.T).max(axis=1) <= slack
        if job.pose.within_mm is not None:
            fits &= np.linalg.norm(shift - near, axis=1) <= job.pose.within_mm
        if fits.any():
            found.add(each)
    return frozenset(found)


def _misfits(found: Trials, recipe: Recipe, sets: tuple[TubeSet, ...]) -> Array:
    """Misfits of the solver's poses, worked out in the world's plan."""
    made = []
    for k in range(len(found)):
        tubes = sets[found.group[k]]
        stands = np.array([tubes.stands.u, tubes.stands.v])[:, :2]
        reference = np.array(tubes.lines[0].reference)[:2]
        places = reference + found.holes[k] @ stands
        for place, line in zip(places, found.lines[k].tolist(), strict=True):
            nu, offset = _line(recipe, tubes.lines[line // 2].tube.name, 1 - 2 * (line % 2))
            made.append(offset - nu @ place)
    return np.array(made)
