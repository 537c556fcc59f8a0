"""The quick looks of the clash checks lose nothing: against every distance worked out, and by hand."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import cos, radians, sin

import pytest
from checks.example_plate import CLAMPS, LAYOUT, TUBES
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.checks.clash import _at_least_apart, clamp_against_clamp, clamp_bodies
from clampwright.checks.nearest_body import nearest, surely
from clampwright.layout.bodies import Body, Box, Cylinder, bound, clearance
from clampwright.layout.joined import Named
from clampwright.quantities import Vec3
from clampwright.structure.tubes import Structure

pytestmark = pytest.mark.usefixtures("as_measured")

SQUARE: tuple[Vec3, Vec3, Vec3] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
POINTS = st.tuples(*[st.integers(-60, 60).map(float)] * 3)
RUNS = st.tuples(*[st.integers(-40, 40).map(float)] * 3).filter(any)
SIZES = st.tuples(*[st.sampled_from([1.0, 6.0, 40.0])] * 3)


def drum(start: Vec3, run: Vec3, radius: float) -> Cylinder:
    return Cylinder(start, (start[0] + run[0], start[1] + run[1], start[2] + run[2]), radius)


def turned(centre: Vec3, half: Vec3, degrees: float) -> Box:
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return Box(centre, ((c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)), half)


DRUMS = st.builds(drum, POINTS, RUNS, st.sampled_from([1.0, 9.0, 25.0]))
BOXES = st.builds(turned, POINTS, SIZES, st.sampled_from([0.0, 30.0, 77.0]))
BODIES = st.one_of(DRUMS, BOXES)


def named(*bodies: Body) -> list[Named]:
    return [Named(f"body {i}", str(i), body) for i, body in enumerate(bodies)]


@settings(deadline=None, max_examples=100)
@given(one=BODIES, other=BODIES)
def test_a_distance_surely_kept_is_never_more_than_the_distance(one: Body, other: Body) -> None:
    assert surely(bound(one), other) <= clearance(one, other) + 1e-6


@settings(deadline=None, max_examples=60)
@given(one=st.lists(BODIES, min_size=1, max_size=3), other=st.lists(BODIES, min_size=1, max_size=3))
def test_two_sets_of_bodies_are_at_least_that_far_apart(one: list[Body], other: list[Body]) -> None:
    least = min(clearance(a, b) for a in one for b in other)
    assert _at_least_apart(named(*one), named(*other)) <= least + 1e-6


@settings(deadline=None, max_examples=60)
@given(one=BODIES, others=st.lists(BODIES, min_size=1, max_size=6))
def test_the_nearest_is_the_least_of_all_distances(one: Body, others: list[Body]) -> None:
    found, clear = nearest(one, named(*others))
    assert found is not None
    assert clear == pytest.approx(min(clearance(one, other) for other in others), abs=1e-6)
    assert clearance(one, found.body) == pytest.approx(clear, abs=1e-6)


@pytest.mark.parametrize(
    ("beside", "ahead"),
    [
        (
            Cylinder((0.0, 20.0, -5.0), (0.0, 20.0, 5.0), 1.0),
            Cylinder((59.0, 0.0, 0.0), (60.0, 0.0, 0.0), 1.0),
        ),
        (Box((0.0, 20.0, 0.0), SQUARE, (1.0, 1.0, 1.0)), Box((60.0, 0.0, 0.0), SQUARE, (1.0, 1.0, 1.0))),
    ],
)
def test_a_long_bar_is_nearer_to_what_lies_before_its_end(beside: Body, ahead: Body) -> None:
    """A bar of 100 x 2 x 2: 20 - 1 - 1 = 18 to the body at its side, 59 - 50 = 9 to the one before it."""
    bar = Box((0.0, 0.0, 0.0), SQUARE, (50.0, 1.0, 1.0))
    found, clear = nearest(bar, named(beside, ahead))
    assert found is not None
    assert found.body == ahead
    assert clear == pytest.approx(9.0)


def test_feet_close_to_each_other_are_seen_after_a_nearer_pair_of_bands() -> None:
    """A1 and A2 3.5 mm apart; B1's feet end 53.324 - 2 x 26.162 = 1.0 mm before A1's, centres 27.162 off."""
    near = replace(TUBES[1], start=(0.0, 53.324, 0.0), end=(600.0, 53.324, 0.0))
    clamps = (
        CLAMPS[0],
        replace(CLAMPS[1], station_mm=216.2, centre=(216.2, 0.0, 0.0)),
        replace(CLAMPS[2], centre=(200.0, 53.324, 0.0)),
    )
    layout = replace(
        LAYOUT, recipe=replace(LAYOUT.recipe, structure=Structure((TUBES[0], near))), clamps=clamps
    )
    (found,) = clamp_against_clamp(layout)
    assert (found.where, found.verdict) == ("A1/B1", "caution")
    assert found.value == pytest.approx(1.0, abs=1e-6)


def test_the_nearest_two_clamps_of_the_example_are_those_of_every_pair() -> None:
    """Every two bodies of every two clamps on two tubes, one by one; on a tube they are 187 mm apart."""
    bodies = clamp_bodies(LAYOUT)
    tubes = {c.label: c.tube for c in LAYOUT.clamps}
    least = min(
        clearance(p.body, q.body) for p, q in combinations(bodies, 2) if tubes[p.owner] != tubes[q.owner]
    )
    (found,) = clamp_against_clamp(LAYOUT)
    assert found.value == pytest.approx(least, abs=1e-6)
