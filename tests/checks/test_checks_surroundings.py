"""Plate, components, tubes and loops: distances by hand; the clearances are assumed.

The tubes' tops lie 12.827 - 9.525 = 3.302 mm under the plate's plane, and the plate ends 7.812 mm inside
the tubes' axes (reach 19.812 less margin 12).
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt

import pytest
from checks.example_plate import (
    COIL,
    LAYOUT,
    LONG,
    OD,
    REACH,
    SEAT,
    TUBES,
    WIDE,
    also,
    box_at,
    braced,
    polygon,
    rectangle,
    with_clamp,
    with_each_clamp,
)
from checks.findings_of import of, verdicts

from clampwright.checks.surroundings import (
    components_against_each_other,
    components_against_tubes,
    in_part,
    loop_rise,
    plate_against_loops,
    plate_against_tubes,
    tube_to_plate,
)
from clampwright.layout.placed import Frame, PlateLayout
from clampwright.structure.tubes import Tube

pytestmark = pytest.mark.usefixtures("as_measured")


def test_a_place_in_a_turned_frame():
    """A frame lying on its back: u along y, v along z, n along x."""
    frame = Frame((10.0, 20.0, 30.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
    assert in_part(frame, (11.0, 22.0, 33.0)) == ((2.0, 3.0), 1.0)


def test_plate_to_the_tube_it_is_clamped_to_by_hand(layout: PlateLayout):
    """The plate's edge from the axis: hypot(7.812, 12.827) = 15.019, less 9.525 = 5.494 mm."""
    expected = hypot(REACH - 12.0, SEAT) - OD / 2
    assert tube_to_plate(TUBES[0], layout)[0] == pytest.approx(expected, abs=0.01)
    (found,) = plate_against_tubes(layout)
    assert (found.verdict, found.value) == ("pass", pytest.approx(expected, abs=1e-6))


@pytest.mark.parametrize(("top", "verdict"), [(-3.5, "pass"), (-1.0, "caution"), (0.5, "fail")])
def test_another_tube_under_the_plate(top, verdict):
    """A tube along y under the middle of the plate: 3 mm are asked."""
    z = SEAT + top - OD / 2
    layout = braced(Tube("brace", (300.0, -50.0, z), (300.0, 250.0, z), OD))
    found = plate_against_tubes(layout)[0]
    assert found.verdict == verdict
    if verdict != "pass":
        assert found.where == "brace"
        assert found.value == pytest.approx(-top, abs=0.02)


def test_a_tube_beside_an_l_shaped_plate_is_not_under_it():
    """It crosses the plate's bounding box in the corner that the L leaves free, 50 mm from metal."""
    ell = replace(LAYOUT, outline=polygon((0, 0), (LONG, 0), (LONG, 60), (100, 60), (100, WIDE), (0, WIDE)))
    x, y = LAYOUT.frame.origin[0] + 150.0 + OD / 2, LAYOUT.frame.origin[1]
    post = Tube("post", (x, y + 110.0 + OD / 2, -100.0), (x, y + 110.0 + OD / 2, 100.0), OD)
    layout = replace(ell, recipe=braced(post).recipe)
    assert tube_to_plate(post, layout)[0] == pytest.approx(50.0, abs=0.1)
    assert verdicts(plate_against_tubes(layout)) == {"pass"}
    full = replace(layout, outline=rectangle())
    assert of(plate_against_tubes(full), "post").verdict == "fail"


def test_how_high_a_loop_stands_by_hand(layout: PlateLayout):
    """sqrt(12.827² - 7.812²) - 12.827 = -2.653 where the plate's edge reaches over the loop."""
    rise = loop_rise(layout.clamps[0], layout)
    assert rise == pytest.approx(sqrt(SEAT**2 - 7.812**2) - SEAT)
    assert verdicts(plate_against_loops(layout)) == {"pass"}


def test_a_foot_at_the_middle_of_the_loop_lets_the_loop_into_the_plate():
    """A seat 6 mm lower than the loop's top, measured: the loop stands 6 - 2.653 = 3.347 into the plate."""
    layout = with_each_clamp(outside_radius_mm=SEAT + 6.0)
    found = of(plate_against_loops(layout), "A1")
    expected = sqrt((SEAT + 6.0) ** 2 - 7.812**2) - SEAT
    assert (found.verdict, found.value) == ("fail", pytest.approx(expected))
    assert f"{expected:.2f} mm" in found.says
    assert "stand_off" in found.change


def test_a_plate_that_ends_short_of_the_loop_has_nothing_to_clear():
    """Moved in by 6 mm the edge is 13.812 from the axis, beyond the loop's 12.827."""
    shrunk = replace(LAYOUT, outline=polygon((0, 6), (LONG, 6), (LONG, WIDE - 6), (0, WIDE - 6)))
    assert plate_against_loops(shrunk) == ()


def test_a_loop_close_under_the_plate_on_a_default_seat_is_unknown():
    layout = replace(LAYOUT, outline=polygon((0, -10), (LONG, -10), (LONG, WIDE), (0, WIDE)))
    measured = of(plate_against_loops(layout), "A1")
    assert (measured.verdict, measured.value) == ("pass", pytest.approx(0.0))
    guessed = of(plate_against_loops(with_clamp("A1", layout, measured=frozenset())), "A1")
    assert guessed.verdict == "unknown"
    assert "12.83 mm" in guessed.change


@pytest.mark.parametrize(("gap", "verdict"), [(3.1, "pass"), (2.0, "caution"), (-1.0, "fail")])
def test_a_tube_beside_a_component(gap, verdict):
    """The coil pack is 101.6 long and its middle lies at world x 300: its end at 350.8."""
    x = 350.8 + gap + OD / 2
    layout = braced(Tube("post", (x, 100.0, 18.0), (x, 100.0, 100.0), OD))
    (found,) = components_against_tubes(layout)
    assert (found.where, found.verdict) == ("coil pack", verdict)
    assert found.value == pytest.approx(max(gap, 0.0), abs=1e-4)


@pytest.mark.parametrize(("gap", "verdict"), [(3.1, "pass"), (2.0, "caution"), (-1.0, "fail")])
def test_components_side_by_side(gap, verdict):
    """Bodies 101.6 and 20 long with their middles 60.8 + gap apart."""
    layout = also(box_at((COIL.at[0] + 60.8 + gap, COIL.at[1]), 20.0, 20.0, 15.0))
    (found,) = components_against_each_other(layout)
    assert (found.where, found.verdict) == ("coil pack/relay", verdict)
    assert found.value == pytest.approx(max(gap, 0.0), abs=1e-6)
