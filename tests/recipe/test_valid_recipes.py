"""Right recipes, and the typed values they give."""

from __future__ import annotations

import math
from pathlib import Path

import pytest
from recipe.recipe_files import EXAMPLES, HERE, VALID

from clampwright.recipe.bushing_model import BushingJob
from clampwright.recipe.model import Measured, PlateJob
from clampwright.recipe.read import read, read_text
from clampwright.recipe.stand_off_model import StandOffJob

FOLDER = HERE / "valid"
JOBS = {"accessory plate": PlateJob, "component bushings": BushingJob, "stand-off": StandOffJob}
LEAST = FOLDER / "two-tubes-and-a-component.toml"


@pytest.mark.parametrize("path", VALID + EXAMPLES, ids=lambda path: path.stem)
def test_it_reads(path: Path) -> None:
    recipe = read(path)
    assert recipe.path == path
    assert len(recipe.digest) == 16
    assert isinstance(recipe.job, JOBS[recipe.kind])
    used = (recipe.job.tube,) if recipe.kind == "stand-off" else recipe.job.clamps.on
    assert set(used) <= {*recipe.structure.names, None}


def test_there_are_recipes_of_every_kind() -> None:
    for paths in (VALID, EXAMPLES):
        assert {read(path).kind for path in paths} == set(JOBS)


def test_every_key_arrives_in_the_projects_units() -> None:
    """By hand: 394 K - 273.15 = 120.85 degC; 1 lb 6.4 oz = 1.4 lb = 0.635029318 kg; 2 ft = 609.6 mm."""
    recipe = read(FOLDER / "every-key.toml")
    job, plate, (coil,) = recipe.job, recipe.job.plate, recipe.job.carries
    assert (recipe.name, recipe.about, recipe.units) == ("Every_key-1", "Zündspule – upper left", "in")
    assert recipe.zone.temperature_c == pytest.approx(120.85)
    assert not recipe.zone.ahead_of_firewall
    assert recipe.zone.fluids == ("oil", "fuel", "coolant", "water", "hydraulic")
    assert (recipe.measuring.error_mm, recipe.measuring.given) == (0.79375, True)
    assert (job.fastener.bolt, job.fastener.nut) == ("AN4", "MS21042")
    assert (job.fastener.nut_height_mm, job.fastener.hole_mm) == (5.08, 6.35)
    assert job.clamps.on == ("middle-left", "upper-left")
    assert (job.clamps.code, job.clamps.dash, job.clamps.side) == ("CJ", 12, "outboard")
    assert (plate.material, plate.outline) == ("2024-T3", "rounded hull")
    assert (plate.thickness_mm, plate.margin_mm, plate.corner_radius_mm) == (2.032, 12.7, 0.0)
    assert (plate.toward, plate.stand_off_mm, plate.round_to_mm) == ((0.0, -2.0, 0.5), 6.35, 0.0)
    assert plate.sheet_mm == (609.6, 609.6)
    assert [(hole.at, hole.diameter_mm) for hole in plate.lightening] == [((12.7, -12.7), 25.4), (None, None)]
    assert coil.mass_kg == pytest.approx(0.635029318)
    assert (coil.at, coil.lug_mm, coil.cg_height_mm) == ((6.35, 0.0), 3.175, pytest.approx(27.94))
    assert coil.turn_rad == pytest.approx(math.pi / 2)
    assert coil.holes == ((-38.1, -25.4), (38.1, -25.4), (38.1, 25.4), (-38.1, 25.4))
    assert coil.body == pytest.approx((101.6, 76.2, 55.88))
    assert recipe.template.papers == ("a4",)
    assert recipe.template.prints == ((99.2, 99.4), (100.0, 100.0))
    assert recipe.assumed == ()


def test_number_ten_is_a_drill_for_a_hole_and_a_screw_for_a_bolt() -> None:
    """Drill #9 is 0.196 in (4.9784 mm); a #10 screw would be 0.190 in."""
    (coil,) = read(FOLDER / "every-key.toml").job.carries
    assert coil.fastener == "#10"
    assert coil.hole_mm == pytest.approx(0.196 * 25.4)


