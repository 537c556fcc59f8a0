"""Volumes against closed forms: areas and lengths by elementary geometry, nothing read from the program."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from solids.hand_layout import (
    CLAMP_HOLE_D,
    CLAMP_HOLES,
    COIL_HOLES,
    COMPONENT_HOLE_D,
    CORNER,
    HEIGHT,
    LIGHTENING_D,
    LOOP,
    NUT,
    RELAY_HOLES,
    SPACER,
    THICKNESS,
    WIDTH,
    hand_layout,
)

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import StackItem
from clampwright.solids.clamp import band, cushion
from clampwright.solids.fastener import bolt_shape, layer_shape, nut_shape
from clampwright.solids.measure import box_mm, cylinders, volume_mm3
from clampwright.solids.place import Place
from clampwright.solids.plate import plate
from clampwright.solids.shapes import NotASolid, polygon, prism
from clampwright.solids.tube import tube_shape
from clampwright.trade.bolts import bolt, bolt_by_dash
from clampwright.trade.clamps import loop_clamp
from clampwright.trade.hardware import nut

EXACT = 1e-9


def disc(diameter: float) -> float:
    """Area of a circle."""
    return math.pi * diameter**2 / 4


def hexagon_area(across_flats: float) -> float:
    """Area of a regular hexagon: (sqrt(3)/2) s^2 with s across flats."""
    return math.sqrt(3) / 2 * across_flats**2


def test_plate_is_area_times_thickness_less_holes() -> None:
    outline = WIDTH * HEIGHT - (4 - math.pi) * CORNER**2
    holes = 4 * disc(CLAMP_HOLE_D) + 6 * disc(COMPONENT_HOLE_D) + disc(LIGHTENING_D)
    assert volume_mm3(plate(hand_layout())) == pytest.approx((outline - holes) * THICKNESS, rel=EXACT)


def test_plate_lies_between_the_datum_corner_and_its_size() -> None:
    low, high = box_mm(plate(hand_layout()))
    assert low == pytest.approx((0, 0, 0), abs=1e-9)
    assert high == pytest.approx((WIDTH, HEIGHT, THICKNESS), abs=1e-9)


def test_every_hole_is_one_true_cylinder_at_its_place() -> None:
    solid = plate(hand_layout())
    holes = {(c.at[0], c.at[1]): c for c in cylinders(solid) if c.hollow}
    wanted = [(at, CLAMP_HOLE_D) for at in CLAMP_HOLES.values()]
    wanted += [(at, COMPONENT_HOLE_D) for at in (*COIL_HOLES.values(), *RELAY_HOLES.values())]
    wanted.append(((75.0, 83.0), LIGHTENING_D))
    assert len(holes) == len(wanted)
    for at, diameter in wanted:
        assert holes[at].diameter_mm == pytest.approx(diameter, rel=EXACT)
        assert abs(holes[at].axis[2]) == pytest.approx(1, rel=EXACT)


def test_plate_has_no_face_too_many() -> None:
    solid = plate(hand_layout())
    assert solid.isValid()
    assert len(solid.Solids()) == 1
    assert len(solid.Faces()) == 2 + 4 + 4 + 11


@settings(deadline=None, max_examples=15)
@given(st.floats(0.1, 20), st.floats(20, 500), st.floats(20, 500), st.floats(0.5, 12), st.integers(0, 12))
def test_any_rounded_rectangle_with_a_row_of_holes(
    thickness: float, width: float, height: float, diameter: float, count: int
) -> None:
    corner = min(width, height) / 4
    ends = [(corner, 0), (width - corner, 0), (width, corner), (width, height - corner)]
    ends += [(width - corner, height), (corner, height), (0, height - corner), (0, corner)]
    centres = [(width - corner, corner), (width - corner, height - corner), (corner, height - corner)]
    centres.append((corner, corner))
    pieces: list[Line | Arc] = []
    for k, centre in enumerate(centres):
        pieces.append(Line(ends[2 * k], ends[2 * k + 1]))
        pieces.append(Arc(ends[2 * k + 1], ends[(2 * k + 2) % 8], centre, True))
    pitch = (width - 2) / (count + 1)
    size = min(diameter, 0.8 * pitch)
    holes = [((1 + pitch * (k + 1), height / 2), size) for k in range(count)]
    solid = prism(Outline(tuple(pieces)), holes, thickness)
    area = width * height - (4 - math.pi) * corner**2 - count * disc(size)
    assert volume_mm3(solid) == pytest.approx(area * thickness, rel=1e-6)
    assert sum(c.hollow for c in cylinders(solid)) == count


def test_an_inside_corner_turns_the_other_way() -> None:
    """An L of 30 x 30 less 20 x 20, its inside corner rounded with radius 5: that adds (1 - pi/4) r^2."""
    inside = Arc((15, 10), (10, 15), (15, 15), ccw=False)
    pieces = (
        Line((0, 0), (30, 0)),
        Line((30, 0), (30, 10)),
        Line((30, 10), (15, 10)),
        inside,
        Line((10, 15), (10, 30)),
        Line((10, 30), (0, 30)),
        Line((0, 30), (0, 0)),
    )
    area = 900 - 400 + (1 - math.pi / 4) * 25
    assert volume_mm3(prism(Outline(pieces), [], 2.0)) == pytest.approx(2 * area, rel=EXACT)


def test_an_outline_that_does_not_close_is_refused() -> None:
    square = polygon([(0, 0), (10, 0), (10, 10), (0, 10)])
    broken = Outline((*square.pieces[:-1], Line((0, 10), (0.5, 0))))
    with pytest.raises(NotASolid, match="piece 4"):
        prism(broken, [], 1.0)


@pytest.mark.parametrize(
    "at",
    [(CLAMP_HOLES["A1"][0] + 2.0, CLAMP_HOLES["A1"][1]), (WIDTH / 2, 0.0), (WIDTH / 2, -30.0)],
    ids=["over a hole", "over the edge", "outside"],
)
def test_a_hole_where_none_can_be_gives_no_plate(at: tuple[float, float]) -> None:
    layout = hand_layout()
    more = replace(layout.holes[0], label="X1", at=at)
    with pytest.raises(NotASolid, match=r"one whole plate|would hold"):
        plate(replace(layout, holes=(*layout.holes, more)))


def test_bushing_is_an_annulus() -> None:
    expected = (disc(11.1125) - disc(5.0165)) * 12.7
    assert volume_mm3(layer_shape(SPACER)) == pytest.approx(expected, rel=EXACT)


def test_a_layer_without_diameters_is_refused() -> None:
    with pytest.raises(ValueError, match="without diameters"):
        layer_shape(StackItem("shim", "shim", 0.5))


def test_nut_is_a_hexagon_less_its_thread() -> None:
    expected = (hexagon_area(NUT.across_flats_mm) - disc(bolt("AN3").nominal_mm)) * 6.0
    assert volume_mm3(nut_shape(NUT)) == pytest.approx(expected, rel=EXACT)


def test_a_nut_of_unknown_height_is_as_high_as_its_bolt_is_thick() -> None:
    low, high = box_mm(nut_shape(replace(nut("MS21044", "AN4"), height_mm=None)))
    assert (low[2], high[2]) == pytest.approx((-bolt("AN4").nominal_mm, 0), abs=1e-9)


@pytest.mark.parametrize(("name", "dash"), [("AN3", 4), ("AN3", 10), ("AN4", 15), ("AN6", 12)])
def test_bolt_is_head_shank_and_thread(name: str, dash: int) -> None:
    """Thread at its pitch diameter d - 0.649519 P (ISO 724: 60 degree profile; from memory)."""
    size, length = bolt(name), bolt_by_dash(name, dash)
    head = hexagon_area(size.head_across_flats_mm) * size.head_height_mm
    shank = disc(size.nominal_mm) * length.grip_mm
    thread = disc(size.nominal_mm - 0.649519 * size.pitch_mm) * (length.length_mm - length.grip_mm)
    shape = bolt_shape(length)
    assert volume_mm3(shape) == pytest.approx(head + shank + thread, rel=1e-6)
    assert shape.isValid()
    low, high = box_mm(shape)
    assert (low[2], high[2]) == pytest.approx((-length.length_mm, size.head_height_mm), abs=1e-9)


def test_tube_is_a_cylinder() -> None:
    assert volume_mm3(tube_shape(19.05, 250.0)) == pytest.approx(disc(19.05) * 250, rel=EXACT)


def band_area(loop_radius: float, top: float, below: float, end: float, bore: float) -> float:
    """Side view of disc and feet less the bore, by thin vertical strips; where they overlap counts once."""
    x = np.linspace(-loop_radius, end, 2_000_001)
    half = np.sqrt(np.clip(loop_radius**2 - x**2, 0, None))
    foot_low, foot_high = np.full_like(x, below), np.full_like(x, top)
    in_loop, in_foot = np.abs(x) < loop_radius, x >= 0
    overlap = np.clip(np.minimum(half, foot_high) - np.maximum(-half, foot_low), 0, None)
    strips = 2 * half * in_loop + (foot_high - foot_low) * in_foot - overlap * (in_loop & in_foot)
    return float(np.trapezoid(strips, x)) - disc(2 * bore)


@pytest.mark.parametrize("seat", [13.1318, 9.0, 1.27])
def test_band_is_its_side_view_less_the_hole_and_the_corners(seat: float) -> None:
    """Loop R 13.1318, feet 2.54 thick and 12.7 wide, end rounded to half the width, hole 5.0."""
    clamp = replace(LOOP, seat_mm=seat)
    radius, end = LOOP.outside_radius_mm, LOOP.reach_mm + LOOP.foot_end_mm
    side = band_area(radius, seat, seat - LOOP.feet_mm, end, radius - LOOP.band_mm)
    corners = (1 - math.pi / 4) * LOOP.band_width_mm * LOOP.foot_end_mm
    expected = side * LOOP.band_width_mm - (disc(5.0) + corners) * LOOP.feet_mm
    shape = band(clamp)
    assert shape.isValid()
    assert volume_mm3(shape) == pytest.approx(expected, rel=1e-5)


def test_cushion_is_a_ring() -> None:
    inner, outer = LOOP.loop_mm, 2 * (LOOP.outside_radius_mm - LOOP.band_mm)
    expected = (disc(outer) - disc(inner)) * LOOP.band_width_mm
    assert volume_mm3(cushion(LOOP)) == pytest.approx(expected, rel=EXACT)


@pytest.mark.parametrize("od", [9.525, 12.7, 19.05, 25.4, 38.1, 50.8])
@pytest.mark.parametrize("seat_of_radius", [None, 1.4, 0.2, -0.3])
def test_every_clamp_of_the_family_is_one_sound_solid(od: float, seat_of_radius: float | None) -> None:
    clamp = loop_clamp(od, "CH")
    if seat_of_radius is not None:
        clamp = replace(clamp, seat_mm=seat_of_radius * clamp.outside_radius_mm)
    shape = band(clamp)
    assert shape.isValid()
    assert len(shape.Solids()) == 1
    low, high = box_mm(shape)
    assert high[0] == pytest.approx(clamp.reach_mm + clamp.foot_end_mm, abs=1e-6)
    assert low[0] == pytest.approx(-clamp.outside_radius_mm, abs=1e-6)
    assert high[1] - low[1] == pytest.approx(clamp.band_width_mm, abs=1e-6)
    bores = sorted(c.diameter_mm for c in cylinders(shape) if c.hollow)
    assert bores[0] == pytest.approx(clamp.foot_hole_mm, rel=EXACT)


def test_a_body_turned_and_moved_keeps_its_volume() -> None:
    outline = polygon([(0, 0), (30, 0), (30, 10), (0, 10)])
    place = Place((5.0, -3.0, 2.0), (0.0, 0.6, 0.8), (1.0, 0.0, 0.0))
    solid = prism(outline, [((5.0, 5.0), 4.0)], 3.0, place)
    assert volume_mm3(solid) == pytest.approx((300 - disc(4.0)) * 3, rel=EXACT)
    low, high = box_mm(solid)
    assert (high[0] - low[0]) == pytest.approx(3.0, abs=1e-9)
