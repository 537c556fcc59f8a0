"""KEEP-4: what turns, swings or hangs once a clamp is gone, by hand and against a general minimiser."""

from __future__ import annotations

from dataclasses import replace
from math import hypot, radians, sqrt

import pytest
from checks.example_plate import LAYOUT
from checks.joined.hand_layouts import BUSHED, HELD_OFF, LUG_Z, REACH, asking, holding, within
from general_minimiser import apart

from clampwright.checks.added import added, keep_out_body
from clampwright.checks.line_let_go import hanging, sag
from clampwright.checks.missing_clamp import clamp_missing, swings
from clampwright.layout.bodies import clearance
from clampwright.layout.clash_bodies import tube_body
from clampwright.layout.moved_bodies import turned
from clampwright.structure.surroundings import KeepOut

pytestmark = pytest.mark.usefixtures("as_measured")

PIPE = KeepOut("pipe", (0.0, 0.0, 200.0), (500.0, 0.0, 200.0), 20.0, 20.0, "mount", "hot")
"""Along x, 200 mm straight above the tube "low"."""
TWO = holding("A2", "B1")


def test_without_the_one_clamp_on_the_other_tube_it_swings():
    """The separator's far upper edge is hypot(115, 117.13) = 164.15 from the axis of "low", at 45.5 degrees.

    Swung up by 44.5 degrees it stands under the pipe: 200 - 164.15 - 10 = 25.85.
    """
    (found,) = clamp_missing(within(BUSHED, keep_outs=(PIPE,)))
    edge = hypot(115.0, LUG_Z + 90.0)
    assert found.value == pytest.approx(200.0 - edge - 10.0, abs=0.02)
    assert found.verdict == "pass"
    assert "Without B1 separator swings about low by 44°" in found.says


@pytest.mark.parametrize(("kind", "verdict"), [("hot", "caution"), ("control", "fail")])
def test_touching_fouls_a_control_and_cautions_elsewhere(kind, verdict):
    """A pipe at 170: the swinging edge reaches 164.15, the pipe's skin is at 160."""
    low = replace(PIPE, start=(0.0, 0.0, 170.0), end=(500.0, 0.0, 170.0), kind=kind)
    (found,) = clamp_missing(within(BUSHED, keep_outs=(low,)))
    assert (found.verdict, found.value) == (verdict, 0.0)
    assert "can touch pipe" in found.says


def test_a_swing_ends_at_a_tube():
    """Downwards the separator comes to lie on "high"; a pipe below is not reached as it would be without.

    In steps of 1 degree, body by body: up to the first touch of "high" by what is not B1's own, and on.
    """
    below = replace(PIPE, start=(0.0, 110.0, -120.0), end=(500.0, 110.0, -120.0))
    (found,) = clamp_missing(within(BUSHED, keep_outs=(below,)))
    high = tube_body(BUSHED.recipe.structure.tube("high"))
    (swing,) = swings(BUSHED)
    reached, beyond, stopped = [], [], False
    for angle in range(0, -181, -1):
        moved = [(b.owner, turned(b.body, swing.about, swing.axis, radians(angle))) for b in swing.moving]
        stopped = stopped or any(clearance(body, high) <= 0.0 for owner, body in moved if owner != "B1")
        (beyond if stopped else reached).append(min(clearance(b, keep_out_body(below)) for _, b in moved))
    assert len(reached) < 90
    assert min(beyond) == 0.0
    assert found.value is not None
    step = 5.0 * hypot(115.0, 117.0) * radians(1.0)
    assert max(0.0, min(reached) - step) <= found.value <= min(reached) + 0.01
    assert found.value > 0.0


def test_with_one_bolt_left_it_turns_about_that_bolt():
    """A2 and B1 alone. About A2's bolt at (280, 19.812) the far corner (210, 115) is 118.15 away.

    A rod 150 mm from that bolt, above the heads, 5 mm thick to its axis: 150 - 118.15 - 5 = 26.85.
    """
    rod = KeepOut("rod", (430.0, REACH, 60.0), (430.0, REACH, 110.0), 10.0, 12.7, "mount", "control")
    (found,) = clamp_missing(within(TWO, keep_outs=(rod,)))
    assert found.value == pytest.approx(150.0 - hypot(70.0, 115.0 - REACH) - 5.0, abs=0.02)
    assert "Without B1 separator turns about the bolt of A2 by" in found.says


