"""Bodies of joined layouts: counts, names, lugs, panels, keep-outs, and that a plate's stay as they were."""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from joined_recipes import EXHAUST, FIREWALL
from solids.hand_layout import hand_layout
from solids.joined.hand_component import BODY, GAPS, HOLE_D, HOLES, LUG, component, hand_component
from solids.joined.pairs import stand_off

from clampwright.layout.joined import Joined
from clampwright.recipe.bushing_model import Lug, MountedComponent
from clampwright.solids.assembly import assembly
from clampwright.solids.body import COLOURS
from clampwright.solids.joined_assembly import joined_assembly, near_joints, nut_face
from clampwright.solids.lugs import room_round
from clampwright.solids.measure import box_mm, cylinders, volume_mm3
from clampwright.solids.mounted import mounted_shape
from clampwright.solids.surroundings import capsule, keep_out_bodies, panel_patch, whole
from clampwright.solids.tube import Near
from clampwright.structure.surroundings import KeepOut
from clampwright.trade.bolts import bolt

LAYOUTS: dict[str, Joined] = {
    "component": hand_component(),
    **{name: stand_off(name) for name in ("skew", "parallel", "panel")},
}
ROOM = room_round("AN3", HOLE_D)


@pytest.mark.parametrize("name", LAYOUTS)
def test_every_body_has_a_name_of_its_own_a_colour_and_is_sound(name: str) -> None:
    bodies = joined_assembly(LAYOUTS[name])
    assert len({body.name for body in bodies}) == len(bodies)
    assert all(body.role in COLOURS and body.shape.isValid() for body in bodies)


@pytest.mark.parametrize("name", LAYOUTS)
def test_count_of_bodies_is_the_layout_s(name: str) -> None:
    layout = LAYOUTS[name]
    roles = Counter(body.role for body in joined_assembly(layout))
    layers = [item for joint in layout.joints for item in joint.stack.items for _ in range(item.count)]
    assert roles["band"] == roles["cushion"] == len(layout.loops)
    assert roles["bolt"] == roles["nut"] == len(layout.joints)
    assert roles["bushing"] == sum(part.quantity for part in layout.bushings) > 0
    assert roles["washer"] == sum(item.name in ("washer", "washers") for item in layers)
    assert roles["line"] == len(layout.lines)
    assert roles["component"] == (name == "component")
    assert roles["panel"] == (name == "panel")


def test_a_plate_s_assembly_is_what_it_was() -> None:
    layout = hand_layout()
    one, other = joined_assembly(layout), assembly(layout)
    assert [(b.name, b.product, b.place) for b in one] == [(b.name, b.product, b.place) for b in other]
    assert not {"line", "panel", "keep-out"} & {b.role for b in one}


@pytest.mark.parametrize("name", LAYOUTS)
def test_the_stack_fills_the_bolt_from_head_to_nut(name: str) -> None:
    """Pieces lie end to end; what is open is what feet, lug and panel fill."""
    layout = LAYOUTS[name]
    bodies = joined_assembly(layout)
    for joint in layout.joints:
        up = -np.array(joint.axis)
        spans = []
        for body in bodies:
            if body.role in ("washer", "bushing") and body.name.split(" no. ")[0].endswith(f" {joint.label}"):
                (_, _, low), (_, _, high) = box_mm(body.shape)
                foot = float((np.array(body.place.origin) - joint.head) @ up)
                assert np.allclose(body.place.z, up)
                spans.append((foot + low, foot + high))
        held = sum(i.thickness_mm * i.count for i in joint.stack.items if i.od_mm is None)
        filled = sum(high - low for low, high in spans)
        assert filled + held == pytest.approx(joint.stack.thickness_mm, abs=1e-5)
        assert max(high for _, high in spans) == pytest.approx(0.0, abs=1e-6)
        nut = next(b for b in bodies if b.name == f"nut {joint.label}")
        assert nut.place.origin == pytest.approx(nut_face(joint), abs=1e-9)
        assert min(low for low, _ in spans) == pytest.approx(-joint.stack.thickness_mm, abs=1e-5)


def test_box_over_its_holes_is_open_above_each_lug() -> None:
    """Closed form: box less a drum of the wrench's room from each lug up, less each hole through its lug."""
    made = mounted_shape(component(), "AN3")
    rooms = 3 * math.pi * ROOM**2 * (BODY[2] - LUG)
    holes = 3 * math.pi * HOLE_D**2 / 4 * LUG
    assert volume_mm3(made) == pytest.approx(math.prod(BODY) - rooms - holes, rel=1e-9)
    assert len(made.Solids()) == 1


