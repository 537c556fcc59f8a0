"""A drawing that says another number than its solid has is found out, whichever number it is."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import cadquery as cq
import pytest
from files.shop_examples import EXAMPLES, example
from solids.hand_layout import hand_layout

from clampwright.files.agree import disagreements
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import Bend, FlatPart, TurnedGroup
from clampwright.layout.shop.turned import turned
from clampwright.sheets.drawing import Dimension, Page, Sheet
from clampwright.solids.bushing import bushing_shape
from clampwright.solids.place import Place
from clampwright.solids.plate import plate, plate_volume_mm3
from clampwright.solids.shapes import cut, moved, polygon, ring

LAYOUT = hand_layout()
MASS = plate_volume_mm3(LAYOUT) * LAYOUT.material.density_kg_m3 * 1e-9
(PART,) = flat_parts(replace(LAYOUT, plate_mass_kg=MASS))
SOLID = plate(LAYOUT)
GROUP = next(iter(turned([example("coil-plate")[0]])))


def solid_of(group: TurnedGroup) -> Any:
    return bushing_shape(group.length_mm, group.od_mm, group.bore_mm, group.chamfer_mm)


@pytest.mark.parametrize("name", EXAMPLES)
def test_every_example_agrees(name: str) -> None:
    layout, _ = example(name)
    for part in flat_parts(layout):
        assert disagreements(part, plate(layout)) == ()
    for group in turned([layout]):
        assert disagreements(group, solid_of(group)) == ()


def without_last_hole(part: FlatPart) -> FlatPart:
    return replace(part, holes=part.holes[:-1])


def one_hole(**change: Any) -> Callable[[FlatPart], FlatPart]:
    def changed(part: FlatPart) -> FlatPart:
        return replace(part, holes=(replace(part.holes[0], **change), *part.holes[1:]))

    return changed


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (
            lambda part: replace(part, thickness_mm=2.29),
            "thickness: 2.290000 mm is told, the solid has 2.286",
        ),
        (lambda part: replace(part, mass_kg=part.mass_kg * 1.0001), "mass: "),
        (lambda part: replace(part, material=replace(part.material, density_kg_m3=2800.0)), "mass: "),
        (lambda part: replace(part, outline=part.outline.moved((0.1, 0.0))), "left edge: 0.100000 mm"),
        (without_last_hole, "the solid has a hole of 16 mm at (75, 83"),
        (one_hole(diameter_mm=4.9), "hole A1: the solid has none of 4.9 mm at (15, 20)"),
        (one_hole(at=(15.0, 20.001)), "hole A1: the solid has none of 4.8514 mm at (15, 20.001)"),
    ],
)
def test_a_flat_part_told_otherwise(change: Callable[[FlatPart], FlatPart], says: str) -> None:
    assert disagreements(PART, SOLID) == ()
    assert any(says in each for each in disagreements(change(PART), SOLID))


def test_an_outline_of_other_length_and_area() -> None:
    corners = [(0.0, 0.0), (150.0, 0.0), (150.0, 101.0), (0.0, 101.0)]
    found = "; ".join(disagreements(replace(PART, outline=polygon(corners)), SOLID))
    assert "length along y: 101.000000 mm is told, the solid has 100.000000 mm" in found
    assert "volume: " in found
    assert "length along x" not in found


def test_a_hole_that_does_not_go_through_and_a_second_body() -> None:
    deep = cut(SOLID, [moved(ring(3.0, 0.0, 1.0), Place((60.0, 30.0, 1.5)))])
    found = "; ".join(disagreements(PART, deep))
    assert "1 holes of the solid do not go through" in found
    assert "that is not told" in found
    two = cq.Compound.makeCompound([SOLID, moved(ring(3.0, 0.0, 1.0), Place((0.0, 0.0, 50.0)))])
    assert "the solid is 2 bodies, not one" in disagreements(PART, two)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"length_mm": 6.4}, "length: 6.400000 mm is told, the solid has 6.350000 mm"),
        ({"od_mm": 11.0}, "outside diameter along x: 11.000000 mm is told"),
        ({"bore_mm": 5.0}, "bore: 5.000000 mm is told, the solid has 5.016500 mm"),
        ({"chamfer_mm": 0.2}, "length of the bore between its chamfers: "),
        ({"mass_each_kg": 0.002}, "mass before chamfering: 0.002 kg is told"),
        ({"material": "304 stainless"}, "mass before chamfering: "),
    ],
)
def test_a_bushing_told_otherwise(change: dict[str, Any], says: str) -> None:
    assert any(says in each for each in disagreements(replace(GROUP, **change), solid_of(GROUP)))


def test_a_bushing_bored_off_its_axis_or_not_through() -> None:
    off = cut(
        ring(GROUP.od_mm, 0.0, GROUP.length_mm),
        [moved(ring(GROUP.bore_mm, 0.0, 99.0), Place((1.0, 0.0, -9.0)))],
    )
    assert "bore and outside of the solid are not on one axis" in disagreements(GROUP, off)
    solid = ring(GROUP.od_mm, 0.0, GROUP.length_mm)
    assert any("0 bores" in each for each in disagreements(GROUP, solid))


def dimension(
    kind: Any, value: float, text: str, length: float | None = None, scale: float = 2.0
) -> Dimension:
    """A dimension on points that far apart; a circle's from its centre."""
    on_page = (value if length is None else length) * scale
    if kind == "angle":
        points = ((0.0, 0.0), (10.0, 0.0), (10 * math.cos(value), 10 * math.sin(value)))
    elif kind == "aligned":
        points = ((0.0, 0.0), (0.6 * on_page, 0.8 * on_page))
    elif kind == "vertical":
        points = ((0.0, 5.0), (3.0, 5.0 + on_page))
    else:
        points = ((0.0, 0.0), (on_page / 2 if kind == "diameter" else on_page, 0.0))
    return Dimension(kind, points, value, text, scale, ())


