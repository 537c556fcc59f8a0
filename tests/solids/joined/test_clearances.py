"""Which clearances are measured, what is said where things run into each other, and the findings."""

from __future__ import annotations

import math
import time
from dataclasses import replace

import pytest
from joined_recipes import EXHAUST, FIREWALL, HIGH, LOW, carried, parallel, stand_off_recipe
from solids.hand_layout import hand_layout
from solids.joined.hand_component import BODY, HOLE_D, ORIGIN, OUT, hand_component
from solids.joined.pairs import stand_off

from clampwright.checks.exact import solids_clear
from clampwright.layout.clearance_found import KEEP_OUT, OWN_STACK, PARTS, STRUCTURE, Clearance
from clampwright.layout.joined import Joined
from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.recipe.model import Measured
from clampwright.recipe.stand_off_model import PairClamp
from clampwright.solids.clearances import clearances
from clampwright.solids.joined_assembly import joined_assembly
from clampwright.solids.lugs import room_round
from clampwright.structure.surroundings import KeepOut, Panel
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.tables import rule

RADIUS = 19.05 / 2


def measured(layout: Joined) -> dict[tuple[str, str], Clearance]:
    """Clearances by pair."""
    return {(c.one, c.other): c for c in clearances(layout, joined_assembly(layout))}


def among(layout: Joined, structure: Structure) -> Joined:
    """The layout in another structure, nothing of it moved."""
    return replace(layout, recipe=replace(layout.recipe, structure=structure))


def test_component_to_the_nearest_tube_is_the_closed_form() -> None:
    """The box's lower edge at y = 140, z = 27.1318 and the axis at y = 150, z = 8."""
    found = measured(hand_component())["component separator", "tube high"]
    wanted = math.hypot(10.0, 27.1318 - 8.0) - RADIUS
    assert found.exact_mm == pytest.approx(wanted, abs=1e-6)
    assert found.simple_mm == pytest.approx(wanted, abs=1e-6)
    assert (found.kind, found.common_mm3, found.asked_mm) == (STRUCTURE, 0.0, None)


def test_what_comes_nearest_to_a_keep_out_is_told_with_what_it_asks() -> None:
    """The exhaust's axis is at z = 200, r = 22.225; the separator's top at 27.1318 + 90."""
    found = measured(hand_component())["component separator", "keep-out exhaust"]
    assert found.exact_mm == pytest.approx(200.0 - 22.225 - 27.1318 - BODY[2], abs=1e-6)
    assert (found.kind, found.asked_mm) == (KEEP_OUT, EXHAUST.distance_mm)


def test_line_to_the_tube_it_is_held_off() -> None:
    found = measured(stand_off("skew"))["line oil hose", "tube low"]
    assert found.exact_mm == pytest.approx(40.0 - RADIUS - 10.0, abs=1e-6)


def test_a_carried_line_beside_another_panel() -> None:
    """The line runs level at z = 40, radius 10; a shelf's face at z = 27 leaves 3 mm."""
    level = carried(point=(0.0, -100.0, 40.0), to=(0.0, 100.0, 40.0))
    layout = lay_out_stand_off(stand_off_recipe(tube=None, panel="firewall", carried=level))
    shelf = replace(FIREWALL, name="shelf", point=(0.0, 0.0, 27.0), normal=(0.0, 0.0, 1.0))
    found = measured(among(layout, Structure((LOW,), (FIREWALL, shelf))))["line oil hose", "panel shelf"]
    assert found.exact_mm == pytest.approx(3.0, abs=1e-6)
    assert found.simple_mm == pytest.approx(3.0, abs=1e-6)


def test_a_box_sunk_into_the_tubes_runs_into_them_and_into_its_own_clamps() -> None:
    """A box from y = 0 to 150 that hangs 40 mm below the lugs takes half of each tube over its 100 mm."""
    layout = hand_component(body=(100.0, 150.0, 90.0), body_base_mm=-40.0)
    found = measured(layout)
    for tube in ("low", "high"):
        pair = found["component separator", f"tube {tube}"]
        assert pair.exact_mm == 0.0
        assert pair.common_mm3 == pytest.approx(math.pi * RADIUS**2 / 2 * 100.0, rel=1e-6)
    for label in ("A1", "A2", "B1"):
        assert found[f"clamp {label}", "component separator"].kind == OWN_STACK
    findings = solids_clear(tuple(found.values()), layout)
    assert {f.verdict for f in findings} == {"fail"}
    assert {f.where for f in findings} >= {"component separator/tube low", "clamp B1/component separator"}
    assert all("run into each other" in f.says and f.change for f in findings)


def test_neighbours_on_one_bolt_are_no_clash() -> None:
    for layout in (hand_component(), *(stand_off(n) for n in ("skew", "parallel", "panel"))):
        assert all(c.kind != OWN_STACK and c.exact_mm > 3.0 for c in measured(layout).values())


