"""A stand-off recipe to its layout: loops, bolt, stack, hardware, what was assumed, what cannot be."""

from __future__ import annotations

from dataclasses import replace
from math import radians, sqrt

import numpy as np
import pytest
from joined_recipes import (
    FIREWALL,
    LOW,
    MEASURED,
    NOT_MEASURED,
    carried,
    parallel,
    stand_off_recipe,
    structure,
)
from layout.pairing.pairs import vec

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.clock import clock_of
from clampwright.layout.joined import Joined, Joint, Loop, line_named
from clampwright.layout.pairing.lay_out import lay_out_stand_off
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along
from clampwright.recipe.model import Recipe, Zone
from clampwright.recipe.stand_off_model import CarriedLine, PairClamp, WiresOfSize
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Structure, Tube

ALONE = structure(LOW, keep_outs=())
SEAT, REACH, FEET = 13.1318, 19.812, 3.2131
UP: Vec3 = (0.0, 0.0, 1.0)


def laid(**more: object) -> StandOffLayout:
    """On the low tube alone."""
    return lay_out_stand_off(stand_off_recipe(ALONE, **more))


def on_panel(**more: object) -> StandOffLayout:
    """On the firewall."""
    return lay_out_stand_off(stand_off_recipe(tube=None, panel="firewall", **more))


def layers(joint: Joint) -> list[str]:
    """Names in the stack, from the head."""
    return [item.name for item in joint.stack.items]


def depth_of(joint: Joint, index: int) -> float:
    """How far below the head's face a layer begins."""
    return sum(item.thickness_mm * item.count for item in joint.stack.items[:index])


def outer_face(loop: Loop) -> np.ndarray:
    """A point of the foot's outer face, at its hole: by `Loop`'s own words."""
    m, a = vec(loop.bolt_axis), vec(loop.axis)
    return vec(loop.centre) + loop.turn * loop.clamp.reach_mm * np.cross(m, a) + loop.clamp.seat_mm * m


LINES = {
    "crossing over": carried(),
    "crossing under": carried(point=(250.0, -100.0, -45.0), to=(300.0, 100.0, -45.0)),
    "beside, up": parallel(60.0, UP),
    "beside, slanting": parallel(60.0, (0.0, -0.6, 0.8)),
    "beside, level": parallel(60.0, (0.0, 1.0, 0.0)),
    "foot to foot": parallel(2 * SEAT, UP),
    "not quite parallel": carried(point=(0.0, 0.0, 50.0), to=(500.0, 12.0, 58.0)),
}


@pytest.mark.parametrize("line", LINES.values(), ids=LINES.keys())
def test_the_stack_lies_where_the_clamps_are(line: CarriedLine) -> None:
    """Head, layers and nut along the bolt meet both feet where the loops say that they are."""
    layout = laid(carried=line)
    (joint,) = layout.joints
    of_tube, of_line = layout.loops
    n = vec(joint.axis)
    for loop in layout.loops:
        assert np.linalg.norm(np.cross(outer_face(loop) - vec(joint.head), n)) < loop.clamp.seat_mm * 0.04
    first, last = (of_line, of_tube) if n @ vec(of_tube.bolt_axis) < 0 else (of_tube, of_line)
    feet = [i for i, item in enumerate(joint.stack.items) if item.name == "clamp feet"]
    inner = joint.stack.items[feet[0]].thickness_mm + depth_of(joint, feet[0])
    assert (outer_face(first) - vec(joint.head)) @ n == pytest.approx(inner, abs=0.2), "under the first feet"
    assert (outer_face(last) - vec(joint.head)) @ n == pytest.approx(depth_of(joint, feet[1]), abs=0.2)
    exact = joint.clamps.index(of_tube.label)
    assert joint.clamps[exact] == "A1"
    depth = inner if first is of_tube else depth_of(joint, feet[1])
    assert (outer_face(of_tube) - vec(joint.head)) @ n == pytest.approx(depth, abs=1e-9), "rests on the tube"


