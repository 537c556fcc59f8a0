"""Where bodies sit in the world, measured on the solids and held against the layout's plain numbers."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray
from solids.hand_layout import (
    BUSHING,
    CLAMP_HOLES,
    COIL_HOLES,
    FRAME,
    LOOP,
    RELAY_HOLES,
    THICKNESS,
    TUBE_OD,
    TUBES,
    hand_layout,
    to_world,
    without_packing,
)

from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec3
from clampwright.solids.assembly import assembly, part
from clampwright.solids.body import COLOURS, Body
from clampwright.solids.bushing import bushing_body, bushing_product
from clampwright.solids.measure import Cylinder, box_mm, cylinders, volume_mm3
from clampwright.solids.tube import shown_stations

LAYOUT = hand_layout()
BODIES = {body.name: body for body in assembly(LAYOUT)}
NEAR = 1e-6


def hollows(body: Body, diameter: float) -> list[Cylinder]:
    """Holes of this diameter in a body where it sits."""
    found = [c for c in cylinders(body.placed()) if c.hollow]
    return [c for c in found if math.isclose(c.diameter_mm, diameter, rel_tol=1e-9)]


def off_axis(point: Vec3, at: Vec3, axis: Vec3) -> float:
    """Distance of a point from a line."""
    return float(np.linalg.norm(np.cross(np.subtract(point, at), axis)))


def in_part(point: Vec3) -> NDArray[np.float64]:
    """A world point in the part's frame."""
    turn = np.array([FRAME.u, FRAME.v, FRAME.n])
    return turn @ np.subtract(point, FRAME.origin)


def height_span(body: Body) -> tuple[float, float]:
    """Lowest and highest n of a body, from its own vertices by the kernel's box in the part's frame."""
    inverse = np.array([FRAME.u, FRAME.v, FRAME.n])
    low, high = box_mm(body.shape)
    corners = [(x, y, z) for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])]
    heights = [float((inverse @ np.subtract(body.place.point(c), FRAME.origin))[2]) for c in corners]
    return min(heights), max(heights)


def test_every_body_has_a_name_of_its_own_and_a_colour() -> None:
    names = [body.name for body in assembly(LAYOUT)]
    assert len(names) == len(set(names))
    assert {body.role for body in BODIES.values()} == set(COLOURS) - {"line", "wrap", "panel", "keep-out"}
    assert all(body.shape.isValid() for body in BODIES.values())


def test_count_of_bodies_is_the_layout_s() -> None:
    roles = Counter(body.role for body in BODIES.values())
    assert roles == {
        "plate": 1, "band": 4, "cushion": 4, "bolt": 10, "nut": 10, "washer": 20, "bushing": 2,
        "component": 2, "tube": 2,
    }  # fmt: skip


@pytest.mark.parametrize("label", CLAMP_HOLES)
def test_foot_hole_and_plate_hole_share_one_axis(label: str) -> None:
    (foot,) = hollows(BODIES[f"clamp {label} band"], LOOP.foot_hole_mm)
    u, v = CLAMP_HOLES[label]
    assert off_axis(to_world((u, v, 0.0)), foot.at, foot.axis) < NEAR
    assert abs(np.dot(foot.axis, FRAME.n)) == pytest.approx(1, abs=1e-12)
    plate = [c for c in cylinders(BODIES["plate coil-plate"].placed()) if c.hollow]
    assert min(off_axis(foot.at, c.at, c.axis) for c in plate) < NEAR


@pytest.mark.parametrize("label", CLAMP_HOLES)
def test_loop_lies_round_its_tube_s_axis(label: str) -> None:
    tube = TUBES[{"A": "low", "B": "high"}[label[0]]]
    axis = np.subtract(tube.end, tube.start) / math.dist(tube.start, tube.end)
    bore = hollows(BODIES[f"clamp {label} cushion"], LOOP.loop_mm)
    loop = hollows(BODIES[f"clamp {label} band"], 2 * (LOOP.outside_radius_mm - LOOP.band_mm))
    for found in (*bore, *loop):
        assert off_axis(found.at, tube.start, tuple(axis)) < NEAR
        assert abs(np.dot(found.axis, axis)) == pytest.approx(1, abs=1e-12)
    assert len(bore) == len(loop) == 1


@pytest.mark.parametrize("label", CLAMP_HOLES)
def test_reach_is_the_distance_between_tube_axis_and_foot_hole(label: str) -> None:
    tube = TUBES[{"A": "low", "B": "high"}[label[0]]]
    (foot,) = hollows(BODIES[f"clamp {label} band"], LOOP.foot_hole_mm)
    along, across = np.subtract(tube.end, tube.start), np.array(foot.axis)
    normal = np.cross(along, across)
    gap = abs(np.dot(np.subtract(foot.at, tube.start), normal)) / np.linalg.norm(normal)
    assert gap == pytest.approx(LOOP.reach_mm, abs=NEAR)


def test_feet_meet_the_plate_or_the_bushing() -> None:
    for label, depth in (("A1", 0.0), ("A2", 0.0), ("B1", -BUSHING), ("B2", -BUSHING)):
        _, top = height_span(BODIES[f"clamp {label} band"])
        assert top == pytest.approx(depth, abs=NEAR)


