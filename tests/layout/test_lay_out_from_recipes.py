"""Layouts of recipe texts: inches against millimetres, defaults stated, holes by the trade's drills."""

from __future__ import annotations

from dataclasses import fields

import pytest
from layout.plate_recipes import PARALLEL, component, plate, recipe

from clampwright.layout.lay_out import lay_out
from clampwright.layout.placed import PlateLayout
from clampwright.recipe.model import Fastener
from clampwright.recipe.read import read_text

TEXT = """
kind = "accessory plate"
name = "relay-plate"
units = "{unit}"

[structure.tubes.lower]
start = [0, 0, 0]
end = [{x}, 0, 0]
od = {od}
[structure.tubes.upper]
start = [0, {y}, {z}]
end = [{x}, {y2}, {z}]
od = {od}

[clamps]
reach = {reach}
seat = {seat}
feet = {feet}

[plate]
thickness = {t}
toward = [0, 0, 1]
round_to = 0
stand_off = {stand_off}

[[carries]]
name = "relay"
mass = "0.5 lb"
holes = [[-{a}, 0], [{a}, 0]]
body = [{length}, {width}, {height}]
"""
INCHES = {
    "x": 20, "y": 5.5, "y2": 6.75, "z": 0.8, "od": 0.75, "reach": 0.78, "seat": 0.5, "feet": 0.1, "t": 0.09,
    "stand_off": 0.25, "a": 0.9, "length": 2.5, "width": 1.75, "height": 1.5,
}  # fmt: skip


def text(unit: str) -> str:
    """The same recipe with bare numbers in inches or in millimetres."""
    scale = 1.0 if unit == "in" else 25.4
    return TEXT.format(unit=unit, **{key: repr(value * scale) for key, value in INCHES.items()})


def places(layout: PlateLayout) -> list[float]:
    numbers = [x for hole in layout.holes for x in (*hole.at, hole.diameter_mm)]
    numbers += [x for c in layout.clamps for x in (c.station_mm, c.gap_mm)]
    return [*numbers, *layout.outline.box(), layout.outline.area_mm2(), layout.total_mass_kg]


def test_a_recipe_in_inches_and_the_same_in_millimetres_give_one_layout() -> None:
    inch, metric = lay_out(read_text(text("in"))), lay_out(read_text(text("mm")))
    assert places(metric) == pytest.approx(places(inch), abs=1e-6)
    assert [h.label for h in metric.holes] == [h.label for h in inch.holes]
    assert [h.drill for h in metric.holes] == [h.drill for h in inch.holes]


def test_every_field_of_the_layout_is_filled() -> None:
    layout = lay_out(read_text(text("in")))
    for field in fields(layout):
        assert getattr(layout, field.name) not in (None, ()), field.name
    assert {fit.hole for fit in layout.fit_up.holes} == {h.label for h in layout.holes}
    assert {shim.clamp for shim in layout.fit_up.shims} <= {c.label for c in layout.clamps}
    assert sum(line.quantity for line in layout.hardware if "clamp" in line.what) == 4


def test_what_was_left_out_is_stated_once() -> None:
    asked = recipe(
        PARALLEL, carries=(component(holes=((0.0, 0.0),)),), sheet=plate(toward=None, margin_mm=None)
    )
    layout = lay_out(asked)
    keys = [key for key, _ in layout.assumed]
    assert len(keys) == len(set(keys))
    assert {"plate.toward", "plate.margin", "clamps.at.station", "fastener.hole", "carries[1].hole"} <= set(
        keys
    )
    assert all(why for _, why in layout.assumed)


def test_holes_carry_the_drill_and_pilot_of_their_bolt() -> None:
    """AN3: #11 (0.191 in) is in the published window 0.191 to 0.197; TM 1-1520-240-BD 2-6."""
    layout = lay_out(recipe(PARALLEL, carries=(component(holes=((0.0, 0.0),)),)))
    by_label = {h.label: h for h in layout.holes}
    assert (by_label["A1"].drill, by_label["A1"].diameter_mm) == ("#11", pytest.approx(0.191 * 25.4))
    assert (by_label["A1"].purpose, by_label["A1"].owner, by_label["A1"].fastener) == ("clamp", "A1", "AN3")
    assert (by_label["C1"].purpose, by_label["C1"].owner) == ("component", "coil pack")
    assert by_label["A1"].pilot


def test_a_hole_that_no_drill_makes_is_not_called_by_a_drills_name() -> None:
    asked = recipe(PARALLEL)
    odd = Fastener("AN3", "MS21042", None, 4.93)
    job = type(asked.job)(odd, asked.job.clamps, asked.job.plate, asked.job.carries)
    layout = lay_out(type(asked)(**{f.name: getattr(asked, f.name) for f in fields(asked)} | {"job": job}))
    assert {h.drill for h in layout.holes} == {"step drill"}
    assert {h.diameter_mm for h in layout.holes} == {4.93}


def test_a_polygon_is_kept_as_given_and_holes_count_from_its_corner() -> None:
    """Points count from the middle of the clamp holes; the datum is the polygon's own lower left corner."""
    points = ((-130.3, -90.0), (130.0, -90.0), (130.0, 80.0), (-130.3, 80.0))
    sheet = plate(outline="polygon", points=points, corner_radius_mm=6.0, round_to_mm=0.5)
    layout = lay_out(recipe(PARALLEL, sheet=sheet))
    assert layout.outline.box() == pytest.approx((0.0, 0.0, 260.3, 170.0), abs=1e-9)
    by_label = {c.label: c for c in layout.clamps}
    assert by_label["A1"].at_exact == pytest.approx((130.3 - 75.0, 90.0 - 55.0), abs=1e-6)
    assert by_label["A1"].at == pytest.approx((55.5, 35.0), abs=1e-6)
    assert layout.outline.least_outside_radius() == pytest.approx(6.0)