def test_loops_of_a_pair_that_share_their_room_are_told() -> None:
    """Seats of 9 mm where the loops reach 13.1 and 13.9 mm, feet on feet: the axes are 18 mm apart.

    The drums, 12.7 mm wide, share the lens of two circles: r^2 acos(d1/r) - d1 sqrt(r^2 - d1^2) for each.
    """
    low_seats = PairClamp(None, Measured(19.812, 9.0, 3.2131), None)
    beside = parallel(18.0, (0.0, 0.0, 1.0))
    layout = lay_out_stand_off(stand_off_recipe(on_tube=low_seats, on_line=low_seats, carried=beside))
    assert layout.place.spacer_mm == pytest.approx(0.0, abs=1e-9)
    found = measured(layout)["clamp A1", "clamp B1"]
    a, b = (loop.clamp.outside_radius_mm for loop in layout.loops)
    to_a = (18.0**2 + a**2 - b**2) / 36.0
    lens = sum(r**2 * math.acos(d / r) - d * math.sqrt(r**2 - d**2) for r, d in ((a, to_a), (b, 18.0 - to_a)))
    assert found.kind == OWN_STACK
    assert found.common_mm3 == pytest.approx(lens * 12.7, rel=1e-6)
    assert found.common_mm3 > rule("solids-overlap").value
    (finding,) = (f for f in solids_clear((found,), layout))
    assert (finding.verdict, finding.where) == ("fail", "clamp A1/clamp B1")


def test_an_ear_that_the_simple_body_leaves_out_is_told() -> None:
    """A tube that passes 2 mm outside the ear of B1, far from the box: `check` passes, the solids do not."""
    layout = hand_component(body=(60.0, 80.0, 70.0))
    end = ORIGIN[1] + OUT + room_round("AN3", HOLE_D)
    beside = Tube("cable tray", (0.0, end + 12.0, 28.6), (500.0, end + 12.0, 28.6), 20.0)
    found = measured(among(layout, Structure((LOW, HIGH, beside))))["component separator", "tube cable tray"]
    assert found.exact_mm == pytest.approx(2.0, abs=1e-4)
    assert found.simple_mm is not None
    assert found.simple_mm > 10.0
    (finding,) = solids_clear((found,), layout)
    assert finding.verdict == "caution"
    assert "go by the solids" in finding.says
    assert finding.value == pytest.approx(2.0, abs=1e-4)


def test_a_keep_out_nearer_than_it_asks_fails_and_every_culprit_is_named() -> None:
    pipe = KeepOut("stub", (250.0, 75.0, 140.0), (250.0, 75.0, 300.0), 20.0, 60.0, "engine", "hot")
    layout = among(hand_component(), Structure((LOW, HIGH), (), (pipe,)))
    found = measured(layout)
    near = found["component separator", "keep-out stub"]
    assert near.exact_mm == pytest.approx(140.0 - 10.0 - (27.1318 + 90.0), abs=1e-6)
    (finding,) = (f for f in solids_clear(tuple(found.values()), layout) if "stub" in f.where)
    assert (finding.verdict, finding.limit) == ("fail", 60.0)


def test_a_round_keep_out_of_no_length_is_a_ball() -> None:
    ball = KeepOut("knuckle", (250.0, 75.0, 150.0), (250.0, 75.0, 150.0), 30.0, 15.0, "engine", "control")
    found = measured(among(hand_component(), Structure((LOW, HIGH), (), (ball,))))
    near = found["component separator", "keep-out knuckle"]
    assert near.exact_mm == pytest.approx(150.0 - 15.0 - (27.1318 + 90.0), abs=1e-5)


def test_a_panel_beside_the_part_is_measured_wherever_its_own_point_lies() -> None:
    """Its face at z = 119, pointing down, is 1.87 mm over the separator's top; its point is far away."""
    roof = Panel("roof", (900.0, -700.0, 119.0), (0.0, 0.0, -1.0), 0.8, "6061-T6")
    layout = among(hand_component(), Structure((LOW, HIGH), (roof,)))
    found = measured(layout)["component separator", "panel roof"]
    assert found.exact_mm == pytest.approx(119.0 - (27.1318 + 90.0), abs=1e-6)
    (finding,) = (f for f in solids_clear((found,), layout))
    assert finding.verdict == "caution"


def test_a_plate_is_measured_against_its_tubes() -> None:
    """The near face lies a seat over the axis of the lower tube: 13.1318 - 9.525; bolts and clamps belong."""
    found = measured(hand_layout())
    assert found["plate", "tube low"].exact_mm == pytest.approx(13.1318 - RADIUS, abs=1e-6)
    assert all(c.kind in (STRUCTURE, PARTS) for c in found.values())
    assert all(c.exact_mm > 0 for c in found.values())


def test_the_least_comes_first_and_a_pass_says_what_is_left() -> None:
    layout = stand_off("skew")
    found = clearances(layout, joined_assembly(layout))
    assert [c.exact_mm for c in found] == sorted(c.exact_mm for c in found)
    (finding,) = solids_clear(found, layout)
    assert finding.verdict == "pass"
    assert finding.value == found[0].exact_mm
    assert finding.change == ""


@pytest.mark.parametrize("name", ["component", "skew", "parallel", "panel"])
def test_few_pairs_reach_the_kernel(name: str) -> None:
    """A few hundredths of a second once the shapes are there; the bound is generous for a busy machine."""
    layout: Joined = hand_component() if name == "component" else stand_off(name)
    bodies = joined_assembly(layout)
    clearances(layout, bodies)
    start = time.perf_counter()
    clearances(layout, bodies)
    assert time.perf_counter() - start < 0.5