@pytest.mark.parametrize("line", LINES.values(), ids=LINES.keys())
def test_loops_and_places_tell_the_same(line: CarriedLine) -> None:
    layout = laid(carried=line)
    of_tube, of_line = layout.loops
    assert (of_tube.label, of_line.label) == ("A1", "B1")
    assert of_tube.bolt_axis == layout.place.axis
    assert of_tube.station_mm == layout.place.station_tube_mm
    assert of_line.station_mm == layout.place.station_line_mm
    assert vec(of_line.bolt_axis) @ vec(of_line.axis) == pytest.approx(0.0, abs=1e-12)
    assert vec(of_line.bolt_axis) @ vec(layout.place.axis) == pytest.approx(-np.cos(of_line.tilt_rad))
    for loop, side in ((of_tube, layout.place.clock_tube_deg), (of_line, layout.place.clock_line_deg)):
        assert clock_of(loop).deg == pytest.approx(side)
        out = loop.turn * np.cross(vec(loop.bolt_axis), vec(loop.axis))
        right = np.cross(vec(loop.axis), vec(loop.bolt_axis))
        assert loop.side == ("right" if out @ right > 0 else "left"), "seen against the bolt, start below"
    assert layout.joints[0].label == "A1+B1"
    assert layout.joints[0].clamps == ("A1", "B1")
    assert line_named("oil hose", layout) is layout.line
    assert layout.line.point(of_line.station_mm) == pytest.approx(of_line.centre)


def test_a_stand_off_is_a_layout_as_checks_want_it() -> None:
    def lines(layout: Joined) -> tuple[Tube, ...]:
        return layout.lines

    assert [line.name for line in lines(laid())] == ["oil hose"]


def test_a_plain_stack_reads_simply() -> None:
    layout = laid(carried=parallel(2 * SEAT, UP))
    assert layout.place.says.startswith(
        "no spacer: the two clamps lie foot to foot; low at station 250.00 mm"
    )
    assert layers(layout.joints[0]) == ["washer", "clamp feet", "clamp feet", "washer"]
    assert layout.bushings == ()
    assert layout.cuts.bars == ()
    assert layout.distance_mm == pytest.approx(2 * SEAT)
    assert layout.crossing_rad == 0.0


def test_a_spacer_is_a_bushing_to_be_made() -> None:
    """A loop to either side of the bolt: √(60² − 39.624²) − 2 · 13.1318 = 18.79 mm, made to a tenth."""
    layout = laid(carried=parallel(60.0, UP))
    assert layout.place.spacer_mm == pytest.approx(sqrt(60.0**2 - (2 * REACH) ** 2) - 2 * SEAT)
    (part,) = layout.bushings
    (fill,) = part.fills
    assert fill.where == "A1+B1"
    assert part.length_mm + sum(t for _, t in fill.washers) == pytest.approx(18.79, abs=0.1)
    assert layout.cuts.bars[0].cuts[0].mark == part.mark
    wanted = {"clamp feet": 2, "bushing": 1}
    assert {name: layers(layout.joints[0]).count(name) for name in wanted} == wanted


@pytest.mark.parametrize(
    ("toward", "head_is_on", "why"),
    [
        ((0.0, 0.0, 1.0), "line", "up"),
        ((0.0, 0.0, -1.0), "tube", "up"),
        ((0.0, 0.8, 0.6), "line", "up"),
        ((0.0, 1.0, 0.0), "tube", "athwart"),
    ],
)
def test_the_head_is_where_a_lost_nut_leaves_the_bolt_in_place(
    toward: Vec3, head_is_on: str, why: str
) -> None:
    """Common practice, no source: heads up, else forward."""
    layout = laid(carried=parallel(2 * SEAT + 10.0, toward))
    joint = layout.joints[0]
    to_line = vec(joint.axis) @ vec(layout.place.axis)
    assert to_line == pytest.approx(-1.0 if head_is_on == "line" else 1.0)
    assert why in dict(layout.assumed)["bolt head"]


def test_a_panel_bolt_has_its_head_forward_on_the_foot() -> None:
    layout = on_panel(carried=carried(point=(-20.0, 0.0, 10.0), to=(-20.0, 200.0, 10.0)))
    joint = layout.joints[0]
    assert layers(joint) == ["washer", "clamp feet", "bushing", "panel", "washer"]
    assert joint.axis == (-1.0, 0.0, 0.0)
    assert (joint.label, joint.clamps) == ("B1", ("B1",))
    panel = joint.stack.items[3]
    assert (panel.part, panel.thickness_mm) == ("firewall", FIREWALL.thickness_mm)
    depth = depth_of(joint, 3)
    assert joint.head[0] - depth == pytest.approx(-50.0), "the panel's face"
    assert layout.distance_mm == pytest.approx(30.0)
    assert layout.place.spacer_mm == pytest.approx(30.0 - SEAT)
    assert layout.panel is not None
    assert layout.panel_hole_mm == pytest.approx(4.8514), "drill #11"
    assert layout.place.station_tube_mm == 0.0
    assert layout.place.turn_tube == 0
    assert layout.place.clock_tube_deg is None


