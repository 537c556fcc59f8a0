"""Clearances of simple bodies and of exact solids, held against FCL (python-fcl), which knows neither."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from solids.joined.by_fcl import CHORD_MM, apart, of_simple, of_solid
from solids.joined.hand_component import hand_component
from solids.joined.pairs import stand_off

from clampwright.layout.bodies import Body, Box, Capsule, Cylinder, clearance
from clampwright.layout.joined import Joined
from clampwright.solids.clearances import least
from clampwright.solids.joined_assembly import joined_assembly
from clampwright.solids.measured_things import things

FCL_MM = 2e-3
"""FCL's own search stops this near to the least distance; ours has always been the smaller of the two."""


def any_body(rng: np.random.Generator) -> Body:
    """A capsule, cylinder or box any way about; by chance never in line, where FCL's search stops short."""
    x, y, z = (float(c) for c in rng.uniform(-40.0, 40.0, 3))
    kind = rng.integers(3)
    if kind == 2:
        turn = np.linalg.qr(rng.normal(size=(3, 3)))[0]
        turn[2] = np.cross(turn[0], turn[1])
        p, q, r = (tuple(float(c) for c in axis) for axis in turn)
        a, b, c = (float(half) for half in rng.uniform(1.0, 20.0, 3))
        return Box((x, y, z), (p, q, r), (a, b, c))
    dx, dy, dz = (float(c) for c in rng.uniform(-40.0, 40.0, 3))
    made = Capsule if kind else Cylinder
    return made((x, y, z), (x + dx, y + dy, z + dz), float(rng.uniform(1.0, 20.0)))


LAYOUTS: dict[str, Joined] = {
    "component with ears": hand_component(body=(60.0, 80.0, 70.0)),
    "skew": stand_off("skew"),
    "parallel": stand_off("parallel"),
    "panel": stand_off("panel"),
}


@pytest.mark.parametrize("seed", range(6))
def test_clearance_of_simple_bodies(seed: int) -> None:
    """Capsules, cylinders and boxes, apart and through each other: a hundred pairs a seed."""
    rng = np.random.default_rng(seed)
    met = 0
    for _ in range(100):
        a, b = any_body(rng), any_body(rng)
        ours, theirs = clearance(a, b), apart(of_simple(a), of_simple(b))
        assert ours == pytest.approx(theirs, abs=FCL_MM, rel=1e-4), (a, b)
        met += theirs == 0.0
    assert 0 < met < 100


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
        found_apart = least(a, b)
        assert found_apart is not None
        exact = found_apart[0]
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
