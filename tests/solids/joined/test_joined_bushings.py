"""Bushings as solids: closed form of a chamfered ring, and what the bore is."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from files.gmsh_reader import solids_in_step
from hypothesis import given, settings
from hypothesis import strategies as st
from solids.joined.hand_component import hand_component
from solids.joined.pairs import stand_off

from clampwright.files.step import step_part
from clampwright.layout.bushing_parts import BushingPart, bushing_volume_mm3, chamfer_made
from clampwright.solids.bushing import bushing_body, bushing_shape, made_for
from clampwright.solids.joined_assembly import joined_assembly
from clampwright.solids.measure import box_mm, cylinders, volume_mm3

PARTS = (*hand_component().bushings, *stand_off("skew").bushings, *stand_off("panel").bushings)


def pappus(part: BushingPart) -> float:
    """Guldin-Pappus: the cut-off corners are triangles c x c / 2 whose centroids lie c/3 from their legs."""
    outer, inner, c = part.od_mm / 2, part.id_mm / 2, part.chamfer_mm
    corners = 2 * math.pi * ((outer - c / 3) + (inner + c / 3)) * c**2 / 2
    return math.pi * (outer**2 - inner**2) * part.length_mm - 2 * corners


@pytest.mark.parametrize("part", PARTS, ids=lambda p: f"{p.mark} {p.length_mm:.1f}")
def test_volume_of_the_exported_bushing_is_the_closed_form(part: BushingPart, tmp_path: Path) -> None:
    """Read from the STEP file by gmsh's kernel, within 1e-6."""
    path = tmp_path / "bushing.step"
    path.write_bytes(step_part(bushing_body(part), path.name, "bushing"))
    (found,) = solids_in_step(path)
    assert found["volume"] == pytest.approx(pappus(part), rel=1e-6)
    assert found["cylinders"] == 2
    assert found["faces"] == 8


CHAMFERS = st.just(0.0) | st.floats(0.01, 0.35)
"""None, or one that can be made: the kernel takes edges below 1e-7 mm for points."""


@given(st.floats(2.0, 150.0), st.floats(5.0, 20.0), st.floats(1.2, 6.0), CHAMFERS)
@settings(max_examples=40, deadline=None)
def test_closed_form_holds_for_any_size(length: float, bore: float, wall: float, chamfer: float) -> None:
    shape = bushing_shape(length, bore + 2 * wall, bore, chamfer)
    assert shape.isValid()
    wanted = bushing_volume_mm3(length, bore + 2 * wall, bore, chamfer)
    assert volume_mm3(shape) == pytest.approx(wanted, rel=1e-9)


def test_bore_is_one_true_cylinder_from_chamfer_to_chamfer() -> None:
    part = PARTS[0]
    (bore,) = (c for c in cylinders(bushing_body(part).shape) if c.hollow)
    assert bore.diameter_mm == pytest.approx(part.id_mm, rel=1e-12)
    (x0, y0, z0), (x1, y1, z1) = box_mm(bushing_body(part).shape)
    assert (z0, z1) == pytest.approx((0.0, part.length_mm), abs=1e-6)
    assert (x1 - x0, y1 - y0) == pytest.approx((part.od_mm, part.od_mm), abs=1e-6)


def test_a_thin_wall_keeps_a_third_of_itself_flat() -> None:
    """Chamfers of 0.3 on a wall of 0.6 would leave an edge; they are made 0.2."""
    part = replace(PARTS[0], id_mm=PARTS[0].od_mm - 1.2)
    assert chamfer_made(part) == pytest.approx(0.2)
    assert bushing_body(part).shape.isValid()


def test_the_assembly_holds_each_bushing_as_it_is_made() -> None:
    """As often as the parts list has it, of the same volume, under its mark as product."""
    layout = hand_component()
    made = {part.mark: part for part in layout.bushings}
    placed = [body for body in joined_assembly(layout) if body.role == "bushing"]
    for mark, part in made.items():
        mine = [body for body in placed if body.product.startswith(f"bushing {mark},")]
        assert len(mine) == part.quantity
        assert {body.name for body in mine} == {f"bushing {fill.where}" for fill in part.fills}
        assert all(volume_mm3(body.shape) == pytest.approx(pappus(part), rel=1e-9) for body in mine)
    assert len(placed) == sum(part.quantity for part in made.values())
    assert [body.name for body in map(bushing_body, layout.bushings)] == [f"bushing {mark}" for mark in made]


def test_a_layer_without_a_part_finds_none() -> None:
    layout = hand_component()
    item = next(i for i in layout.clamps[0].stack.items if i.name == "bushing")
    assert made_for(layout.bushings, frozenset({"A1"}), item) == layout.bushings[1]
    assert made_for(layout.bushings, frozenset({"B1"}), item) is None
    assert made_for((), frozenset({"A1"}), item) is None