def test_the_hole_in_a_panel_may_be_given() -> None:
    line = carried(point=(-20.0, 0.0, 10.0), to=(-20.0, 200.0, 10.0))
    recipe = stand_off_recipe(tube=None, panel="firewall", carried=line)
    job = recipe.job
    drilled = replace(job, fastener=replace(job.fastener, hole_mm=5.0))  # type: ignore[type-var,attr-defined]
    assert lay_out_stand_off(replace(recipe, job=drilled)).panel_hole_mm == 5.0


def test_a_line_beside_a_panel_runs_along_it() -> None:
    """Its direction is made square to the panel's normal, its axis `beside` off the face, over the point."""
    line = carried(
        point=(999.0, 40.0, 10.0), to=None, direction=(0.1, 0.995, 0.0), beside_mm=25.0, toward=None
    )
    layout = on_panel(carried=line)
    assert layout.distance_mm == pytest.approx(25.0)
    assert layout.line.direction == pytest.approx((0.0, 1.0, 0.0))
    assert layout.loops[0].centre == pytest.approx((-25.0, 40.0, 10.0))
    assert layout.crossing_rad == pytest.approx(0.0)


def test_a_turned_panel_is_as_good() -> None:
    """A slanting panel: everything follows its normal."""
    slant = Panel("floor", (0.0, 0.0, 0.0), (0.0, -0.6, 0.8), 1.0, "6061-T6")
    line = carried(point=(0.0, -24.0, 32.0), to=(200.0, -24.0, 32.0))
    tubes = structure(LOW, panels=(slant,), keep_outs=())
    layout = lay_out_stand_off(stand_off_recipe(tubes, tube=None, panel="floor", carried=line))
    assert layout.distance_mm == pytest.approx(40.0)
    assert layout.place.axis == slant.normal
    assert layout.place.spacer_mm == pytest.approx(40.0 - SEAT)


def test_any_place_can_be_asked_for() -> None:
    for number in (1, 2, 3, 4):
        layout = laid(place=number)
        assert layout.place is layout.places[number - 1]
        assert layout.place.number == number
        assert layout.loops[0].station_mm == layout.place.station_tube_mm


def test_places_are_best_first() -> None:
    """Those that fit, then the shorter spacer."""
    layout = laid(carried=parallel(50.0, UP))
    assert [p.number for p in layout.places] == [1, 2, 3, 4]
    keys = [(not p.fits, p.spacer_mm) for p in layout.places]
    assert keys == sorted(keys)
    assert layout.places[0].spacer_mm < layout.places[2].spacer_mm


def test_cushions_go_by_the_zone() -> None:
    hot = replace(stand_off_recipe(ALONE), zone=Zone(210.0, True, ("fuel",)))
    layout = lay_out_stand_off(hot)
    assert {loop.clamp.cushion for loop in layout.loops} == {"fluorosilicone"}
    notes = dict(layout.assumed)
    assert "clamps.tube.code" in notes
    assert "clamps.line.code" in notes


def test_what_is_given_is_not_assumed() -> None:
    given = PairClamp("CG", NOT_MEASURED, None)
    layout = laid(on_tube=given, on_line=given)
    assert [loop.clamp.code for loop in layout.loops] == ["CG", "CG"]
    assert not [key for key, _ in layout.assumed if key.startswith("clamps")]
    assert layout.loops[0].measured == frozenset()
    assert not layout.joints[0].feet_measured


def test_hardware_lists_both_clamps_and_one_bolt() -> None:
    found = {line.part: line.quantity for line in laid(carried=parallel(2 * SEAT, UP)).hardware}
    assert found["MS21919WCJ12"] == 1
    assert found["MS21919WCJ13"] == 1
    assert sum(n for part, n in found.items() if part.startswith("AN3-")) == 1
    assert found["MS21044N3"] == 1


def test_a_loop_of_the_next_size_is_wrapped() -> None:
    """20 mm in a loop of 13/16 in, 20.64 mm: 0.32 mm all round."""
    wrap = laid().wrap
    assert wrap is not None
    assert wrap.thickness_mm == pytest.approx((13 * 25.4 / 16 - 20.0) / 2)
    assert wrap.turns == pytest.approx(wrap.thickness_mm / 0.508)
    assert laid(carried=carried(od_mm=19.05)).wrap is None
    assert laid(carried=carried(od_mm=19.3)).wrap is None, "within the loop's own tolerance"
    assert "0.32 mm all round under the clamp" in dict(laid().assumed)["wrap"]
    two_up = PairClamp(None, MEASURED, 15)
    assert laid(on_line=two_up).wrap is None, "3.8 mm are too many to pack: CLAMP-1 says so"


