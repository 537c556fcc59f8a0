"""Right "component bushings" recipes, and the typed values they give."""

from __future__ import annotations

import math
import re

import pytest
from recipe.recipe_files import HERE

from clampwright.recipe.bushing_model import BushingJob, BushingStock, Lug
from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.model import Fastener, Measured
from clampwright.recipe.read import read, read_text

FOLDER = HERE / "valid"
LEAST = (FOLDER / "bushings-least.toml").read_text(encoding="utf-8")


def job(name: str) -> BushingJob:
    """The job of a recipe in the folder."""
    return read(FOLDER / f"bushings-{name}.toml").asked(BushingJob)


def least(more: str) -> BushingJob:
    """The job of the shortest recipe with more at its end."""
    return read_text(LEAST + more).asked(BushingJob)


def test_every_key_arrives_in_the_projects_units() -> None:
    """By hand: 1 lb 3.2 oz = 1.2 lb = 0.544310844 kg; drill F is 0.257 in (6.5278 mm)."""
    asked = job("every-key")
    component = asked.component
    assert asked.fastener == Fastener("AN4", "MS21044", 7.62, None)
    assert component.name == "air-oil separator"
    assert component.mass_kg == pytest.approx(0.544310844)
    assert component.lugs == (
        Lug((-38.1, -50.8), 3.175, 0.0),
        Lug((38.1, -50.8), 3.175, 0.0),
        Lug((0.0, 50.8), 5.0, pytest.approx(-5.08)),
    )
    assert component.hole_mm == pytest.approx(6.5278)
    assert component.body == pytest.approx((86.36, 106.68, 76.2))
    assert (component.body_base_mm, component.cg) == (-6.35, (2.54, 0.0, 31.75))
    assert component.rides_on == "engine"
    assert asked.bushings == BushingStock("304 stainless", "rod", 12.7, 2.0, 914.4)
    assert asked.show == 0


def test_directions_are_unit_and_along_is_squared_to_up() -> None:
    """up = [0, -2, 0]; along = [4, 3, 0]: what of it is square to up is x."""
    pose = job("every-key").pose
    assert pose.up == (0.0, -1.0, 0.0)
    assert pose.along == (1.0, 0.0, 0.0)
    assert pose.fixed
    assert pose.at == (228.6, -200.0, 101.6)
    slanted = least("[pose]\nup = [1, 1, 1]\nalong = [1, 0, 0]\n").pose
    assert slanted.along == pytest.approx((math.sqrt(2 / 3), -1 / math.sqrt(6), -1 / math.sqrt(6)))
    alone = least("[pose]\nalong = [0, 3, 4]\n").pose
    assert (alone.up, alone.along) == (None, (0.0, 0.6, 0.8))


def test_a_clamp_of_one_tube_is_kept_apart() -> None:
    clamps = job("every-key").clamps
    assert (clamps.on, clamps.code, clamps.dash) == (("middle-left", "upper-left"), "CJ", 12)
    assert clamps.measured == Measured(None, None, 3.2)
    assert clamps.own == (
        ("upper-left", Measured(pytest.approx(20.574), pytest.approx(13.462), None), None),
        ("middle-left", Measured(None, None, 3.175), 10),
    )


def test_a_rough_place() -> None:
    pose = job("rough-place").pose
    assert (pose.within_mm, pose.turn_within_rad) == (50.8, pytest.approx(math.pi / 4))
    assert (pose.at, pose.up, pose.along, pose.fixed) == ((250, 70, 30), None, (0, 0, -1), False)
    assert [lug.thickness_mm for lug in job("rough-place").component.lugs] == [3.175] * 3


def test_what_is_left_out_is_none_or_assumed() -> None:
    recipe = read(FOLDER / "bushings-least.toml")
    asked = recipe.asked(BushingJob)
    pose, clamps, stock = asked.pose, asked.clamps, asked.bushings
    assert (pose.at, pose.within_mm, pose.up, pose.along, pose.turn_within_rad) == (None,) * 5
    assert (pose.fixed, pose.stand_off_mm) == (False, 0.0)
    assert [(lug.thickness_mm, lug.near_face_mm) for lug in asked.component.lugs] == [(None, 0.0)] * 3
    assert (asked.component.hole_mm, asked.component.body, asked.component.cg) == (None,) * 3
    assert clamps.on == ("left", "right")
    assert (clamps.code, clamps.dash, clamps.own) == (None, None, ())
    assert (stock.material, stock.make, stock.od_mm) == (None,) * 3
    assert (stock.kerf_mm, stock.stock_length_mm) == pytest.approx((25.4 / 16, 12 * 25.4))
    assert asked.show == 3
    assumed = dict(recipe.assumed)
    assert assumed["clamps.on"] == "left, right (every tube of the structure; assumed)"
    assert {"component.rides_on", "fastener.bolt", "bushings.kerf", "bushings.stock_length"} <= set(assumed)
    assert all(says.endswith(("assumed)", "practice)")) for says in assumed.values())


@pytest.mark.parametrize("count", [2, 3, 6])
def test_two_to_six_holes(count: int) -> None:
    holes = ", ".join(f"[{30 * i}, 0]" for i in range(count))
    text = LEAST.replace("[[-40, -55], [40, -55], [0, 55]]", f"[{holes}]")
    assert len(read_text(text).asked(BushingJob).component.lugs) == count


@pytest.mark.parametrize(
    ("hole", "fits"), [('"#12"', False), ('"0.189 in"', True), ('"#11"', True), (4.8, False), (5, True)]
)
def test_the_bolt_goes_through_the_hole(hole: object, fits: bool) -> None:
    """AN3's largest shank is 0.189 in (4.8006 mm) by its sheet; drill #12 is 0.189 in, #11 0.191 in."""
    text = LEAST + f"hole = {hole}\n"
    if fits or hole == '"#12"':
        assert read_text(text).asked(BushingJob).component.hole_mm >= 4.8006 - 1e-9
        return
    with pytest.raises(RecipeFaults, match="a hole that AN3 goes through"):
        read_text(text)


def test_a_size_given_for_all_holds_for_tubes_that_have_none_of_their_own() -> None:
    """Tubes of 20 and 15 mm take clamps of two sizes: one reach for both is a fault, one for each is not."""
    two = LEAST.replace("end = [500, 140, 10], od = 20", "end = [500, 140, 10], od = 15")
    apart = "[clamps]\nreach = 20\n[clamps.tubes.right]\nreach = 17\n"
    assert read_text(two + apart).asked(BushingJob).clamps.measured.reach_mm == 20
    with pytest.raises(RecipeFaults, match=r"clamps\.reach: expected a reach measured on each size"):
        read_text(two + "[clamps]\nreach = 20\n")


def test_the_same_in_inches() -> None:
    """Bare numbers follow the units: with every one of them over 25.4 the recipe asks for the same."""
    metric = read_text(LEAST)
    text = re.sub(r"(?<=[\[ ])-?\d+(?=[,\] ])", lambda number: f"{float(number[0]) / 25.4!r}", LEAST)
    inch = read_text(text.replace("kind =", 'units = "in"\nkind =', 1))
    assert text.count(".") > 12
    assert [tube.end for tube in inch.structure.tubes] == [
        pytest.approx(tube.end) for tube in metric.structure.tubes
    ]
    assert [lug.at for lug in inch.asked(BushingJob).component.lugs] == [
        pytest.approx(lug.at) for lug in metric.asked(BushingJob).component.lugs
    ]