def test_lugs_beside_the_box_are_ears_of_their_thickness() -> None:
    """Each ear reaches from the hole to its round end; the box is whole but for the bolts' rooms."""
    made = mounted_shape(component(body=(60.0, 80.0, 70.0)), "AN3")
    assert len(made.Solids()) == 1
    (x0, y0, z0), (x1, y1, z1) = box_mm(made)
    outermost = max(abs(at[1]) for _, at in HOLES.values()) + ROOM
    assert (y0, y1) == pytest.approx((-outermost, outermost), abs=1e-6)
    assert (x0, x1) == pytest.approx((-40.0 - ROOM, 40.0 + ROOM), abs=1e-6)
    assert (z0, z1) == pytest.approx((0.0, 70.0), abs=1e-6)
    bores = [c for c in cylinders(made) if c.hollow and math.isclose(c.diameter_mm, HOLE_D, rel_tol=1e-9)]
    assert sorted((round(c.at[0], 6), round(c.at[1], 6)) for c in bores) == sorted(
        (round(at[0], 6), round(at[1], 6)) for _, at in HOLES.values()
    )


def test_a_component_without_a_box_shows_its_lugs_alone() -> None:
    made = mounted_shape(component(body=None), "AN3")
    assert len(made.Solids()) == 3
    assert volume_mm3(made) == pytest.approx(3 * math.pi * (ROOM**2 - HOLE_D**2 / 4) * LUG, rel=1e-9)


@pytest.mark.parametrize("base", [12.0, -90.0])
def test_lugs_below_or_above_the_box_stand_on_legs(base: float) -> None:
    """A box that begins 9 mm over the lugs, and one that ends 10 mm under them: all one piece."""
    made = mounted_shape(component(body=(60.0, 80.0, 80.0), body_base_mm=base), "AN3")
    assert len(made.Solids()) == 1
    (_, _, low), (_, _, high) = box_mm(made)
    assert (low, high) == pytest.approx((min(0.0, base), max(LUG, base + 80.0)), abs=1e-6)


def test_lugs_at_several_heights_and_of_unknown_thickness() -> None:
    """Near faces at 0 and 12 mm: hole rims lie there, and a lug nobody measured is 15 % of the height."""
    lugs = (Lug((-50.0, 0.0), 4.0, 0.0), Lug((50.0, 0.0), None, 12.0))
    held = MountedComponent("pump", 1.0, lugs, HOLE_D, (70.0, 40.0, 60.0), 0.0, None, "mount")
    made = mounted_shape(held, "AN3")
    rims = [
        (round(e.arcCenter().x), round(e.arcCenter().z, 6))
        for e in made.Edges()
        if e.geomType() == "CIRCLE" and math.isclose(2 * e.radius(), HOLE_D, rel_tol=1e-9)
    ]
    assert sorted(rims) == [(-50, 0.0), (-50, 4.0), (50, 12.0), (50, 21.0)]


def test_a_hole_nobody_measured_is_drawn_as_the_bolt_s_drill() -> None:
    made = mounted_shape(component(hole_mm=None), "AN3")
    hollows = {round(c.diameter_mm, 4) for c in cylinders(made) if c.hollow}
    assert min(hollows) == pytest.approx(4.8514)
    assert bolt("AN3").shank_max_mm <= min(hollows)


def test_bushings_stand_under_the_lugs() -> None:
    names = {body.name: body for body in joined_assembly(hand_component())}
    for label, gap in GAPS.items():
        (_, _, low), (_, _, high) = box_mm(names[f"bushing {label}"].shape)
        assert high - low == pytest.approx(gap, abs=1e-5)


def test_the_panel_s_patch_holds_its_volume_and_looks_into_the_bay() -> None:
    patch = panel_patch(FIREWALL, (-50.0, 10.0, 20.0), (0.0, 1.0, 0.3), 30.0, 6.0)
    assert volume_mm3(patch.shape) == pytest.approx((60.0**2 - 9 * math.pi) * FIREWALL.thickness_mm, rel=1e-9)
    box = patch.placed().BoundingBox()
    assert (box.xmin, box.xmax) == pytest.approx((-50.0 - FIREWALL.thickness_mm, -50.0), abs=1e-5)


