"""Bodies on a bolt, against the numbers of the hand-made pair and against trimesh's volumes and bounds."""

from __future__ import annotations

from dataclasses import replace
from math import pi, sqrt

import pytest
import trimesh
from checks.joined.hand_layouts import BOLT, BUSHED, FEET, HELD_OFF, SEAT

from clampwright.layout.bodies import Cylinder
from clampwright.layout.joint_solids import (
    at,
    bushing_bodies,
    drawn_out,
    drawn_out_behind,
    end_mm,
    head_body,
    head_socket,
    joint_bodies,
    layers,
    nut_body,
    nut_socket,
)
from clampwright.trade.bolts import bolt_by_part

JOINT = HELD_OFF.joints[0]
THIN = 0.032 * 25.4


def heights(body: Cylinder) -> tuple[float, float]:
    """Lower and upper end of an upright body."""
    assert body.start[:2] == body.end[:2] == BOLT
    return min(body.start[2], body.end[2]), max(body.start[2], body.end[2])


def test_layers_from_the_head_down():
    """Thin washer, feet, 33.7 mm of bushing, feet, thin washer: 41.752 mm."""
    found = [(layer.item.name, layer.start_mm, layer.end_mm) for layer in layers(JOINT.stack)]
    assert [name for name, _, _ in found] == ["washer", "clamp feet", "bushing", "clamp feet", "washer"]
    assert found[2][1:] == pytest.approx((THIN + FEET, THIN + FEET + 33.7))
    assert found[-1][2] == pytest.approx(JOINT.stack.thickness_mm)
    assert JOINT.stack.thickness_mm == pytest.approx(2 * THIN + 2 * FEET + 33.7)


def test_head_over_the_upper_feet():
    """Feet end at 60 - 13.1318 + 3.2131 = 50.0813; washer on it, head 1/8 in; radius of a 7/16 in washer."""
    low, high = heights(head_body(JOINT))
    assert low == pytest.approx(60.0 - SEAT + FEET)
    assert high == pytest.approx(60.0 - SEAT + FEET + THIN + 3.175)
    assert head_body(JOINT).radius_mm == pytest.approx(0.438 / 2 * 25.4)


def test_nut_and_bolt_end_below():
    """AN3-20A is 2 1/32 in long: 51.594 from under its head; the nut's corners 9.55/sqrt 3."""
    assert JOINT.stack.chosen is not None
    part = JOINT.stack.chosen.length.part
    low, high = heights(nut_body(JOINT))
    assert high == pytest.approx(JOINT.head[2] - JOINT.stack.thickness_mm)
    assert low == pytest.approx(JOINT.head[2] - bolt_by_part(part).length_mm)
    assert nut_body(JOINT).radius_mm == pytest.approx(JOINT.stack.nut.across_flats_mm / sqrt(3))


def test_a_bolt_that_is_not_chosen_ends_with_its_nut():
    """Thickness of the stack and the nut's height, or the bolt's diameter where that is not known."""
    bare = replace(JOINT, stack=replace(JOINT.stack, chosen=None))
    height = JOINT.stack.nut.height_mm
    assert height is not None
    assert end_mm(bare) == pytest.approx(JOINT.stack.thickness_mm + height)
    unknown = replace(bare, stack=replace(bare.stack, nut=replace(bare.stack.nut, height_mm=None)))
    assert end_mm(unknown) == pytest.approx(JOINT.stack.thickness_mm + 4.826)


def test_the_bushing_fills_the_gap_between_the_seats():
    """From the lower foot's face at 13.1318 (and 0.0364 that 33.7 leaves of 33.7364) to the upper's."""
    (ring,) = bushing_bodies(JOINT)
    low, high = heights(ring.body)
    assert high == pytest.approx(60.0 - SEAT)
    assert low == pytest.approx(60.0 - SEAT - 33.7)
    assert (ring.what, ring.owner) == ("bushing of A1+B1", "A1+B1")
    assert ring.body.radius_mm == pytest.approx(7 / 32 * 25.4)


def test_sockets_and_the_way_of_the_bolt():
    """60 mm of socket; the bolt with its head, its own length in front of its seat, and behind the nut's."""
    top, nut = JOINT.head[2], JOINT.head[2] - JOINT.stack.thickness_mm
    assert heights(head_socket(JOINT)) == pytest.approx((top, top + 60.0))
    assert heights(nut_socket(JOINT)) == pytest.approx((top - end_mm(JOINT) - 60.0, nut))
    swept = bolt_by_part(JOINT.stack.chosen.length.part).length_mm + 3.175
    assert heights(drawn_out(JOINT)) == pytest.approx((top, top + swept))
    assert heights(drawn_out_behind(JOINT)) == pytest.approx((nut - swept, nut))
    assert drawn_out(JOINT).radius_mm == pytest.approx(9.525 / sqrt(3))
    assert at(JOINT, 10.0) == pytest.approx((*BOLT, top - 10.0))


@pytest.mark.parametrize("layout", [HELD_OFF, BUSHED], ids=["pair", "component"])
def test_bodies_of_every_joint_against_trimesh(layout):
    """A mesh of the same cylinder, placed by trimesh from its two ends, has its volume, length and middle."""
    for joint in layout.joints:
        for body in (*(n.body for n in joint_bodies(joint)), head_socket(joint)):
            mesh = trimesh.creation.cylinder(body.radius_mm, segment=[body.start, body.end], sections=256)
            length = sum((s - e) ** 2 for s, e in zip(body.start, body.end, strict=True)) ** 0.5
            assert mesh.volume == pytest.approx(pi * body.radius_mm**2 * length, rel=2e-4)
            middle = [(s + e) / 2 for s, e in zip(body.start, body.end, strict=True)]
            assert mesh.centroid == pytest.approx(middle, abs=1e-6)
