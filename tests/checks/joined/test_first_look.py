"""The first look: a distance that is never more than the exact one, and the nearest pair is always found."""

from __future__ import annotations

from math import cos, radians, sin

import numpy as np
import pytest
from general_minimiser import apart
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.checks.first_look import cores, from_box, nearest_to_each, surely
from clampwright.layout.bodies import Box, Capsule, Cylinder, clearance
from clampwright.layout.joined import Named
from clampwright.layout.moved_bodies import shifted, turned

POINTS = st.tuples(*[st.integers(-60, 60).map(float)] * 3)
STEPS = st.tuples(*[st.integers(-40, 40).map(float)] * 3).filter(any)
SIZES = st.tuples(*[st.integers(1, 25).map(float)] * 3)


def ahead(p, d):
    return p[0] + d[0], p[1] + d[1], p[2] + d[2]


def leaning(centre, half, degrees):
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return Box(centre, ((c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)), half)


CAPSULES = st.builds(lambda p, d, r: Capsule(p, ahead(p, d), r), POINTS, STEPS, st.sampled_from([1.0, 4.0]))
CYLINDERS = st.builds(lambda p, d, r: Cylinder(p, ahead(p, d), r), POINTS, STEPS, st.sampled_from([2.0, 9.0]))
BOXES = st.builds(leaning, POINTS, SIZES, st.sampled_from([0.0, 30.0, 77.0]))
SQUARE = st.builds(lambda p, h: leaning(p, h, 0.0), POINTS, SIZES)
BODIES = st.one_of(CAPSULES, CYLINDERS, BOXES)
OTHERS = st.one_of(CAPSULES, SQUARE)


def named(bodies):
    return [Named(f"body {i}", str(i), body) for i, body in enumerate(bodies)]


@settings(deadline=None, max_examples=60)
@given(st.lists(BODIES, min_size=1, max_size=6), st.lists(OTHERS, min_size=1, max_size=4))
def test_never_more_than_the_exact_distance(bodies, others):
    least = surely(cores(named(bodies)), cores(named(others)))
    for i, body in enumerate(bodies):
        for k, other in enumerate(others):
            assert least[i, k] <= clearance(body, other) + 1e-9


@settings(deadline=None, max_examples=60)
@given(BOXES, st.lists(OTHERS, min_size=1, max_size=4))
def test_a_box_seen_along_its_own_axes(box, others):
    """Never more than the exact distance, and for a wire that faces a side of the box no less."""
    least = from_box(np.array([box.centre]), np.array([box.axes]), np.array(box.half), cores(named(others)))
    for k, other in enumerate(others):
        assert least[0, k] <= clearance(box, other) + 1e-9
    start = tuple(c + 90.0 * a for c, a in zip(box.centre, box.axes[0], strict=True))
    end = tuple(p + h * a for p, h, a in zip(start, [box.half[1]] * 3, box.axes[1], strict=True))
    wire = cores(named([Capsule(start, end, 2.0)]))
    ((face,),) = from_box(np.array([box.centre]), np.array([box.axes]), np.array(box.half), wire)
    assert face == pytest.approx(90.0 - box.half[0] - 2.0)


@settings(deadline=None, max_examples=40)
@given(
    st.lists(BODIES, min_size=1, max_size=6),
    st.lists(OTHERS, min_size=1, max_size=3),
    st.lists(STEPS, min_size=1, max_size=4),
)
def test_the_nearest_of_all_states_is_found(bodies, others, steps):
    """Against every pair in every state, one by one."""
    held = cores(named(bodies))
    at = np.array(steps)[:, None, :]
    moved = type(held)(held.start + at, held.end + at, held.radius, held.low, held.high, held.skin)
    least = surely(moved, cores(named(others)))
    found = nearest_to_each(named(bodies), least, named(others), lambda b, s: shifted(b, steps[s]))
    for k, near in enumerate(found):
        every = [clearance(shifted(b, step), others[k]) for b in bodies for step in steps]
        assert near.clear_mm == pytest.approx(min(every), abs=1e-9)
        mine = shifted(bodies[near.body], steps[near.state])
        assert clearance(mine, others[k]) == pytest.approx(near.clear_mm, abs=1e-9)


def test_what_moves_any_way_comes_nearer_by_so_much():
    """Two balls 20 and 30 mm off; the farther one moves 15 any way."""
    balls = named([Capsule((x, 0.0, 0.0), (x, 0.0, 0.0), 5.0) for x in (0.0, -10.0)])
    wall = named([leaning((26.0, 0.0, 0.0), (1.0, 50.0, 50.0), 0.0)])
    least = surely(cores(balls), cores(wall))[None]
    (still,) = nearest_to_each(balls, least, wall, lambda b, _: b)
    assert (still.body, still.clear_mm) == (0, pytest.approx(20.0))
    (moves,) = nearest_to_each(balls, least, wall, lambda b, _: b, np.array([[0.0], [15.0]]))
    assert (moves.body, moves.clear_mm) == (1, pytest.approx(15.0))


@settings(deadline=None, max_examples=30)
@given(BODIES, OTHERS, STEPS, st.integers(-180, 180))
def test_turned_bodies_against_a_general_minimiser(body, other, axis, degrees):
    size = sum(a * a for a in axis) ** 0.5
    unit = tuple(a / size for a in axis)
    moved = turned(body, (5.0, -3.0, 2.0), unit, radians(degrees))
    back = turned(moved, (5.0, -3.0, 2.0), unit, -radians(degrees))
    assert clearance(moved, other) == pytest.approx(apart(moved, other), abs=2e-3)
    assert clearance(back, other) == pytest.approx(clearance(body, other), abs=1e-6)
