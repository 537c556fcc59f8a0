"""Where nothing fits: each remedy, followed, makes it fit; and the plate's recipe reads and lays out."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import pytest
from joined_recipes import HIGH, LOW, bushing_recipe
from layout.mounting.mounting_cases import FREE, REACH, component_recipe, lugs_at

from clampwright.layout.bushing_placed import BushingLayout, Remedy
from clampwright.layout.lay_out import lay_out as lay_out_plate
from clampwright.layout.mounting.lay_out import lay_out_bushings
from clampwright.recipe.bushing_model import BushingJob, ClampsOn, Lug, Pose
from clampwright.recipe.model import Measured, PlateJob, Recipe
from clampwright.recipe.read import read_text
from clampwright.structure.tubes import Structure, Tube

LEVEL = replace(HIGH, start=(0.0, 150.0, 0.0), end=(500.0, 150.0, 0.0))
MIDDLE = Tube("middle", (0.0, 75.0, 0.0), (500.0, 75.0, 0.0), 19.05)
NOT_MEASURED = ClampsOn(("low", "high"), None, Measured(), None, ())
ABOUT = Pose((250.0, 75.0, 30.0), None, (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), None, False, 4.0)


def three(wide: float) -> tuple[Lug, ...]:
    """Two lugs 60 mm apart and one opposite, so far across."""
    return lugs_at((-30.0, -wide / 2), (30.0, -wide / 2), (0.0, wide / 2))


def the(what: str, layout: BushingLayout) -> Remedy:
    """The one remedy of a kind."""
    (found,) = [remedy for remedy in layout.remedies if remedy.what == what]
    return found


def with_job(recipe: Recipe, **more: object) -> Recipe:
    """The recipe with parts of its job replaced."""
    return replace(recipe, job=replace(recipe.asked(BushingJob), **more))


def test_nothing_is_offered_where_it_fits() -> None:
    assert lay_out_bushings(bushing_recipe()).remedies == ()


def test_the_next_size_of_clamp() -> None:
    """A dash more reaches 1/32 in farther: 2 x 0.79375 mm on both tubes make up for 1.588 mm."""
    recipe = component_recipe([LOW, LEVEL], three(150 - 2 * REACH - 1.5875), pose=ABOUT, clamps=NOT_MEASURED)
    layout = lay_out_bushings(recipe)
    assert not layout.answer.fits
    says = the("clamp size", layout).says
    changed = re.findall(r"MS21919W[A-Z]+(\d+) on (\w+)", says)
    own = tuple((name, Measured(), int(dash)) for dash, name in changed)
    assert own == (("low", Measured(), 13), ("high", Measured(), 13))
    fixed = lay_out_bushings(with_job(recipe, clamps=replace(NOT_MEASURED, own=own)))
    assert fixed.answer.fits


def test_larger_holes() -> None:
    recipe = component_recipe([LOW, LEVEL], three(150 - 2 * REACH - 1.6), pose=ABOUT)
    layout = lay_out_bushings(recipe)
    says = the("larger hole", layout).says
    assert "holes 1, 2 and 3 to" in says
    size = float(re.search(r"to (\d+\.\d+) mm \(from 5\.20 mm\)", says)[1])
    component = recipe.asked(BushingJob).component
    assert not lay_out_bushings(
        with_job(recipe, component=replace(component, hole_mm=size - 0.2))
    ).answer.fits
    assert lay_out_bushings(with_job(recipe, component=replace(component, hole_mm=size))).answer.fits


def test_no_larger_hole_than_a_lug_should_have() -> None:
    layout = lay_out_bushings(component_recipe([LOW, LEVEL], three(150 - 2 * REACH - 8.0), pose=ABOUT))
    assert "larger hole" not in [remedy.what for remedy in layout.remedies]


@pytest.mark.parametrize("short", [1.6, 4.0, 8.0])
def test_a_slot_takes_what_is_left_over(short: float) -> None:
    """The two others take what they forgive, 0.352 mm; the bolt then comes short - 0.352 from the third."""
    layout = lay_out_bushings(component_recipe([LOW, LEVEL], three(150 - 2 * REACH - short), pose=ABOUT))
    says = the("slot", layout).says
    width, length = map(float, re.search(r"slot (\d+\.\d+) mm x (\d+\.\d+) mm", says).groups())
    allowed = layout.answer.allowed_mm
    assert width == 5.2
    assert length == pytest.approx(5.2 + short - 2 * allowed, abs=0.2)
    assert length >= 5.2 + short - 2 * allowed - 1e-6
    assert "make hole 3 a slot" in says
    assert "along [0.00, 1.00]" in says


def test_another_tube_of_the_structure() -> None:
    """From the low tube's +y side to the middle tube's far side are 75 mm."""
    lugs = lugs_at((-30.0, -37.5), (30.0, -37.5), (0.0, 37.5))
    pose = replace(ABOUT, at=(250.0, 57.0, 30.0), within_mm=20.0)
    recipe = component_recipe([LOW, LEVEL, MIDDLE], lugs, on=("low", "high"), pose=pose)
    layout = lay_out_bushings(recipe)
    assert not layout.answer.fits
    assert "name middle in clamps.on as well" in the("other tubes", layout).says
    clamps = replace(recipe.asked(BushingJob).clamps, on=("low", "high", "middle"))
    assert lay_out_bushings(with_job(recipe, clamps=clamps)).answer.fits


def test_another_place() -> None:
    recipe = component_recipe(
        [LOW, LEVEL], three(150 - 2 * REACH), pose=replace(ABOUT, at=(250.0, 300.0, 0.0))
    )
    layout = lay_out_bushings(recipe)
    assert any("from the place asked for" in says for says in layout.answer.breaks)
    assert layout.answer.off_mm == pytest.approx(225.0)
    assert "moved by 225.00 mm in its plane" in the("another place", layout).says


def test_a_greater_stand_off_where_the_body_would_be_in_a_tube() -> None:
    recipe = bushing_recipe()
    component = replace(recipe.asked(BushingJob).component, body=(60.0, 160.0, 50.0), body_base_mm=-10.0)
    recipe = with_job(recipe, component=component)
    layout = lay_out_bushings(recipe)
    assert any("the body of separator would be in" in says for says in layout.answer.breaks)
    needed = float(re.search(r"stand_off as (\d+\.\d+) mm", the("stand-off", layout).says)[1])
    pose = replace(recipe.asked(BushingJob).pose, stand_off_mm=needed)
    assert lay_out_bushings(with_job(recipe, pose=pose)).answer.fits


@pytest.mark.parametrize("units", ["mm", "in"])
def test_the_plates_recipe_reads_and_lays_out(units: str) -> None:
    own = (("high", Measured(20.0, 13.0, 3.0), None),)
    clamps = ClampsOn(("low", "high"), None, Measured(), None, own)
    odd = Tube("upper left", (0.0, 300.0, 0.0), (500.0, 300.0, 0.0), 19.05)
    lugs = (Lug((-30.0, -58.0), 3.0, 0.0), Lug((30.0, -58.0), 4.0, 0.0), Lug((0.0, 58.0), 3.0, 2.0))
    recipe = replace(component_recipe([LOW, LEVEL], lugs, pose=ABOUT, clamps=clamps), units=units)
    recipe = replace(recipe, structure=Structure((LOW, LEVEL, odd)), name="x" * 60)
    component = replace(recipe.asked(BushingJob).component, body=(80.0, 100.0, 50.0), body_base_mm=-5.0)
    layout = lay_out_bushings(with_job(recipe, component=component))
    assert layout.remedies[-1].what == "plate"
    plate = read_text(layout.remedies[-1].plate_recipe)
    job = plate.asked(PlateJob)
    assert plate.name == "x" * 54 + "-plate"
    assert plate.zone == recipe.zone
    assert job.clamps.on == ("low", "high")
    assert {at.tube: at.measured.reach_mm for at in job.clamps.at} == {
        "low": None,
        "high": pytest.approx(20.0),
    }
    assert job.carries[0].lug_mm == pytest.approx(4.0, abs=1e-4)
    assert job.carries[0].mass_kg == pytest.approx(0.5, rel=1e-6)
    for (x, y), lug in zip(job.carries[0].holes, lugs, strict=True):
        assert math.dist((x, y), lug.at) < 1e-4
    for one, other in zip(plate.structure.tubes, recipe.structure.tubes, strict=True):
        assert one.name == other.name
        assert math.dist(one.start, other.start) < 1e-4
    made = lay_out_plate(plate)
    assert made.frame.n == pytest.approx(layout.frame.n, abs=1e-6)
    assert {clamp.tube for clamp in made.clamps} == {"low", "high"}


def test_one_tube_alone_offers_no_plate() -> None:
    layout = lay_out_bushings(
        component_recipe([LOW], lugs_at((-30.0, 0.0), (30.0, 8.0), (0.0, 30.0)), pose=FREE)
    )
    assert not layout.answer.fits
    assert "plate" not in [remedy.what for remedy in layout.remedies]
