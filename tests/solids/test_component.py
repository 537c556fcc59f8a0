"""Component bodies: boxes, ears and bolt rooms of every proportion stay sound and measure up."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product

import pytest
from solids.hand_layout import hand_layout

from clampwright.layout.placed import Hole, PlacedComponent
from clampwright.quantities import Vec2
from clampwright.solids.component import component_bodies, component_shape
from clampwright.solids.lugs import EAR_DIAMETERS
from clampwright.solids.measure import box_mm, cylinders, volume_mm3
from clampwright.trade.bolts import bolt

LAYOUT = hand_layout()
COIL, RELAY = LAYOUT.components
ROOM = bolt("AN3").socket_od_mm / 2


def hole(fastener: str = "AN3") -> Hole:
    """A hole for a bolt or screw."""
    return Hole("C1", "component", "x", (0.0, 0.0), 4.9784, fastener, "#9", "#40")


def shape(component: PlacedComponent, *places: Vec2, fastener: str = "AN3") -> object:
    """The component with holes at these places of its own frame."""
    return component_shape(component, [(at, hole(fastener)) for at in places])


def test_a_box_without_holes_is_a_box() -> None:
    solid = shape(COIL)
    assert volume_mm3(solid) == pytest.approx(60 * 40 * 56, rel=1e-12)
    assert box_mm(solid) == (pytest.approx((-30, -20, 0)), pytest.approx((30, 20, 56)))


def test_without_a_lug_holes_go_straight_through() -> None:
    solid = shape(replace(COIL, stacks=()), (10.0, 5.0), (-10.0, 5.0))
    expected = 60 * 40 * 56 - 2 * math.pi / 4 * 4.9784**2 * 56
    assert volume_mm3(solid) == pytest.approx(expected, rel=1e-9)


def test_a_hole_beyond_the_body_gets_an_ear_as_thick_as_the_lug() -> None:
    """Ear: half a disc of the wrench's radius round the hole, and a strip back to the body, less the hole."""
    out = 30.0 + 10.0
    solid = shape(COIL, (out, 0.0))
    low, high = box_mm(solid)
    assert high[0] == pytest.approx(out + ROOM, abs=1e-6)
    assert low[0] == pytest.approx(-30, abs=1e-6)
    ear = math.pi / 2 * ROOM**2 + 2 * ROOM * 10.0 - math.pi / 4 * 4.9784**2
    assert volume_mm3(solid) == pytest.approx(60 * 40 * 56 + ear * 3.175, rel=1e-9)


def test_a_lug_alone_is_shown_where_there_is_no_body() -> None:
    bare = replace(RELAY, body=None)
    solid = shape(bare, (0.0, 0.0), (40.0, 0.0))
    ring = math.pi * (ROOM**2 - (4.9784 / 2) ** 2)
    assert volume_mm3(solid) == pytest.approx(2 * ring * 3.175, rel=1e-9)
    assert shape(replace(bare, stacks=()), (0.0, 0.0)) is None
    assert shape(bare) is None


def test_a_screw_needs_less_room_than_a_bolt() -> None:
    solid = shape(COIL, (0.0, 0.0), fastener="#8")
    rooms = [c.diameter_mm for c in cylinders(solid) if c.hollow and c.diameter_mm > 5]
    assert rooms == [pytest.approx(2 * EAR_DIAMETERS * 4.9784)]


CLOSE = (0.0, 30.0 - ROOM, 30.0 - 4.9784 / 2, 30.0, 30.0 + ROOM, 33.0)


@pytest.mark.parametrize(("x", "y"), product(CLOSE, (0.0, 20.0 - ROOM, 20.0, 20.0 + ROOM)))
def test_holes_that_touch_an_edge_leave_a_sound_body(x: float, y: float) -> None:
    solid = shape(COIL, (x, y), (-x, -y))
    assert solid.isValid()
    assert volume_mm3(solid) > 0.5 * 60 * 40 * 56


def test_bodies_are_named_and_turned() -> None:
    bodies = {body.name: body for body in component_bodies(LAYOUT)}
    assert set(bodies) == {"component coil pack", "component relay"}
    assert bodies["component relay"].place.direction((1.0, 0.0, 0.0)) == pytest.approx(
        LAYOUT.frame.v, abs=1e-12
    )
