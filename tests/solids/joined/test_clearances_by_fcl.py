"""Clearances of simple bodies and of exact solids, held against FCL (python-fcl), which knows neither."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from solids.joined.by_fcl import CHORD_MM, apart, of_simple, of_solid
from solids.joined.hand_component import hand_component
from solids.joined.pairs import stand_off

from clampwright.layout.bodies import Body, Box, Capsule, Cylinder, clearance
from clampwright.layout.joined import Joined
from clampwright.quantities import Vec3
from clampwright.solids.clearances import least_mm
from clampwright.solids.joined_assembly import joined_assembly
from clampwright.solids.measured_things import things

FCL_MM = 2e-3
"""FCL's own search stops this near to the least distance; ours has always been the smaller of the two."""

PLACES = st.tuples(*[st.floats(-60.0, 60.0)] * 3)
STEPS = st.tuples(*[st.floats(-40.0, 40.0)] * 3).filter(lambda d: sum(x * x for x in d) > 4.0)
ROUND = st.builds(
    lambda kind, p, d, r: kind(p, (p[0] + d[0], p[1] + d[1], p[2] + d[2]), r),
    st.sampled_from([Capsule, Cylinder]),
    PLACES,
    STEPS,
    st.floats(1.0, 20.0),
)


def turned_box(centre: Vec3, half: Vec3, seed: int) -> Box:
    """A box turned any way."""
    turn = np.linalg.qr(np.random.default_rng(seed).normal(size=(3, 3)))[0]
    turn[2] = np.cross(turn[0], turn[1])
    x, y, z = (tuple(float(c) for c in axis) for axis in turn)
    return Box(centre, (x, y, z), half)


BOXES = st.builds(turned_box, PLACES, st.tuples(*[st.floats(1.0, 20.0)] * 3), st.integers(0, 999))
BODIES = st.one_of(ROUND, BOXES)
LAYOUTS: dict[str, Joined] = {
    "component with ears": hand_component(body=(60.0, 80.0, 70.0)),
    "skew": stand_off("skew"),
    "parallel": stand_off("parallel"),
    "panel": stand_off("panel"),
}


@given(BODIES, BODIES)
@settings(max_examples=300, deadline=None)
def test_clearance_of_simple_bodies(a: Body, b: Body) -> None:
    """Capsules, cylinders and boxes any way about, apart and through each other."""
    assert clearance(a, b) == pytest.approx(apart(of_simple(a), of_simple(b)), abs=FCL_MM, rel=1e-4)


@pytest.mark.parametrize("name", LAYOUTS)
def test_exact_clearances_of_all_that_is_not_bolted_together(name: str) -> None:
    """Every pair of things of the layout: the kernel against fine meshes in FCL.

    A mesh lies within its chord error of the solid, on either side of each pair.
    """
    layout = LAYOUTS[name]
    used = {loop.tube for loop in layout.loops}
    found = [t for t in things(layout, joined_assembly(layout)) if t.sort != "tube" or t.label in used]
    meshes = {thing.key: [of_solid(solid.shape) for solid in thing.solids] for thing in found}
    checked = 0
    for a, b in combinations(found, 2):
        if a.adjoins(b) or {a.sort, b.sort} <= {"tube", "panel", "keep-out"}:
            continue
        exact = least_mm(a, b)
        other = min(apart(p, q) for p in meshes[a.key] for q in meshes[b.key])
        assert exact == pytest.approx(other, abs=2 * CHORD_MM + FCL_MM), (a.what, b.what)
        checked += 1
    assert checked >= 4


@pytest.mark.parametrize("name", ["skew", "panel"])
def test_what_holds_a_solid_is_never_farther_away_than_the_solid(name: str) -> None:
    """The convex body round a solid gives a distance that is never too large: else a pair would be missed."""
    layout = LAYOUTS[name]
    found = things(layout, joined_assembly(layout))
    for a, b in combinations(found, 2):
        for p in a.solids:
            for q in b.solids:
                assert clearance(p.held_in, q.held_in) <= float(p.shape.distance(q.shape)) + 1e-6
