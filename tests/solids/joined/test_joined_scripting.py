"""What a CadQuery script gets of bushings and of joined layouts."""

from __future__ import annotations

import math

import cadquery as cq
import pytest
from solids.hand_layout import hand_layout
from solids.joined.hand_component import hand_component
from solids.joined.pairs import stand_off

from clampwright.layout.bushing_parts import bushing_volume_mm3
from clampwright.layout.joined import Joined
from clampwright.solids.joined_assembly import joined_assembly
from clampwright.solids.scripting import bushing_workplanes, cq_assembly

LAYOUTS: dict[str, Joined] = {
    "component": hand_component(),
    "pair": stand_off("skew"),
    "plate": hand_layout(),
}


@pytest.mark.parametrize("name", LAYOUTS)
def test_every_bushing_by_its_mark_standing_on_the_plane(name: str) -> None:
    made = {part.mark: part for part in LAYOUTS[name].bushings}
    given = bushing_workplanes(LAYOUTS[name])
    assert list(given) == list(made)
    assert made
    for mark, part in made.items():
        solid = given[mark].val()
        box = solid.BoundingBox()
        assert (box.zmin, box.zmax) == pytest.approx((0.0, part.length_mm), abs=1e-6)
        wanted = bushing_volume_mm3(part.length_mm, part.od_mm, part.id_mm, part.chamfer_mm)
        assert solid.Volume() == pytest.approx(wanted, rel=1e-9)


def test_a_script_goes_on_from_a_bushing() -> None:
    """A cross hole of 2 mm is drilled through both walls: less material, two more openings."""
    bushing = bushing_workplanes(LAYOUTS["component"])["S2"]
    middle = bushing.faces("<Z").workplane(offset=-7.0).transformed(rotate=(90, 0, 0))
    drilled = middle.circle(1.0).extrude(30.0, both=True, combine="cut")
    wall = (11.1125 - 5.0165) / 2
    taken = bushing.val().Volume() - drilled.val().Volume()
    assert taken == pytest.approx(2 * math.pi * wall, rel=0.05)


@pytest.mark.parametrize("name", LAYOUTS)
def test_assembly_has_every_body_with_its_colour_where_it_sits(name: str) -> None:
    whole = cq_assembly(LAYOUTS[name])
    bodies = {body.name: body for body in joined_assembly(LAYOUTS[name])}
    assert [child.name for child in whole.children] == list(bodies)
    for child in whole.children:
        body = bodies[child.name]
        assert child.color == cq.Color(body.colour)
        assert (child.obj.moved(child.loc).Center() - body.placed().Center()).Length < 1e-9