GOOD = [
    dimension("horizontal", 150.0, "150"),
    dimension("vertical", 100.0, "3.937 [100]"),
    dimension("horizontal", 15.0, "15.0 ±0.2"),
    dimension("vertical", 2.286, "0.090 [2.29]"),
    dimension("aligned", math.hypot(120.0, 0.0), "120"),
    dimension("diameter", 4.8514, "4x Ø4.85 +0.15 0"),
    dimension("radius", 6.0, "4x R6"),
    dimension("angle", math.pi / 2, "90°"),
]
BAD = [
    (dimension("horizontal", 151.0, "151"), "the solid has no such horizontal size as 151.000000"),
    (dimension("horizontal", 150.0, "151"), "its value is 150.000000"),
    (dimension("horizontal", 150.0, "5.906 [151]"), "its value is 150.000000"),
    (dimension("horizontal", 150.0, "150", 149.0), "its points are not 150.000000 apart at its scale"),
    (dimension("vertical", 100.0, "100", 100.01), "its points are not"),
    (dimension("aligned", 33.3, "33.3"), "the solid has no such aligned size"),
    (dimension("diameter", 4.86, "Ø4.86"), "the solid has no such diameter size"),
    (dimension("diameter", 4.8514, "5x Ø4.85"), "the solid has no such diameter size"),
    (dimension("radius", 6.0, "5x R6"), "the solid has no such radius size"),
    (dimension("angle", 1.0, "57.3°"), "the solid has no such angle size"),
    (replace(dimension("angle", math.pi / 2, "90°"), value=1.5), "its points are not 1.500000 apart"),
]


@pytest.mark.parametrize("good", GOOD, ids=lambda each: each.text)
def test_a_dimension_that_the_solid_has(good: Dimension) -> None:
    assert disagreements(PART, SOLID, [good]) == ()


@pytest.mark.parametrize(("bad", "says"), BAD)
def test_a_dimension_that_differs(bad: Dimension, says: str) -> None:
    assert any(says in each for each in disagreements(PART, SOLID, [bad]))
    sheet = Sheet("s", "s", (Page("p", 1.0, 1.0, (), dimensions=(bad,)),), False)
    assert disagreements(sheet, SOLID) == disagreements(PART, SOLID, [bad])


def angle_bracket(t: float, r: float, low: float, high: float, width: float) -> Any:
    """A strip bent through 90 degrees by hand: two flanges, a quarter of a ring, a hole in each flange."""
    flange = cq.Workplane("XY").box(low, width, t, centered=False)
    bend = (
        cq.Workplane("XZ", origin=(low, width, r + t))
        .moveTo(0, -r)
        .lineTo(0, -r - t)
        .threePointArc(((r + t) * math.sqrt(0.5), -(r + t) * math.sqrt(0.5)), (r + t, 0))
        .lineTo(r, 0)
        .threePointArc((r * math.sqrt(0.5), -r * math.sqrt(0.5)), (0, -r))
        .close()
        .extrude(width)
    )
    up = cq.Workplane("XY", origin=(low + r, 0, r + t)).box(t, width, high, centered=False)
    holes = cq.Workplane("XY", origin=(10, 10, -1)).circle(2.5).extrude(t + 2)
    side = cq.Workplane("YZ", origin=(low + r - 1, 10, r + t + 10)).circle(2.0).extrude(t + 2)
    return flange.union(bend).union(up).cut(holes).cut(side).val()


def bent_part(t: float, r: float, low: float, high: float, width: float, k: float) -> FlatPart:
    """The same as it is told flat: allowance = angle (r + k t), where k = 1/2 would be the middle."""
    allowance = math.pi / 2 * (r + k * t)
    length = low + allowance + high
    outline = polygon([(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)])
    holes = (
        replace(PART.holes[0], label="X1", at=(10.0, 10.0), diameter_mm=5.0),
        replace(PART.holes[0], label="X2", at=(low + allowance + 10.0, 10.0), diameter_mm=4.0),
    )
    middle = low + allowance / 2
    bend = Bend("B1", (middle, 0.0), (middle, width), math.pi / 2, "up", r, allowance)
    volume = t * width * (low + high + math.pi / 2 * (r + t / 2)) - t * math.pi * (2.5**2 + 2.0**2)
    mass = volume * PART.material.density_kg_m3 * 1e-9
    return replace(PART, outline=outline, holes=holes, bends=(bend,), thickness_mm=t, mass_kg=mass)


def test_a_bent_part_is_held_to_its_sheet_holes_bends_and_unfolded_volume() -> None:
    sizes = (1.6, 3.2, 30.0, 25.0, 20.0)
    part, solid = bent_part(*sizes, k=0.44), angle_bracket(*sizes)
    assert disagreements(part, solid) == ()
    (bend,) = part.bends
    for change, says in (
        ({"thickness_mm": 1.65}, "thickness at hole X1"),
        (
            {"bends": (replace(bend, inside_radius_mm=4.0),)},
            "bend B1: the solid has none of inside radius 4 mm",
        ),
        ({"bends": (replace(bend, angle_rad=1.0),)}, "volume: "),
        ({"bends": (replace(bend, allowance_mm=bend.allowance_mm / 2),)}, "volume: "),
        ({"holes": part.holes[:1]}, "the solid has a hole of 4 mm"),
        ({"mass_kg": part.mass_kg * 1.01}, "mass: "),
    ):
        assert any(says in each for each in disagreements(replace(part, **change), solid)), says
