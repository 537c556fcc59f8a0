"""What a CadQuery script gets: the same solids, at the same places, under the same names."""

from __future__ import annotations

import math

import cadquery as cq
import pytest
from solids.hand_layout import CLAMP_HOLE_D, CLAMP_HOLES, HEIGHT, THICKNESS, WIDTH, hand_layout, to_world

from clampwright.solids.assembly import assembly
from clampwright.solids.scripting import cq_assembly, workplane

LAYOUT = hand_layout()


def test_workplane_holds_the_plate_in_its_own_frame() -> None:
    plate = workplane(LAYOUT)
    box = plate.val().BoundingBox()
    assert (box.xmin, box.ymin, box.zmin) == pytest.approx((0, 0, 0), abs=1e-6)
    assert (box.xlen, box.ylen, box.zlen) == pytest.approx((WIDTH, HEIGHT, THICKNESS), abs=1e-6)
    rims = [(e.arcCenter().x, e.arcCenter().y) for e in plate.faces(">Z").edges("%CIRCLE").vals()]
    assert set(CLAMP_HOLES.values()) <= set(rims)


def test_a_script_goes_on_from_the_plate() -> None:
    """A counterbore of 9 mm, 1 mm deep, round one clamp hole takes away pi/4 (9^2 - d^2) x 1."""
    plate = workplane(LAYOUT)
    at = CLAMP_HOLES["A1"]
    on_top = plate.faces(">Z").workplane(origin=(0, 0, THICKNESS))
    bored = on_top.pushPoints([at]).cboreHole(CLAMP_HOLE_D, 9.0, 1.0)
    taken = plate.val().Volume() - bored.val().Volume()
    assert taken == pytest.approx(math.pi / 4 * (81 - CLAMP_HOLE_D**2), rel=1e-6)


def test_assembly_has_every_body_with_its_colour_where_it_sits() -> None:
    whole, bodies = cq_assembly(LAYOUT), {body.name: body for body in assembly(LAYOUT)}
    assert [child.name for child in whole.children] == list(bodies)
    for child in whole.children:
        body = bodies[child.name]
        assert child.color == cq.Color(body.colour)
        here, there = child.obj.moved(child.loc).Center(), body.placed().Center()
        assert (here - there).Length < 1e-9


def test_bolts_of_the_assembly_stand_over_their_holes_in_the_world() -> None:
    whole = cq_assembly(LAYOUT)
    for label, at in CLAMP_HOLES.items():
        bolt = whole[f"bolt {label}"]
        (u, v, n), _ = bolt.loc.toTuple()
        foot = cq.Vector(*to_world((*at, 0.0)))
        along = (cq.Vector(u, v, n) - foot).cross(cq.Vector(*LAYOUT.frame.n))
        assert along.Length < 1e-6
