"""Where two bodies are nearest: each place on its body, as far apart as the bodies; and against FCL's."""

from __future__ import annotations

from math import dist

import fcl
import numpy as np
import pytest
from hypothesis import assume, given, settings
from layout.test_bodies import BODIES
from solids.joined.by_fcl import of_simple

from clampwright.layout.bodies import Body, Box, Capsule, Cylinder, clearance, nearest
from clampwright.layout.body_ends import off_body


@settings(deadline=None, max_examples=150)
@given(a=BODIES, b=BODIES)
def test_places_lie_on_their_bodies_and_as_far_apart(a: Body, b: Body) -> None:
    apart, p, q = nearest(a, b)
    assert apart == clearance(a, b)
    assume(apart > 1e-3)
    assert dist(p, q) == pytest.approx(apart, abs=1e-9)
    assert off_body(p, a) < 2e-3
    assert off_body(q, b) < 2e-3
    assert off_body(p, b) == pytest.approx(apart, abs=2e-3)
    assert off_body(q, a) == pytest.approx(apart, abs=2e-3)


@pytest.mark.parametrize("seed", range(40))
def test_places_against_fcl(seed: int) -> None:
    """Capsules and leaning boxes at random, where one pair of places alone is nearest."""
    rng = np.random.default_rng(seed)
    a, b = _at_random(rng), _at_random(rng, 120.0)
    request = fcl.DistanceRequest(enable_nearest_points=True)
    result = fcl.DistanceResult()
    apart, p, q = nearest(a, b)
    found = fcl.distance(of_simple(a), of_simple(b), request, result)
    assert apart == pytest.approx(found, abs=1e-4)
    assert apart > 1.0
    if isinstance(a, Capsule) and isinstance(b, Capsule):
        by_fcl = [np.array(place) for place in result.nearest_points]
        assert np.linalg.norm(by_fcl[0] - p) == pytest.approx(0.0, abs=0.05)
        assert np.linalg.norm(by_fcl[1] - q) == pytest.approx(0.0, abs=0.05)


def _at_random(rng: np.random.Generator, off: float = 0.0) -> Body:
    x, y, z = rng.uniform(-20.0, 20.0, 3).tolist()
    u, v, w = rng.uniform(-30.0, 30.0, 3).tolist()
    start, end = (x, y, z + off), (x + u, y + v, z + w / 3 + off)
    return (Capsule, Cylinder)[int(rng.integers(2))](start, end, 4.0)


def test_by_hand() -> None:
    """A post under a beam: from its top to the beam's underside."""
    beam = Box((0.0, 0.0, 50.0), ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)), (90.0, 10.0, 5.0))
    apart, on_post, on_beam = nearest(Capsule((30.0, 4.0, 0.0), (30.0, 4.0, 20.0), 3.0), beam)
    assert apart == pytest.approx(22.0)
    assert on_post == pytest.approx((30.0, 4.0, 23.0))
    assert on_beam == pytest.approx((30.0, 4.0, 45.0))
