"""CLOSE-1 to CLOSE-3: opening loops, the way of the bolts, and the drill, by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import LAYOUT
from checks.findings_of import of, verdicts
from checks.joined.hand_layouts import BOLT, BUSHED, HELD_OFF, within
from checks.joined.panel_layout import FACE, ON_PANEL, REACH
from general_minimiser import apart

from clampwright.checks.closing import bolt_direction, head_looks, room_to_open
from clampwright.checks.drill_room import angle_drill_body, drill_body, drill_room, holes_in_place
from clampwright.layout.clash_bodies import band_body, tube_body
from clampwright.layout.placed import FitUp
from clampwright.structure.tubes import Tube

LOW, HIGH = BUSHED.recipe.structure.tubes


def braced(layout, start, end, od=19.05):
    """The layout with a third tube."""
    return within(layout, tubes=(LOW, HIGH, Tube("brace", start, end, od)))


def pointing(axis, layout=HELD_OFF):
    """The pair's bolt lying in another direction."""
    return replace(layout, joints=(replace(layout.joints[0], axis=axis),))


@pytest.mark.parametrize(("clear", "verdict"), [(13.0, "pass"), (12.0, "caution")])
def test_room_round_a_loop(clear, verdict):
    """A brace beside A1 (drum of 13.1318 + ... round "low"), 12.7 mm asked; measured again by scipy."""
    z = -(HELD_OFF.loops[0].clamp.outside_radius_mm + clear + 9.525)
    layout = braced(HELD_OFF, (200.0, 0.0, z), (400.0, 0.0, z))
    (found,) = room_to_open(layout)
    assert (found.where, found.verdict) == ("A1", verdict)
    assert found.value == pytest.approx(clear, abs=1e-6)
    brace = tube_body(layout.recipe.structure.tubes[2])
    assert apart(band_body(layout.loops[0]), brace) == pytest.approx(clear, abs=2e-3)
    assert ("0.70 mm" in found.change) is (verdict == "caution")


@pytest.mark.parametrize(
    ("axis", "looks", "verdict"),
    [
        ((0.0, 0.0, -1.0), "up", "pass"),
        ((0.0, 0.0, 1.0), "down", "caution"),
        ((-1.0, 0.0, 0.0), "forward", "pass"),
        ((1.0, 0.0, 0.0), "aft", "caution"),
        ((0.0, 1.0, 0.0), "level", "pass"),
        ((0.0, 0.8, -0.6), "up", "pass"),
    ],
)
def test_head_up_or_forward(axis, looks, verdict):
    """Common practice: a nut that is lost must leave the bolt in its holes."""
    assert head_looks(axis)[0] == looks
    alone = within(pointing(axis), tubes=(), keep_outs=())
    (found,) = bolt_direction(
        replace(alone, loops=(), line=replace(HELD_OFF.line, start=(0, 0, 900), end=(9, 0, 900)))
    )
    assert found.verdict == verdict


def test_a_bolt_needs_its_own_length_in_front_of_its_head():
    """The pair's bolt goes in from above; a brace over it stops it, and from below nothing is in the way."""
    top = HELD_OFF.joints[0].head[2] + 40.0
    (found,) = bolt_direction(braced(HELD_OFF, (BOLT[0], -50.0, top), (BOLT[0], 60.0, top)))
    assert found.verdict == "caution"
    assert "tube brace is in the way" in found.says
    assert "from below" in found.change
    assert "are free" in found.change
    swept = HELD_OFF.joints[0].stack.chosen.length.length_mm + 3.175
    assert f"{swept:.2f} mm" in found.change or f"{swept + 0.01:.2f} mm" in found.change
    (clear,) = bolt_direction(braced(HELD_OFF, (BOLT[0], -50.0, top + 40.0), (BOLT[0], 60.0, top + 40.0)))
    assert clear.verdict == "pass"


def test_every_bolt_of_a_component_goes_in_from_above():
    assert verdicts(bolt_direction(BUSHED)) == {"pass"}
    assert verdicts(bolt_direction(LAYOUT)) == {"pass"}


def test_the_hole_in_the_firewall():
    """Square out of its face at x = -50, under the bolt's head; the drill 40 to 230 mm from it."""
    (hole,) = holes_in_place(ON_PANEL)
    assert hole.at == pytest.approx((FACE, 0.0, -REACH))
    assert drill_body(hole).start == pytest.approx((FACE + 40.0, 0.0, -REACH))
    assert drill_body(hole).end == pytest.approx((FACE + 230.0, 0.0, -REACH))
    assert verdicts(drill_room(within(ON_PANEL, tubes=()))) == {"pass"}


@pytest.mark.parametrize(("x", "advice"), [(120.0, "angle drill"), (20.0, "No angle drill")])
def test_a_tube_in_front_of_the_hole(x, advice):
    """At 170 mm a pistol drill meets it and an angle drill of 90 mm does not; at 70 mm both do."""
    brace = Tube("brace", (x, -100.0, -REACH), (x, 100.0, -REACH), 19.05)
    (found,) = drill_room(within(ON_PANEL, tubes=(brace,)))
    assert (found.verdict, found.where) == ("caution", "A1")
    assert advice in found.change
    (hole,) = holes_in_place(ON_PANEL)
    assert (apart(angle_drill_body(hole), tube_body(brace)) < 1e-6) is (x == 20.0)


def test_holes_of_a_plate_that_are_transferred_in_place():
    """Drilled from the far face, where the plate lies on its clamps."""
    plan = LAYOUT.fit_up
    pilot = FitUp("B1", "pilot, transfer in place", 2.0, 0.1, "", "")
    holes = tuple(pilot if h.hole == "B1" else h for h in plan.holes)
    (found,) = drill_room(replace(LAYOUT, fit_up=replace(plan, holes=holes)))
    assert (found.where, found.verdict) == ("B1", "pass")
    assert drill_room(LAYOUT) == ()
    assert of(drill_room(replace(LAYOUT, fit_up=replace(plan, holes=holes))), "B1").value is not None
