"""Layouts worked by hand: each expected number is written out from the geometry of the tubes."""

from __future__ import annotations

from dataclasses import replace
from math import asin, atan2, cos, dist, pi, radians, sin

import pytest
from layout.plate_recipes import (
    FEET,
    MEASURED,
    PARALLEL,
    REACH,
    SEAT,
    at,
    component,
    plate,
    recipe,
    tube,
    with_plate,
)

from clampwright.layout.lay_out import CannotLayOut, lay_out
from clampwright.layout.placed import ClampPlace, PlateLayout
from clampwright.quantities import Vec2
from clampwright.recipe.model import Measured


def close(value: float, abs_mm: float = 1e-9) -> object:
    return pytest.approx(value, abs=abs_mm)


def apart(layout: PlateLayout, one: str, other: str) -> float:
    where = {hole.label: hole.at for hole in layout.holes}
    return dist(where[one], where[other])


def clamp(layout: PlateLayout, label: str) -> ClampPlace:
    return next(c for c in layout.clamps if c.label == label)


FOUR_ON_PARALLEL = recipe(
    PARALLEL, (at("lower", 100.0), at("lower", 300.0), at("upper", 100.0), at("upper", 300.0))
)


def test_two_parallel_tubes() -> None:
    """Axes 150 apart, reach 20 inboard: holes 150 - 2*20 = 110 across, 200 along; margin 12 all round."""
    layout = lay_out(FOUR_ON_PARALLEL)
    assert [c.label for c in layout.clamps] == ["A1", "A2", "B1", "B2"]
    places = [c.at for c in layout.clamps]
    expected: list[Vec2] = [(12.0, 12.0), (212.0, 12.0), (12.0, 122.0), (212.0, 122.0)]
    assert [close(x) for p in expected for x in p] == [x for p in places for x in p]
    assert layout.outline.box() == close_box((0.0, 0.0, 224.0, 134.0))
    assert [c.gap_mm for c in layout.clamps] == [close(0.0)] * 4
    assert all(c.packing == () and c.tilt_rad == close(0.0) for c in layout.clamps)
    assert layout.frame.n == close_vec((0.0, 0.0, 1.0))
    assert layout.frame.origin == close_vec((100.0 - 12.0, REACH - 12.0, SEAT))


def close_box(box: tuple[float, float, float, float]) -> object:
    return pytest.approx(box, abs=1e-9)


def close_vec(vec: tuple[float, float, float]) -> object:
    return pytest.approx(vec, abs=1e-9)


def test_outboard_clamps_on_parallel_tubes() -> None:
    """Outboard: 150 + 2*20 = 190 across; one tube outboard, the other inboard: 150."""
    outboard = tuple(at(c.tube, c.station_mm, "outboard") for c in FOUR_ON_PARALLEL.job.clamps.at)
    assert apart(lay_out(recipe(PARALLEL, outboard)), "A1", "B1") == close(190.0)
    mixed = (*outboard[:2], *FOUR_ON_PARALLEL.job.clamps.at[2:])
    assert apart(lay_out(recipe(PARALLEL, mixed)), "A1", "B1") == close(150.0)


def test_parallel_tubes_one_higher_lie_in_the_plane_of_their_axes() -> None:
    """150 apart in y, 80 in z: 170 apart along the slope (8-15-17), so holes 170 - 40 = 130 across."""
    tubes = (PARALLEL[0], tube("upper", (500.0, 150.0, 80.0), (0.0, 150.0, 80.0)))
    layout = lay_out(recipe(tubes, FOUR_ON_PARALLEL.job.clamps.at))
    assert layout.frame.n == close_vec((0.0, -80 / 170, 150 / 170))
    assert layout.frame.v == close_vec((0.0, 150 / 170, 80 / 170))
    ys = sorted(c.at[1] for c in layout.clamps)
    assert ys[-1] - ys[0] == close(130.0)
    assert [c.gap_mm for c in layout.clamps] == [close(0.0)] * 4