def test_hose_bundle_and_sleeve() -> None:
    """-6 hose: 0.67 in. Seven wires of 1.5 mm: three diameters. A sleeve adds twice its wall."""
    assert laid(carried=carried(od_mm=None, hose_dash=6)).line.od_mm == pytest.approx(0.67 * 25.4)
    wires = carried(od_mm=None, wires=(WiresOfSize(7, None, 1.5),), sleeve_mm=0.5)
    layout = laid(carried=wires)
    assert layout.line.od_mm == pytest.approx(3 * 1.5 + 1.0)
    assert layout.bundle is not None
    assert (layout.bundle.wires, layout.bundle.od_mm) == (7, pytest.approx(4.5))
    gauge = carried(od_mm=None, wires=(WiresOfSize(1, 20, None), WiresOfSize(1, 16, None)))
    assert laid(carried=gauge).line.od_mm == pytest.approx((0.060 + 0.079) * 25.4)


def test_between_2_and_5_deg_a_line_that_crosses_nowhere_near_is_laid_out_as_parallel() -> None:
    """At 3 deg the crossing lies metres away; the line's clamp may take the 3 deg."""
    line = carried(point=(0.0, 60.0, 60.0), to=(500.0, 60.0 + 26.2, 60.0))
    layout = laid(carried=line)
    assert layout.place.fits
    assert layout.place.tilt_rad < radians(3.01)
    assert "3.0° off" in dict(layout.assumed)["line"]
    x = layout.place.station_tube_mm
    assert layout.distance_mm == pytest.approx(np.hypot(60.0, 60.0 + 26.2 * x / 500.0), abs=1e-6)
    open_ended = carried(point=(0.0, 60.0, 60.0), to=None, direction=(500 / 500.686, 26.2 / 500.686, 0.0))
    other = laid(carried=open_ended)
    assert other.place.bolt == pytest.approx(layout.place.bolt, abs=0.01)
    assert other.line.length_mm < 1000.0


def test_axes_that_meet() -> None:
    with pytest.raises(CannotLayOut, match="axes of oil hose and low meet") as caught:
        laid(carried=carried(point=(250.0, -100.0, 0.0), to=(260.0, 100.0, 0.0)))
    assert caught.value.line == 12
    assert "cannot go through" in caught.value.change


def test_a_parallel_line_in_the_tube() -> None:
    with pytest.raises(CannotLayOut, match="runs nearer to that of low than the reaches"):
        laid(
            carried=parallel(1e-3, UP),
            on_line=PairClamp(None, replace(NOT_MEASURED, reach_mm=25.0, seat_mm=13.0), None),
        )


@pytest.mark.parametrize(
    ("recipe", "words"),
    [
        (stand_off_recipe(tube="upper"), 'no tube is called "upper"'),
        (stand_off_recipe(tube=None, panel="floor"), 'no panel is called "floor"'),
        (stand_off_recipe(ALONE, place=5), "place 5 of the bolt is asked for, and there are 4"),
        (stand_off_recipe(ALONE, carried=carried(od_mm=120.0)), "no loop clamp"),
        (stand_off_recipe(ALONE, carried=carried(od_mm=None, hose_dash=7)), "no hose -7"),
        (stand_off_recipe(ALONE, carried=parallel(60.0, (1.0, 0.0, 0.0))), "points along low"),
    ],
)
def test_other_things_that_cannot_be(recipe: Recipe, words: str) -> None:
    with pytest.raises(CannotLayOut, match=words):
        lay_out_stand_off(recipe)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        (carried(point=(-70.0, 0.0, 0.0), to=(-70.0, 200.0, 0.0)), "20.00 mm behind the face of firewall"),
        (carried(point=(-40.0, 0.0, 0.0), to=(100.0, 100.0, 0.0)), "54° out of the plane of firewall"),
        (carried(point=None, to=None, beside_mm=30.0), "which way oil hose runs along firewall"),
        (
            carried(point=None, to=None, direction=(1.0, 0.0, 0.0), beside_mm=30.0),
            "stands square on firewall",
        ),
    ],
)
def test_lines_that_no_clamp_holds_on_a_panel(line: CarriedLine, words: str) -> None:
    with pytest.raises(CannotLayOut, match=words):
        on_panel(carried=line)


def test_the_same_recipe_gives_the_same_layout() -> None:
    assert laid() == laid()


def test_a_structure_in_any_order_gives_the_same_places() -> None:
    other = Tube("other", (0.0, 300.0, 0.0), (500.0, 300.0, 0.0), 19.05)
    one = lay_out_stand_off(stand_off_recipe(Structure((LOW, other))))
    two = lay_out_stand_off(stand_off_recipe(Structure((other, LOW))))
    assert one.places == two.places
    assert along(one.place.bolt) == two.place.bolt