def test_a_clamp_takes_from_its_block_first_and_then_from_all_clamps() -> None:
    upper, middle = read(FOLDER / "every-key.toml").job.clamps.at
    assert (upper.tube, upper.station_mm, upper.side, upper.dash) == ("upper-left", 152.4, "outboard", 12)
    assert upper.measured == Measured(pytest.approx(20.574), pytest.approx(13.462), 3.2)
    assert (middle.tube, middle.station_mm, middle.side, middle.dash) == ("middle-left", None, "inboard", 10)
    assert middle.measured == Measured(None, None, 3.175)
    text = (FOLDER / "every-key.toml").read_text(encoding="utf-8").split("\n")
    assert [text[clamp.line - 1] for clamp in (upper, middle)] == ["[[clamps.at]]"] * 2
    assert middle.line > upper.line


def test_what_was_left_out_is_reported_with_value_reason_and_status() -> None:
    assumed = dict(read(LEAST).assumed)
    assert set(assumed) == {
        "units",
        "zone.temperature",
        "zone.ahead_of_firewall",
        "zone.fluids",
        "measuring.error",
        "fastener.bolt",
        "clamps.on",
        "clamps.each",
        "clamps.side",
        "plate.material",
        "plate.thickness",
        "plate.outline",
        "plate.round_to",
        "carries[1].bolt",
    }
    assert assumed["measuring.error"] == "1.50 mm (usual for a mount measured by hand; practice)"
    assert assumed["clamps.on"] == "left, right (every tube of the structure; assumed)"
    statuses = ("practice)", "assumed)")
    assert all(says.endswith(statuses) for says in assumed.values())


def test_what_is_left_to_later_stages_is_none() -> None:
    job = read(LEAST).job
    assert (job.fastener.nut, job.fastener.hole_mm, job.clamps.code, job.clamps.dash) == (None,) * 4
    assert (job.plate.margin_mm, job.plate.corner_radius_mm, job.plate.toward, job.plate.sheet_mm) == (
        None,
    ) * 4
    assert (job.carries[0].at, job.carries[0].body, job.carries[0].lug_mm) == (None,) * 3
    assert job.clamps.at == ()
    assert job.plate.stand_off_mm == 0


def test_the_zone_is_cooler_behind_the_firewall() -> None:
    text = LEAST.read_text(encoding="utf-8")
    ahead = read_text(text).zone.temperature_c
    behind = read_text(text + "[zone]\nahead_of_firewall = false\n").zone.temperature_c
    assert behind < ahead


def test_increments_follow_the_units() -> None:
    assert read(LEAST).job.plate.round_to_mm == 0.5
    assert read(FOLDER / "same-in-inches.toml").job.plate.round_to_mm == 25.4 / 64


def test_a_clockwise_polygon_is_turned_round_from_its_first_corner() -> None:
    points = read(FOLDER / "polygon-clockwise.toml").job.plate.points
    assert points == ((-90, -80), (60, -80), (90, 40), (90, 80), (-90, 80))


def test_the_example_mount_is_welded_in_three_dimensions() -> None:
    """Six or more tubes of both usual sizes that meet in nodes, as the examples promise."""
    from clampwright.structure.nodes import nodes

    structure = read(HERE.parents[1] / "recipes" / "coil-plate.toml").structure
    assert len(structure.tubes) >= 6
    assert {round(tube.od_mm / 25.4, 4) for tube in structure.tubes} == {0.75, 0.625}
    welds = [node for node in nodes(structure) if "met by" in node.reason or "here" in node.reason]
    assert len(welds) >= 8
    assert all(any(abs(t.direction[axis]) < 0.999 for t in structure.tubes) for axis in range(3))


def test_the_example_plates_tubes_are_skew() -> None:
    """The tubes run 4 to 6 inches apart, turn by 2 to 15 degrees, and pass without meeting."""
    import numpy as np

    recipe = read(HERE.parents[1] / "recipes" / "coil-plate.toml")
    one, other = (recipe.structure.tube(name) for name in recipe.job.clamps.on)
    normal = np.cross(one.direction, other.direction)
    angle = math.degrees(math.asin(float(np.linalg.norm(normal))))
    apart = abs(float(np.subtract(other.start, one.start) @ normal / np.linalg.norm(normal)))
    assert 2 < angle < 15
    assert apart > 5
    middle = one.point(one.length_mm / 2)
    assert 4 * 25.4 < math.dist(middle, other.point(other.station(middle))) < 6 * 25.4
