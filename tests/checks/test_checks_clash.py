"""Clash and access on simple bodies, distances worked out by hand; the clearances are assumed.

Heights in the part's frame: far face 2.286, thin washer to 3.0988, head 3.175 mm; 6.899 mm of stack end
at -3.8002, where the nut bears; the bolt (16.669 mm) ends at -13.570.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import (
    BAND,
    CLAMPS,
    FEET,
    HOLE,
    LAYOUT,
    LONG,
    OD,
    REACH,
    SEAT,
    TUBES,
    also,
    box_at,
    braced,
    lug_stack,
    with_clamp,
    with_each_clamp,
    with_hole,
)
from checks.findings_of import of, verdicts

from clampwright.checks.access import head_access, nut_access
from clampwright.checks.clash import clamp_against_clamp, head_against_component, nut_against_structure
from clampwright.layout.joint_solids import at, bearing_radius, corners_radius, end_mm
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.structure.tubes import Structure, Tube

pytestmark = pytest.mark.usefixtures("as_measured")

HEAD = 11.1125 / 2  # the washer is wider than the head
SOCKET = 0.53 * 25.4 / 2  # for a 3/8 in hexagon (ordinary sockets, assumed)


def height(layout: PlateLayout, place: tuple[float, float, float]) -> float:
    """Height of a place of the world in the part's frame."""
    frame = layout.frame
    return sum((p - o) * n for p, o, n in zip(place, frame.origin, frame.n, strict=True))


def test_heights_of_a_joint_by_hand(layout: PlateLayout):
    first = layout.joints[0]
    assert height(layout, at(first, 0.0)) == pytest.approx(2.286 + 0.8128)
    assert height(layout, at(first, first.stack.thickness_mm)) == pytest.approx(2.286 + 0.8128 - 6.899)
    assert height(layout, at(first, end_mm(first))) == pytest.approx(2.286 + 0.8128 - 16.66875)


def test_clamps_on_two_tubes_by_hand(layout: PlateLayout):
    """Feet end 6.35 beyond the holes: 160.376 - 12.7 = 147.676 mm between A1 and B1."""
    (found,) = clamp_against_clamp(layout)
    assert found.verdict == "pass"
    assert found.value == pytest.approx(200.0 - 2 * (REACH + 6.35))


@pytest.mark.parametrize(("apart", "verdict"), [(15.7, "pass"), (15.0, "caution"), (12.0, "fail")])
def test_clamps_side_by_side_on_a_tube(apart, verdict):
    """Bands are 12.7 wide and 3 mm are asked: 15.7 between stations."""
    found = clamp_against_clamp(with_clamp("A2", station_mm=200.0 + apart, centre=(200.0 + apart, 0.0, 0.0)))
    assert (found[0].where, found[0].verdict) == ("A1/A2", verdict)
    assert found[0].value == pytest.approx(apart - BAND)
    if verdict != "pass":
        assert found[0].change == f"Slide A2 {15.7 - apart:.2f} mm along lower, away from A1."


def test_feet_that_meet_from_two_tubes():
    """Clamps facing each other on tubes 50 mm apart: 2 x 26.162 = 52.324 overlap."""
    near = replace(TUBES[1], start=(0.0, 50.0, 0.0), end=(600.0, 50.0, 0.0))
    layout = replace(
        LAYOUT,
        recipe=replace(LAYOUT.recipe, structure=Structure((TUBES[0], near))),
        clamps=(CLAMPS[0], replace(CLAMPS[2], centre=(200.0, 50.0, 0.0))),
    )
    (found,) = clamp_against_clamp(layout)
    assert found.verdict == "fail"
    assert found.change == "Slide B1 15.70 mm along upper, away from A1."


def test_a_head_beside_a_component_by_hand():
    """A body 20 wide whose side lies at u = 12 + 12.7: 12.7 - 5.55625 = 7.14 mm from A1's washer."""
    found = head_against_component(also(box_at((12.0 + 12.7 + 10.0, 12.0), 20.0, 20.0, 15.0)))
    assert of(found, "A1").value == pytest.approx(12.7 - HEAD, abs=1e-6)


@pytest.mark.parametrize(("side", "verdict"), [(8.6, "pass"), (8.0, "caution"), (5.0, "fail")])
def test_heads_against_components(side, verdict):
    """5.55625 + 3 mm: 8.556 from the bolt's centre."""
    found = head_against_component(also(box_at((12.0 + side + 10.0, 12.0), 20.0, 20.0, 15.0)))
    assert found[0].where == "A1"
    assert found[0].verdict == verdict
    assert bearing_radius(LAYOUT.clamps[0].stack) == pytest.approx(HEAD)


def test_own_bolts_are_not_in_their_components_way(layout: PlateLayout):
    assert {f.where for f in head_against_component(layout)} <= {"A1", "A2", "B1", "B2"}