@pytest.mark.parametrize("label", CLAMP_HOLES)
def test_stack_closes_without_gap_or_overlap(label: str) -> None:
    """From the head: thin washer, plate, bushing or nothing, feet 2.54, washer, nut."""
    depth = BUSHING if label[0] == "B" else 0.0
    washer = height_span(BODIES[f"washer {label}"])
    under = height_span(BODIES[f"washer {label} no. 2"])
    nut = height_span(BODIES[f"nut {label}"])
    head_bottom = in_part(BODIES[f"bolt {label}"].place.origin)[2]
    assert washer == pytest.approx((THICKNESS, THICKNESS + 0.8128), abs=NEAR)
    assert head_bottom == pytest.approx(THICKNESS + 0.8128, abs=NEAR)
    assert under == pytest.approx((-depth - LOOP.feet_mm - 1.6, -depth - LOOP.feet_mm), abs=NEAR)
    assert nut[1] == pytest.approx(under[0], abs=NEAR)
    if depth:
        assert height_span(BODIES[f"bushing {label}"]) == pytest.approx((-BUSHING, 0.0), abs=NEAR)


@pytest.mark.parametrize("label", [*COIL_HOLES, *RELAY_HOLES])
def test_component_bolts_stand_on_the_lug(label: str) -> None:
    lug = 3.175
    assert height_span(BODIES[f"washer {label}"])[0] == pytest.approx(THICKNESS + lug, abs=NEAR)
    assert height_span(BODIES[f"washer {label} no. 2"])[1] == pytest.approx(0.0, abs=NEAR)


def test_components_stand_on_the_far_face_with_their_holes_over_the_plate_s() -> None:
    for name, holes in (("coil pack", COIL_HOLES), ("relay", RELAY_HOLES)):
        body = BODIES[f"component {name}"]
        assert height_span(body)[0] == pytest.approx(THICKNESS, abs=NEAR)
        bores = hollows(body, 4.9784)
        for at in holes.values():
            assert min(off_axis(to_world((*at, 0.0)), c.at, c.axis) for c in bores) < NEAR


def test_no_bolt_head_or_washer_sticks_in_a_component() -> None:
    """Above each bolt of the coil pack is room as wide as the wrench, from the lug to the top."""
    rooms = hollows(BODIES["component coil pack"], 13.462)
    assert len(rooms) == 4
    assert volume_mm3(BODIES["component coil pack"].shape) == pytest.approx(
        60 * 40 * 56 - 4 * math.pi / 4 * (13.462**2 * (56 - 3.175) + 4.9784**2 * 3.175), rel=1e-9
    )


def test_tubes_are_clipped_and_say_so() -> None:
    for name, tube in TUBES.items():
        shown = shown_stations(tube, LAYOUT)
        assert shown is not None
        low, high = shown
        assert 0 < low < high < math.dist(tube.start, tube.end)
        (body,) = (b for b in BODIES.values() if b.product == f"tube {name}")
        assert f"station {low:.0f} to {high:.0f} mm" in body.name
        assert volume_mm3(body.shape) == pytest.approx(math.pi / 4 * TUBE_OD**2 * (high - low), rel=1e-9)
        for clamp in LAYOUT.clamps:
            if clamp.tube == name:
                assert low + TUBE_OD <= clamp.station_mm <= high - TUBE_OD


def test_a_tube_far_from_the_part_is_left_out() -> None:
    away = replace(TUBES["low"], name="away", start=(9000.0, 0.0, 0.0), end=(9500.0, 0.0, 0.0))
    assert shown_stations(away, LAYOUT) is None


def test_part_lies_in_its_own_frame() -> None:
    body = part(LAYOUT)
    low, high = box_mm(body.placed())
    assert low == pytest.approx((0, 0, 0), abs=1e-9)
    assert high == pytest.approx((150.0, 100.0, THICKNESS), abs=1e-9)


def test_a_bushing_in_a_stack_is_the_part_that_is_made() -> None:
    """The same product and solid as the file that a shop gets, chamfers and all."""
    (made,) = LAYOUT.bushings
    for label in ("B1", "B2"):
        body = BODIES[f"bushing {label}"]
        assert body.product == bushing_product(made)
        assert volume_mm3(body.shape) == pytest.approx(volume_mm3(bushing_body(made).shape), rel=1e-9)
    assert without_packing().bushings == ()


def _tilted(layout: PlateLayout, angle: float) -> PlateLayout:
    clamp = layout.clamps[0]
    cos, sin = math.cos(angle), math.sin(angle)
    x, y, z = (cos * n + sin * v for n, v in zip(FRAME.n, FRAME.v, strict=True))
    return replace(layout, clamps=(replace(clamp, bolt_axis=(x, y, z)), *layout.clamps[1:]))


def test_a_tilted_clamp_turns_about_its_tube_and_the_bolt_stays_square_to_the_plate() -> None:
    angle = math.radians(4)
    bodies = {b.name: b for b in assembly(_tilted(LAYOUT, angle))}
    (foot,) = hollows(bodies["clamp A1 band"], LOOP.foot_hole_mm)
    assert abs(np.dot(foot.axis, FRAME.n)) == pytest.approx(math.cos(angle), abs=1e-12)
    assert bodies["bolt A1"].place.z == pytest.approx(FRAME.n)