def test_two_tubes_meeting_at_twenty_degrees() -> None:
    """Both start in one node, 10 degrees either side of x.

    A hole at station s lies at s(cos 10, ±sin 10) + 20(sin 10, ∓cos 10): 2(s sin 10 - 20 cos 10) between the
    two holes of one station, 200 along the tube between the holes of one tube.
    """
    c, s = cos(radians(10)), sin(radians(10))
    tubes = (
        tube("right", (0.0, 0.0, 0.0), (600 * c, -600 * s, 0.0)),
        tube("left", (0.0, 0.0, 0.0), (600 * c, 600 * s, 0.0)),
    )
    places = tuple(at(name, station) for name in ("right", "left") for station in (300.0, 500.0))
    layout = lay_out(recipe(tubes, places))
    assert apart(layout, "A1", "B1") == close(2 * (300 * s - REACH * c))
    assert apart(layout, "A2", "B2") == close(2 * (500 * s - REACH * c))
    assert apart(layout, "A1", "A2") == close(200.0)
    assert apart(layout, "A1", "B2") == close(((200 * c) ** 2 + (800 * s - 2 * REACH * c) ** 2) ** 0.5)
    assert layout.frame.u == close_vec((1.0, 0.0, 0.0))
    assert [p.gap_mm for p in layout.clamps] == [close(0.0)] * 4
    assert [p.tilt_rad for p in layout.clamps] == [close(0.0)] * 4


def skewed(height: float, seat_a: float, seat_b: float) -> PlateLayout:
    """One tube along x; the other 20 degrees round z from it and `height` above it."""
    c, s = cos(radians(20)), sin(radians(20))
    tubes = (
        tube("low", (0.0, 0.0, 0.0), (600.0, 0.0, 0.0)),
        tube("high", (0.0, 120.0, height), (600 * c, 120.0 + 600 * s, height)),
    )
    places = (
        at("low", 200.0, measured=Measured(REACH, seat_a, FEET)),
        at("low", 350.0, measured=Measured(REACH, seat_a, FEET)),
        at("high", 200.0, measured=Measured(REACH, seat_b, FEET)),
        at("high", 350.0, measured=Measured(REACH, seat_b, FEET)),
    )
    return lay_out(recipe(tubes, places))


@pytest.mark.parametrize(
    ("height", "seat_a", "seat_b"),
    [(30.0, 13.0, 13.0), (30.0, 13.0, 10.5), (30.0, 10.5, 13.0), (5.0, 16.0, 9.0)],
)
def test_two_skew_tubes_have_bushings_of_two_lengths(height: float, seat_a: float, seat_b: float) -> None:
    """They differ by the common normal distance and the difference of the seats; one is nothing."""
    layout = skewed(height, seat_a, seat_b)
    low, high = clamp(layout, "A1").gap_mm, clamp(layout, "B1").gap_mm
    assert low - high == close(height + seat_b - seat_a)
    assert min(low, high) == close(0.0)
    assert clamp(layout, "A2").gap_mm == close(low)
    assert clamp(layout, "B2").gap_mm == close(high)
    assert layout.frame.n == close_vec((0.0, 0.0, 1.0))
    assert clamp(layout, "A1").tilt_rad == close(0.0)
    assert clamp(layout, "B1").tilt_rad == close(0.0)


def test_skew_bushing_fills_the_stack() -> None:
    """30 mm of common normal, equal seats: a 30 mm bushing under the low tube's clamps only."""
    layout = skewed(30.0, SEAT, SEAT)
    (bushing,) = clamp(layout, "A1").packing
    assert (bushing.name, bushing.thickness_mm) == ("bushing", close(30.0))
    assert clamp(layout, "B1").packing == ()
    stack = clamp(layout, "A1").stack
    assert sum(i.thickness_mm * i.count for i in stack.items) == close(stack.thickness_mm)
    assert any(item.name == "bushing" for item in stack.items)


def test_tubes_side_by_side_that_differ_in_slope_need_no_long_bushings() -> None:
    """140 apart, 3 degrees down and 3 up: square to both the plate would stand on edge, 140 of bushing.

    In the plane of the axes, at s from the middle: heights of the seats are ± s sin 3 + 13 cos 3, so with
    clamps at ± 60 the low ones are packed by 2 * 60 sin 3, and the holes lie 140 - 2*20 across.
    """
    c, s = 200 * cos(radians(3)), 200 * sin(radians(3))
    tubes = (
        tube("falling", (-c, 0.0, s), (c, 0.0, -s)),
        tube("rising", (-c, 140.0, -s), (c, 140.0, s)),
    )
    places = tuple(at(name, station) for name in ("falling", "rising") for station in (140.0, 260.0))
    layout = lay_out(recipe(tubes, places))
    assert layout.frame.n == close_vec((0.0, 0.0, 1.0))
    assert [p.tilt_rad for p in layout.clamps] == [close(radians(3))] * 4
    low = 2 * 60 * sin(radians(3))
    assert [p.gap_mm for p in layout.clamps] == [close(g) for g in (0.0, low, low, 0.0)]
    assert layout.frame.origin[2] == close(60 * sin(radians(3)) + SEAT * cos(radians(3)))
    assert apart(layout, "A1", "B1") == close(100.0)
    assert apart(layout, "A1", "A2") == close(120 * cos(radians(3)))
    (note,) = [says for key, says in layout.assumed if key == "plate normal"]
    assert "3.0 deg out of square at A and B" in note


