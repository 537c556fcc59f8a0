"""Distances between simple bodies: closed forms, and a general minimiser (scipy) on the same bodies."""

from __future__ import annotations

from math import cos, radians, sin, sqrt

import numpy as np
import numpy.typing as npt
import pytest
from general_minimiser import apart
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.plate_recipes import PARALLEL, REACH, SEAT, component, recipe

from clampwright.layout.bodies import Body, Box, Capsule, Cylinder, bound, clearance, nearer_than
from clampwright.layout.clash_bodies import (
    band_body,
    component_body,
    feet_body,
    plate_box,
    point,
    tube_body,
)
from clampwright.layout.lay_out import lay_out

Array = npt.NDArray[np.float64]

AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
POINTS = st.tuples(*[st.integers(-40, 40).map(float)] * 3)
STEPS = st.tuples(*[st.integers(-25, 25).map(float)] * 3).filter(lambda d: any(d))
SIZES = st.tuples(*[st.integers(1, 15).map(float)] * 3)


def ahead(p: tuple[float, ...], d: tuple[float, ...]) -> tuple[float, float, float]:
    return p[0] + d[0], p[1] + d[1], p[2] + d[2]


CAPSULES = st.builds(lambda p, d, r: Capsule(p, ahead(p, d), r), POINTS, STEPS, st.sampled_from([1.0, 4.0]))
CYLINDERS = st.builds(lambda p, d, r: Cylinder(p, ahead(p, d), r), POINTS, STEPS, st.sampled_from([2.0, 9.0]))


def leaning(centre: tuple[float, float, float], half: tuple[float, float, float], degrees: float) -> Box:
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return Box(centre, ((c, s, 0.0), (-s, c, 0.0), (0.0, 0.0, 1.0)), half)


BOXES = st.builds(leaning, POINTS, SIZES, st.sampled_from([0.0, 30.0, 77.0]))
BODIES = st.one_of(CAPSULES, CYLINDERS, BOXES)


@settings(deadline=None, max_examples=40)
@given(a=BODIES, b=BODIES)
def test_clearance_against_a_general_minimiser(a: Body, b: Body) -> None:
    """Squared distance of two places, each held in its body: a convex problem, so its least is the least."""
    assert clearance(a, b) == pytest.approx(apart(a, b), abs=5e-4)
    assert clearance(b, a) == pytest.approx(clearance(a, b), abs=1e-6)


@settings(deadline=None, max_examples=40)
@given(a=BODIES, b=BODIES, limit=st.sampled_from([1.0, 10.0, 40.0]))
def test_the_first_look_never_misses(a: Body, b: Body, limit: float) -> None:
    assert nearer_than(a, b, limit) is (clearance(a, b) < limit)
    centre, radius = bound(a)
    assert clearance(a, Capsule(centre, centre, radius)) == 0.0


def test_closed_forms() -> None:
    wire = Capsule((0.0, 0.0, 0.0), (100.0, 0.0, 0.0), 2.0)
    assert clearance(wire, Capsule((50.0, -40.0, 9.0), (50.0, 60.0, 9.0), 3.0)) == pytest.approx(4.0)
    pin = Cylinder((0.0, 0.0, 5.0), (0.0, 0.0, 9.0), 3.0)
    assert clearance(pin, Box((0.0, 0.0, 0.0), AXES, (1.0, 1.0, 1.0))) == pytest.approx(4.0)
    assert clearance(pin, Box((13.0, 14.0, 7.0), AXES, (10.0, 10.0, 1.0))) == pytest.approx(2.0)
    assert clearance(pin, Box((0.0, 0.0, 6.0), AXES, (1.0, 1.0, 2.0))) == 0.0


def test_bodies_of_a_plate_lie_where_they_are_bolted() -> None:
    """Tubes at z = 0, feet up to the seat at 13, plate on it, its edge 20 - 12 beside the axis."""
    coil = component(holes=((-20.0, 0.0), (20.0, 0.0)))
    layout = lay_out(recipe(PARALLEL, carries=(coil,)))
    sheet = plate_box(layout.frame, layout.outline.box(), layout.thickness_mm)
    beside = sqrt((REACH - 12.0) ** 2 + SEAT**2) - 19.05 / 2
    assert clearance(tube_body(PARALLEL[0]), sheet) == pytest.approx(beside, abs=1e-6)
    body = component_body(layout.components[0], layout.frame, layout.thickness_mm)
    assert body is not None
    assert body.half == (30.0, 20.0, 25.0)
    assert clearance(body, sheet) == pytest.approx(0.0, abs=1e-9)
    assert clearance(body, tube_body(PARALLEL[0])) == pytest.approx(
        sqrt((75 - 20 - 0) ** 2 + (SEAT + 2.0) ** 2) - 19.05 / 2, abs=1e-6
    )
    first = layout.clamps[0]
    feet, loop = feet_body(first), band_body(first)
    assert clearance(feet, sheet) == pytest.approx(0.0, abs=1e-9)
    assert clearance(loop, tube_body(PARALLEL[0])) == 0.0
    assert feet.half[1] == pytest.approx((REACH + first.clamp.foot_end_mm) / 2)
    wrench = Cylinder(point(layout.frame, first.at, 2.0), point(layout.frame, first.at, 42.0), 6.0)
    assert wrench.start == pytest.approx((first.station_mm, REACH, SEAT + 2.0), abs=1e-6)
    assert clearance(wrench, feet) == pytest.approx(2.0, abs=1e-6)
