"""A component on bushings, measured on its exported assembly by gmsh, which did not write it."""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
from solids.joined.hand_component import (
    BODY,
    CLAMP,
    GAPS,
    HOLE_D,
    HOLES,
    LUG,
    ORIGIN,
    hand_component,
    in_world,
)
from solids.joined.read_back import Read, Vector, distances, off_line, read_back

from clampwright.files.solid_files import assembly_file
from clampwright.solids.joined_assembly import joined_assembly

NEAR = 1e-6
HIGH_TUBE, LOW_TUBE = (150.0, 8.0), (0.0, 0.0)
"""y and z of the tubes' axes, which run along x."""
RADIUS = 19.05 / 2


@cache
def exported() -> bytes:
    """The assembly as STEP."""
    return assembly_file("by-hand", "the bushings", joined_assembly(hand_component()), "pass").data


@pytest.fixture(scope="module")
def read(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Read]:
    return read_back(exported(), tmp_path_factory.mktemp("component"))


def rims(read: Read, diameter: float, at: tuple[float, float, float]) -> list[float]:
    """Heights of its circles of a diameter over a place of the component's plan."""
    line: tuple[Vector, Vector] = (np.array(at), np.array([0.0, 0.0, 1.0]))
    return sorted(float(c[2]) for c in read.centres(diameter) if off_line(c, line) < NEAR)


@pytest.mark.parametrize("label", HOLES)
def test_hole_bolt_and_foot_share_one_axis(label: str, read: dict[str, Read]) -> None:
    """The pattern is the tubes' own, so no misfit is left: the axes are the same to the last digit."""
    at = in_world(HOLES[label][1])
    assert len(rims(read["component separator"], HOLE_D, at)) == 2
    assert len(rims(read[f"clamp {label} band"], CLAMP.foot_hole_mm, at)) == 2
    assert len(rims(read[f"bolt {label}"], 4.826, at)) >= 1


@pytest.mark.parametrize("label", HOLES)
def test_bushing_lies_on_the_foot_and_carries_the_lug(label: str, read: dict[str, Read]) -> None:
    at = in_world(HOLES[label][1])
    part = next(p for p in hand_component().bushings if label in [fill.where for fill in p.fills])
    low, high = rims(read[f"bushing {label}"], part.od_mm - 2 * part.chamfer_mm, at)
    foot = rims(read[f"clamp {label} band"], CLAMP.foot_hole_mm, at)
    lug = rims(read["component separator"], HOLE_D, at)
    assert low == pytest.approx(foot[-1], abs=NEAR)
    assert high == pytest.approx(lug[0], abs=NEAR)
    assert high - low == pytest.approx(GAPS[label], abs=NEAR)
    assert lug == pytest.approx([ORIGIN[2], ORIGIN[2] + LUG], abs=NEAR)


@pytest.mark.parametrize("label", HOLES)
def test_feet_are_squeezed_to_their_thickness_between_bushing_and_nut(
    label: str, read: dict[str, Read]
) -> None:
    at = in_world(HOLES[label][1])
    below, above = rims(read[f"clamp {label} band"], CLAMP.foot_hole_mm, at)
    assert above - below == pytest.approx(CLAMP.feet_mm, abs=NEAR)
    tube_z = {"A": 0.0, "B": 8.0}[label[0]]
    assert above == pytest.approx(tube_z + CLAMP.seat_mm, abs=NEAR)


def test_minimum_clearance_of_component_and_tubes(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Closed form: the box's lower long edges at y = 75 -+ 65 are nearest to each axis; less the radius."""
    bodies = joined_assembly(hand_component())
    tubes = [next(b.name for b in bodies if b.name.startswith(f"tube {n}")) for n in ("high", "low")]
    pairs = [("component separator", tube) for tube in tubes]
    found = distances(exported(), pairs, tmp_path_factory.mktemp("component"))
    edges = (ORIGIN[1] + BODY[1] / 2, ORIGIN[1] - BODY[1] / 2)
    wanted = [
        math.hypot(axis[0] - edge, ORIGIN[2] - axis[1]) - RADIUS
        for axis, edge in zip((HIGH_TUBE, LOW_TUBE), edges, strict=True)
    ]
    assert found == pytest.approx(wanted, abs=NEAR)