def test_stand_off_lengthens_every_bushing() -> None:
    layout = lay_out(with_plate(FOUR_ON_PARALLEL, stand_off_mm=25.0))
    assert [c.gap_mm for c in layout.clamps] == [close(25.0)] * 4
    assert [c.seat_z_mm for c in layout.clamps] == [close(-25.0)] * 4
    assert layout.frame.origin[2] == close(SEAT + 25.0)


def test_a_third_tube_off_plane_tilts() -> None:
    """Two tubes at ±30 degrees in z = 0, the third along x rising at 6 degrees.

    By symmetry the least eigenvector of the sum of a aᵀ lies in x-z: with psi = atan2(2 Mxz, Mxx - Mzz)/2 the
    normal is (-sin psi, 0, cos psi), the third tube tilts by 6 deg - psi, the others by asin(cos 30 sin psi).
    """
    c, s, rise = cos(radians(30)), sin(radians(30)), radians(6)
    m_xx, m_zz, m_xz = 2 * c * c + cos(rise) ** 2, sin(rise) ** 2, cos(rise) * sin(rise)
    psi = atan2(2 * m_xz, m_xx - m_zz) / 2
    tubes = (
        tube("right", (0.0, -40.0, 0.0), (500 * c, -40.0 - 500 * s, 0.0)),
        tube("left", (0.0, 40.0, 0.0), (500 * c, 40.0 + 500 * s, 0.0)),
        tube("middle", (0.0, 0.0, 0.0), (500 * cos(rise), 0.0, 500 * sin(rise))),
    )
    layout = lay_out(recipe(tubes, (at("right", 300.0), at("left", 300.0), at("middle", 300.0))))
    assert layout.frame.n == close_vec((-sin(psi), 0.0, cos(psi)))
    assert clamp(layout, "C1").tilt_rad == close(rise - psi)
    assert clamp(layout, "A1").tilt_rad == close(asin(c * sin(psi)))
    seat_a = 300 * c * -sin(psi) + SEAT * cos(clamp(layout, "A1").tilt_rad)
    seat_c = 300 * sin(rise - psi) + SEAT * cos(rise - psi)
    assert clamp(layout, "A1").gap_mm - clamp(layout, "C1").gap_mm == close(seat_c - seat_a)


def test_each_clamp_has_its_own_measured_reach_seat_and_feet() -> None:
    """Seats 13, 12.2, 13 and 12.95 leave gaps of 0, 0.8, 0 and 0.05, the last below what needs packing."""
    own = [
        Measured(20.0, 13.0, 2.6),
        Measured(21.5, 12.2, 2.6),
        Measured(19.0, 13.0, 3.4),
        Measured(20.0, 12.95, 2.6),
    ]
    names = ["lower", "lower", "upper", "upper"]
    places = tuple(at(n, s, measured=m) for n, s, m in zip(names, (100.0, 300.0) * 2, own, strict=True))
    layout = lay_out(recipe(PARALLEL, places))
    assert apart(layout, "A1", "B1") == close(150.0 - 20.0 - 19.0)
    assert apart(layout, "A2", "B2") == close(150.0 - 21.5 - 20.0)
    assert [c.gap_mm for c in layout.clamps] == [close(g) for g in (0.0, 0.8, 0.0, 0.05)]
    assert [sum(i.thickness_mm * i.count for i in c.packing) for c in layout.clamps] == [
        pytest.approx(0.0),
        pytest.approx(0.8, abs=0.15),
        pytest.approx(0.0),
        pytest.approx(0.0),
    ]
    assert clamp(layout, "B1").stack.thickness_mm != clamp(layout, "A1").stack.thickness_mm
    assert clamp(layout, "A1").measured == frozenset({"reach", "seat", "feet"})


def test_measured_in_common_holds_for_every_clamp_without_its_own() -> None:
    places = tuple(replace(c, measured=Measured()) for c in FOUR_ON_PARALLEL.job.clamps.at)
    common = lay_out(recipe(PARALLEL, places, measured=MEASURED))
    assert apart(common, "A1", "B1") == close(150.0 - 2 * REACH)
    unmeasured = lay_out(recipe(PARALLEL, places, measured=Measured()))
    assert clamp(unmeasured, "A1").measured == frozenset()