@pytest.mark.parametrize(("side", "verdict"), [(8.3, "pass"), (8.1, "caution"), (7.0, "caution")])
def test_a_socket_on_the_head(side, verdict):
    """Socket radius 6.731 and 1.5 mm: 8.231 from the bolt's centre."""
    found = head_access(also(box_at((12.0 + side + 10.0, 12.0), 20.0, 20.0, 15.0)))
    assert (found[0].where, found[0].verdict) == ("A1", verdict)
    assert found[0].value == pytest.approx(side - SOCKET, abs=1e-6)


@pytest.mark.parametrize(
    ("height", "verdict", "clear"),
    [(4.0, "pass", 6.8128), (11.0, "caution", 0.0), (10.0, "caution", 0.8128), (60.0, "caution", 0.0)],
)
def test_a_socket_stands_on_the_head_and_meets_only_what_is_as_high(height, verdict, clear):
    """C1 through a lug of 10 mm: its head bears 10.8128 above the far face, 1.5 mm asked.

    A body 4 mm from its centre, under the socket's rim (6.731): one of 4 mm ends 6.8128 under the socket,
    a taller one stands in its way.
    """
    (coil,) = LAYOUT.components
    c1 = next(h for h in LAYOUT.holes if h.label == "C1")
    lugs = replace(LAYOUT, components=(replace(coil, stacks=(lug_stack(10.0),) * 4),))
    beside = box_at((c1.at[0] - 14.0, c1.at[1]), 20.0, 20.0, height, name="tray")
    found = head_access(also(beside, lugs))[0]
    assert (found.where, found.verdict) == ("C1", verdict)
    assert found.value == pytest.approx(clear, abs=1e-6)


def below_plate(at, z_part):
    """A tube along y under a place of the plate, its top at a height in the part's frame."""
    x = at[0] + LAYOUT.frame.origin[0]
    z = SEAT + z_part - OD / 2
    return Tube("brace", (x, 40.0, z), (x, 160.0, z), OD)


@pytest.mark.parametrize(("top", "verdict"), [(-14.6, "pass"), (-14.0, "caution"), (-8.0, "fail")])
def test_a_tube_under_a_component_bolt(top, verdict):
    """C2's bolt ends at 2.286 + 2.0 + 0.8128 - 16.669 = -11.570, straight above the tube; 3 mm are asked."""
    c2 = next(h for h in LAYOUT.holes if h.label == "C2")
    layout = braced(below_plate(c2.at, top))
    joint = next(j for j in layout.joints if j.label == "C2")
    assert height(layout, at(joint, end_mm(joint))) == pytest.approx(-11.56995)
    found = nut_against_structure(layout)[0]
    assert (found.verdict, found.where) in [(verdict, "C2"), (verdict, "C3")]
    assert found.value == pytest.approx(max(0.0, -11.56995 - top), abs=1e-4)


def test_a_short_reach_lets_the_nut_run_into_its_own_loop():
    """Across corners 10.998: a reach of 18 leaves 18 - 12.827 - 5.499 = -0.33 mm."""
    layout = with_each_clamp(reach_mm=18.0)
    assert 18.0 - SEAT - corners_radius(9.525) == pytest.approx(-0.326, abs=1e-3)
    moved = tuple(
        replace(h, at=(h.at[0], h.at[1] - 1.812)) if h.label in ("A1", "A2") else h for h in layout.holes
    )
    found = of(nut_against_structure(replace(layout, holes=moved)), "A1")
    assert found.verdict == "fail"
    assert "9.53 mm" in found.change or "9.52 mm" in found.change


def test_a_component_bolt_over_a_clamp_cannot_take_its_nut():
    """C1 set over the feet of A1, 8 mm beside its bolt."""
    found = nut_against_structure(with_hole("C1", at=(16.0, 8.0)))
    assert of(found, "C1").verdict == "fail"


@pytest.mark.parametrize(("top", "verdict"), [(-80.0, "pass"), (-40.0, "caution")])
def test_a_socket_on_the_nut_needs_its_length_below(top, verdict):
    """The nut bears at -1.600; socket 60 mm and the bolt's end: to about -71.6."""
    c2 = next(h for h in LAYOUT.holes if h.label == "C2")
    found = nut_access(braced(below_plate(c2.at, top)))
    assert ("C2" in {f.where for f in found if f.verdict == "caution"}) == (verdict == "caution")


def test_feet_of_the_example():
    """The numbers the distances above are made of."""
    assert (OD, REACH, FEET, BAND, HOLE) == (19.05, 19.812, 2.2, 12.7, 4.8514)
    assert lug_stack().thickness_mm == pytest.approx(6.699)
    assert pytest.approx(224.0) == LONG
    assert verdicts(clamp_against_clamp(LAYOUT)) == {"pass"}
    assert isinstance(LAYOUT.holes[0], Hole)