@pytest.mark.parametrize(
    ("low", "high", "balls"), [(True, True, 1.0), (True, False, 0.5), (False, False, 0.0)]
)
def test_volume_of_a_capsule(low: bool, high: bool, balls: float) -> None:
    shape = capsule(40.0, 7.0, low, high)
    wanted = math.pi * 49.0 * 40.0 + balls * 4 / 3 * math.pi * 343.0
    assert volume_mm3(shape) == pytest.approx(wanted, rel=1e-9)
    assert shape.isValid()


def test_keep_outs_are_cut_off_abreast_of_the_part_and_keep_their_own_ends() -> None:
    near = Near((480.0, 75.0, 180.0), 60.0)
    (body,) = keep_out_bodies((EXHAUST,), near)
    placed = body.placed().BoundingBox()
    assert (placed.xmin, placed.xmax) == pytest.approx((420.0, 500.0 + 22.225), abs=1e-5)
    assert volume_mm3(body.shape) == pytest.approx(
        math.pi * 22.225**2 * 80.0 + 2 / 3 * math.pi * 22.225**3, rel=1e-9
    )


def test_a_box_to_keep_out_of_is_cut_off_round_the_part() -> None:
    sump = KeepOut("sump", (100.0, -300.0, -50.0), (0.0, 300.0, -20.0), None, 10.0, "engine", "other")
    (body,) = keep_out_bodies((sump,), Near((50.0, 0.0, 0.0), 90.0))
    box = body.placed().BoundingBox()
    assert (box.ymin, box.ymax) == pytest.approx((-100.0, 100.0), abs=1e-5)
    shape, place = whole(sump)
    assert volume_mm3(shape) == pytest.approx(100.0 * 600.0 * 30.0, rel=1e-12)
    assert place.origin == (0.0, -300.0, -50.0)
    assert not list(keep_out_bodies((sump,), Near((50.0, 900.0, 0.0), 90.0)))


def test_far_keep_outs_are_left_out_of_the_assembly() -> None:
    """The exhaust asks for 50 mm: 61 mm above the separator's top it is shown, 151 mm above its lugs not."""
    with_box, bare = hand_component(), hand_component(body=None)
    assert [b.name for b in joined_assembly(with_box) if b.role == "keep-out"] == [
        "keep-out exhaust, reference only"
    ]
    assert not [b for b in joined_assembly(bare) if b.role == "keep-out"]


def test_everything_lies_near_the_joints() -> None:
    """The ball that long things are cut to holds every clamp and joint of the layout."""
    for layout in LAYOUTS.values():
        near = near_joints(layout)
        for point in (*(loop.centre for loop in layout.loops), *(nut_face(j) for j in layout.joints)):
            assert math.dist(point, near.middle) < near.reach_mm


def test_tubes_are_cut_to_what_is_near_and_lines_go_on_past_their_points() -> None:
    layout = stand_off("skew")
    near = near_joints(layout)
    bodies = [b for b in joined_assembly(layout) if b.role in ("tube", "line")]
    for body in bodies:
        (_, _, low), (_, _, high) = box_mm(body.shape)
        assert high - low <= 2 * near.reach_mm + 1e-6
    shifted = replace(layout, line=replace(layout.line, end=layout.line.point(60.0)))
    (line,) = (b for b in joined_assembly(shifted) if b.role == "line")
    assert volume_mm3(line.shape) == pytest.approx(
        volume_mm3(next(b.shape for b in bodies if b.role == "line")), rel=1e-9
    )


def test_tape_fills_the_room_between_a_line_and_its_clamp() -> None:
    """A hose of 12 mm under a clamp whose loop is 12.7 mm: as wide as the band, up to the loop or less."""
    layout = stand_off("wrapped")
    assert layout.wrap is not None
    (tape,) = (body for body in joined_assembly(layout) if body.role == "wrap")
    (loop,) = (each for each in layout.loops if each.tube == layout.line.name)
    outside = layout.line.od_mm + 2 * layout.wrap.thickness_mm
    assert layout.line.od_mm < outside <= loop.clamp.loop_mm + 1e-6
    area = math.pi / 4 * (outside**2 - layout.line.od_mm**2)
    assert volume_mm3(tape.shape) == pytest.approx(area * loop.clamp.band_width_mm, rel=1e-9)
    axis = np.subtract(layout.line.end, layout.line.start) / layout.line.length_mm
    for bore in cylinders(tape.placed()):
        assert float(np.linalg.norm(np.cross(np.subtract(bore.at, loop.centre), axis))) < 1e-6