def test_component_pattern_is_placed_and_turned_from_the_middle_of_the_clamp_holes() -> None:
    """A quarter turn takes (10, 0) to (0, 10); the middle of the clamp holes lies at (112, 67)."""
    coil = component(
        "coil", (5.0, -3.0), turn_rad=pi / 2, holes=((10.0, 0.0), (-10.0, 4.0)), body=(30.0, 20.0, 40.0)
    )
    layout = lay_out(recipe(PARALLEL, FOUR_ON_PARALLEL.job.clamps.at, carries=(coil,)))
    (placed,) = layout.components
    assert placed.at == pytest.approx((117.0, 64.0), abs=1e-9)
    where = {h.label: h.at for h in layout.holes}
    assert placed.holes == ("C1", "C2")
    assert where["C1"] == pytest.approx((117.0, 74.0), abs=1e-9)
    assert where["C2"] == pytest.approx((113.0, 54.0), abs=1e-9)
    assert [close(x) for x in (107.0, 127.0)] == sorted({round(u, 9) for u, _ in placed.corners})
    assert len(placed.stacks) == 2


def test_rounding_keeps_the_exact_place_and_the_component_pattern() -> None:
    """Increment 0.5: clamp holes on multiples of it from the datum, a component's own distances untouched."""
    c, s = cos(radians(8)), sin(radians(8))
    tubes = (PARALLEL[0], tube("upper", (0.0, 130.0, 0.0), (500 * c, 130.0 + 500 * s, 0.0)))
    coil = component("coil", None, holes=((-31.37, 0.0), (31.37, 0.0)), body=(75.0, 30.0, 40.0))
    layout = lay_out(
        recipe(tubes, FOUR_ON_PARALLEL.job.clamps.at, carries=(coil,), sheet=plate(round_to_mm=0.5))
    )
    for place in layout.clamps:
        for rounded, exact in zip(place.at, place.at_exact, strict=True):
            assert rounded / 0.5 == pytest.approx(round(rounded / 0.5), abs=1e-9)
            assert abs(rounded - exact) <= 0.25 + 1e-9
    assert any(abs(p.at[0] - p.at_exact[0]) > 1e-3 for p in layout.clamps)
    assert apart(layout, "C1", "C2") == close(62.74)
    _, _, width, height = layout.outline.box()
    assert width / 0.5 == pytest.approx(round(width / 0.5), abs=1e-9)
    assert height / 0.5 == pytest.approx(round(height / 0.5), abs=1e-9)


@pytest.mark.parametrize(
    ("tubes", "toward", "why"),
    [
        (PARALLEL[:1], None, "free to turn"),
        ((PARALLEL[0], tube("ahead", (600.0, 0.0, 0.0), (900.0, 0.0, 0.0))), None, "one line"),
        (PARALLEL, (1.0, 0.0, 0.0), "does not tell its faces apart"),
        (
            (
                tube("x", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0)),
                tube("y", (0.0, 50.0, 0.0), (0.0, 500.0, 0.0)),
                tube("z", (50.0, 0.0, 50.0), (50.0, 0.0, 500.0)),
            ),
            None,
            "so many directions",
        ),
        ((PARALLEL[0], tube("stub", (0.0, 150.0, 0.0), (9.0, 150.0, 0.0))), None, "too short"),
    ],
)
def test_geometry_that_forbids_any_answer_says_what_to_change(
    tubes: tuple[object, ...], toward: tuple[float, float, float] | None, why: str
) -> None:
    with pytest.raises(CannotLayOut, match=why) as stop:
        lay_out(recipe(tubes, sheet=plate(toward=toward)))  # type: ignore[arg-type]
    assert stop.value.change


def test_a_station_off_the_tube_names_the_line_of_the_recipe() -> None:
    with pytest.raises(CannotLayOut, match="off lower") as stop:
        lay_out(recipe(PARALLEL, (at("lower", 501.0, line=17), at("upper", 100.0))))
    assert stop.value.line == 17


def test_an_upright_plate_without_toward_gets_a_face_and_says_so() -> None:
    """Both tubes in a vertical plane: upwards does not tell the faces apart, the answer is stated instead."""
    tubes = (
        tube("low", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0)),
        tube("high", (0.0, 0.0, 150.0), (500.0, 0.0, 150.0)),
    )
    layout = lay_out(recipe(tubes, sheet=plate(toward=None)))
    assert layout.frame.n == close_vec((0.0, 1.0, 0.0))
    assert any(key == "plate.toward" and "[0, 1, 0]" in why for key, why in layout.assumed)