def test_the_swings_of_two_and_of_three_clamps():
    """Of three, only B1's loss frees anything; of two, either's; of two and two on two tubes, none's."""
    assert [(s.without, s.axis) for s in swings(BUSHED)] == [("B1", (1.0, 0.0, 0.0))]
    assert [(s.without, s.axis) for s in swings(TWO)] == [("A2", (0.0, 0.0, -1.0)), ("B1", (0.0, 0.0, -1.0))]
    assert list(swings(LAYOUT)) == []
    (found,) = clamp_missing(within(LAYOUT, keep_outs=(PIPE,)))
    assert (found.verdict, found.value) == ("pass", 2.0)
    assert clamp_missing(within(BUSHED, keep_outs=())) == ()


def test_every_body_of_a_swing_against_a_general_minimiser():
    """All that moves, in steps of 4 degrees all round: nothing comes nearer than what is found."""
    rod = KeepOut("rod", (430.0, REACH, 30.0), (430.0, REACH, 110.0), 10.0, 12.7, "mount", "control")
    (found,) = clamp_missing(within(TWO, keep_outs=(rod,)))
    body = keep_out_body(rod)
    every = []
    for swing in swings(TWO):
        for moving in swing.moving:
            for angle in range(-180, 180, 4):
                at = turned(moving.body, swing.about, swing.axis, radians(angle))
                if clearance(at, body) < (found.value or 0.0) + 2.0:
                    every.append(apart(at, body))
    assert every
    assert found.value is not None
    assert found.value <= min(every) + 2e-3


def carried(**changes):
    """The hose, changed."""
    return asking(HELD_OFF, carried=replace(HELD_OFF.recipe.job.carried, **changes))


def test_sag_of_a_flat_parabola():
    """Length of y = 4 s x (L - x)/L² over its span, summed in 20 000 steps, against L + 8 s²/(3 L)."""
    span, s = 600.0, sag("bundle", 300.0, 300.0)[0]
    n = 20000
    xs = [i * span / n for i in range(n + 1)]
    ys = [4 * s * x * (span - x) / span**2 for x in xs]
    length = sum(hypot(xs[i + 1] - xs[i], ys[i + 1] - ys[i]) for i in range(n))
    slack = 2 * (8 * 12.7**2 / (3 * 300.0))
    assert length - span == pytest.approx(slack, rel=5e-3)
    assert sag("hose", 300.0, 300.0)[0] == pytest.approx(600.0 * sqrt(3 * 0.08 / 8))
    assert sag("tube", 300.0, 300.0)[0] == 0.0
    assert sag("bundle", 100.0, 300.0)[0] == pytest.approx(12.7 * 400.0 / sqrt(100.0 * 300.0))


def test_a_bundle_let_go_moves_as_its_slack_lets_it():
    """At the clamp, midway: 25.4 mm on top of its radius; its ends stay where they are held."""
    pieces = hanging(HELD_OFF, (300.0, 300.0), 25.4)[:-1]
    radii = [piece.body.radius_mm - 9.525 for piece in pieces]
    assert max(radii) == pytest.approx(25.4)
    assert radii[0] == pytest.approx(radii[-1])
    assert radii[0] == pytest.approx(25.4 * 4 * (1 / 12) * (11 / 12))
    assert pieces[0].body.start == pytest.approx((300.0, REACH - 300.0, 60.0))
    assert pieces[-1].body.end == pytest.approx((300.0, REACH + 300.0, 60.0))


def test_the_open_pair_hangs_within_its_drum():
    """Every corner and rim of both clamps and the bolt lies within the drum that may turn about the line."""
    drum = hanging(HELD_OFF, (300.0, 300.0), 0.0)[-1].body
    for each in added(HELD_OFF)[:-1]:
        body = each.body
        places = [body.farthest(d) for d in ((1.0, 0.0, -3.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0))]
        for x, _, z in places:
            assert hypot(x - 300.0, z - 60.0) <= drum.radius_mm + 1e-9


@pytest.mark.parametrize(("what", "verdict"), [("tube", "pass"), ("bundle", "pass"), ("hose", "caution")])
def test_a_line_let_go_near_a_pipe(what, verdict):
    """A pipe along x over the line, z = 220, its skin at 210; a hose of 8 % slack moves 104 mm."""
    pipe = replace(PIPE, start=(0.0, REACH, 220.0), end=(500.0, REACH, 220.0), distance_mm=15.0)
    (found,) = clamp_missing(within(carried(what=what), keep_outs=(pipe,)))
    assert found.verdict == verdict
    moved = {"tube": "0.00", "bundle": "25.40", "hose": "103.92"}[what]
    assert f"free to move {moved} mm over the 600.00 mm" in found.says


def test_where_it_hangs_is_not_known_without_its_next_supports():
    (found,) = clamp_missing(carried(next_supports_mm=None))
    assert (found.verdict, found.where) == ("unknown", "oil hose")
    assert "next_supports" in found.change
